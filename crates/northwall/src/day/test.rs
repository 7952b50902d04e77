//! `test pressure` and `test vacuum`: from a logger file, or reading by reading.

use std::path::Path;

use serde_json::{Value, json};
use startup::caution::Step;
use startup::pressure::{PressureReading, expected_wait_s, stages};
use startup::stamp::span;
use startup::vacuum::{VacuumReading, triple};
use startup::{draw, pressure, vacuum};
use units::Dim;

use super::Day;
use super::setup::{log, pressure_test, vacuum_test};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{Say, heading, wrapped};

/// Where readings come from and go to.
pub struct How<'a> {
    /// Logger file.
    pub log: Option<&'a Path>,
    /// File of records.
    pub record: Option<&'a Path>,
    /// Reading by reading.
    pub live: bool,
    /// Which of several tests in one record.
    pub name: &'a str,
}

/// `test pressure`.
pub fn pressure_answer(day: &Day, how: &How<'_>, say: Say) -> Result<Report, Refusal> {
    let now = day.now()?;
    let (mut test, from) = pressure_test(day, now.day())?;
    let tubes: Vec<_> = day.lines()?.into_iter().map(|l| l.0).collect();
    let target = day.value("pressure.target", &from.target, Dim::Pressure)?;
    let steps =
        stages(target, test.plate_pa, &tubes).map_err(|e| day.wrong("pressure.target", &e))?;
    let mut text = heading("Pressure test");
    text.push_str(&day.cautions(Step::Pressure)?);
    if how.log.is_none() && how.record.is_none() {
        let wait = expected_wait_s(&test, target, 15.0, 600.0, 0.0)
            .map_err(|e| day.wrong("pressure", &e))?;
        for s in &steps {
            text.push_str(&wrapped(
                "  ",
                &format!(
                    "{} for {}: {}",
                    say.of(s.gauge_pa, Dim::Pressure),
                    span(s.hold_s),
                    s.says
                ),
            ));
        }
        text.push_str(&wrapped("", &wait.map_or(
            "With these instruments no wait up to 14 days could see the leak worth a call-back.".to_owned(),
            |w| format!("Then {} with a reading every 10 min, to see a leak of {:.0} g a year.", span(w), test.worth_g_per_year),
        )));
        text.push_str("Read with --log FILE, or --live --record FILE.\n");
        return Ok(Report {
            text,
            json: json!({ "stages": steps, "wait_s": wait }),
            ..Report::default()
        });
    }
    let mut notes = Vec::new();
    let readings: Vec<PressureReading> = if let Some(path) = how.log {
        let log = log(day, path, true)?;
        notes = log.notes;
        log.rows
            .iter()
            .map(|r| PressureReading {
                at_s: r.at_s,
                gauge_pa: r.values.first().copied().flatten().unwrap_or(f64::NAN),
                line_c: r.values.get(1).copied().flatten(),
            })
            .collect()
    } else {
        super::guided::readings(day, how, "pressure", &mut notes, |kept| {
            let readings = pressure_of(kept);
            pressure::judge(&test, &readings).map_or_else(
                |e| e.to_string(),
                |a| format!("{}: {} {}", a.verdict.words(), a.says, a.would_tell),
            )
        })?
        .iter()
        .map(pressure_one)
        .collect()
    };
    if let Some(began) = day_of(day, readings.first().map(|r| r.at_s))? {
        test.day = began;
    }
    let a = match pressure::judge(&test, &readings) {
        Ok(a) => a,
        Err(e) if how.record.is_some() => return Ok(not_yet(text, readings.len(), &e)),
        Err(e) => return Err(day.wrong("readings", &e)),
    };
    text.push_str(&wrapped("", &format!("{}. {}", a.verdict.words(), a.says)));
    text.push_str(&wrapped("", &a.would_tell));
    text.push_str(&wrapped(
        "  ",
        &format!(
            "{} readings over {}; {} at {} to {} at {}; without a leak {} (as an ideal gas {}).",
            a.readings,
            span(a.length_s),
            psi(say, a.begin.0),
            say.of(a.begin.1, Dim::Temperature),
            psi(say, a.end.0),
            say.of(a.end.1, Dim::Temperature),
            psi(say, a.end_without_leak_pa.0),
            psi(say, a.end_without_leak_pa.1),
        ),
    ));
    text.push_str(&wrapped("  ", &format!(
        "Volume {:.2} L within {:.0} %; a hole that passes 1 g of nitrogen passes {:.2} (laminar) to {:.2} g (choked) of refrigerant vapour.",
        test.volume.m3 * 1000.0,
        test.volume.share * 100.0,
        a.ratio.laminar,
        a.ratio.choked
    )));
    for note in a.notes.iter().chain(&notes) {
        text.push_str(&wrapped("  ", note));
    }
    finish(
        day,
        how,
        "pressure-verdict",
        text,
        &a,
        Some(draw::pressure(&a)),
        a.verdict == reckon::Verdict::Fails,
    )
}

/// Readings later than this are stamped by a calendar (1989 and on), not counted from their start.
const CALENDAR_S: f64 = 6e8;

/// The day of the first reading, where it is stamped by a calendar.
fn day_of(day: &Day, first_s: Option<f64>) -> Result<Option<i64>, Refusal> {
    let Some(epoch_s) = first_s.filter(|s| *s > CALENDAR_S) else {
        return Ok(None);
    };
    let offset_min = day.offset_min()?;
    Ok(Some(
        startup::Stamp {
            epoch_s,
            offset_min,
        }
        .day(),
    ))
}

