//! What height does to air.

/// Pressure of the standard atmosphere at a height.
///
/// **Equation** p = 101325 (1 - 2.25577e-5 z)^5.2559
///
/// **Symbols**
/// - p: air pressure, Pa
/// - z: height above sea level, m
///
/// **Range** -5000 to 11 000 m
///
/// **Source** `ashrae-fundamentals-2017`, ch. 1, eq. 3
///
/// **Example**
/// ```
/// let denver = climate::altitude::pressure_pa(1000.0);
/// assert!((denver - 89_875.0).abs() < 5.0);
/// ```
pub fn pressure_pa(elevation_m: f64) -> f64 {
    101_325.0 * libm::pow((1.0 - 2.25577e-5 * elevation_m).max(0.0), 5.2559)
}

/// Temperature carried from a station to a site at another height.
///
/// **Equation** t = t0 - 6.379e-3 (z - z0)
///
/// **Symbols**
/// - t, t0: air temperature at the site and at the station, C
/// - z, z0: height of the site and of the station, m
///
/// **Range** height differences up to about 600 m (2000 ft); in a valley with cold-air lakes
/// the sign can be the other way, so a difference over 300 m is for a person to confirm
///
/// **Source** `common-practice`: 3.5 F per 1000 ft, which is 3.5 / 1.8 K per 304.8 m
///
/// **Example**
/// ```
/// let t = climate::altitude::at_height_c(-20.0, 0.0, 304.8);
/// assert!((t - (-20.0 - 3.5 / 1.8)).abs() < 1e-12);
/// ```
pub fn at_height_c(station_c: f64, station_m: f64, site_m: f64) -> f64 {
    station_c - LAPSE_K_PER_M * (site_m - station_m)
}

/// 3.5 F per 1000 ft in K per m.
pub const LAPSE_K_PER_M: f64 = 3.5 / 1.8 / 304.8;
