//! **What it checks** The least a head gives is not more than its room asks on the design night.
//!
//! **Why it matters on site** Such a head is never in its working range, not even in the coldest
//! hour: it overheats the room, shuts off, and is heard doing it.
//!
//! **What to do** A smaller head, or none: a door left open or a panel heater serves so small a
//! room better.
//!
//! **Source** Trade finding 1, capability 3 (head minimum over the design load).

use reckon::{Finding, Level};

use super::{Say, heat, place_of_room, trade};
use crate::input::Input;
use crate::keys;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    let Some(design) = &year.design else { return };
    for unit in &year.units {
        for head in &unit.heads {
            let Some(room) = year.room(&head.room) else {
                continue;
            };
            // Where too few hours make a line the largest hour stands in.
            let need = room
                .need
                .map_or(room.heating_peak.w, |line| line.at(design.outdoor_c));
            let asked = if room.need.is_some() {
                "need-at-design"
            } else {
                "peak"
            };
            if !room.heated || head.min_w <= need {
                continue;
            }
            Say {
                rule: "head-minimum-over-load",
                level: Level::Fix,
                place: place_of_room(&room.name),
                says: format!(
                    "{}: the head gives more at its least than the room ever asks",
                    room.name
                ),
                found: format!(
                    "{} at least, {} asked",
                    heat(input, head.min_w),
                    heat(input, need)
                ),
                required: "a least output below the load of the room at design".to_owned(),
                mend: format!(
                    "A smaller head in {}, or an open door or panel heater instead.",
                    room.name
                ),
                would_tell: String::new(),
                figures: vec![
                    keys::of_room(&year.choice, &room.name, "head-least"),
                    keys::of_room(&year.choice, &room.name, asked),
                ],
                source: trade("trade finding 1, capability 3"),
            }
            .into(out);
        }
    }
}
