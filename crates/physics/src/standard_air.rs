//! Air pressure over altitude, and the heat that a flow of air carries.

use crate::OutOfRange;
use crate::range::within;

/// Standard pressure at sea level, Pa. `ashrae-fundamentals-2017`, chapter 1, table 1.
pub const SEA_LEVEL_PA: f64 = 101_325.0;

/// Heat per volume and degree of the trade's standard air, J/(m3 K): 0.075 lb/ft3 times
/// 0.24 Btu/(lb F), the "1.08" of heat = 1.08 cfm dF. `common-practice`.
pub const STANDARD_AIR_J_PER_M3K: f64 =
    0.075 * 0.45359237 / (0.3048 * 0.3048 * 0.3048) * (0.24 * 4186.8);

/// Pressure of the standard atmosphere at an altitude.
///
/// # Equation
/// `p = 101325 (1 - 2.25577e-5 z)^5.2559`
/// # Symbols
/// `z` altitude above the sea, m; `p` pressure, Pa.
/// # Range
/// -500 to 9,000 m (where people live; the equation goes to 11,000 m).
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equation 3.
/// # Example
/// ```
/// let p = physics::standard_air::pressure_pa(500.0).unwrap();
/// assert!((p - 95_461.0).abs() < 1.0);
/// ```
/// # Errors
/// Altitude outside the range.
pub fn pressure_pa(altitude_m: f64) -> Result<f64, OutOfRange> {
    let z = within("altitude", "m", altitude_m, -500.0, 9000.0)?;
    Ok(SEA_LEVEL_PA * libm::pow(1.0 - 2.25577e-5 * z, 5.2559))
}

/// Density of air at an altitude over that at sea level, at the same temperature.
///
/// # Equation
/// `r = p(z) / p0`
/// # Symbols
/// `z` altitude, m; `r` ratio, 1.
/// # Range
/// -500 to 9,000 m.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equations 3 and 1.
/// # Example
/// ```
/// // Trade card: 0.83 at 5,000 ft.
/// let r = physics::standard_air::density_ratio(5000.0 * 0.3048).unwrap();
/// assert!((r - 0.83).abs() < 0.005);
/// ```
/// # Errors
/// Altitude outside the range.
pub fn density_ratio(altitude_m: f64) -> Result<f64, OutOfRange> {
    Ok(pressure_pa(altitude_m)? / SEA_LEVEL_PA)
}

/// Density of dry air.
///
/// # Equation
/// `rho = p / (287.042 T)`
/// # Symbols
/// `p` pressure, Pa; `T` temperature, K; `rho` kg/m3.
/// # Range
/// -100 to 200 C, 30 to 120 kPa.
/// # Source
/// `ashrae-fundamentals-2017`, chapter 1, equation 26 for dry air.
/// # Example
/// ```
/// let rho = physics::standard_air::dry_density_kg_per_m3(20.0, 101_325.0).unwrap();
/// assert!((rho - 1.2041).abs() < 1e-4);
/// ```
/// # Errors
/// An input outside the range.
pub fn dry_density_kg_per_m3(temperature_c: f64, pressure_pa: f64) -> Result<f64, OutOfRange> {
    let t = within("air temperature", "C", temperature_c, -100.0, 200.0)?;
    let p = within("air pressure", "Pa", pressure_pa, 30_000.0, 120_000.0)?;
    Ok(p / (287.042 * (t + 273.15)))
}

/// Heat per degree that a volume flow of air carries.
///
/// # Equation
/// `G = 1.08 cfm r` in Btu/(h F); in SI `G = q r c`, `c` = 1207.2 J/(m3 K)
/// # Symbols
/// `q` volume flow, m3/s; `r` density ratio of the altitude, 1; `G` W/K.
/// # Range
/// Flow 0 to 100 m3/s, ratio 0.3 to 1.1.
/// # Source
/// `common-practice` (the 1.08 factor: 60 x 0.075 x 0.24), with the pressure ratio.
/// # Example
/// ```
/// // 300 cfm and 30 F make 9.7 kBtu/h at sea level (trade card F24): 324 Btu/(h F).
/// let cfm = 0.3048_f64.powi(3) / 60.0;
/// let g = physics::standard_air::air_heat_w_per_k(300.0 * cfm, 1.0).unwrap();
/// assert!((g / 0.527528 - 324.0).abs() < 0.1);
/// ```
/// # Errors
/// An input outside the range.
pub fn air_heat_w_per_k(flow_m3_per_s: f64, density_ratio: f64) -> Result<f64, OutOfRange> {
    let q = within("air flow", "m3/s", flow_m3_per_s, 0.0, 100.0)?;
    let r = within("density ratio", "of 1", density_ratio, 0.3, 1.1)?;
    Ok(q * r * STANDARD_AIR_J_PER_M3K)
}
