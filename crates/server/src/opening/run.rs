//! The first run against what the unit's own data expect of today.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use startup::Stamp;
use startup::first_run::{Readings, RunAnswer, SheetTargets, judge, sheet_flow, usual_error};
use startup::record::Record;
use units::Dim;
use utoipa::ToSchema;

use super::asked::Unit;
use crate::given::short;
use crate::judging::{value, wrong};
use crate::refused::Refused;

/// Readings of a run; values are texts with their unit, gauges above the air.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct RunIn {
    /// UUID made by the client; the same again changes nothing.
    pub id: String,
    /// Judged only; nothing is kept.
    #[serde(default)]
    pub trial: bool,
    /// Kept as the baseline that later visits are compared with.
    #[serde(default)]
    pub accept: bool,
    /// When, RFC 3339 with the offset of the place.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// Outdoor unit by its name in the job.
    pub outdoor_unit: String,
    /// The head that runs, the others off; needed where there are several.
    #[serde(default)]
    pub head: Option<String>,
    /// `heating` or `cooling`.
    pub mode: String,
    /// Minutes at a steady speed.
    pub minutes: f64,
    /// A defrost ran in that time.
    #[serde(default)]
    pub defrost: bool,
    /// The unit's own test mode held the speed.
    #[serde(default)]
    pub test_mode: bool,
    /// Outdoors: `44 F`.
    pub outdoor: String,
    /// Air into the head.
    pub back: String,
    /// Air out of the head, mean over the outlet.
    pub supply: String,
    /// Limit of error of the thermometers; `0.6 K` where it is left out.
    #[serde(default)]
    pub thermometers_within: Option<String>,
    /// Air flow as measured: `280 cfm`.
    #[serde(default)]
    pub flow: Option<String>,
    /// Its limit of error; `15 %` where it is left out.
    #[serde(default)]
    pub flow_within: Option<String>,
    /// Speed of the head, from 1: the sheet's own flow, to a quarter.
    #[serde(default)]
    pub speed: Option<usize>,
    /// Electric power: `900 W`.
    #[serde(default)]
    pub power: Option<String>,
    /// Voltage.
    #[serde(default)]
    pub volts: Option<String>,
    /// Current.
    #[serde(default)]
    pub amps: Option<String>,
    /// Suction pressure.
    #[serde(default)]
    pub suction_pressure: Option<String>,
    /// Suction line.
    #[serde(default)]
    pub suction_line: Option<String>,
    /// Liquid pressure.
    #[serde(default)]
    pub liquid_pressure: Option<String>,
    /// Liquid line.
    #[serde(default)]
    pub liquid_line: Option<String>,
    /// Water poured into the pan: `1 L`.
    #[serde(default)]
    pub drain_water: Option<String>,
    /// How long it took to run out outdoors: `90 s`.
    #[serde(default)]
    pub drain_time: Option<String>,
    /// Number of the record this one corrects.
    #[serde(default)]
    pub corrects: Option<u64>,
    /// Why, for a correction.
    #[serde(default)]
    pub why: Option<String>,
}

/// One reading against what is expected today.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct CheckView {
    /// What.
    pub what: String,
    /// `holds` inside, `fails` outside, `cannot tell`.
    pub verdict: String,
    /// Reading and its limit of error, in `unit`.
    pub got: Option<(f64, f64)>,
    /// Expected, least and most, in `unit`.
    pub expected: Option<(f64, f64)>,
    /// `K`, `W`, `V`, `A`, `kg/h`.
    pub unit: String,
    /// In words.
    pub says: String,
    /// What would tell.
    pub would_tell: String,
}

/// A run with its verdict.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RunView {
    /// Number of its record; null for a trial.
    pub n: Option<u64>,
    /// When.
    pub at: String,
    /// Who.
    pub who: String,
    /// Outdoor unit.
    pub outdoor_unit: String,
    /// `holds`, `fails`, `cannot tell`.
    pub verdict: String,
    /// In words.
    pub says: String,
    /// The next measurement worth taking.
    pub would_tell: String,
    /// Each reading.
    pub checks: Vec<CheckView>,
    /// It is the baseline.
    pub baseline: bool,
    /// As it was sent.
    pub typed: RunIn,
}

fn word(verdict: &str) -> &'static str {
    match verdict {
        "holds" => "All is inside what the unit's data expect of today.",
        "fails" => "A reading is outside what the unit's data expect of today.",
        _ => "Nothing is outside, but something could not be told.",
    }
}

