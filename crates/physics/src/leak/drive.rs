//! What drives air through leaks: buoyancy and wind.

use crate::OutOfRange;
use crate::range::within;
use crate::standard_air::dry_density_kg_per_m3;

/// Standard acceleration of gravity, m/s2. `nist-sp811`, appendix B.
const GRAVITY: f64 = 9.80665;

/// Pressure difference between bottom and top of a house by warm air inside.
///
/// # Equation
/// `dP = (ro - ri) g H`
/// # Symbols
/// `ro`, `ri` density of outdoor and indoor air (dry), kg/m3; `g` 9.80665 m/s2; `H` height, m;
/// `dP` Pa, positive when it is warmer inside.
/// # Range
/// Temperatures -100 to 200 C, pressure 30 to 120 kPa, height 0 to 100 m.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 16, stack pressure (equation 25).
/// # Example
/// ```
/// // Trade card F4: 70 F inside, -5 F outside, 5.5 m: 10.7 Pa.
/// let p = physics::leak::stack_pa(21.11, -20.56, 5.5, 101_325.0).unwrap();
/// assert!((p - 10.68).abs() < 0.01);
/// ```
/// # Errors
/// An input outside the range.
pub fn stack_pa(
    inside_c: f64,
    outside_c: f64,
    height_m: f64,
    pressure_pa: f64,
) -> Result<f64, OutOfRange> {
    let h = within("height of the stack", "m", height_m, 0.0, 100.0)?;
    let outside = dry_density_kg_per_m3(outside_c, pressure_pa)?;
    let inside = dry_density_kg_per_m3(inside_c, pressure_pa)?;
    Ok((outside - inside) * GRAVITY * h)
}

/// Pressure of wind on a wall.
///
/// # Equation
/// `p = Cp r v^2 / 2`
/// # Symbols
/// `Cp` pressure coefficient of the wall, 1; `r` density of outdoor air, kg/m3; `v` wind at the
/// height of the eaves, m/s; `p` Pa.
/// # Range
/// Coefficient -3 to 3, density 0.5 to 2, wind 0 to 60 m/s.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 24, equation 1 (wind velocity pressure).
/// # Example
/// ```
/// let p = physics::leak::wind_pressure_pa(0.6, 1.2, 5.0).unwrap();
/// assert!((p - 9.0).abs() < 1e-12);
/// ```
/// # Errors
/// An input outside the range.
pub fn wind_pressure_pa(
    coefficient: f64,
    density_kg_per_m3: f64,
    wind_m_per_s: f64,
) -> Result<f64, OutOfRange> {
    let c = within("wind pressure coefficient", "of 1", coefficient, -3.0, 3.0)?;
    let r = within("air density", "kg/m3", density_kg_per_m3, 0.5, 2.0)?;
    let v = within("wind", "m/s", wind_m_per_s, 0.0, 60.0)?;
    Ok(0.5 * c * r * v * v)
}

/// Flows by stack and by wind, put together.
///
/// # Equation
/// `Q = sqrt(Qs^2 + Qw^2)`
/// # Symbols
/// `Qs` flow by stack alone, `Qw` by wind alone, `Q` both, m3/s.
/// # Range
/// Any.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 16, superposition (equation 46).
/// # Example
/// ```
/// assert_eq!(physics::leak::combined_m3_per_s(3.0, 4.0), 5.0);
/// ```
pub fn combined_m3_per_s(stack_m3_per_s: f64, wind_m3_per_s: f64) -> f64 {
    libm::hypot(stack_m3_per_s, wind_m3_per_s)
}
