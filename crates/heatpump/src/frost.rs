//! The loss by frost and defrosting where the sheet does not include it.

/// Warm end of the frost band, C (42 F).
pub const FROST_WARM_C: f64 = 10.0 / 1.8;
/// Temperature of the greatest loss, C (35 F), where the rating procedure tests it.
pub const FROST_WORST_C: f64 = 3.0 / 1.8;
/// Cold end of the frost band, C (17 F).
pub const FROST_COLD_C: f64 = -15.0 / 1.8;
/// Relative humidity at which the loss is greatest-as-tested (35 F with 33 F wet bulb).
pub const FROST_TEST_RH: f64 = 0.82;

/// What frost takes away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frost {
    /// Factor on capacity, 1.
    pub capacity: f64,
    /// Factor on electric power, 1.
    pub electric: f64,
}

impl Frost {
    /// No frost.
    pub const NONE: Frost = Frost {
        capacity: 1.0,
        electric: 1.0,
    };

    /// Share of the electricity that goes into making up for frost, 0 to 1.
    pub fn electric_share(self) -> f64 {
        1.0 - self.capacity / self.electric
    }
}

/// Loss by frost over outdoor temperature.
///
/// # Equation
/// `capacity = 1 - 0.10 s`, `electric = 1 - 0.015 s`; `s` rises in a straight line from 0 at 42 F
/// to 1 at 35 F and falls in a straight line to 0 at 17 F; times `rh / 0.82`, at most 1.2, where
/// the humidity is known.
/// # Symbols
/// `s` strength, 1; `rh` outdoor relative humidity, 0 to 1.
/// # Range
/// Any temperature; outside 17 to 42 F there is no loss. Humidity outside 0 to 1 is taken as not
/// known.
/// # Source
/// `cfr-430-m1` 3.6.4 (the default for a frost test not run: 0.90 of capacity and 0.985 of
/// power at 35 F against the line from 17 to 47 F), from memory; the band is `common-practice`;
/// the humidity factor is a modelling choice.
/// # Example
/// ```
/// let f = heatpump::frost(3.0 / 1.8, None);
/// assert!((f.capacity - 0.90).abs() < 1e-12 && (f.electric - 0.985).abs() < 1e-12);
/// assert_eq!(heatpump::frost(10.0, None), heatpump::Frost::NONE);
/// ```
pub fn frost(outdoor_c: f64, humidity: Option<f64>) -> Frost {
    let strength = if outdoor_c <= FROST_COLD_C || outdoor_c >= FROST_WARM_C {
        0.0
    } else if outdoor_c >= FROST_WORST_C {
        (FROST_WARM_C - outdoor_c) / (FROST_WARM_C - FROST_WORST_C)
    } else {
        (outdoor_c - FROST_COLD_C) / (FROST_WORST_C - FROST_COLD_C)
    };
    let wet = match humidity {
        Some(rh) if (0.0..=1.0).contains(&rh) => (rh / FROST_TEST_RH).min(1.2),
        _ => 1.0,
    };
    // A temperature that is not a number gives no strength rather than a loss that is not one.
    let s = if strength.is_nan() {
        0.0
    } else {
        strength * wet
    };
    Frost {
        capacity: 1.0 - 0.10 * s,
        electric: 1.0 - 0.015 * s,
    }
}
