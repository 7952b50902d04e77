//! The first run: what the unit's own data expect of today, and where the readings lie.

mod air;
mod lines;
mod span;

use heatpump::{Conditions, Duty, System, capability};
use physics::refrigerant::Refrigerant;
use reckon::Verdict;
use serde::{Deserialize, Serialize};

use crate::wrong::{Wrong, within};
pub use air::{air_heat_w, sheet_flow};
use lines::{drain, refrigerant_checks};
use span::Span;

/// A value and its limit of error.
pub type Read = (f64, f64);

/// Limits of error where the person gives none (common practice, no source): thermometers, K; the
/// rest as a share of the reading.
pub mod usual_error {
    /// Thermometers in the air, K.
    pub const THERMOMETERS_K: f64 = 0.6;
    /// Air flow.
    pub const FLOW: f64 = 0.15;
    /// Electric power.
    pub const POWER: f64 = 0.03;
    /// Voltage.
    pub const VOLTS: f64 = 0.01;
    /// Current.
    pub const AMPS: f64 = 0.03;
}

/// Readings of a first run, or of a visit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Readings {
    /// Heating or cooling, as `heating`, `cooling`.
    pub heating: bool,
    /// Minutes at a steady speed.
    pub minutes: f64,
    /// Whether a defrost ran in that time.
    pub defrost: bool,
    /// Whether the speed was held by the unit's own test mode: then the most is expected.
    pub test_mode: bool,
    /// Outdoors, C.
    pub outdoor_c: f64,
    /// Air into the head, C.
    pub return_c: Read,
    /// Air out of the head, C, mean over the outlet.
    pub supply_c: Read,
    /// Height above the sea, m.
    pub altitude_m: f64,
    /// Air flow, m3/s, and its limit of error.
    pub flow_m3_per_s: Option<Read>,
    /// Electric power, W.
    pub power_w: Option<Read>,
    /// Voltage, V.
    pub volts: Option<Read>,
    /// Current, A.
    pub amps: Option<Read>,
    /// Suction line: absolute pressure, Pa, and temperature, C.
    pub suction: Option<(f64, f64)>,
    /// Liquid line: absolute pressure, Pa, and temperature, C.
    pub liquid: Option<(f64, f64)>,
    /// Water poured into the drain pan, kg, and how long it took to run out outdoors, s.
    pub drain: Option<(f64, f64)>,
    /// Part of the cooling that the gas line costs, by its length as built, 0 to 1.
    #[serde(default)]
    pub line_loss_share: Option<f64>,
    /// Sound pressure outdoors, dB(A), at a distance, m, and the factor of the surroundings (2
    /// open ground, 4 wall, 8 corner).
    pub sound: Option<(f64, f64, f64)>,
}

/// What the sheet itself asks in its test mode.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct SheetTargets {
    /// Superheat, K: least and most.
    pub superheat_k: Option<(f64, f64)>,
    /// Subcooling, K: least and most.
    pub subcooling_k: Option<(f64, f64)>,
}

/// One reading against what is expected today.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Check {
    /// What.
    pub what: &'static str,
    /// Holds: inside. Fails: outside. Cannot tell.
    pub verdict: Verdict,
    /// Got and its limit of error, in `unit`.
    pub got: Option<Read>,
    /// Expected, least and most.
    pub expected: Option<(f64, f64)>,
    /// Unit.
    pub unit: &'static str,
    /// In words.
    pub says: String,
    /// What would tell.
    pub would_tell: String,
}

/// All checks, and the measurement most worth taking next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunAnswer {
    /// Fails if one fails; holds if heat and power hold and none fails; else cannot tell.
    pub verdict: Verdict,
    /// Each check.
    pub checks: Vec<Check>,
    /// The next measurement.
    pub next: String,
}

/// Sheets are believed to this share: catalogues are rounded and units differ. Common practice.
const SHEET_SHARE: f64 = 0.10;
/// Least minutes at a steady speed (trade capability 19).
const STEADY_MIN: f64 = 15.0;

