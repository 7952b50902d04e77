//! Numbers in the system of units asked for.

use units::{Dim, System, column_unit, show, show_figure, show_number};

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

    /// As the job asks; `--si` was written into it when it was read.
    pub fn for_job(job: &jobfile::Job) -> Self {
        Self { system: job.units }
    }

    /// Value and unit.
    pub fn of(self, value: f64, dim: Dim) -> String {
        show(value, dim, self.system)
    }

    /// A figure of the plan: a heat flow as [`Say::load`], anything else as [`Say::of`].
    pub fn figure(self, value: f64, dim: Dim) -> String {
        show_figure(value, dim, self.system)
    }

    /// The number alone, for a column.
    pub fn number(self, value: f64, dim: Dim) -> String {
        show_number(value, dim, self.system).0
    }

    /// The unit of a column.
    pub fn unit(self, dim: Dim) -> &'static str {
        column_unit(dim, self.system)
    }

    /// Heat flow with the digits a load deserves: tens of W or of Btu/h.
    pub fn load(self, w: f64) -> String {
        format!("{} {}", self.load_number(w), self.load_unit())
    }

    /// As [`Say::load`], the number alone.
    pub fn load_number(self, w: f64) -> String {
        units::load_number(w, self.system)
    }

    /// The unit of [`Say::load_number`], for the head of a column: W, where [`Say::unit`] of a
    /// power is kW.
    pub fn load_unit(self) -> &'static str {
        units::load_unit(self.system)
    }

    /// Heat over a year, number alone: million Btu or kWh.
    pub fn year_heat(self, j: f64) -> String {
        match self.system {
            System::Us => self.number(j, Dim::Heat),
            // a column of years is whole: no room's 98.5 beside another's 1,204
            System::Si => units::whole(j / units::constants::KWH_J),
        }
    }

    /// Unit of [`Say::year_heat`].
    pub fn year_heat_unit(self) -> &'static str {
        self.unit(Dim::Heat)
    }

    /// Temperature, whole degrees (US) or tenths (SI), number alone.
    pub fn degrees(self, c: f64) -> String {
        units::degrees(c, self.system)
    }

    /// Temperature with its unit.
    pub fn temperature(self, c: f64) -> String {
        format!("{} {}", self.degrees(c), self.degree())
    }

    /// F or C.
    pub fn degree(self) -> &'static str {
        units::degree(self.system)
    }
}

impl Say {
    /// Hours or other whole numbers, with commas.
    pub fn hours(hours: u32) -> String {
        units::whole(f64::from(hours))
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