fn readings(r: &RunIn, unit: &Unit) -> Result<Readings, Refused> {
    let o = |place: &str, t: &Option<String>, dim| {
        let t = t.as_ref().filter(|t| !t.trim().is_empty());
        t.map(|t| value(place, t, dim)).transpose()
    };
    let heating = match r.mode.as_str() {
        "heating" => true,
        "cooling" => false,
        other => {
            return Err(Refused::bad("mode: it is not known")
                .got(short(other))
                .allowed("heating, cooling"));
        }
    };
    let altitude_m = unit.asked.elevation_m.unwrap_or(0.0);
    let air = physics::standard_air::pressure_pa(altitude_m)
        .map_err(|e| Refused::bad(format!("elevation of the place: {e}")))?;
    let absolute = |p: Option<f64>| p.map(|p| p + air);
    let within = o(
        "thermometers_within",
        &r.thermometers_within,
        Dim::TemperatureDifference,
    )?;
    let within = within.unwrap_or(usual_error::THERMOMETERS_K);
    let share = o("flow_within", &r.flow_within, Dim::Share)?.unwrap_or(usual_error::FLOW);
    Ok(Readings {
        heating,
        minutes: r.minutes,
        defrost: r.defrost,
        test_mode: r.test_mode,
        outdoor_c: value("outdoor", &r.outdoor, Dim::Temperature)?,
        return_c: (value("back", &r.back, Dim::Temperature)?, within),
        supply_c: (value("supply", &r.supply, Dim::Temperature)?, within),
        altitude_m,
        flow_m3_per_s: o("flow", &r.flow, Dim::VolumeFlow)?.map(|q| (q, q * share)),
        power_w: o("power", &r.power, Dim::ElectricPower)?.map(|p| (p, usual_error::POWER * p)),
        volts: o("volts", &r.volts, Dim::Voltage)?.map(|x| (x, usual_error::VOLTS * x)),
        amps: o("amps", &r.amps, Dim::Current)?.map(|x| (x, usual_error::AMPS * x)),
        suction: absolute(o("suction_pressure", &r.suction_pressure, Dim::Pressure)?).zip(o(
            "suction_line",
            &r.suction_line,
            Dim::Temperature,
        )?),
        liquid: absolute(o("liquid_pressure", &r.liquid_pressure, Dim::Pressure)?).zip(o(
            "liquid_line",
            &r.liquid_line,
            Dim::Temperature,
        )?),
        line_loss_share: unit.asked.cost_share(r.head.as_deref()),
        drain: o("drain_water", &r.drain_water, Dim::Volume)?
            .map(|m3| m3 * 1000.0)
            .zip(o("drain_time", &r.drain_time, Dim::Hours)?),
        sound: None,
    })
}

fn shown(a: &RunAnswer) -> Vec<CheckView> {
    let finite = |p: Option<(f64, f64)>| p.filter(|p| p.0.is_finite() && p.1.is_finite());
    a.checks
        .iter()
        .map(|c| CheckView {
            what: c.what.to_owned(),
            verdict: c.verdict.words().to_owned(),
            got: finite(c.got),
            expected: finite(c.expected),
            unit: c.unit.to_owned(),
            says: c.says.clone(),
            would_tell: c.would_tell.clone(),
        })
        .collect()
}

/// Judges a run; the second is what is recorded, in the form of `northwall run`.
pub fn judged(r: &RunIn, unit: &Unit, at: Stamp, who: &str) -> Result<(RunView, Value), Refused> {
    let names: Vec<&str> = unit.view.lines.iter().map(|l| l.head.as_str()).collect();
    let head = r.head.as_deref().filter(|h| !h.is_empty());
    let unknown = head.is_some_and(|h| !names.contains(&h));
    if unknown || (head.is_none() && names.len() > 1) {
        let says = if unknown {
            "head: there is no such head on this outdoor unit"
        } else {
            "head is missing: the one that runs, the others off"
        };
        return Err(Refused::bad(says)
            .got(short(head.unwrap_or("")))
            .allowed(names.join(", ")));
    }
    let mut read = readings(r, unit)?;
    let system = unit.system(head)?;
    if let (Some(speed), Some(h), None) = (r.speed, system.heads.first(), read.flow_m3_per_s) {
        read.flow_m3_per_s = Some(sheet_flow(&h.data.air_m3_per_s, speed).map_err(wrong)?);
    }
    let targets = SheetTargets {
        superheat_k: unit.view.superheat_k,
        subcooling_k: unit.view.subcooling_k,
    };
    let a = judge(&system, unit.asked.refrigerant, &targets, &read).map_err(wrong)?;
    let view = RunView {
        n: None,
        at: at.written(),
        who: who.to_owned(),
        outdoor_unit: unit.view.outdoor.clone(),
        verdict: a.verdict.words().to_owned(),
        says: word(a.verdict.words()).to_owned(),
        would_tell: a.next.clone(),
        checks: shown(&a),
        baseline: r.accept,
        typed: r.clone(),
    };
    let says = json!({
        "outdoor": view.outdoor_unit, "head": head, "readings": read, "defrosts": null,
        "backup_hours": null, "water": null, "answer": a, "shown": view.checks, "typed": r,
    });
    Ok((view, says))
}

/// A run as it was recorded here.
pub fn kept(r: &Record) -> Option<RunView> {
    let verdict = r
        .says
        .pointer("/answer/verdict")?
        .as_str()?
        .replace('-', " ");
    Some(RunView {
        n: Some(r.n),
        at: r.at.clone(),
        who: r.who.clone(),
        outdoor_unit: r.says.get("outdoor")?.as_str()?.to_owned(),
        says: word(&verdict).to_owned(),
        verdict,
        would_tell: r.says.pointer("/answer/next")?.as_str()?.to_owned(),
        checks: serde_json::from_value(r.says.get("shown")?.clone()).ok()?,
        baseline: r.kind == "baseline",
        typed: serde_json::from_value(r.says.get("typed")?.clone()).ok()?,
    })
}
