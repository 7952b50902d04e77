//! Numbers in the units asked for.

use units::{Dim, System, show, show_figure};

/// Prints SI values.
#[derive(Debug, Clone, Copy)]
pub struct Said {
    /// Units.
    pub system: System,
}

impl Said {
    /// US customary, or SI.
    pub fn new(si: bool) -> Self {
        Self {
            system: if si { System::Si } else { System::Us },
        }
    }

    /// Value and unit.
    pub fn of(self, value: f64, dim: Dim) -> String {
        show(value, dim, self.system)
    }

    /// A figure of the plan, rounded as everywhere.
    pub fn figure(self, value: f64, dim: Dim) -> String {
        show_figure(value, dim, self.system)
    }

    /// Heat flow with the digits a load deserves.
    pub fn load(self, w: f64) -> String {
        self.figure(w, Dim::Power)
    }

    /// Temperature, whole degrees F or tenths of C.
    pub fn temperature(self, c: f64) -> String {
        let number = units::degrees(c, self.system);
        format!("{number} {}", units::degree(self.system))
    }
}

/// A number that can be sent: JSON has none that is not finite.
pub fn finite(value: f64) -> Option<f64> {
    Some(value).filter(|v| v.is_finite())
}
