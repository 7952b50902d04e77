//! **What it checks** Which rooms with a setting have neither head nor heater and still stay
//! above 62 F.
//!
//! **Why it matters on site** They follow the rooms beside them: nobody can set them, and a shut
//! door changes them.
//!
//! **What to do** Tell the owner the range, before the first winter.
//!
//! **Source** Trade card F11.

use reckon::{Finding, Level};

use super::{Say, counted, f, place_of_room, steps, trade};
use crate::input::Input;
use crate::keys;
use crate::run::TOO_COLD_C;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for room in &year.rooms {
        let floats = room.heated && room.heads == 0 && room.heaters == 0;
        // Colder ones have a louder finding.
        let warm = room.heads_alone_c.is_some_and(|c| c >= TOO_COLD_C);
        if !floats || !warm {
            continue;
        }
        Say {
            rule: "room-floats",
            level: Level::Note,
            place: place_of_room(&room.name),
            says: format!(
                "{} has no heat of its own and follows its neighbours",
                room.name
            ),
            found: format!(
                "{} at least, {} hours more than {} under its setting",
                f(input, room.least_c),
                counted(room.short_2k_h),
                steps(input, 2.0)
            ),
            required: "told to the owner".to_owned(),
            mend: "Keep its door open, or give it a heater.".to_owned(),
            would_tell: String::new(),
            figures: vec![
                keys::of_room(&year.choice, &room.name, "least"),
                keys::of_room(&year.choice, &room.name, "hours-short-2k"),
            ],
            source: trade("trade card F11"),
        }
        .into(out);
    }
}
