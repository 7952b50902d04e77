//! How cold the sky is to a surface that looks at it.

use crate::OutOfRange;
use crate::film::STEFAN_BOLTZMANN;
use crate::range::within;

/// Longwave radiation from the sky on a horizontal surface, from humidity and cloud.
///
/// # Equation
/// `e = (0.787 + 0.764 ln(Td / 273)) (1 + 0.0224 N - 0.0035 N^2 + 0.00028 N^3)`,
/// `I = e s T^4`
/// # Symbols
/// `Td` dew point, K; `N` opaque cloud, tenths; `T` dry bulb, K; `s` Stefan-Boltzmann constant;
/// `e` emittance of the sky, 1; `I` W/m2.
/// # Range
/// Dry bulb -60 to 60 C, dew point -80 C to the dry bulb, cloud 0 to 10 tenths.
/// # Source
/// `clark-allen-1978` for the clear sky, `walton-1983` for cloud; both from memory.
/// # Example
/// ```
/// let i = physics::sky::horizontal_infrared_w_per_m2(0.0, -5.0, 0.0).unwrap();
/// assert!((i - 244.0).abs() < 1.0);
/// ```
/// # Errors
/// An input outside the range.
pub fn horizontal_infrared_w_per_m2(
    dry_bulb_c: f64,
    dew_point_c: f64,
    opaque_cloud_tenths: f64,
) -> Result<f64, OutOfRange> {
    let t = within("dry bulb", "C", dry_bulb_c, -60.0, 60.0)? + 273.15;
    let dew = within("dew point", "C", dew_point_c, -80.0, dry_bulb_c)? + 273.15;
    let n = within("opaque cloud", "tenths", opaque_cloud_tenths, 0.0, 10.0)?;
    let clear = 0.787 + 0.764 * libm::log(dew / 273.0);
    let cloud = 1.0 + n * (0.0224 + n * (-0.0035 + n * 0.00028));
    Ok(clear * cloud * STEFAN_BOLTZMANN * t * t * t * t)
}

/// Temperature of the black sky that would send this radiation.
///
/// # Equation
/// `Ts = (I / s)^(1/4)`
/// # Symbols
/// `I` longwave radiation from the sky on a horizontal surface, W/m2 (a weather file's
/// horizontal infrared); `s` Stefan-Boltzmann constant; result, C.
/// # Range
/// 40 to 700 W/m2 (-110 to 60 C).
/// # Source
/// `epw-dictionary`, horizontal infrared radiation intensity from the sky; Stefan's law.
/// # Example
/// ```
/// let sky = physics::sky::temperature_c(244.0).unwrap();
/// assert!((sky - -17.0).abs() < 0.2);
/// ```
/// # Errors
/// Radiation outside the range.
pub fn temperature_c(horizontal_infrared_w_per_m2: f64) -> Result<f64, OutOfRange> {
    let i = within(
        "longwave radiation from the sky",
        "W/m2",
        horizontal_infrared_w_per_m2,
        40.0,
        700.0,
    )?;
    Ok(libm::sqrt(libm::sqrt(i / STEFAN_BOLTZMANN)) - 273.15)
}
