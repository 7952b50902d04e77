//! Flares and brazed joints: what to set the wrench to, and who made which.

use physics::tube::Tube;
use serde::{Deserialize, Serialize};
use units::constants::FOOT_POUND_NM;

use crate::wrong::{Wrong, within};

/// Torque for a flare nut, N m: least and most, where the sheet gives none of its own.
/// Source: `common-practice`, three manufacturers' sheets agree (second hand). `None`: read it on
/// the sheet.
pub fn usual_torque_nm(tube: Tube) -> Option<(f64, f64)> {
    match tube {
        Tube::Quarter => Some((14.0, 18.0)),
        Tube::ThreeEighths => Some((34.0, 42.0)),
        Tube::Half => Some((49.0, 61.0)),
        Tube::FiveEighths => Some((68.0, 82.0)),
        Tube::ThreeQuarters | Tube::ThreeQuartersHeavy => Some((97.0, 120.0)),
        Tube::SevenEighths => None,
    }
}

/// What to set a torque wrench to when a crowfoot lengthens it.
///
/// # Equation
/// `S = T L / (L + E)`
/// # Symbols
/// `T` torque wanted at the nut, N m; `L` from the middle of the grip to the square, m; `E` from
/// the square to the middle of the nut along the wrench, m, negative when turned back, zero at a
/// right angle; `S` setting, N m.
/// # Range
/// Torque 5 to 200 N m; `L` 0.08 to 0.8 m; `E` from -0.5 to 1 times `L`.
/// # Source
/// `common-practice`: the lever.
/// # Example
/// ```
/// // 38 N m with 0.05 m more on a wrench of 0.25 m: set 31.7.
/// let s = startup::joints::wrench_setting_nm(38.0, 0.25, 0.05).unwrap();
/// assert!((s - 31.667).abs() < 0.001);
/// ```
/// # Errors
/// A torque or a length that cannot be.
pub fn wrench_setting_nm(torque_nm: f64, wrench_m: f64, more_m: f64) -> Result<f64, Wrong> {
    let t = within("torque", "N m", torque_nm, 5.0, 200.0)?;
    let l = within("length of the wrench", "m", wrench_m, 0.08, 0.8)?;
    let e = within("length of the crowfoot", "m", more_m, -0.5 * l, l)?;
    Ok(t * l / (l + e))
}

/// Reads a torque: `16 N m`, `12 ft lb`, `140 in lb`.
///
/// # Errors
/// Not a number, or none of these units.
pub fn read_torque_nm(text: &str) -> Result<f64, Wrong> {
    match units::parse(text, units::Dim::Torque) {
        Ok(nm) => within("torque", "N m", nm, 1.0, 400.0),
        Err(_) => Err(Wrong::new(
            "torque",
            format!("`{}`", text.trim()),
            "a number with N m, ft lb or in lb, as `16 N m`",
        )),
    }
}

/// Reads the nitrogen that flows while brazing, m3/s: `3 ft3/h`, `3 scfh`, `1.5 L/min`, `0`.
///
/// # Errors
/// Not a number, or none of these units.
pub fn read_nitrogen_m3_per_s(text: &str) -> Result<f64, Wrong> {
    let t = text.trim();
    if matches!(t, "0" | "none") {
        return Ok(0.0);
    }
    let end = t
        .find(|c: char| !(c.is_ascii_digit() || c == '.'))
        .unwrap_or(t.len());
    let (number, unit) = t.split_at(end);
    let factor = match unit.trim() {
        "ft3/h" | "cfh" | "scfh" => Some(CFH),
        "L/min" | "l/min" => Some(1e-3 / 60.0),
        _ => None,
    };
    match (number.parse::<f64>().ok(), factor) {
        (Some(x), Some(f)) => within("nitrogen while brazing", "m3/s", x * f, 0.0, 0.01),
        _ => Err(Wrong::new(
            "nitrogen while brazing",
            format!("`{t}`"),
            "a number with ft3/h, scfh or L/min, as `3 ft3/h`; `none` where none flowed",
        )),
    }
}

/// Both units, as wrenches have either.
pub fn both(nm: f64) -> String {
    format!("{nm:.0} N m ({:.0} ft lb)", nm / FOOT_POUND_NM)
}

/// One joint as made.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Joint {
    /// A flare.
    Flare {
        /// Where.
        place: String,
        /// Torque at the nut, N m.
        torque_nm: f64,
        /// Least and most of the sheet, N m.
        sheet_nm: (f64, f64),
        /// Who tightened it.
        initials: String,
    },
    /// A brazed joint.
    Brazed {
        /// Where.
        place: String,
        /// Nitrogen flow while brazing, m3/s; zero when none flowed.
        nitrogen_m3_per_s: f64,
        /// Who.
        initials: String,
    },
}

/// Cubic foot an hour, m3/s.
const CFH: f64 = 0.028_316_846_592 / 3600.0;

/// What is wrong with a joint; empty when nothing is.
pub fn complaints(joint: &Joint) -> Vec<String> {
    let mut out = Vec::new();
    let (place, initials) = match joint {
        Joint::Flare {
            place,
            torque_nm,
            sheet_nm,
            initials,
        } => {
            let (low, high) = *sheet_nm;
            if torque_nm.is_nan() || *torque_nm < low {
                out.push(format!(
                    "{place}: {torque_nm:.0} N m is less than the sheet's {low:.0}: tighten it, two wrenches"
                ));
            } else if *torque_nm > high {
                out.push(format!(
                    "{place}: {torque_nm:.0} N m is more than the sheet's {high:.0}: the flare is thinned; cut it off and make it again"
                ));
            }
            (place, initials)
        }
        Joint::Brazed {
            place,
            nitrogen_m3_per_s,
            initials,
        } => {
            let cfh = nitrogen_m3_per_s / CFH;
            if !(2.0..=5.0).contains(&cfh) {
                out.push(format!(
                    "{place}: nitrogen at {cfh:.1} ft3/h while brazing; 2 to 5 keep scale out of the tube"
                ));
            }
            (place, initials)
        }
    };
    if initials.trim().is_empty() {
        out.push(format!("{place}: no initials"));
    }
    out
}
