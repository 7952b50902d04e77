//! Snow on the ground: how dense it lies under a load.

use crate::OutOfRange;
use crate::range::within;

/// Pascal in a pound-force on a square foot.
const PSF: f64 = 47.880_258_980_336;
/// kg/m3 in a pound on a cubic foot.
const PCF: f64 = 16.018_463_373_960_14;

/// Density of snow that lies with a load on the ground.
///
/// # Equation
/// `g = min(0.13 p + 14, 30)`, `p` in lb/ft2 and `g` in lb/ft3
/// # Symbols
/// `p` ground snow load, Pa; `g` density, kg/m3.
/// # Range
/// Load 0 to 15 kPa.
/// # Source
/// `asce-7`, 7.7.1, equation 7.7-1.
/// # Example
/// ```
/// // 40 lb/ft2: 0.13 x 40 + 14 = 19.2 lb/ft3, so 2.08 ft deep.
/// let g = physics::snow::density_kg_per_m3(40.0 * 47.880_259).unwrap();
/// assert!((g / 16.018_463 - 19.2).abs() < 0.001);
/// ```
/// # Errors
/// Load outside the range.
pub fn density_kg_per_m3(ground_load_pa: f64) -> Result<f64, OutOfRange> {
    let p = within("ground snow load", "Pa", ground_load_pa, 0.0, 15_000.0)?;
    Ok((0.13 * p / PSF + 14.0).min(30.0) * PCF)
}

/// Depth of the snow that makes a ground load.
///
/// # Equation
/// `d = p / (g 9.80665)`
/// # Symbols
/// `p` ground snow load, Pa; `g` density of [`density_kg_per_m3`], kg/m3; `d` m.
/// # Range
/// Load 0 to 15 kPa.
/// # Source
/// `asce-7`, 7.7.1.
/// # Example
/// ```
/// let d = physics::snow::depth_m(40.0 * 47.880_259).unwrap();
/// assert!((d / 0.3048 - 40.0 / 19.2).abs() < 0.001);
/// ```
/// # Errors
/// Load outside the range.
pub fn depth_m(ground_load_pa: f64) -> Result<f64, OutOfRange> {
    Ok(ground_load_pa / (density_kg_per_m3(ground_load_pa)? * 9.80665))
}

/// Density of snow that lies so deep on the ground.
///
/// # Equation
/// `g = min(14 / (1 - 0.13 d), 30)`, `d` in ft and `g` in lb/ft3: [`density_kg_per_m3`] with the
/// load `p = g d`
/// # Symbols
/// `d` depth, m; `g` density, kg/m3.
/// # Range
/// Depth 0 to 10 m.
/// # Source
/// `asce-7`, 7.7.1, equation 7.7-1, solved for the depth.
/// # Example
/// ```
/// // 40 lb/ft2 at 19.2 lb/ft3 lies 2.083 ft deep.
/// let g = physics::snow::density_of_depth_kg_per_m3(40.0 / 19.2 * 0.3048).unwrap();
/// assert!((g / 16.018_463 - 19.2).abs() < 0.001);
/// ```
/// # Errors
/// Depth outside the range.
pub fn density_of_depth_kg_per_m3(depth_m: f64) -> Result<f64, OutOfRange> {
    let feet = within("snow depth", "m", depth_m, 0.0, 10.0)? / 0.3048;
    let room = 1.0 - 0.13 * feet;
    let pcf = if room > 0.0 { 14.0 / room } else { 30.0 };
    Ok(pcf.min(30.0) * PCF)
}
