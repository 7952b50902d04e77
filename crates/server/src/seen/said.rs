//! Numbers in the units asked for.

use units::{Dim, System, show};

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

    /// Heat flow with the digits a load deserves.
    pub fn load(self, w: f64) -> String {
        match self.system {
            System::Us => format!(
                "{} Btu/h",
                grouped((w / units::constants::BTU_PER_H_W / 10.0).round() * 10.0)
            ),
            System::Si => format!("{} W", grouped((w / 10.0).round() * 10.0)),
        }
    }

    /// Temperature, whole degrees F or tenths of C.
    pub fn temperature(self, c: f64) -> String {
        let text = match self.system {
            System::Us => format!("{:.0} F", c * 1.8 + 32.0),
            System::Si => format!("{c:.1} C"),
        };
        match text.strip_prefix("-0 ").or(text.strip_prefix("-0.0 ")) {
            Some(unit) if self.system == System::Us => format!("0 {unit}"),
            Some(unit) => format!("0.0 {unit}"),
            None => text,
        }
    }
}

/// Whole number with commas between groups of three.
pub fn grouped(value: f64) -> String {
    if !value.is_finite() {
        return units::NO_VALUE.to_owned();
    }
    let digits = format!("{:.0}", value.abs());
    let mut out = String::new();
    if value < -0.5 {
        out.push('-');
    }
    for (i, c) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(c);
    }
    out
}

/// A number that can be sent: JSON has none that is not finite.
pub fn finite(value: f64) -> Option<f64> {
    Some(value).filter(|v| v.is_finite())
}
