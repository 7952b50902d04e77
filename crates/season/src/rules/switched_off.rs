//! **What it checks** Whether the owner means to switch the heat pump off in the cold.
//!
//! **Why it matters on site** Half of owners do it by 15 F: the heat promised is then not
//! delivered, and the fuel saved is not saved.
//!
//! **What to do** Show the owner the balance temperature; a unit made for cold is worth running.
//!
//! **Source** Trade finding 8 (a state evaluation of 2024, by newspaper).

use reckon::{Finding, Level};

use super::{Say, counted, f, trade};
use crate::input::Input;
use crate::keys;
use crate::regime::Regime;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    let Some(below_c) = input.job.habits.off_below_c else {
        return;
    };
    if year.units.is_empty() {
        return;
    }
    let hours = year
        .units
        .iter()
        .map(|u| u.hours_in(Regime::SwitchedOff))
        .max()
        .unwrap_or(0);
    Say {
        rule: "switched-off-in-cold",
        level: Level::Note,
        place: "habits.off_below".to_owned(),
        says: format!(
            "The owner switches the heat pump off below {}",
            f(input, below_c)
        ),
        found: format!("{} hours of the year without it", counted(hours)),
        required: "on all winter, if it carries the house".to_owned(),
        mend: "Show the owner at which temperature the backup is needed and at which cheaper."
            .to_owned(),
        would_tell: String::new(),
        figures: year
            .units
            .iter()
            .map(|u| keys::of_unit(&year.choice, &u.name, "hours-switched-off"))
            .collect(),
        source: trade("trade finding 8"),
    }
    .into(out);
}
