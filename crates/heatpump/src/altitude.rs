//! Thin air carries less heat through the coils.

/// Standard pressure at sea level, Pa.
pub const SEA_LEVEL_PA: f64 = 101_325.0;

/// Factor of air pressure on capacity; electric power is left as it is.
///
/// # Equation
/// `f = (p / p0)^0.3`
/// # Symbols
/// `p` air pressure at the place, Pa; `p0` 101325 Pa; `f` factor on capacity, 1.
/// # Range
/// 60,000 to 108,000 Pa (4,200 m to below sea level); else `None`.
/// # Source
/// `from-memory`: a modelling choice. Fans move the same volume, so mass flow falls with density;
/// the coil gains back part of it by a larger difference of temperature. The exponent gives about
/// 5 % less at 1,600 m.
/// # Example
/// ```
/// assert_eq!(heatpump::altitude_factor(101_325.0), Some(1.0));
/// assert!((heatpump::altitude_factor(83_500.0).unwrap() - 0.9436).abs() < 1e-3);
/// ```
pub fn altitude_factor(pressure_pa: f64) -> Option<f64> {
    (60_000.0..=108_000.0)
        .contains(&pressure_pa)
        .then(|| libm::pow(pressure_pa / SEA_LEVEL_PA, 0.3))
}
