//! What the sheet asks of a vacuum.

use serde::Serialize;

use super::MICRON_PA;
use crate::wrong::{Wrong, within};

/// The criterion of the unit's own sheet; manuals differ, so there is no default.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Criterion {
    /// Pull down to this before the pump is shut off, Pa absolute.
    pub reach_pa: f64,
    /// Stay at or below this, Pa absolute.
    pub limit_pa: f64,
    /// For so long, s.
    pub hold_s: f64,
    /// Sheet and page.
    pub source: String,
}

impl Criterion {
    pub(crate) fn checked(&self) -> Result<(), Wrong> {
        let micron = |pa: f64| pa / MICRON_PA;
        within(
            "vacuum to reach",
            "micron",
            micron(self.reach_pa),
            50.0,
            5_000.0,
        )?;
        within(
            "limit of the hold",
            "micron",
            micron(self.limit_pa),
            50.0,
            10_000.0,
        )?;
        within("hold", "s", self.hold_s, 60.0, 172_800.0)?;
        if self.limit_pa < self.reach_pa {
            return Err(Wrong::new(
                "limit of the hold",
                format!("{:.0} micron", micron(self.limit_pa)),
                format!("at least the {:.0} micron to reach", micron(self.reach_pa)),
            ));
        }
        if self.source.trim().is_empty() {
            return Err(Wrong::new(
                "source of the vacuum criterion",
                "empty",
                "the unit's own sheet and its page: sheets differ",
            ));
        }
        Ok(())
    }
}

/// Steps of a triple evacuation, where the sheet asks for it or the hold shows water.
pub fn triple(criterion: &Criterion) -> Vec<String> {
    let last = criterion.reach_pa / MICRON_PA;
    let hold = crate::stamp::span(criterion.hold_s);
    vec![
        "Pull to 1,500 micron or lower, gauge on the system; shut the pump off.".to_owned(),
        "Break with dry nitrogen to 2 psi above the air; wait 10 min so that it takes up water; let it off.".to_owned(),
        "Pull to 1,000 micron or lower; shut the pump off.".to_owned(),
        "Break with dry nitrogen again; wait 10 min; let it off.".to_owned(),
        format!("Change wet pump oil; pull to {last:.0} micron; shut off; hold {hold} and read."),
    ]
}
