//! `visit`: a later day against the accepted first run.

use std::path::Path;

use serde_json::{Value, json};
use startup::call_back::{Change, Day as When, Logged, Symptom, change, comparable, rank};
use startup::caution::Step;
use startup::first_run::Readings;

use super::Day;
use super::record::Book;
use super::run::readings;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{heading, wrapped};

fn when(r: &Readings) -> When {
    When {
        heating: r.heating,
        outdoor_c: r.outdoor_c,
        test_mode: r.test_mode,
    }
}

/// Supply less return by its size, so that less is down in cooling too.
fn difference(r: &Readings) -> (f64, f64) {
    (
        (r.supply_c.0 - r.return_c.0).abs(),
        libm::hypot(r.supply_c.1, r.return_c.1),
    )
}

/// `visit`.
pub fn answer(day: &Day, record: Option<&Path>) -> Result<Report, Refusal> {
    let from = (day.file.visit.as_ref())
        .ok_or_else(|| day.missing("visit", "a table [visit] with the readings of the visit"))?;
    let path = record.ok_or_else(|| {
        Fault::flag("--record", "the baseline is in the record")
            .mend("--record FILE, with a run kept by --accept")
    })?;
    let (now, _) = readings(day, "visit", from)?;
    let mut book = Book::open(path, day.now()?, &day.file.who)?;
    let bases: Vec<(u64, Value)> = book
        .standing("baseline")
        .iter()
        .map(|r| (r.n, r.says.clone()))
        .collect();
    let mut text = heading("Call-back");
    text.push_str(&day.cautions(Step::Visit)?);
    let mut why = vec!["There is no accepted baseline in the record.".to_owned()];
    let mut seen: Vec<(Symptom, Change)> = Vec::new();
    for (n, says) in &bases {
        let Some(base) = says
            .get("readings")
            .and_then(|r| serde_json::from_value::<Readings>(r.clone()).ok())
        else {
            continue;
        };
        if let Err(e) = comparable(when(&base), when(&now)) {
            why.push(format!("Record {n}: {e}"));
            continue;
        }
        text.push_str(&format!("Compared with record {n}.\n"));
        why.clear();
        seen.push((
            Symptom::Difference,
            change(difference(&base), difference(&now), 0.2),
        ));
        let pair = |a: Option<(f64, f64)>, b: Option<(f64, f64)>| a.zip(b);
        if let Some((a, b)) = pair(base.power_w, now.power_w) {
            seen.push((Symptom::Power, change(a, b, 0.1)));
        }
        if let Some((a, b)) = pair(base.flow_m3_per_s, now.flow_m3_per_s) {
            seen.push((Symptom::Flow, change(a, b, 0.15)));
        }
        let before = |key: &str| says.get(key).and_then(Value::as_f64);
        if let (Some(a), Some(b)) = (before("defrosts"), from.defrosts) {
            seen.push((Symptom::Defrosts, change((a, 2.0), (b, 2.0), 0.5)));
        }
        if let (Some(a), Some(b)) = (before("backup_hours"), from.backup_hours) {
            seen.push((Symptom::Backup, change((a, 1.0), (b, 1.0), 0.5)));
        }
        break;
    }
    if bases.len() + 1 == why.len() && !bases.is_empty() {
        why.remove(0);
    }
    // water on the floor needs no baseline
    if let Some(water) = from.water {
        seen.push((
            Symptom::Water,
            if water { Change::Up } else { Change::Same },
        ));
    }
    let mut log: Vec<Logged> = book
        .standing("call-back")
        .iter()
        .filter_map(|r| serde_json::from_value(r.says.clone()).ok())
        .collect();
    let new: Vec<Logged> = day
        .file
        .call_back
        .iter()
        .map(|l| Logged {
            cause: l.cause,
            hours: l.hours,
            cost: l.cost,
        })
        .collect();
    log.extend(new);
    let a = rank(&seen, &log);
    for w in &why {
        text.push_str(&wrapped("  ", w));
    }
    text.push_str(&wrapped("", &format!("{}. {}", a.verdict.words(), a.says)));
    for c in a.causes.iter().take(4) {
        let hours = c
            .usual_hours
            .map_or(String::new(), |h| format!(", usually {h:.1} h of ours"));
        text.push_str(&wrapped(
            "  ",
            &format!(
                "{:.0} % {}{hours}: {}",
                100.0 * c.weight,
                c.cause.words(),
                c.evidence.join("; ")
            ),
        ));
    }
    text.push_str(&wrapped("", &format!("Next: {}", a.next)));
    let json = json!({ "readings": now, "seen": seen, "answer": a });
    let at = day.now()?;
    let n = book.add(at, &day.file.who, "visit", json.clone(), None)?;
    text.push_str(&format!(
        "kept as record {n}; last hash {}\n",
        book.last_hash()
    ));
    Ok(Report {
        text,
        json,
        svg: None,
        code: 0,
    })
}
