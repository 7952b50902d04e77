//! The records of the start-up day against the days of the job, and against each other.

use startup::record::Record;

use super::Gate;
use crate::recorded;

/// The day by the clock on the wall.
fn day(r: &Record) -> &str {
    r.at.get(..10).unwrap_or(&r.at)
}

impl Gate<'_> {
    /// What the days and the order of the records contradict.
    pub(super) fn recorded_days(&mut self) {
        self.clock();
        // the work is not before its day: that the programme approved it, or that it began
        let first = ["begun", "approved"].into_iter();
        let first = first.into_iter().find(|d| self.of.day(d).is_some());
        for kind in recorded::WORK {
            for r in recorded::last(&self.of, kind) {
                if let Some(first) = first {
                    self.not_before(r, first);
                }
                if kind == "baseline" {
                    // the unit does not run before it is there
                    self.not_before(r, "installed");
                    self.not_before(r, "started");
                } else {
                    // nor before its lines are tight, dry and filled
                    self.not_after(r, "started");
                    self.not_after(r, "inspected");
                }
                self.not_after(r, "handed_over");
            }
        }
        self.order();
    }

    fn against(&mut self, r: &Record, name: &str, sentence: &str) {
        let words = self.of.words();
        let (n, what) = (r.n.to_string(), recorded::named(words, r));
        let other = words.say(&format!("day.{name}"));
        let values = [
            ("n", n.as_str()),
            ("what", &what),
            ("day", day(r)),
            ("other", &other),
            ("b", self.of.day(name).unwrap_or("")),
        ];
        self.contradicts(sentence, "gate.record-day-mend", "records", &values);
    }

    // Days are written year first, so their texts are in their order.
    fn not_before(&mut self, r: &Record, name: &str) {
        if self.of.day(name).is_some_and(|d| day(r) < d) {
            self.against(r, name, "gate.record-before");
        }
    }

    fn not_after(&mut self, r: &Record, name: &str) {
        if self.of.day(name).is_some_and(|d| day(r) > d) {
            self.against(r, name, "gate.record-after");
        }
    }

    /// A record is made after the one before it; a clock that went back a day shows.
    fn clock(&mut self) {
        let all: &[Record] = self.of.records.map_or(&[], |c| &c.records);
        for pair in all.windows(2) {
            let [a, b] = pair else { continue };
            if day(b) < day(a) {
                let (n, other) = (b.n.to_string(), a.n.to_string());
                let values = [
                    ("n", n.as_str()),
                    ("day", day(b)),
                    ("other", &other),
                    ("b", day(a)),
                ];
                self.contradicts(
                    "gate.record-clock",
                    "gate.record-clock-mend",
                    "records",
                    &values,
                );
            }
        }
    }

    /// Number of what a record first stood for: a correction does not move it.
    fn first(&self, r: &Record) -> u64 {
        let all: &[Record] = self.of.records.map_or(&[], |c| &c.records);
        let (mut n, mut corrects) = (r.n, r.corrects);
        // a correction names an earlier record, so this ends
        while let Some(old) = corrects {
            n = old;
            corrects = all.iter().find(|r| r.n == old).and_then(|r| r.corrects);
        }
        n
    }

    /// Pressure first, then vacuum, then the charge: of one outdoor unit, and of one test where
    /// the tests have names.
    fn order(&mut self) {
        let of = self.of;
        let all = |kind| recorded::last(&of, kind);
        let (pressure, vacuum, charge) = (
            all("pressure-verdict"),
            all("vacuum-verdict"),
            all("charge"),
        );
        let mut early: Vec<(&Record, &Record)> = Vec::new();
        for p in &pressure {
            let same = vacuum
                .iter()
                .filter(|v| recorded::test_of(v) == recorded::test_of(p));
            early.extend(same.map(|v| (*v, *p)));
        }
        for t in pressure.iter().chain(&vacuum) {
            let same = charge
                .iter()
                .filter(|c| recorded::unit_of(c) == recorded::unit_of(t));
            early.extend(same.map(|c| (*c, *t)));
        }
        let words = self.of.words();
        for (later, before) in early {
            if self.first(later) > self.first(before) {
                continue;
            }
            let (n, other) = (later.n.to_string(), before.n.to_string());
            let (what, before) = (
                recorded::named(words, later),
                recorded::named(words, before),
            );
            let values = [
                ("n", n.as_str()),
                ("what", &what),
                ("other", &other),
                ("before", &before),
            ];
            self.contradicts(
                "gate.record-order",
                "gate.record-order-mend",
                "records",
                &values,
            );
        }
    }
}
