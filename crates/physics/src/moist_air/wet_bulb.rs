//! The thermodynamic wet bulb: humidity ratio from it, and it from the humidity ratio.

use super::saturation::ln_pressure;
use super::state::MASS_RATIO;
use crate::OutOfRange;

/// Coefficients of equations 33 (water) and 35 (ice), kJ/kg and kJ/(kg K):
/// heat at 0 C, its slope in the numerator, its slope in the denominator.
const WATER: (f64, f64, f64) = (2501.0, 2.326, 4.186);
const ICE: (f64, f64, f64) = (2830.0, 0.24, 2.1);

fn coefficients(over_ice: bool) -> (f64, f64, f64) {
    if over_ice { ICE } else { WATER }
}

/// Humidity ratio at a wet bulb; may come out below zero for a wet bulb that cannot be.
pub(super) fn humidity_ratio(dry_c: f64, wet_c: f64, saturated: f64) -> f64 {
    let (heat, above, below) = coefficients(wet_c < 0.0);
    ((heat - above * wet_c) * saturated - 1.006 * (dry_c - wet_c))
        / (heat + 1.86 * dry_c - below * wet_c)
}

/// Pressure over ice at 0 C, Pa: equation 5 at 273.15 K, kept to save a third of the time.
const OVER_ICE_0C_PA: f64 = 611.153_570_890_766;

/// Saturated humidity ratio with its first and second slopes, 1/K and 1/K2. The second is only
/// near: it speeds the search and does not move its end.
#[inline]
fn saturated(wet_c: f64, pressure_pa: f64) -> (f64, f64, f64) {
    let (ln_p, slope) = ln_pressure(wet_c);
    let ps = libm::exp(ln_p);
    let over = 1.0 / (pressure_pa - ps);
    let first = MASS_RATIO * pressure_pa * ps * slope * over * over;
    let bend = slope - 2.0 / (wet_c + 273.15) + 2.0 * ps * slope * over;
    (MASS_RATIO * ps * over, first, first * bend)
}

/// Wet bulb by Halley's method on `g(tw) = W(tw) * denominator - W * denominator`, which is
/// smooth and rising.
#[inline]
pub(super) fn wet_bulb_c(dry_c: f64, ratio: f64, pressure_pa: f64) -> Result<f64, OutOfRange> {
    let at_zero = MASS_RATIO * OVER_ICE_0C_PA / (pressure_pa - OVER_ICE_0C_PA);
    let over_ice = dry_c < 0.0 || ratio < humidity_ratio(dry_c, 0.0, at_zero);
    let (heat, above, below) = coefficients(over_ice);
    // Start on the wet side, where the curve is steep: the search comes down without passing.
    let mut wet = if over_ice { dry_c.min(0.0) } else { dry_c };
    for _ in 0..40 {
        let (ws, first, second) = saturated(wet, pressure_pa);
        let lost = heat - above * wet;
        let value = lost * ws - 1.006 * (dry_c - wet) - ratio * (heat + 1.86 * dry_c - below * wet);
        let rise = lost * first - above * ws + 1.006 + ratio * below;
        let bend = lost * second - 2.0 * above * first;
        let step = 2.0 * value * rise / (2.0 * rise * rise - value * bend);
        wet -= step;
        if !(-100.0..=200.0).contains(&wet) {
            break;
        }
        // Halley cubes the error: a step of 0.01 K leaves about 1e-9 K.
        if step.abs() < 0.01 {
            return Ok(wet);
        }
    }
    Err(OutOfRange {
        what: "wet bulb",
        unit: "C",
        got: wet,
        low: -100.0,
        high: 200.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_kept_pressure_is_the_equation_s() {
        let p = libm::exp(ln_pressure(0.0).0);
        assert!((p - OVER_ICE_0C_PA).abs() < 1e-9, "{p:.12}");
    }
}
