//! Least and most that the unit's own data expect of today.

use heatpump::{Capability, Conditions, Duty, Performance, System};

/// Least and most of heat and power.
pub(super) struct Span {
    /// W.
    pub heat_w: (f64, f64),
    /// W.
    pub electric_w: (f64, f64),
}

impl Span {
    /// Of the outdoor unit; with one head of a unit for several, what that head alone can take.
    pub(super) fn of(system: &System, duty: Duty, c: &Capability, conditions: Conditions) -> Self {
        let all = Self {
            heat_w: (c.min.capacity_w, c.max.capacity_w),
            electric_w: (c.min.electric_w, c.max.electric_w),
        };
        if !system.outdoor.several || system.heads.len() != 1 {
            return all;
        }
        let Ok(tabled) = Performance::new(system, duty, conditions) else {
            return all;
        };
        let Some(range) = tabled.range(c.outdoor_c) else {
            return all;
        };
        let head = tabled.heads().first().map_or(f64::INFINITY, |h| h.max_w);
        let most = range.max_w.min(head);
        let least = range.min_w.min(most);
        let at = |w: f64| tabled.operate(c.outdoor_c, w).electric_w;
        Self {
            heat_w: (least, most),
            electric_w: (at(least).min(c.min.electric_w), at(most)),
        }
    }
}
