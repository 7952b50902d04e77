//! `run`: the first run against what the unit's data expect of today.

use std::path::Path;

use heatpump::{Head, OutdoorUnit, System};
use serde_json::{Value, json};
use startup::caution::Step;
use startup::first_run::{Readings, RunAnswer, SheetTargets, judge};
use units::Dim;

use super::Day;
use super::record::Book;
use super::sheet::{RunIn, Text};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading, wrapped};

/// Keeps an answer where a record is kept.
pub fn keep(
    day: &Day,
    record: Option<&Path>,
    kind: &str,
    json: &Value,
    text: &mut String,
) -> Result<(), Refusal> {
    if let Some(path) = record {
        let at = day.now()?;
        let mut book = Book::open(path, at, &day.file.who)?;
        let n = book.add(at, &day.file.who, kind, json.clone(), None)?;
        text.push_str(&format!(
            "kept as record {n}; last hash {}\n",
            book.last_hash()
        ));
    }
    Ok(())
}

/// The system, from its sheets.
fn system(day: &Day, folder: &Path) -> Result<System, Refusal> {
    let name = (day.file.outdoor.as_ref()).ok_or_else(|| {
        day.missing(
            "outdoor",
            "outdoor = \"loon-12\" and heads = [\"teal-12\"], files of the catalogue",
        )
    })?;
    let sheet = |name: &str| crate::files::sheet(&folder.join(format!("{name}.toml"))).map(|s| s.0);
    let unfit =
        |e: heatpump::NotASystem| Refusal::from(Fault::flag("outdoor, heads", e.to_string()));
    let outdoor = OutdoorUnit::new(sheet(name)?).map_err(unfit)?;
    let mut heads = Vec::new();
    for head in &day.file.heads {
        heads.push(Head::new(sheet(head)?).map_err(unfit)?);
    }
    System::new(outdoor, heads).map_err(unfit)
}

/// The readings of a table.
pub fn readings(day: &Day, place: &str, r: &RunIn) -> Result<(Readings, SheetTargets), Refusal> {
    let v = |key: &str, t: &Text, dim| day.value(&format!("{place}.{key}"), t, dim);
    let o = |key: &str, t: &Option<Text>, dim| t.as_ref().map(|t| v(key, t, dim)).transpose();
    let heating = match r.mode.get_ref().as_str() {
        "heating" => true,
        "cooling" => false,
        _ => {
            return Err(day
                .fault(&format!("{place}.mode"), &r.mode, "the mode is not known")
                .allowed("heating, cooling")
                .into());
        }
    };
    let within = o(
        "thermometers_within",
        &r.thermometers_within,
        Dim::TemperatureDifference,
    )?
    .unwrap_or(0.6);
    let flow = o("flow", &r.flow, Dim::VolumeFlow)?;
    let flow_share = o("flow_within", &r.flow_within, Dim::Share)?.unwrap_or(0.15);
    let both = |a: Option<f64>, b: Option<f64>| a.zip(b);
    // gauges read above the air; the fluid wants absolute
    let air = day.air_pa()?;
    let absolute = |p: Option<f64>| p.map(|p| p + air);
    Ok((
        Readings {
            heating,
            minutes: r.minutes,
            defrost: r.defrost,
            test_mode: r.test_mode,
            outdoor_c: v("outdoor", &r.outdoor, Dim::Temperature)?,
            return_c: (v("return", &r.back, Dim::Temperature)?, within),
            supply_c: (v("supply", &r.supply, Dim::Temperature)?, within),
            altitude_m: day.altitude_m()?,
            flow_m3_per_s: flow.map(|q| (q, q * flow_share)),
            power_w: o("power", &r.power, Dim::ElectricPower)?.map(|p| (p, 0.03 * p)),
            volts: o("volts", &r.volts, Dim::Voltage)?.map(|x| (x, 0.01 * x)),
            amps: o("amps", &r.amps, Dim::Current)?.map(|x| (x, 0.03 * x)),
            suction: both(
                absolute(o("suction_pressure", &r.suction_pressure, Dim::Pressure)?),
                o("suction_line", &r.suction_line, Dim::Temperature)?,
            ),
            liquid: both(
                absolute(o("liquid_pressure", &r.liquid_pressure, Dim::Pressure)?),
                o("liquid_line", &r.liquid_line, Dim::Temperature)?,
            ),
            drain: both(
                o("drain_water", &r.drain_water, Dim::Volume)?.map(|m3| m3 * 1000.0),
                o("drain_time", &r.drain_time, Dim::Hours)?,
            ),
            sound: both(
                o("sound", &r.sound, Dim::Sound)?,
                o("sound_at", &r.sound_at, Dim::Length)?,
            )
            .map(|(db, m)| (db, m, r.sound_faces.unwrap_or(4.0))),
        },
        SheetTargets {
            superheat_k: r.superheat,
            subcooling_k: r.subcooling,
        },
    ))
}

fn dim(unit: &str) -> Option<Dim> {
    match unit {
        "W" => Some(Dim::Power),
        "K" => Some(Dim::TemperatureDifference),
        "V" => Some(Dim::Voltage),
        "A" => Some(Dim::Current),
        "dB(A)" => Some(Dim::Sound),
        _ => None,
    }
}

/// Checks as lines.
pub fn shown(a: &RunAnswer, say: Say) -> String {
    let mut text = String::new();
    for c in &a.checks {
        let show = |x: f64| match (c.what, dim(c.unit)) {
            ("power", _) => say.of(x, Dim::ElectricPower),
            (_, Some(d)) => say.of(x, d),
            _ => format!("{x:.1} {}", c.unit),
        };
        let mut line = format!("{}: {}. {}", c.what, c.verdict.words(), c.says);
        if let (Some(got), Some(e)) = (c.got, c.expected) {
            let most = if e.1 >= 1e4 && c.unit == "kg/h" {
                " or more".to_owned()
            } else {
                format!(" to {}", show(e.1))
            };
            line.push_str(&format!(
                "; {} within {}, expected {}{most}",
                show(got.0),
                show(got.1),
                show(e.0)
            ));
        }
        text.push_str(&wrapped("  ", &line));
    }
    text.push_str(&wrapped("", &format!("Next: {}", a.next)));
    text
}

/// `run`.
pub fn answer(
    day: &Day,
    folder: &Path,
    record: Option<&Path>,
    accept: bool,
    say: Say,
) -> Result<Report, Refusal> {
    let from = (day.file.run.as_ref()).ok_or_else(|| {
        day.missing(
            "run",
            "a table [run] with mode, minutes, outdoor, return, supply",
        )
    })?;
    let (r, targets) = readings(day, "run", from)?;
    let system = system(day, folder)?;
    let a =
        judge(&system, Some(day.refrigerant()?), &targets, &r).map_err(|e| day.wrong("run", &e))?;
    let mut text = heading("First run");
    text.push_str(&day.cautions(Step::Run)?);
    text.push_str(&format!("{}\n", a.verdict.words()));
    text.push_str(&shown(&a, say));
    let json = json!({ "readings": r, "defrosts": from.defrosts, "backup_hours": from.backup_hours, "water": from.water, "answer": a });
    let kind = if accept { "baseline" } else { "run" };
    if accept && record.is_none() {
        return Err(
            Fault::flag("--accept", "a baseline needs a file to be kept in")
                .mend("--record FILE")
                .into(),
        );
    }
    keep(day, record, kind, &json, &mut text)?;
    Ok(Report {
        text,
        json,
        svg: None,
        code: u8::from(a.verdict == reckon::Verdict::Fails),
    })
}
