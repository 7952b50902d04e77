//! **What it checks** What an outdoor unit gives at the design temperature covers what its rooms
//! ask there.
//!
//! **Why it matters on site** On the night the unit is bought for, the rooms fall below their
//! setting or the backup runs.
//!
//! **What to do** A larger unit, less loss, or a backup of at least the difference.
//!
//! **Source** Trade cards F8 and F10.

use reckon::{Finding, Level};

use super::{Say, f, heat, place_of_unit, trade};
use crate::input::Input;
use crate::keys;
use crate::year::Year;

/// Differences of less than this share are within what a load is known to.
const SLACK: f64 = 0.02;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    let Some(design) = &year.design else { return };
    for unit in &year.units {
        let (Some(gives), Some(need)) = (unit.at_design, unit.need_at_design_w) else {
            continue;
        };
        if gives.max_w >= need * (1.0 - SLACK) {
            continue;
        }
        let backed = unit
            .heads
            .iter()
            .all(|h| year.room(&h.room).is_some_and(|r| r.heaters > 0));
        let short = need - gives.max_w;
        Say {
            rule: "short-at-design",
            level: if backed { Level::Note } else { Level::Stop },
            place: place_of_unit(&unit.name),
            says: if backed {
                format!("{} needs its backup on the design night", unit.name)
            } else {
                format!(
                    "{} is short on the design night, and nothing backs it",
                    unit.name
                )
            },
            found: format!(
                "gives {} at {}, asked {}",
                heat(input, gives.max_w),
                f(input, design.outdoor_c),
                heat(input, need)
            ),
            required: format!(
                "{} or a backup of {}",
                heat(input, need),
                heat(input, short)
            ),
            mend: format!(
                "A larger unit, or a heater of {} in its rooms.",
                heat(input, short)
            ),
            would_tell: String::new(),
            figures: ["short-at-design", "balance"]
                .into_iter()
                .filter(|what| *what != "balance" || unit.balance.at_c().is_some())
                .map(|what| keys::of_unit(&year.choice, &unit.name, what))
                .collect(),
            source: trade("trade cards F8, F10"),
        }
        .into(out);
    }
}
