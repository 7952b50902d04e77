//! Bills that stand in the job itself.

use jobfile::{Carrier, Job};

use crate::calendar::read_iso;
use crate::{Bills, Period, Refused};

impl Bills {
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
