//! The physical shape between published points: share of the ideal (Carnot) figure over lift.

use crate::capability::Duty;

/// How far the refrigerant condenses above the air it warms, K. From memory.
pub const CONDENSING_APPROACH_K: f64 = 15.0;
/// How far the refrigerant evaporates below the air it cools, K. From memory.
pub const EVAPORATING_APPROACH_K: f64 = 7.0;
/// Condensing temperature a unit holds in cooling however cool it is outside, C, because the
/// expansion valve needs a pressure difference. From memory.
pub const LEAST_CONDENSING_C: f64 = 30.0;

/// Ideal COP between the refrigerant temperatures that go with the two air temperatures.
///
/// # Equation
/// Heating: `Tc / (Tc - Te)`, `Tc = Ti + 15`, `Te = To - 7`. Cooling: `Te / (Tc - Te)`,
/// `Te = Ti - 7`, `Tc = max(To + 15, 30 C)`.
/// # Symbols
/// `Ti` indoor air, C; `To` outdoor air, C; `Tc`, `Te` condensing and evaporating, K.
/// # Range
/// Any air temperatures; `None` where the lift is under 3 K or a value is not a number.
/// # Source
/// `from-memory`: Carnot; the approaches are a modelling choice. They only bend the curve between
/// published points and do not move it at the points.
/// # Example
/// ```
/// use heatpump::{Duty, carnot_cop};
/// let cop = carnot_cop(Duty::Heating, 0.0, 21.0).unwrap();
/// assert!((cop - (273.15 + 36.0) / 43.0).abs() < 1e-12);
/// ```
pub fn carnot_cop(duty: Duty, outdoor_c: f64, indoor_c: f64) -> Option<f64> {
    let (condensing_c, evaporating_c) = match duty {
        Duty::Heating => (
            indoor_c + CONDENSING_APPROACH_K,
            outdoor_c - EVAPORATING_APPROACH_K,
        ),
        Duty::Cooling => (
            (outdoor_c + CONDENSING_APPROACH_K).max(LEAST_CONDENSING_C),
            indoor_c - EVAPORATING_APPROACH_K,
        ),
    };
    let lift_k = condensing_c - evaporating_c;
    let wanted_c = match duty {
        Duty::Heating => condensing_c,
        Duty::Cooling => evaporating_c,
    };
    let cop = (wanted_c + 273.15) / lift_k;
    (lift_k >= 3.0 && cop.is_finite() && cop > 0.0).then_some(cop)
}

/// What indoor air warmer or cooler than at the test does to the capacity.
///
/// # Equation
/// Heating `f = 1 - 0.004 (Ti - Ti_test)`; cooling `f = 1 + 0.012 (Ti - Ti_test)`.
/// # Symbols
/// `Ti`, `Ti_test` indoor air now and at the test, C; `f` factor on capacity, 1.
/// # Range
/// Indoor 5 to 40 C and within 15 K of the test; else `None`.
/// # Source
/// `from-memory`: a modelling choice; common tables of capacity by indoor temperature lie near it.
/// # Example
/// ```
/// use heatpump::{Duty, indoor_factor};
/// assert_eq!(indoor_factor(Duty::Heating, 21.0, 21.0), Some(1.0));
/// ```
pub fn indoor_factor(duty: Duty, indoor_c: f64, tested_c: f64) -> Option<f64> {
    let off_k = indoor_c - tested_c;
    let usable = (5.0..=40.0).contains(&indoor_c) && off_k.abs() <= 15.0;
    usable.then_some(match duty {
        Duty::Heating => 1.0 - 0.004 * off_k,
        Duty::Cooling => 1.0 + 0.012 * off_k,
    })
}