fn compare(
    what: &'static str,
    unit: &'static str,
    got: Read,
    expected: (f64, f64),
    would_tell: &str,
) -> Check {
    let (low, high) = (got.0 - got.1, got.0 + got.1);
    let (verdict, word) = if high < expected.0 {
        (Verdict::Fails, "outside: below")
    } else if low > expected.1 {
        (Verdict::Fails, "outside: above")
    } else if low >= expected.0 && high <= expected.1 {
        (Verdict::Holds, "inside")
    } else {
        (Verdict::CannotTell, "at the edge, within its error")
    };
    Check {
        what,
        verdict,
        got: Some(got),
        expected: Some(expected),
        unit,
        says: word.to_owned(),
        would_tell: if verdict == Verdict::Holds {
            String::new()
        } else {
            would_tell.to_owned()
        },
    }
}

fn cannot(what: &'static str, says: impl Into<String>, would_tell: impl Into<String>) -> Check {
    Check {
        what,
        verdict: Verdict::CannotTell,
        got: None,
        expected: None,
        unit: "",
        says: says.into(),
        would_tell: would_tell.into(),
    }
}

/// Judges a run against the unit's own data at today's outdoor temperature.
///
/// # Errors
/// Readings that cannot be.
pub fn judge(
    system: &System,
    refrigerant: Option<Refrigerant>,
    targets: &SheetTargets,
    r: &Readings,
) -> Result<RunAnswer, Wrong> {
    within("outdoor temperature", "C", r.outdoor_c, -50.0, 55.0)?;
    within("air into the head", "C", r.return_c.0, 0.0, 45.0)?;
    within("air out of the head", "C", r.supply_c.0, -5.0, 80.0)?;
    within("altitude", "m", r.altitude_m, -500.0, 4_500.0)?;
    within("minutes running", "min", r.minutes, 0.0, 10_000.0)?;
    // sheets are tested with a short line; the loss is reckoned for cooling at the most
    let line = match r.line_loss_share.filter(|_| !r.heating) {
        Some(share) => 1.0 - within("cooling that the line costs", "of 1", share, 0.0, 0.5)?,
        None => 1.0,
    };
    let duty = if r.heating {
        Duty::Heating
    } else {
        Duty::Cooling
    };
    let pressure_pa = physics::standard_air::pressure_pa(r.altitude_m)?;
    let mut checks = vec![direction(r)];
    let steady = if r.defrost {
        Some("a defrost ran in the time of the readings")
    } else if r.minutes < STEADY_MIN {
        Some("it has not run 15 minutes at a steady speed")
    } else {
        None
    };
    let conditions = Conditions {
        indoor_c: r.return_c.0,
        pressure_pa,
        humidity: None,
    };
    let today = capability(system, duty, r.outdoor_c, conditions);
    match (&today, steady) {
        (_, Some(why)) => checks.push(cannot(
            "output and power",
            format!("Not steady: {why}."),
            "Readings after 15 minutes at one speed without a defrost.",
        )),
        (Err(e), None) => checks.push(cannot(
            "output and power",
            format!(
                "{} Today shows only that it {}.",
                e.why,
                if r.heating { "heats" } else { "cools" }
            ),
            format!(
                "{} Or come back when it is {} outdoors.",
                e.would_tell,
                if r.heating { "colder" } else { "warmer" }
            ),
        )),
        (Ok(c), None) => {
            let band = |low: f64, high: f64| {
                let low = if r.test_mode { high } else { low };
                ((1.0 - SHEET_SHARE) * low, (1.0 + SHEET_SHARE) * high)
            };
            let span = Span::of(system, duty, c, conditions);
            if let Some(flow) = r.flow_m3_per_s {
                let (q, u) = air_heat_w(flow, r.return_c, r.supply_c, r.altitude_m)?;
                let share = if r.heating {
                    1.0
                } else {
                    c.sensible_share.unwrap_or(0.75)
                };
                let (low, high) = band(span.heat_w.0 * share * line, span.heat_w.1 * share);
                let mut check = compare(
                    "output",
                    "W",
                    (q.abs(), u),
                    (low, high),
                    "The air flow by a hood or a traverse: it is the largest doubt.",
                );
                if !r.heating && c.sensible_share.is_none() {
                    check
                        .says
                        .push_str("; the sheet gives no sensible share, 0.75 taken");
                }
                checks.push(check);
            } else {
                checks.push(cannot(
                    "output",
                    "No air flow was measured.",
                    "Air flow by a hood, or the head's own figure for its speed.",
                ));
            }
            if let Some(p) = r.power_w {
                let (low, high) = band(span.electric_w.0, span.electric_w.1);
                checks.push(compare(
                    "power",
                    "W",
                    p,
                    (low, high),
                    "A power meter, and the test mode for a known speed.",
                ));
            } else {
                checks.push(cannot(
                    "power",
                    "No power was measured.",
                    "A power meter at the disconnect; amps alone do not give it.",
                ));
            }
        }
    }
    let plate = &system.outdoor.sheet.plate;
    if let (Some(v), Some(nominal)) = (r.volts, plate.volts_v) {
        // a plate that says 208 means a unit for 208 or 230 V
        let other = if (200.0..=215.0).contains(&nominal) {
            230.0
        } else {
            nominal
        };
        checks.push(compare(
            "voltage",
            "V",
            v,
            (0.9 * nominal, 1.1 * other),
            "Voltage at the unit while it runs.",
        ));
    }
    if let (Some(a), Some(mca)) = (r.amps, plate.mca_a) {
        checks.push(compare(
            "current",
            "A",
            a,
            (0.0, mca),
            "Current at full speed.",
        ));
    }
    checks.extend(refrigerant_checks(refrigerant, targets, r)?);
    if let Some((kg, s)) = r.drain {
        checks.push(drain(system, kg, s, conditions)?);
    }
    if let Some((db, m, factor)) = r.sound {
        let sound = &system.outdoor.sheet.sound;
        let power = if r.heating {
            sound.power_heating_db
        } else {
            sound.power_cooling_db
        };
        checks.push(match power {
            Some(lw) => {
                within("distance of the sound meter", "m", m, 0.5, 100.0)?;
                let at = lw + 10.0 * libm::log10(factor / (4.0 * std::f64::consts::PI * m * m));
                compare(
                    "sound",
                    "dB(A)",
                    (db, 2.0),
                    (0.0, at + 3.0),
                    "Read again when nothing else is to be heard; look for a loose bracket.",
                )
            }
            None => cannot(
                "sound",
                "The sheet gives no sound power.",
                "The sound power of the sheet.",
            ),
        });
    }
    let next = next(&checks);
    let any = |v: Verdict| checks.iter().any(|c| c.verdict == v);
    let verdict = if any(Verdict::Fails) {
        Verdict::Fails
    } else if any(Verdict::CannotTell) {
        Verdict::CannotTell
    } else {
        Verdict::Holds
    };
    Ok(RunAnswer {
        verdict,
        checks,
        next,
    })
}

/// Whether the air is warmed or cooled at all: the one thing that shows in any weather.
fn direction(r: &Readings) -> Check {
    let dt = (
        r.supply_c.0 - r.return_c.0,
        libm::hypot(r.supply_c.1, r.return_c.1),
    );
    let expected = if r.heating {
        (2.0, 45.0)
    } else {
        (-25.0, -2.0)
    };
    compare(
        "supply less return",
        "K",
        dt,
        expected,
        "The mode at the remote, and the reversing valve.",
    )
}

/// The measurement most worth taking: a missing one of the two that matter, then what failed.
fn next(checks: &[Check]) -> String {
    let rank = |c: &Check| match (c.verdict, c.what) {
        (Verdict::Holds, _) => 9,
        (_, "supply less return") => 0,
        (Verdict::CannotTell, "output and power") => 1,
        (Verdict::CannotTell, "power") => 2,
        (Verdict::CannotTell, "output") => 3,
        (Verdict::Fails, _) => 4,
        _ => 5,
    };
    checks
        .iter()
        .min_by_key(|c| rank(c))
        .filter(|c| rank(c) < 9)
        .map_or("None: all is inside.".to_owned(), |c| c.would_tell.clone())
}