/// What was kept stays kept, though it does not make a verdict yet.
fn not_yet(mut text: String, kept: usize, e: &startup::Wrong) -> Report {
    text.push_str(&wrapped("", &format!("cannot tell yet. {e}")));
    text.push_str(&format!("{kept} readings are in the record.\n"));
    Report {
        text,
        json: json!({ "verdict": reckon::Verdict::CannotTell, "says": e.to_string(), "readings": kept }),
        ..Report::default()
    }
}

fn psi(say: Say, pa: f64) -> String {
    if say.system == units::System::Us {
        format!("{:.1} psi", pa / 6894.757293168361)
    } else {
        format!("{:.1} kPa", pa / 1000.0)
    }
}

fn number(says: &Value, key: &str) -> Option<f64> {
    says.get(key).and_then(Value::as_f64)
}

fn pressure_one(says: &Value) -> PressureReading {
    PressureReading {
        at_s: number(says, "at_s").unwrap_or(f64::NAN),
        gauge_pa: number(says, "pa").unwrap_or(f64::NAN),
        line_c: number(says, "line_c"),
    }
}

fn pressure_of(kept: &[Value]) -> Vec<PressureReading> {
    kept.iter().map(pressure_one).collect()
}

fn vacuum_one(says: &Value) -> VacuumReading {
    VacuumReading {
        at_s: number(says, "at_s").unwrap_or(f64::NAN),
        pa: number(says, "pa").unwrap_or(f64::NAN),
    }
}

/// `test vacuum`.
pub fn vacuum_answer(day: &Day, how: &How<'_>) -> Result<Report, Refusal> {
    let now = day.now()?;
    let (mut test, _) = vacuum_test(day, now.day())?;
    let mut text = heading("Vacuum");
    text.push_str(&day.cautions(Step::Vacuum)?);
    if how.log.is_none() && how.record.is_none() {
        let ice = vacuum::ice(test.coldest_c, test.coldest_k, test.criterion.limit_pa)
            .map_err(|e| day.wrong("vacuum", &e))?;
        text.push_str(&wrapped("", &ice.says));
        text.push_str("Triple evacuation, where the sheet asks for it or the hold shows water:\n");
        for step in triple(&test.criterion) {
            text.push_str(&wrapped("  ", &step));
        }
        text.push_str("Read with --log FILE, or --live --record FILE.\n");
        return Ok(Report {
            text,
            json: json!({ "ice": ice }),
            ..Report::default()
        });
    }
    let mut notes = Vec::new();
    let readings: Vec<VacuumReading> = if let Some(path) = how.log {
        let log = log(day, path, false)?;
        notes = log.notes;
        log.rows
            .iter()
            .map(|r| VacuumReading {
                at_s: r.at_s,
                pa: r.values.first().copied().flatten().unwrap_or(f64::NAN),
            })
            .collect()
    } else {
        super::guided::readings(day, how, "vacuum", &mut notes, |kept| {
            let readings: Vec<VacuumReading> = kept.iter().map(vacuum_one).collect();
            vacuum::judge(&test, &readings).map_or_else(
                |e| e.to_string(),
                |a| format!("{}: {} {}", a.verdict.words(), a.says, a.would_tell),
            )
        })?
        .iter()
        .map(vacuum_one)
        .collect()
    };
    if let Some(began) = day_of(day, readings.first().map(|r| r.at_s))? {
        test.day = began;
    }
    let a = match vacuum::judge(&test, &readings) {
        Ok(a) => a,
        Err(e) if how.record.is_some() => return Ok(not_yet(text, readings.len(), &e)),
        Err(e) => return Err(day.wrong("readings", &e)),
    };
    text.push_str(&wrapped("", &format!("{}. {}", a.verdict.words(), a.says)));
    for line in [&a.shape, &a.would_tell] {
        if !line.is_empty() {
            text.push_str(&wrapped("", line));
        }
    }
    text.push_str(&wrapped("  ", &a.ice.says));
    for note in a.notes.iter().chain(&notes) {
        text.push_str(&wrapped("  ", note));
    }
    let svg = draw::vacuum(&a, &test.criterion, &readings);
    finish(
        day,
        how,
        "vacuum-verdict",
        text,
        &a,
        Some(svg),
        a.verdict == reckon::Verdict::Fails,
    )
}

/// Keeps the verdict where a record is kept, and hands the answer back.
fn finish(
    day: &Day,
    how: &How<'_>,
    kind: &str,
    mut text: String,
    answer: &impl serde::Serialize,
    svg: Option<String>,
    fails: bool,
) -> Result<Report, Refusal> {
    let json = serde_json::to_value(answer).unwrap_or(Value::Null);
    if let Some(path) = how.record {
        let at = day.now()?;
        let mut book = super::record::Book::open(path, at, &day.file.who)?;
        let n = book.add(
            at,
            &day.file.who,
            kind,
            json!({ "test": how.name, "answer": json }),
            None,
        )?;
        text.push_str(&format!(
            "kept as record {n}; last hash {}\n",
            book.last_hash()
        ));
    }
    Ok(Report {
        text,
        json,
        svg,
        code: u8::from(fails),
    })
}
