//! The little moist air a weather file needs: files give relative humidity over water, also
//! below freezing, and a dew point on the same footing.

/// Saturation pressure over water (also below 0 C, as weather stations report).
///
/// **Equation** p = 611.2 exp(17.62 t / (243.12 + t))
///
/// **Symbols**
/// - p: saturation pressure over water, Pa
/// - t: temperature, C
///
/// **Range** -45 to 60 C within 0.6 %; used to -90 C only to compare two such pressures
///
/// **Source** `wmo-guide-8`, annex 4.B
///
/// **Example**
/// ```
/// let p = climate::humidity::saturation_over_water_pa(0.0);
/// assert!((p - 611.2).abs() < 1e-9);
/// ```
pub fn saturation_over_water_pa(t_c: f64) -> f64 {
    611.2 * libm::exp(17.62 * t_c / (243.12 + t_c))
}

/// Relative humidity from dry bulb and dew point.
///
/// **Equation** phi = p(d) / p(t), at most 1
///
/// **Symbols**
/// - phi: relative humidity, 0 to 1
/// - t, d: dry bulb and dew point, C
/// - p: saturation pressure over water
///
/// **Range** -90 to 70 C; a dew point above the dry bulb is saturated air
///
/// **Source** `wmo-guide-8`, annex 4.B
///
/// **Example**
/// ```
/// assert_eq!(climate::humidity::relative(10.0, 10.0), 1.0);
/// ```
pub fn relative(dry_bulb_c: f64, dew_point_c: f64) -> f64 {
    if dew_point_c >= dry_bulb_c {
        return 1.0;
    }
    saturation_over_water_pa(dew_point_c) / saturation_over_water_pa(dry_bulb_c)
}

/// Dew point from dry bulb and relative humidity, both over water.
///
/// **Equation** g = ln phi + 17.62 t / (243.12 + t); d = 243.12 g / (17.62 - g)
///
/// **Symbols**
/// - d, t: dew point and dry bulb, C
/// - phi: relative humidity, above 0 to 1
///
/// **Range** -90 to 70 C; phi below 0.001 is taken as 0.001
///
/// **Source** `wmo-guide-8`, annex 4.B, solved for the temperature
///
/// **Example**
/// ```
/// let d = climate::humidity::dew_point_c(20.0, 0.5);
/// assert!((d - 9.26).abs() < 0.02);
/// ```
pub fn dew_point_c(dry_bulb_c: f64, rel_humidity: f64) -> f64 {
    let g = libm::log(rel_humidity.clamp(0.001, 1.0)) + 17.62 * dry_bulb_c / (243.12 + dry_bulb_c);
    243.12 * g / (17.62 - g)
}
