//! The gate: what is missing or contradicts, reader by reader, before anything is printed.

mod by_day;

use reckon::{Level, Verdict};
use serde::Serialize;

use crate::desk::Input;
use crate::{Reader, parts, recorded};

/// What stands against a paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Gap {
    /// `missing`, `contradicts` or `standing`.
    pub kind: &'static str,
    /// What.
    pub says: String,
    /// Where in the job file it belongs.
    pub place: String,
    /// What to do.
    pub mend: String,
}

/// Collects gaps.
struct Gate<'a> {
    of: Input<'a>,
    gaps: Vec<Gap>,
}

/// What stands against the paper of this reader; nothing when it may be printed whole.
pub fn gaps(input: &Input<'_>, reader: Reader) -> Vec<Gap> {
    let mut gate = Gate {
        of: *input,
        gaps: Vec::new(),
    };
    gate.standing();
    match reader {
        Reader::Owner => gate.owner(),
        Reader::Inspector => gate.inspector(),
        Reader::Rebate => gate.rebate(),
        Reader::Crew => gate.crew(),
    }
    gate.gaps
}

impl Gate<'_> {
    fn put(&mut self, kind: &'static str, says: String, place: &str, mend: String) {
        let gap = Gap {
            kind,
            says,
            place: place.to_owned(),
            mend,
        };
        if !self.gaps.contains(&gap) {
            self.gaps.push(gap);
        }
    }

    fn missing(&mut self, key: &str, place: &str, values: &[(&str, &str)]) {
        let words = self.of.words();
        let (says, mend) = (
            words.fill(key, values),
            words.fill(&format!("{key}-mend"), values),
        );
        self.put("missing", says, place, mend);
    }

    fn contradicts(&mut self, key: &str, mend: &str, place: &str, values: &[(&str, &str)]) {
        let words = self.of.words();
        self.put(
            "contradicts",
            words.fill(key, values),
            place,
            words.fill(mend, values),
        );
    }

    /// What holds for every reader: stops, waits, serials that contradict.
    fn standing(&mut self) {
        let words = self.of.words();
        let plan = self.of.plan;
        let stops = plan
            .findings
            .iter()
            .filter(|f| f.finding.level == Level::Stop);
        for f in stops {
            let (number, of) = (f.number.to_string(), &f.finding);
            let facts = !of.found.is_empty() && !of.required.is_empty();
            let says = words.fill(
                if facts {
                    "gate.stop-facts"
                } else {
                    "gate.stop"
                },
                &[
                    ("number", &number),
                    ("says", &of.says),
                    ("found", &of.found),
                    ("required", &of.required),
                ],
            );
            self.put("standing", says, &f.finding.place, f.finding.mend.clone());
        }
        for wait in plan.waits() {
            let says = words.fill("gate.plan", &[("what", &wait.what)]);
            self.put("missing", says, &wait.place, wait.how.clone());
        }
        for unit in self.of.units() {
            let Some((first, rest)) = unit.serials.split_first() else {
                continue;
            };
            // A difference of case or of a space is a difference on a form.
            if let Some(other) = rest.iter().find(|s| *s != first) {
                let values = [
                    ("unit", unit.path.as_str()),
                    ("one", first),
                    ("other", other),
                ];
                self.contradicts(
                    "gate.serial-twice",
                    "gate.serial-twice-mend",
                    &unit.path,
                    &values,
                );
            }
        }
        let days = self.of.days();
        for pair in days.windows(2) {
            let [(a, a_day), (b, b_day)] = pair else {
                continue;
            };
            // Days are written year first, so their texts are in their order.
            if a_day > b_day {
                let (a, b) = (
                    words.say(&format!("day.{a}")),
                    words.say(&format!("day.{b}")),
                );
                let values = [
                    ("one", a.as_str()),
                    ("a", a_day),
                    ("other", &b),
                    ("b", b_day),
                ];
                self.contradicts("gate.days-order", "gate.days-order-mend", "days", &values);
            }
        }
        self.recorded_days();
        if self.of.job.equipment.heads.is_empty() {
            self.missing("gate.equipment", "head", &[]);
        }
    }

    fn serials(&mut self) {
        for unit in self.of.units() {
            if unit.serials.is_empty() {
                self.missing("gate.serial", &unit.path, &[("unit", &unit.path)]);
            }
        }
    }

    fn photos(&mut self, panel: bool) {
        let mut wanted: Vec<String> = self.of.units().into_iter().map(|u| u.path).collect();
        if panel {
            wanted.push("panel".to_owned());
        }
        for of in wanted {
            let photos = &self.of.job.photos;
            if !photos
                .iter()
                .any(|p| p.of == of || p.of.starts_with(&format!("{of}.")))
            {
                self.missing("gate.photo", "photo", &[("what", &of), ("of", &of)]);
            }
        }
    }

    /// A kind of record that must be there, and of which the last word on each test must hold.
    fn record(&mut self, key: &str, kind: &str) {
        let last = recorded::last(&self.of, kind);
        let words = self.of.words();
        let unjudged = recorded::unjudged(&self.of, kind);
        if last.is_empty() && unjudged.is_empty() {
            self.missing(key, "records", &[]);
        }
        for u in unjudged {
            let what = words.say(&format!("record.{kind}"));
            let [many, first, end] = [u.many as u64, u.first, u.last].map(|n| n.to_string());
            let values = [
                ("what", what.as_str()),
                ("test", u.test),
                ("many", &many),
                ("first", &first),
                ("last", &end),
                ("kind", kind.trim_end_matches("-verdict")),
            ];
            self.missing("gate.unjudged", "records", &values);
        }
        for r in last {
            let verdict = recorded::verdict(r);
            if verdict != Verdict::Holds {
                let n = r.n.to_string();
                let what = recorded::named(words, r);
                let v = words.say(parts::verdict_key(verdict));
                let values = [("n", n.as_str()), ("what", &what), ("verdict", &v)];
                self.contradicts(
                    "gate.test-fails",
                    "gate.test-fails-mend",
                    "records",
                    &values,
                );
            }
        }
    }

    fn owner(&mut self) {
        let paperwork = &self.of.job.paperwork;
        if paperwork.owner.is_none() {
            self.missing("gate.owner", "owner", &[]);
        }
        if paperwork.firm.as_ref().is_none_or(|f| f.phone.is_none()) {
            self.missing("gate.firm", "firm", &[]);
        }
        let set = |of: &str| paperwork.settings.iter().any(|s| s.of == of);
        if !self.of.job.equipment.heads.iter().all(|h| set(&h.name)) {
            self.missing("gate.settings", "setting", &[]);
        }
        self.serials();
        self.record("gate.baseline", "baseline");
    }

    fn inspector(&mut self) {
        let job = self.of.job;
        let codes = &job.installation.codes;
        if job.paperwork.owner.is_none() {
            self.missing("gate.owner", "owner", &[]);
        }
        if codes.permits.is_empty() {
            self.missing("gate.permits", "codes", &[]);
        }
        for (key, edition) in [
            ("gate.edition-electrical", &codes.electrical),
            ("gate.edition-room-area", &codes.room_area),
        ] {
            if edition.is_none() {
                let which = self.of.words().say(key);
                self.missing("gate.edition", "codes", &[("which", &which)]);
            }
        }
        if codes.install_day.is_none() {
            self.missing("gate.install-day", "codes", &[]);
        }
        self.serials();
        self.record("gate.pressure", "pressure-verdict");
        self.record("gate.vacuum", "vacuum-verdict");
        self.record("gate.joints", "joint");
        self.record("gate.charge", "charge");
        self.photos(true);
    }

    fn rebate(&mut self) {
        let job = self.of.job;
        let paperwork = &job.paperwork;
        if paperwork.owner.is_none() {
            self.missing("gate.owner", "owner", &[]);
        }
        if paperwork.firm.as_ref().is_none_or(|f| f.licence.is_none()) {
            self.missing("gate.licence", "firm", &[]);
        }
        match &paperwork.programme {
            None => self.missing("gate.programme", "programme", &[]),
            Some(p) => {
                if p.number.is_none() {
                    self.missing("gate.number", "programme", &[]);
                }
                for o in &job.equipment.outdoors {
                    if !p.certificates.iter().any(|(of, _)| *of == o.name) {
                        self.missing("gate.certificate", "programme", &[("unit", &o.name)]);
                    }
                }
                if let Some(owner) = &paperwork.owner {
                    self.enrolled("gate.name-differs", &owner.name, p.enrolled_name.as_ref());
                    let enrolled = p.enrolled_address.as_ref();
                    self.enrolled("gate.address-differs", &owner.address, enrolled);
                }
            }
        }
        if self.of.day("approved").is_none() {
            self.missing("gate.approved", "days", &[]);
        }
        if self.of.day("installed").is_none() {
            self.missing("gate.install-day", "codes", &[]);
        }
        if paperwork.costs.is_empty() {
            self.missing("gate.costs", "cost", &[]);
        }
        if crate::rebate::from_bills(&self.of).is_none() {
            self.missing("gate.bills", "bill", &[]);
        }
        self.serials();
        self.record("gate.baseline", "baseline");
        self.photos(true);
    }

    /// Names and addresses as on the form and as enrolled must be the same, letter by letter.
    fn enrolled(&mut self, key: &str, here: &str, there: Option<&String>) {
        if let Some(there) = there.filter(|t| *t != here) {
            let values = [("one", here), ("other", there.as_str())];
            self.contradicts(key, "gate.differs-mend", "programme", &values);
        }
    }

    fn crew(&mut self) {
        let job = self.of.job;
        if job.installation.codes.permits.is_empty() {
            self.missing("gate.permits", "codes", &[]);
        }
        for head in &job.equipment.heads {
            let line = job.installation.lines.iter().find(|l| l.head == head.name);
            let whole = line.is_some_and(|l| {
                !l.pieces.is_empty() && l.pieces.iter().all(|p| p.rise_m.is_some())
            });
            if !whole {
                let place = format!("line.{}", head.name);
                self.missing("gate.line", &place, &[("head", &head.name)]);
            }
        }
    }
}
