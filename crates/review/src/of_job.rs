//! Bills that stand in the job itself.

use jobfile::{Carrier, Job};

use crate::calendar::read_iso;
use crate::{Bills, Period, Refused};

/// Day the heat pump began to heat, where the job says it.
pub fn installed(job: &Job) -> Option<i32> {
    job.winters.installed.as_deref().and_then(read_iso)
}

impl Bills {
    /// What speaks of the house alone: what was bought before a heat pump heated; all of it where
    /// no day is said. Electricity behind panels is marked so. None where nothing is left.
    #[must_use]
    pub fn of_the_house(mut self, job: &Job, installed: Option<i32>) -> Option<Self> {
        if let Some(day) = installed {
            self = self.within(i32::MIN, day);
        }
        self.behind_sun |= self.carrier == Carrier::Electricity && job.winters.sun;
        (!self.periods.is_empty()).then_some(self)
    }

    /// The `[[bill]]` entries of a carrier; none where the job has none.
    ///
    /// # Errors
    /// As [`Bills::from_exact`].
    pub fn of_job(job: &Job, carrier: Carrier) -> Result<Option<Self>, Refused> {
        let mine = job.bills.iter().filter(|b| b.carrier == carrier);
        let periods: Vec<Period> = mine
            .filter_map(|b| {
                let line = job
                    .places
                    .of(&format!("bill.{} {}", carrier.word(), b.from));
                Some(Period {
                    from: read_iso(&b.from)?,
                    to: read_iso(&b.to)?,
                    energy_j: b.energy_j,
                    estimated: b.estimated,
                    line: line.map_or(0, |s| s.line),
                })
            })
            .collect();
        if periods.is_empty() {
            return Ok(None);
        }
        let mut bills = Self::from_exact(carrier, periods, Vec::new())?;
        bills.deliveries = matches!(carrier, Carrier::Oil | Carrier::Propane | Carrier::Wood);
        Ok(Some(bills))
    }
}
