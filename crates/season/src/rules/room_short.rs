//! **What it checks** A room with a head is not more than 2 K under its setting for over 50 hours
//! of the year.
//!
//! **Why it matters on site** Head or outdoor unit is too small for it, or the night set-back is
//! deeper than the unit can climb out of.
//!
//! **What to do** A larger head, less set-back, or a backup set higher.
//!
//! **Source** Common practice, no source.

use reckon::{Finding, Level};

use super::{Say, counted, f, place_of_room, steps, trade};
use crate::input::Input;
use crate::keys;
use crate::year::Year;

/// Hours a year that are let pass: set-back mornings and the coldest night.
const MOST_HOURS: u32 = 50;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for room in &year.rooms {
        if room.heads == 0 || room.short_2k_h <= MOST_HOURS {
            continue;
        }
        Say {
            rule: "room-short",
            level: Level::Fix,
            place: place_of_room(&room.name),
            says: format!("{} stays under its setting in spite of its head", room.name),
            found: format!(
                "{} hours more than {} under; down to {}",
                counted(room.short_2k_h),
                steps(input, 2.0),
                f(input, room.least_c)
            ),
            required: format!("{MOST_HOURS} hours a year or less"),
            mend: "A larger head or outdoor unit, less set-back, or the backup set higher."
                .to_owned(),
            would_tell: String::new(),
            figures: vec![
                keys::of_room(&year.choice, &room.name, "hours-short-2k"),
                keys::of_room(&year.choice, &room.name, "least"),
            ],
            source: trade("hours short of the setting"),
        }
        .into(out);
    }
}
