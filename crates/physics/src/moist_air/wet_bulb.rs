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

/// Saturated humidity ratio and its slope, 1/K.
fn saturated(wet_c: f64, pressure_pa: f64) -> (f64, f64) {
    let (ln_p, slope) = ln_pressure(wet_c);
    let ps = libm::exp(ln_p);
    let rest = pressure_pa - ps;
    (
        MASS_RATIO * ps / rest,
        MASS_RATIO * pressure_pa * ps * slope / (rest * rest),
    )
}

/// Wet bulb by Newton's method on `g(tw) = W(tw) * denominator - W * denominator`, which is
/// smooth and rising.
pub(super) fn wet_bulb_c(dry_c: f64, ratio: f64, pressure_pa: f64) -> Result<f64, OutOfRange> {
    let over_ice = if dry_c < 0.0 {
        true
    } else {
        let (ws, _) = saturated(0.0, pressure_pa);
        ratio < humidity_ratio(dry_c, 0.0, ws)
    };
    let (heat, above, below) = coefficients(over_ice);
    // Start on the wet side, where the curve is steep: Newton then comes down without passing.
    let mut wet = if over_ice { dry_c.min(0.0) } else { dry_c };
    for _ in 0..40 {
        let (ws, slope) = saturated(wet, pressure_pa);
        let lost = heat - above * wet;
        let value = lost * ws - 1.006 * (dry_c - wet) - ratio * (heat + 1.86 * dry_c - below * wet);
        let rise = lost * slope - above * ws + 1.006 + ratio * below;
        let step = value / rise;
        wet -= step;
        if !(-100.0..=200.0).contains(&wet) {
            break;
        }
        // Newton squares the error: a step of 1e-4 K leaves about 1e-9 K.
        if step.abs() < 1e-4 {
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
