//! Numbers in the system of units asked for.

use units::{Dim, System, column_unit, show, show_number};

/// Prints SI values.
#[derive(Debug, Clone, Copy)]
pub struct Say {
    /// Units.
    pub system: System,
}

impl Say {
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

    /// The number alone, for a column.
    pub fn number(self, value: f64, dim: Dim) -> String {
        show_number(value, dim, self.system).0
    }

    /// The unit of a column.
    pub fn unit(self, dim: Dim) -> &'static str {
        column_unit(dim, self.system)
    }

    /// Heat flow with the digits a load deserves: tens of W, hundreds of Btu/h.
    pub fn load(self, w: f64) -> String {
        let (number, unit) = self.load_parts(w);
        format!("{number} {unit}")
    }

    /// As [`Say::load`], the number alone.
    pub fn load_number(self, w: f64) -> String {
        self.load_parts(w).0
    }

    fn load_parts(self, w: f64) -> (String, &'static str) {
        let (value, step, unit) = match self.system {
            System::Us => (w / units::constants::BTU_PER_H_W, 10.0, "Btu/h"),
            System::Si => (w, 10.0, "W"),
        };
        if !value.is_finite() {
            return (units::NO_VALUE.to_owned(), unit);
        }
        (grouped((value / step).round() * step), unit)
    }

    /// Heat over a year, number alone: million Btu or kWh.
    pub fn year_heat(self, j: f64) -> String {
        match self.system {
            System::Us => format!("{:.1}", j / (1e6 * units::constants::BTU_IT_J)),
            System::Si => grouped((j / units::constants::KWH_J).round()),
        }
    }

    /// Unit of [`Say::year_heat`].
    pub fn year_heat_unit(self) -> &'static str {
        match self.system {
            System::Us => "MMBtu",
            System::Si => "kWh",
        }
    }

    /// Temperature, whole degrees (US) or tenths (SI), number alone.
    pub fn degrees(self, c: f64) -> String {
        if !c.is_finite() {
            return "-".to_owned();
        }
        let text = match self.system {
            System::Us => format!("{:.0}", c * 1.8 + 32.0),
            System::Si => format!("{c:.1}"),
        };
        if text
            .trim_start_matches('-')
            .chars()
            .all(|c| c == '0' || c == '.')
        {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        }
    }

    /// Temperature with its unit.
    pub fn temperature(self, c: f64) -> String {
        format!("{} {}", self.degrees(c), self.degree())
    }

    /// F or C.
    pub fn degree(self) -> &'static str {
        match self.system {
            System::Us => "F",
            System::Si => "C",
        }
    }
}

/// Whole number with commas between groups of three.
pub fn grouped(value: f64) -> String {
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

impl Say {
    /// Hours or other whole numbers, with commas.
    pub fn hours(hours: u32) -> String {
        grouped(f64::from(hours))
    }

    /// Heat flow per floor area, number alone: Btu/h per ft2 or W per m2.
    pub fn per_area(self, w: f64, m2: f64) -> String {
        match self.system {
            System::Us => {
                let ft = units::constants::FOOT_M;
                format!(
                    "{:.0}",
                    w / units::constants::BTU_PER_H_W / (m2 / (ft * ft))
                )
            }
            System::Si => format!("{:.0}", w / m2),
        }
    }
}
