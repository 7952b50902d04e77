//! Saturation pressure of water over ice and over liquid, and its inverse.

use crate::OutOfRange;
use crate::range::within;

/// Below this the vapour is over ice, above it over water, C.
pub const TRIPLE_POINT_C: f64 = 0.01;

const ICE: [f64; 7] = [
    -5.6745359e3,
    6.3925247,
    -9.677843e-3,
    6.2215701e-7,
    2.0747825e-9,
    -9.484024e-13,
    4.1635019,
];
const WATER: [f64; 6] = [
    -5.8002206e3,
    1.3914993,
    -4.8640239e-2,
    4.1764768e-5,
    -1.4452093e-8,
    6.5459673,
];

/// Coldest usable, C.
const LOW_C: f64 = -100.0;
/// Hottest usable, C.
const HIGH_C: f64 = 200.0;

/// Pressure of water vapour in equilibrium with ice (below 0.01 C) or water.
///
/// # Equation
/// `ln p = C1/T + C2 + C3 T + C4 T^2 + C5 T^3 + C6 T^4 + C7 ln T` over ice;
/// `ln p = C8/T + C9 + C10 T + C11 T^2 + C12 T^3 + C13 ln T` over water.
/// # Symbols
/// `T` temperature, K; `p` saturation pressure, Pa; `C1`..`C13` constants of the source.
/// # Range
/// -100 to 200 C.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equations 5 and 6.
/// # Example
/// ```
/// let p = physics::moist_air::saturation_pressure_pa(25.0).unwrap();
/// assert!((p - 3169.2).abs() < 0.5);
/// ```
/// # Errors
/// Temperature outside the range.
#[inline]
pub fn saturation_pressure_pa(temperature_c: f64) -> Result<f64, OutOfRange> {
    let t = within(
        "temperature of moist air",
        "C",
        temperature_c,
        LOW_C,
        HIGH_C,
    )?;
    Ok(libm::exp(ln_pressure(t).0))
}

/// `ln p` and its slope against temperature, 1/K. The temperature must be in range.
#[inline]
pub(super) fn ln_pressure(t_c: f64) -> (f64, f64) {
    let t = t_c + 273.15;
    let over = 1.0 / t;
    let ln_t = libm::log(t);
    if t_c <= TRIPLE_POINT_C {
        let [c1, c2, c3, c4, c5, c6, c7] = ICE;
        let ln_p = c1 * over + c2 + t * (c3 + t * (c4 + t * (c5 + t * c6))) + c7 * ln_t;
        let slope =
            -c1 * over * over + c3 + t * (2.0 * c4 + t * (3.0 * c5 + t * 4.0 * c6)) + c7 * over;
        (ln_p, slope)
    } else {
        let [c8, c9, c10, c11, c12, c13] = WATER;
        let ln_p = c8 * over + c9 + t * (c10 + t * (c11 + t * c12)) + c13 * ln_t;
        let slope = -c8 * over * over + c10 + t * (2.0 * c11 + t * 3.0 * c12) + c13 * over;
        (ln_p, slope)
    }
}

/// Temperature at which vapour of this pressure begins to condense or to frost.
///
/// # Equation
/// The inverse of [`saturation_pressure_pa`], by Newton's method on `ln p`.
/// # Symbols
/// `p` vapour pressure, Pa; result, C.
/// # Range
/// 0.0014 Pa (-100 C) to 1.55 MPa (200 C).
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equations 5 and 6, inverted.
/// # Example
/// ```
/// // 21 C at 40 %: trade note E says 6.9 C.
/// use physics::moist_air::{dew_point_of_pressure_c, saturation_pressure_pa};
/// let p = 0.40 * saturation_pressure_pa(21.0).unwrap();
/// assert!((dew_point_of_pressure_c(p).unwrap() - 6.9).abs() < 0.05);
/// ```
/// # Errors
/// Pressure outside the range.
#[inline]
pub fn dew_point_of_pressure_c(vapour_pressure_pa: f64) -> Result<f64, OutOfRange> {
    let p = within("vapour pressure", "Pa", vapour_pressure_pa, 0.00141, 1.55e6)?;
    let wanted = libm::log(p);
    // Magnus over water as a first guess: within 3 K from -100 to 200 C.
    let x = wanted - 6.41;
    let mut t = 243.12 * x / (17.62 - x);
    for _ in 0..12 {
        let (ln_p, slope) = ln_pressure(t);
        let step = (wanted - ln_p) / slope;
        t += step;
        // Newton squares the error: a step of 3e-4 K leaves about 1e-9 K.
        if step.abs() < 3e-4 {
            break;
        }
    }
    Ok(t)
}
