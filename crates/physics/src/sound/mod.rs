//! Sound of an outdoor unit at a distance.

pub mod reflect;

use crate::OutOfRange;
use crate::range::within;

/// What stands around the unit: how much of the sphere its sound fills.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Surroundings {
    /// In the air, nothing near: factor 1.
    Free,
    /// On open ground: factor 2.
    Ground,
    /// On the ground at one wall: factor 4.
    Wall,
    /// In a corner of two walls: factor 8.
    Corner,
}

impl Surroundings {
    /// Directivity factor `Q`, 1.
    pub fn factor(self) -> f64 {
        match self {
            Surroundings::Free => 1.0,
            Surroundings::Ground => 2.0,
            Surroundings::Wall => 4.0,
            Surroundings::Corner => 8.0,
        }
    }
}

/// Sound pressure level at a distance from a source of known sound power.
///
/// # Equation
/// `Lp = Lw + 10 log10(Q / (4 pi r^2))`
/// # Symbols
/// `Lw` sound power level, dB(A); `Q` directivity factor; `r` distance, m; `Lp` sound pressure
/// level, dB(A).
/// # Range
/// Power level 20 to 120 dB(A), distance 0.5 to 500 m. No barrier, no absorption by air.
/// # Source
/// `iso-9613-2`, geometrical divergence with the solid angle correction; trade card F14.
/// # Example
/// ```
/// use physics::sound::{level_at_db, Surroundings};
/// // Planning manual example: 67, factor 4, 10 m: 42 dB(A).
/// assert!((level_at_db(67.0, Surroundings::Wall, 10.0).unwrap() - 42.0).abs() < 0.1);
/// ```
/// # Errors
/// An input outside the range.
pub fn level_at_db(
    power_level_db: f64,
    surroundings: Surroundings,
    distance_m: f64,
) -> Result<f64, OutOfRange> {
    let lw = within("sound power level", "dB(A)", power_level_db, 20.0, 120.0)?;
    let r = within("distance", "m", distance_m, 0.5, 500.0)?;
    let sphere = 4.0 * std::f64::consts::PI * r * r;
    Ok(lw + 10.0 * libm::log10(surroundings.factor() / sphere))
}

/// Distance at which the level has fallen to a limit.
///
/// # Equation
/// `r = sqrt(Q 10^((Lw - L)/10) / (4 pi))`
/// # Symbols
/// `Lw` sound power level, `L` limit, dB(A); `Q` directivity factor; `r` m.
/// # Range
/// Levels 20 to 120 dB(A) for the power, 10 to 100 for the limit.
/// # Source
/// `iso-9613-2`, the equation of [`level_at_db`] solved for the distance; trade card F14.
/// # Example
/// ```
/// use physics::sound::{distance_for_m, Surroundings};
/// // Trade note E: 65 dB(A) at one wall needs 5.6 m for 45 dB(A).
/// assert!((distance_for_m(65.0, Surroundings::Wall, 45.0).unwrap() - 5.6).abs() < 0.05);
/// ```
/// # Errors
/// An input outside the range.
pub fn distance_for_m(
    power_level_db: f64,
    surroundings: Surroundings,
    limit_db: f64,
) -> Result<f64, OutOfRange> {
    let lw = within("sound power level", "dB(A)", power_level_db, 20.0, 120.0)?;
    let limit = within("sound limit", "dB(A)", limit_db, 10.0, 100.0)?;
    let power = libm::pow(10.0, (lw - limit) / 10.0);
    Ok(libm::sqrt(
        surroundings.factor() * power / (4.0 * std::f64::consts::PI),
    ))
}

/// Level of several sounds together.
///
/// # Equation
/// `L = 10 log10(sum 10^(Li/10))`
/// # Symbols
/// `Li` single levels, `L` together, dB(A).
/// # Range
/// Any levels; nothing at all is silence, minus infinity.
/// # Source
/// `iso-9613-2`, sum of contributions by energy; trade card F14.
/// # Example
/// ```
/// assert!((physics::sound::together_db(&[46.0, 46.0]) - 49.01).abs() < 0.01);
/// ```
pub fn together_db(levels_db: &[f64]) -> f64 {
    let energy: f64 = levels_db.iter().map(|l| libm::pow(10.0, l / 10.0)).sum();
    10.0 * libm::log10(energy)
}
