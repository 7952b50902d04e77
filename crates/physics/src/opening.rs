//! Air and heat through doorways and slots.

use crate::OutOfRange;
use crate::range::within;

/// Standard acceleration of gravity, m/s2. `nist-sp811`, appendix B.
const GRAVITY: f64 = 9.80665;

/// Air that flows each way through an open door between two rooms of unlike temperature: warm
/// above, cold below.
///
/// # Equation
/// `Q = (0.65 W / 3) sqrt(g H^3 dT / T)`
/// # Symbols
/// `W` width, `H` height of the opening, m; `dT` temperature difference (its size), K; `T` mean
/// temperature, K; `g` 9.80665 m/s2; `Q` each way, m3/s.
/// # Range
/// Width 0 to 10 m, height 0 to 6 m, difference up to 60 K, mean -40 to 60 C.
/// # Source
/// `brown-solvason-1962` with discharge coefficient 0.65 (from memory); trade card F11.
/// # Example
/// ```
/// // Trade card F11: 184 cfm at 1 K, 319 cfm at 3 K (door 0.76 by 2.03 m, 21 C).
/// let cfm = 0.3048_f64.powi(3) / 60.0;
/// let q = physics::opening::two_way_m3_per_s(0.76, 2.03, 1.0, 21.0).unwrap();
/// assert!((q / cfm - 184.0).abs() < 1.0);
/// ```
/// # Errors
/// An input outside the range.
#[inline]
pub fn two_way_m3_per_s(
    width_m: f64,
    height_m: f64,
    difference_k: f64,
    mean_c: f64,
) -> Result<f64, OutOfRange> {
    let w = within("width of the opening", "m", width_m, 0.0, 10.0)?;
    let h = within("height of the opening", "m", height_m, 0.0, 6.0)?;
    let d = within("temperature difference", "K", difference_k, -60.0, 60.0)?.abs();
    let t = within("mean temperature", "C", mean_c, -40.0, 60.0)? + 273.15;
    Ok(doorway_at_1_k_m3_per_s(w, h, t) * libm::sqrt(d))
}

/// The same at 1 K, for loops that take the root of the difference themselves.
///
/// # Equation
/// `Q = (0.65 W / 3) sqrt(g H^3 / T)`
/// # Symbols
/// `W` width, `H` height, m; `T` mean temperature, K; `Q` each way at 1 K, m3/s/K^0.5.
/// # Range
/// That of [`two_way_m3_per_s`], left to the caller.
/// # Source
/// `brown-solvason-1962` with discharge coefficient 0.65 (from memory); trade card F11.
/// # Example
/// ```
/// let q = physics::opening::doorway_at_1_k_m3_per_s(0.762, 2.032, 293.15);
/// assert!((q * 2118.88 - 184.0).abs() < 3.0); // cfm
/// ```
pub fn doorway_at_1_k_m3_per_s(width_m: f64, height_m: f64, mean_k: f64) -> f64 {
    0.65 * width_m / 3.0 * libm::sqrt(GRAVITY * height_m * height_m * height_m / mean_k)
}

/// Air each way through a hole in a floor at 1 K, warm below.
///
/// # Equation
/// `Q = 0.055 sqrt(g / T) D^2.5`, `D = sqrt(4 A / pi)`
/// # Symbols
/// `A` area, m2; `D` equivalent diameter, m; `T` mean temperature, K; `Q` each way at 1 K,
/// m3/s/K^0.5.
/// # Range
/// Short openings; left to the caller.
/// # Source
/// `epstein-1988` (from memory).
/// # Example
/// ```
/// // A hole of 2 m2: about a fortieth of a cubic metre a second.
/// let q = physics::opening::stairwell_at_1_k_m3_per_s(2.0, 293.15);
/// assert!(0.02 < q && q < 0.04);
/// ```
pub fn stairwell_at_1_k_m3_per_s(area_m2: f64, mean_k: f64) -> f64 {
    let d = libm::sqrt(4.0 * area_m2 / core::f64::consts::PI);
    0.055 * libm::sqrt(GRAVITY / mean_k) * d * d * libm::sqrt(d)
}

/// Heat that the two-way flow carries from the warm room to the cold one.
///
/// # Equation
/// `P = r c Q dT`
/// # Symbols
/// `r` air density, kg/m3; `c` 1006 J/(kg K); `Q` flow each way, m3/s; `dT` difference with its
/// sign, K; `P` W with the sign of `dT`.
/// # Range
/// As [`two_way_m3_per_s`]; density 0.5 to 2 kg/m3.
/// # Source
/// `brown-solvason-1962` (from memory); trade card F11.
/// # Example
/// ```
/// // Trade card F11: 1,860 Btu/h at 3 K.
/// let p = physics::opening::two_way_heat_w(0.76, 2.03, 3.0, 21.0, 1.2).unwrap();
/// assert!((p / 0.293071 - 1860.0).abs() < 10.0);
/// ```
/// # Errors
/// An input outside the range.
pub fn two_way_heat_w(
    width_m: f64,
    height_m: f64,
    difference_k: f64,
    mean_c: f64,
    density_kg_per_m3: f64,
) -> Result<f64, OutOfRange> {
    let r = within("air density", "kg/m3", density_kg_per_m3, 0.5, 2.0)?;
    Ok(two_way_m3_per_s(width_m, height_m, difference_k, mean_c)? * r * 1006.0 * difference_k)
}

/// Flow through a slot or hole: an undercut, a transfer grille.
///
/// # Equation
/// `Q = Cd A sqrt(2 |dP| / r) sign(dP)`
/// # Symbols
/// `Cd` discharge coefficient, 1 (0.6 for a sharp slot); `A` free area, m2; `dP` pressure
/// difference, Pa; `r` air density, kg/m3; `Q` m3/s.
/// # Range
/// Coefficient 0.3 to 1, area 0 to 10 m2, pressure up to 500 Pa, density 0.5 to 2 kg/m3.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 16, equation 37 (flow through large openings).
/// # Example
/// ```
/// // Undercut 0.75 in by 30 in at 1 Pa: about 24 cfm.
/// let q = physics::opening::slot_m3_per_s(0.6, 0.762 * 0.01905, 1.0, 1.2).unwrap();
/// assert!((q - 0.01124).abs() < 1e-4);
/// ```
/// # Errors
/// An input outside the range.
pub fn slot_m3_per_s(
    discharge_coefficient: f64,
    area_m2: f64,
    pressure_pa: f64,
    density_kg_per_m3: f64,
) -> Result<f64, OutOfRange> {
    let c = within(
        "discharge coefficient",
        "of 1",
        discharge_coefficient,
        0.3,
        1.0,
    )?;
    let a = within("free area", "m2", area_m2, 0.0, 10.0)?;
    let p = within("pressure difference", "Pa", pressure_pa, -500.0, 500.0)?;
    let r = within("air density", "kg/m3", density_kg_per_m3, 0.5, 2.0)?;
    Ok(libm::copysign(c * a * libm::sqrt(2.0 * p.abs() / r), p))
}
