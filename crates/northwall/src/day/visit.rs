//! `visit`: a later day against the accepted first run, and the firm's log of call-backs.

use std::path::Path;

use reckon::Verdict;
use serde_json::{Value, json};
use startup::call_back::{Change, Day as When, Logged, Symptom, change, comparable, rank};
use startup::caution::Step;
use startup::first_run::{Read, Readings};

use super::Day;
use super::asked::Visit;
use super::page::{item, para};
use super::record::{Book, keep, told};
use super::run::{readings, value};
use super::sheet::RunIn;
use super::view::{CauseView, ComparedView, NORTHWALL, VisitView};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading};

fn when(r: &Readings) -> When {
    When {
        heating: r.heating,
        outdoor_c: r.outdoor_c,
        test_mode: r.test_mode,
    }
}

/// Supply less return by its size, so that less is down in cooling too.
fn difference(r: &Readings) -> Read {
    (
        (r.supply_c.0 - r.return_c.0).abs(),
        libm::hypot(r.supply_c.1, r.return_c.1),
    )
}

/// A baseline of the record.
struct Base {
    n: u64,
    says: Value,
    readings: Readings,
}

fn bases(book: &Book) -> Vec<Base> {
    book.standing("baseline")
        .iter()
        .filter_map(|r| {
            let readings = serde_json::from_value(r.says.get("readings")?.clone()).ok()?;
            Some(Base {
                n: r.n,
                says: r.says.clone(),
                readings,
            })
        })
        .collect()
}

/// The newest baseline that can be compared with today, and why others were not.
fn chosen(all: Vec<Base>, now: &Readings, head: Option<&str>) -> (Option<Base>, Vec<String>) {
    let mut why = Vec::new();
    if all.is_empty() {
        why.push("There is no accepted baseline in the record.".to_owned());
    }
    for base in all.into_iter().rev() {
        let other = base.says.get("head").and_then(Value::as_str);
        if other != head {
            why.push(format!(
                "Record {} is of {}.",
                base.n,
                other.map_or("no head by name".to_owned(), |h| format!("the head {h}"))
            ));
            continue;
        }
        match comparable(when(&base.readings), when(now)) {
            Ok(()) => return (Some(base), Vec::new()),
            Err(e) => why.push(format!("Record {}: {e}", base.n)),
        }
    }
    (None, why)
}

fn word(c: Change) -> &'static str {
    match c {
        Change::Down => "down",
        Change::Same => "as before",
        Change::Up => "up",
    }
}

/// Symptoms with what they rest on.
struct Seen {
    symptoms: Vec<(Symptom, Change)>,
    rows: Vec<(ComparedView, f64)>,
}

impl Seen {
    fn add(&mut self, symptom: Symptom, unit: &'static str, then: Read, now: Read, share: f64) {
        let change = change(then, now, share);
        self.symptoms.push((symptom, change));
        let row = ComparedView {
            what: symptom.words(),
            then: Some(then.0),
            now: Some(now.0),
            unit,
            change: word(change),
        };
        self.rows.push((row, now.1));
    }
}

fn compared(base: Option<&Base>, now: &Readings, from: &RunIn) -> Seen {
    let mut seen = Seen {
        symptoms: Vec::new(),
        rows: Vec::new(),
    };
    if let Some(base) = base {
        let then = &base.readings;
        // trade card F27 counts a fifth of the difference; power and flow are known better
        seen.add(
            Symptom::Difference,
            "K",
            difference(then),
            difference(now),
            0.2,
        );
        if let Some((a, b)) = then.power_w.zip(now.power_w) {
            seen.add(Symptom::Power, "W", a, b, 0.1);
        }
        if let Some((a, b)) = then.flow_m3_per_s.zip(now.flow_m3_per_s) {
            seen.add(Symptom::Flow, "m3/s", a, b, 0.15);
        }
        let before = |key: &str| base.says.get(key).and_then(Value::as_f64);
        if let (Some(a), Some(b)) = (before("defrosts"), from.defrosts) {
            seen.add(Symptom::Defrosts, "a day", (a, 2.0), (b, 2.0), 0.5);
        }
        if let (Some(a), Some(b)) = (before("backup_hours"), from.backup_hours) {
            seen.add(Symptom::Backup, "h", (a, 1.0), (b, 1.0), 0.5);
        }
    }
    // water on the floor needs no baseline
    if let Some(water) = from.water {
        let change = if water { Change::Up } else { Change::Same };
        seen.symptoms.push((Symptom::Water, change));
        let row = ComparedView {
            what: Symptom::Water.words(),
            then: None,
            now: None,
            unit: "",
            change: if water { "yes" } else { "no" },
        };
        seen.rows.push((row, 0.0));
    }
    seen
}

