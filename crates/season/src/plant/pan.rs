//! The base-pan heater's part of the electricity.

use heatpump::{Conditions, Duty, Performance, System, capability};

/// Step of the table, K.
const STEP_K: f64 = 0.5;

/// Power of the base-pan heater over outdoor temperature, as the unit's capability has it. It is
/// part of the electricity already; the table only says how much of it.
#[derive(Debug, Clone, Default)]
pub(crate) struct PanTable {
    cold_c: f64,
    rows: Vec<f64>,
}

impl PanTable {
    pub fn new(system: &System, heating: &Performance, conditions: Conditions) -> Self {
        let plate = &system.outdoor.sheet.plate;
        if plate.base_pan_included || plate.base_pan_w.unwrap_or(0.0) <= 0.0 {
            return Self::default();
        }
        let (cold_c, warm_c) = heating.span_c();
        let steps = ((warm_c - cold_c) / STEP_K) as usize;
        let mut rows = Vec::with_capacity(steps + 1);
        for i in 0..=steps {
            let at = cold_c + i as f64 * STEP_K;
            let pan_w =
                capability(system, Duty::Heating, at, conditions).map_or(0.0, |c| c.base_pan_w);
            rows.push(pan_w);
            // Off once is off for all that is milder.
            if pan_w <= 0.0 {
                break;
            }
        }
        Self { cold_c, rows }
    }

    /// W while the unit runs.
    #[inline]
    pub fn at(&self, outdoor_c: f64) -> f64 {
        let x = (outdoor_c - self.cold_c) / STEP_K;
        if x < 0.0 {
            return 0.0;
        }
        let i = x as usize;
        match (self.rows.get(i), self.rows.get(i + 1)) {
            (Some(a), Some(b)) => a + (x - i as f64) * (b - a),
            (Some(a), None) => *a,
            _ => 0.0,
        }
    }
}
