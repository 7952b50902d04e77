//! What the numbers in a reading type mean.

use jobfile::Carrier;

use crate::{Refused, unit_j};

/// Energy in one of a unit of measure, J, and whether it is power that must be multiplied by time.
///
/// **Equation** `J = value of the unit`; power: `J = W x s`
///
/// **Symbols**
/// - uom: number in the element of that name
/// - carrier: what the meter counts; volumes need its heating value
///
/// **Range** 31 J, 38 W, 42 m3, 72 Wh, 119 ft3, 128 gal, 132 Btu, 134 L, 169 therm
///
/// **Source** `espi`, UnitSymbolKind; heating values `40-cfr-98`, table C-1
///
/// **Example** 72 is Wh: 3600 J
///
/// # Errors
/// A unit that is no energy.
pub(super) fn one_j(uom: i64, carrier: Carrier, line: usize) -> Result<(f64, bool), Refused> {
    let gallon_l = units::constants::GALLON_M3 * 1000.0;
    let of = |unit: &str| unit_j(carrier, unit).map_err(|r| r.at(line));
    Ok(match uom {
        31 => (1.0, false),
        38 => (1.0, true),
        72 => (3600.0, false),
        132 => (units::constants::BTU_IT_J, false),
        169 => (units::constants::THERM_J, false),
        42 => (of("m3")?, false),
        119 => (of("ft3")?, false),
        128 => (of("gal")?, false),
        134 => (of("gal")? / gallon_l, false),
        _ => {
            let name = match uom {
                5 => "amperes",
                29 => "volts",
                33 => "hertz",
                61 | 63 => "volt-amperes",
                65 => "a power factor",
                71 | 73 => "volt-ampere hours",
                _ => "",
            };
            return Err(Refused::new(
                "the unit of this meter reading is no energy",
                format!("uom {uom} {name}").trim_end().to_owned(),
                "31 J, 38 W, 42 m3, 72 Wh, 119 ft3, 128 gal, 132 Btu, 134 L, 169 therm",
                "leave this reading out of the feed, or ask the utility for energy",
            )
            .at(line));
        }
    })
}

/// Ten to a power that a reading type may carry.
///
/// # Errors
/// A power beyond -12 to 12.
pub(super) fn ten_to(power: i64, line: usize) -> Result<f64, Refused> {
    const TENS: [f64; 13] = [
        1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12,
    ];
    let size = power.unsigned_abs() as usize;
    match TENS.get(size) {
        Some(ten) if power >= 0 => Ok(*ten),
        Some(ten) => Ok(1.0 / ten),
        None => Err(Refused::new(
            "powerOfTenMultiplier is out of range",
            power.to_string(),
            "-12 to 12",
            "the feed is damaged: ask the utility for it again",
        )
        .at(line)),
    }
}

/// What is counted, by service category and commodity.
pub(super) fn carrier(kind: Option<i64>, commodity: Option<i64>) -> Option<Carrier> {
    match (commodity, kind) {
        (Some(1 | 2), _) | (None | Some(0), Some(0)) => Some(Carrier::Electricity),
        (Some(7), _) | (None | Some(0), Some(1)) => Some(Carrier::Gas),
        (Some(8), _) => Some(Carrier::Propane),
        _ => None,
    }
}

/// Whether a quality says that the value was not read: estimated, projected.
pub(super) fn is_estimate(quality: i64) -> bool {
    matches!(quality, 8 | 9 | 12)
}

/// Way of the energy.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Flow {
    /// To the house.
    In,
    /// To the grid.
    Back,
    /// The difference of both.
    Net,
    /// Something else.
    Other,
}

/// Way of the energy by its number.
pub(super) fn flow(direction: Option<i64>) -> Flow {
    match direction {
        None | Some(0 | 1) => Flow::In,
        Some(19) => Flow::Back,
        Some(4) => Flow::Net,
        Some(_) => Flow::Other,
    }
}

/// Whether readings are amounts between two times. Registers that only grow are not.
pub(super) fn is_delta(accumulation: Option<i64>) -> bool {
    matches!(accumulation, None | Some(0 | 4 | 9 | 12))
}
