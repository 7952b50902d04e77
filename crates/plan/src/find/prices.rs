//! **What it checks** A price in dollars is one that energy can have.
//!
//! **Why it matters on site** Cents typed as dollars make every year a hundred times too dear, and the
//! switchover with it.
//!
//! **What to do** Look at the bill again.
//!
//! **Source** Common practice, no source.

use jobfile::Job;
use reckon::{Finding, Level, Source};
use units::{Dim, show};

/// Dearest and cheapest energy that is not asked about, $ per kWh bought: a far village's diesel
/// power is near the one, wood of one's own county near the other.
const DEAREST_PER_KWH: f64 = 1.5;
const CHEAPEST_PER_KWH: f64 = 0.005;

pub(super) fn check(job: &Job, out: &mut Vec<Finding>) {
    let prices = &job.prices;
    if prices.currency != "$" {
        return;
    }
    for (carrier, price) in &prices.by_carrier {
        let per_kwh = price.per_j * units::constants::KWH_J;
        if (CHEAPEST_PER_KWH..=DEAREST_PER_KWH).contains(&per_kwh) {
            continue;
        }
        let shown = |per_kwh: f64| {
            let per_j = per_kwh / units::constants::KWH_J;
            show(per_j, Dim::EnergyPrice, job.units)
        };
        out.push(Finding {
            rule: "price-unlikely".to_owned(),
            level: Level::Ask,
            place: format!("prices.{}", carrier.word()),
            says: format!("No {} is sold at this price.", carrier.word()),
            found: format!("{}, which is {}", price.typed, shown(per_kwh)),
            required: format!("{} to {}", shown(CHEAPEST_PER_KWH), shown(DEAREST_PER_KWH)),
            mend: "Look whether cents were typed as dollars, and at the unit it is sold in."
                .to_owned(),
            would_tell: "The last bill would tell.".to_owned(),
            figures: Vec::new(),
            source: Source::new("common-practice", "prices of energy"),
        });
    }
}
