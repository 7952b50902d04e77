//! The combination table of an outdoor unit for several heads.

use crate::cannot_tell::{CannotTell, Reason};
use crate::capability::Duty;
use crate::system::System;

/// Factors of the combination table on maximum capacity and on its power, against its last row.
pub(crate) fn combination_factors(system: &System, duty: Duty) -> Result<(f64, f64), CannotTell> {
    let sheet = &system.outdoor.sheet;
    let Some(multi) = sheet.multi.as_ref().filter(|m| !m.combinations.is_empty()) else {
        return Ok((1.0, 1.0));
    };
    let total_w = system.heads_total_w();
    let rows = &multi.combinations;
    let none = || CannotTell::new(Reason::NoCombination { total_w }, sheet, duty);
    // Half a percent: nominal sizes are names, and sums of rounded names.
    let slack_w = 0.005 * total_w;
    let after = rows
        .iter()
        .position(|r| r.total_w >= total_w - slack_w)
        .ok_or_else(none)?;
    let high = rows.get(after).ok_or_else(none)?;
    let full = rows.last().ok_or_else(none)?;
    let low = if high.total_w <= total_w + slack_w {
        high
    } else {
        after
            .checked_sub(1)
            .and_then(|i| rows.get(i))
            .ok_or_else(none)?
    };
    let w = if high.total_w > low.total_w {
        (total_w - low.total_w) / (high.total_w - low.total_w)
    } else {
        0.0
    };
    let blend = |a: f64, b: f64| a + w * (b - a);
    let heating = blend(low.heating_max_w, high.heating_max_w) / full.heating_max_w;
    let factors = match duty {
        Duty::Heating => {
            let electric = match (
                low.heating_electric_w,
                high.heating_electric_w,
                full.heating_electric_w,
            ) {
                (Some(a), Some(b), Some(whole)) => blend(a, b) / whole,
                _ => heating,
            };
            (heating, electric)
        }
        Duty::Cooling => match (low.cooling_max_w, high.cooling_max_w, full.cooling_max_w) {
            (Some(a), Some(b), Some(whole)) => {
                let cooling = blend(a, b) / whole;
                (cooling, cooling)
            }
            _ => (heating, heating),
        },
    };
    Ok(factors)
}