fn row_words(row: &ComparedView, within: f64, say: Say) -> String {
    let show = |x: f64| match row.unit {
        "m3/s" => say.of(x, units::Dim::VolumeFlow),
        unit => value(row.what, unit, x, within, say),
    };
    match (row.then, row.now) {
        (Some(a), Some(b)) => {
            format!(
                "{}: {} then, {} now: {}",
                row.what,
                show(a),
                show(b),
                row.change
            )
        }
        _ => format!("{}: {}", row.what, row.change),
    }
}

/// The firm's log; with a new entry it is added first.
fn log(day: &Day, ask: &Visit, path: Option<&Path>) -> Result<Vec<Logged>, Refusal> {
    let Some(path) = path else {
        return Ok(Vec::new());
    };
    let at = day.now()?;
    let mut book = Book::open(path, at, &day.file.who)?;
    if let (Some(cause), Some(hours), Some(cost)) = (ask.found, ask.hours, ask.cost) {
        for (flag, x) in [("--hours", hours), ("--cost", cost)] {
            if !(0.0..=1e6).contains(&x) {
                return Err(Fault::flag(flag, "this cannot be")
                    .got(x.to_string())
                    .allowed("0 or more")
                    .into());
            }
        }
        let entry = Logged { cause, hours, cost };
        book.add(at, &day.file.who, "call-back", json!(entry), None)?;
    }
    Ok(book
        .standing("call-back")
        .iter()
        .filter_map(|r| serde_json::from_value(r.says.clone()).ok())
        .collect())
}

/// `visit`.
pub fn answer(day: &Day, ask: &Visit, si: bool) -> Result<Report, Refusal> {
    let say = Say::new(si);
    let from = (day.file.visit.as_ref())
        .ok_or_else(|| day.missing("visit", "a table [visit] with the readings of the visit"))?;
    let path = ask.day.record.as_ref().ok_or_else(|| {
        Fault::flag("--record", "the baseline is in the record")
            .mend("--record FILE, with a run kept by --accept")
    })?;
    let (now, _) = readings(day, "visit", from)?;
    let head = from.head.as_ref().map(|h| h.get_ref().as_str());
    let all = bases(&Book::open(path, day.now()?, &day.file.who)?);
    let (base, why_not) = chosen(all, &now, head);
    let seen = compared(base.as_ref(), &now, from);
    let log = log(day, ask, ask.firm.as_deref())?;
    let a = rank(&seen.symptoms, &log);
    let mut text = heading("Call-back");
    text.push_str(&day.cautions(Step::Visit)?);
    for why in &why_not {
        text.push_str(&item("- ", why));
    }
    if let Some(base) = &base {
        text.push_str(&para(&format!(
            "Against record {}, the accepted first run:",
            base.n
        )));
    }
    for (row, within) in &seen.rows {
        text.push_str(&item("  ", &row_words(row, *within, say)));
    }
    let stands = match a.verdict {
        Verdict::Holds => "As on the first day.",
        Verdict::Fails => "Not as on the first day.",
        Verdict::CannotTell => "Cannot tell.",
    };
    text.push_str(&para(&format!("{stands} {}", a.says)));
    let mut causes = Vec::new();
    for c in &a.causes {
        let of: Vec<&Logged> = log.iter().filter(|l| l.cause == c.cause).collect();
        let usual_cost =
            (!of.is_empty()).then(|| of.iter().map(|l| l.cost).sum::<f64>() / of.len() as f64);
        if c.weight >= 0.02 {
            let usual = c.usual_hours.map_or(String::new(), |h| {
                format!(
                    "; {} of ours, {h:.1} h and {:.0} each",
                    of.len(),
                    usual_cost.unwrap_or(0.0)
                )
            });
            let line = format!("{} {:.0} %{usual}", c.cause.words(), 100.0 * c.weight);
            text.push_str(&item("  ", &line));
            text.push_str(&item("    ", &c.evidence.join("; ")));
        }
        causes.push(CauseView {
            cause: c.cause.words(),
            weight: c.weight,
            evidence: c.evidence.clone(),
            usual_hours: c.usual_hours,
            usual_cost,
        });
    }
    text.push_str(&para(&format!("Next: {}", a.next)));
    if ask.found.is_some() {
        text.push_str(&para(&format!(
            "Call-backs in the firm's log now: {}.",
            log.len()
        )));
    }
    let says = json!({ "head": head, "readings": now, "seen": seen.symptoms, "found": ask.found, "answer": a });
    let kept = keep(day, &ask.day, "visit", says)?;
    text.push_str(&told(kept.as_slice()));
    let fails = a.verdict == Verdict::Fails;
    let mut report = Report::new(
        text,
        &VisitView {
            northwall: NORTHWALL,
            baseline: base.as_ref().map(|b| b.n),
            why_not,
            compared: seen.rows.into_iter().map(|r| r.0).collect(),
            verdict: a.verdict.words(),
            says: a.says,
            causes,
            next: a.next,
            learned_from: log.len(),
            kept,
        },
    );
    report.code = u8::from(fails);
    Ok(report)
}
