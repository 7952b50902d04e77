//! Superheat and subcooling where the sheet allows them, and the drain.

use heatpump::{Conditions, Duty, System, capability};
use physics::refrigerant::{BubblePa, DewPa, Refrigerant, subcooling_k, superheat_k};

use super::{Check, Readings, SheetTargets, cannot, compare};
use crate::wrong::{Wrong, within};

/// Superheat by the dew point, subcooling by the bubble point.
pub(super) fn refrigerant_checks(
    refrigerant: Option<Refrigerant>,
    targets: &SheetTargets,
    r: &Readings,
) -> Result<Vec<Check>, Wrong> {
    let mut out = Vec::new();
    // an inverter holds its own targets: only the sheet's, in its own test mode, mean anything
    let why = |target: bool| {
        if !target {
            Some("the sheet gives no target, and general ones mislead with an inverter")
        } else if !r.test_mode {
            Some("the speed was not held by the test mode")
        } else if refrigerant.is_none() {
            Some("the refrigerant is not known")
        } else {
            None
        }
    };
    if let Some((pa, line_c)) = r.suction {
        match (
            why(targets.superheat_k.is_some()),
            targets.superheat_k,
            refrigerant,
        ) {
            (None, Some(t), Some(fluid)) => {
                let s = superheat_k(line_c, fluid.dew_temperature(DewPa(pa))?);
                out.push(compare(
                    "superheat",
                    "K",
                    (s, 1.5),
                    t,
                    "A second probe on the suction line, insulated.",
                ));
            }
            (why, ..) => out.push(cannot(
                "superheat",
                why.unwrap_or_default(),
                "The sheet's own figure, in its test mode.",
            )),
        }
    }
    if let Some((pa, line_c)) = r.liquid {
        match (
            why(targets.subcooling_k.is_some()),
            targets.subcooling_k,
            refrigerant,
        ) {
            (None, Some(t), Some(fluid)) => {
                let s = subcooling_k(line_c, fluid.bubble_temperature(BubblePa(pa))?);
                out.push(compare(
                    "subcooling",
                    "K",
                    (s, 1.5),
                    t,
                    "A second probe on the liquid line, insulated.",
                ));
            }
            (why, ..) => out.push(cannot(
                "subcooling",
                why.unwrap_or_default(),
                "The sheet's own figure, in its test mode.",
            )),
        }
    }
    Ok(out)
}

/// The drain must carry twice what the coil can make.
pub(super) fn drain(
    system: &System,
    kg: f64,
    s: f64,
    conditions: Conditions,
) -> Result<Check, Wrong> {
    within("water poured", "kg", kg, 0.2, 10.0)?;
    within("time to run out", "s", s, 2.0, 7_200.0)?;
    let at_rating = capability(system, Duty::Cooling, 35.0, conditions);
    Ok(match at_rating {
        Ok(c) => {
            let latent_w = c.max.capacity_w * (1.0 - c.sensible_share.unwrap_or(0.75));
            let need = 2.0 * latent_w / 2.45e6 * 3600.0;
            compare(
                "drain",
                "kg/h",
                (kg / s * 3600.0, 0.1 * kg / s * 3600.0),
                (need, 1e4),
                "Look for a low place, a kink or an uphill piece; pour again.",
            )
        }
        Err(e) => cannot("drain", e.why, e.would_tell),
    })
}
