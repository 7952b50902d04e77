//! **What it checks** The sheets of a system give a heating answer at all.
//!
//! **Why it matters on site** Without it the year counts the unit as giving nothing.
//!
//! **What to do** What the message says: the missing points, minimum or combination.
//!
//! **Source** Trade card F7.

use reckon::{Finding, Level};

use super::{Say, place_of_unit, trade};
use crate::input::Input;
use crate::year::Year;

pub(super) fn check(_input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for unit in &year.units {
        let Some(why) = &unit.no_heating else {
            continue;
        };
        Say {
            rule: "sheet-without-heating",
            level: Level::Ask,
            place: place_of_unit(&unit.name),
            says: format!("The sheet of {} cannot tell what it gives", unit.sheet),
            found: why.why.clone(),
            required: "points with least, rated and most heat and their power".to_owned(),
            mend: "Complete the sheet.".to_owned(),
            would_tell: why.would_tell.clone(),
            figures: Vec::new(),
            source: trade("trade card F7"),
        }
        .into(out);
    }
}
