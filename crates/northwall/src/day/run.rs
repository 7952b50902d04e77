//! `run`: the first run against what the unit's data expect of today.

use heatpump::{Head, OutdoorUnit, System};
use serde_json::json;
use startup::caution::Step;
use startup::first_run::{
    Check, Readings, RunAnswer, SheetTargets, judge, sheet_flow, usual_error,
};
use units::Dim;

use super::Day;
use super::asked::Run;
use super::page::{item, para};
use super::record::{keep, told};
use super::sheet::{RunIn, Text};
use super::view::{NORTHWALL, ReadingView, RunView};
use crate::arguments::Usual;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading};

/// The system, from the job or from the sheets that the file names. With `[run] head` only that
/// head runs.
fn system(day: &Day, from: &RunIn, usual: &Usual) -> Result<System, Refusal> {
    if let Some(job) = &day.job {
        if let Some(head) = &from.head {
            if !job.asked.heads.iter().any(|h| &h.0 == head.get_ref()) {
                return Err(day
                    .fault(
                        "run.head",
                        head,
                        "there is no such head on this outdoor unit",
                    )
                    .allowed(job.head_names())
                    .into());
            }
        } else if job.asked.heads.len() > 1 {
            return Err(day.missing(
                "run.head",
                &format!(
                    "head = \"...\", the one that runs; the others off. It is one of {}",
                    job.head_names()
                ),
            ));
        }
        return job.system(from.head.as_ref().map(|h| h.get_ref().as_str()));
    }
    let name = (day.file.outdoor.as_ref()).ok_or_else(|| {
        day.missing(
            "outdoor",
            "job = \"job.toml\"; or outdoor = \"loon-12\" and heads = [\"teal-12\"], files of the catalogue",
        )
    })?;
    let folder = (usual.catalogue.clone())
        .or_else(|| day.catalogue())
        .unwrap_or_else(|| std::path::PathBuf::from("catalogue"));
    let sheet = |name: &Text| {
        crate::files::sheet(&folder.join(format!("{}.toml", name.get_ref()))).map(|s| s.0)
    };
    let unfit =
        |e: heatpump::NotASystem| Refusal::from(Fault::flag("outdoor, heads", e.to_string()));
    let outdoor = OutdoorUnit::new(sheet(name)?).map_err(unfit)?;
    let mut heads = Vec::new();
    for head in &day.file.heads {
        heads.push(Head::new(sheet(head)?).map_err(unfit)?);
    }
    System::new(outdoor, heads).map_err(unfit)
}

/// Targets for the unit's test mode: from its sheet, or as typed where that has none.
fn targets(day: &Day, place: &str, r: &RunIn) -> Result<SheetTargets, Refusal> {
    let sheet = day.job.as_ref().map(|j| &j.asked.unit.start_up);
    let one = |key: &str, typed: Option<(f64, f64)>, known: Option<(f64, f64)>| match (typed, known)
    {
        (Some(_), Some(_)) => Err(day.twice(
            &format!("{place}.{key}"),
            "the unit's sheet says it already",
        )),
        (typed, known) => Ok(known.or(typed)),
    };
    Ok(SheetTargets {
        superheat_k: one("superheat", r.superheat, sheet.and_then(|s| s.superheat_k))?,
        subcooling_k: one(
            "subcooling",
            r.subcooling,
            sheet.and_then(|s| s.subcooling_k),
        )?,
    })
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
    .unwrap_or(usual_error::THERMOMETERS_K);
    let flow = o("flow", &r.flow, Dim::VolumeFlow)?;
    let flow_share = o("flow_within", &r.flow_within, Dim::Share)?.unwrap_or(usual_error::FLOW);
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
            power_w: o("power", &r.power, Dim::ElectricPower)?.map(|p| (p, usual_error::POWER * p)),
            volts: o("volts", &r.volts, Dim::Voltage)?.map(|x| (x, usual_error::VOLTS * x)),
            amps: o("amps", &r.amps, Dim::Current)?.map(|x| (x, usual_error::AMPS * x)),
            suction: both(
                absolute(o("suction_pressure", &r.suction_pressure, Dim::Pressure)?),
                o("suction_line", &r.suction_line, Dim::Temperature)?,
            ),
            liquid: both(
                absolute(o("liquid_pressure", &r.liquid_pressure, Dim::Pressure)?),
                o("liquid_line", &r.liquid_line, Dim::Temperature)?,
            ),
            line_loss_share: day.job.as_ref().and_then(|j| {
                j.asked
                    .cost_share(r.head.as_ref().map(|h| h.get_ref().as_str()))
            }),
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
        targets(day, place, r)?,
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

/// Steps that a reading of each kind deserves: its limit of error says no more.
fn rounded(x: f64, within: f64) -> f64 {
    if !(within > 0.0 && within.is_finite()) {
        return x;
    }
    let step = libm::pow(10.0, libm::floor(libm::log10(within)));
    libm::round(x / step) * step
}

/// A water flow: litres or gallons an hour.
fn water(kg_per_h: f64, say: Say) -> String {
    if say.system == units::System::Us {
        format!("{:.1} gal/h", kg_per_h / 3.785)
    } else {
        format!("{kg_per_h:.1} L/h")
    }
}

/// A reading as it is said; `unit` alone where it stands.
pub fn value(what: &str, unit: &str, x: f64, within: f64, say: Say) -> String {
    let x = rounded(x, within);
    match (what, dim(unit)) {
        ("power", _) => format!("{x:.0} W"),
        ("voltage", _) => format!("{x:.0} V"),
        ("current", _) => format!("{x:.1} A"),
        ("output", _) => say.load(x),
        (_, Some(d)) => say.of(x, d),
        _ if unit == "kg/h" => water(x, say),
        _ => format!("{x:.1} {unit}"),
    }
}

/// Checks as lines: what, where it lies, and below it the figures.
pub fn shown(a: &RunAnswer, say: Say) -> String {
    let mut text = String::new();
    for c in &a.checks {
        let lies = if c.verdict == reckon::Verdict::CannotTell {
            format!("cannot tell. {}", c.says)
        } else {
            c.says.clone()
        };
        text.push_str(&item("  ", &format!("{}: {lies}", c.what)));
        if let (Some(got), Some(e)) = (c.got, c.expected) {
            let show = |x: f64| value(c.what, c.unit, x, got.1, say);
            let expected = if e.1 >= 1e4 && c.unit == "kg/h" {
                format!("{} or more", show(e.0))
            } else if e.0 == 0.0 {
                format!("at most {}", show(e.1))
            } else {
                format!("{} to {}", show(e.0), show(e.1))
            };
            text.push_str(&item(
                "    ",
                &format!(
                    "{} ± {}; expected {expected}",
                    show(got.0),
                    value(c.what, c.unit, got.1, 0.1 * got.1, say)
                ),
            ));
        }
        if c.verdict == reckon::Verdict::Fails && !c.would_tell.is_empty() {
            text.push_str(&item("    ", &c.would_tell));
        }
    }
    text.push_str(&para(&format!("Next: {}", a.next)));
    text
}

/// `run`.
pub fn answer(day: &Day, ask: &Run, usual: &Usual) -> Result<Report, Refusal> {
    let say = Say::new(usual.si);
    let from = (day.file.run.as_ref()).ok_or_else(|| {
        day.missing(
            "run",
            "a table [run] with mode, minutes, outdoor, return, supply",
        )
    })?;
    let (mut r, targets) = readings(day, "run", from)?;
    let system = system(day, from, usual)?;
    if let (Some(speed), Some(head)) = (from.speed, system.heads.first()) {
        let by_sheet =
            sheet_flow(&head.data.air_m3_per_s, speed).map_err(|e| day.wrong("run.speed", &e))?;
        r.flow_m3_per_s = r.flow_m3_per_s.or(Some(by_sheet));
    }
    let a =
        judge(&system, Some(day.refrigerant()?), &targets, &r).map_err(|e| day.wrong("run", &e))?;
    let mut text = heading("First run");
    text.push_str(&day.cautions(Step::Run)?);
    text.push_str(&para(&format!(
        "{}. {}",
        a.verdict.words(),
        word(a.verdict)
    )));
    text.push_str(&shown(&a, say));
    let mut view = RunView {
        northwall: NORTHWALL,
        verdict: a.verdict.words(),
        checks: a.checks.iter().map(reading_view).collect(),
        next: a.next.clone(),
        baseline: ask.accept,
        kept: None,
    };
    let head = from.head.as_ref().map(|h| h.get_ref().clone());
    let says = json!({ "head": head, "readings": r, "defrosts": from.defrosts, "backup_hours": from.backup_hours, "water": from.water, "answer": a });
    if ask.accept && a.verdict == reckon::Verdict::Fails {
        text.push_str(&para(
            "Accepted as baseline though a reading is outside: say why in the job's notes.",
        ));
    }
    let kind = if ask.accept { "baseline" } else { "run" };
    view.kept = keep(day, &ask.day, kind, says)?;
    text.push_str(&told(view.kept.as_slice()));
    let mut report = Report::new(text, &view);
    report.code = u8::from(a.verdict == reckon::Verdict::Fails);
    Ok(report)
}

fn word(v: reckon::Verdict) -> &'static str {
    match v {
        reckon::Verdict::Holds => "All is inside what the unit's data expect of today.",
        reckon::Verdict::Fails => "A reading is outside what the unit's data expect of today.",
        reckon::Verdict::CannotTell => "Nothing is outside, but something could not be told.",
    }
}

fn reading_view(c: &Check) -> ReadingView {
    ReadingView {
        what: c.what,
        verdict: c.verdict.words(),
        got: c.got,
        expected: c.expected,
        unit: c.unit,
        says: c.says.clone(),
        would_tell: c.would_tell.clone(),
    }
}
