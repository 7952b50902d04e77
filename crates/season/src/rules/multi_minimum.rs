//! **What it checks** An outdoor unit with several heads can turn down to what its smallest room
//! asks when only that room calls, half way into the winter.
//!
//! **Why it matters on site** The bedroom that calls alone at night gets the least of the whole
//! outdoor unit, not of its own head.
//!
//! **What to do** Rooms of like load on one outdoor unit, or the small room on a unit of its own.
//!
//! **Source** Trade finding 1; capability 3 (smallest single call).

use reckon::{Finding, Level};

use super::{Say, heat, place_of_unit, trade};
use crate::input::Input;
use crate::keys;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    let Some(design) = &year.design else { return };
    for unit in year.units.iter().filter(|u| u.heads.len() > 1) {
        let smallest = unit
            .heads
            .iter()
            .filter_map(|h| {
                let room = year.room(&h.room).filter(|r| r.heated)?;
                Some((&room.name, room.need?.at(design.outdoor_c)))
            })
            .min_by(|a, b| a.1.total_cmp(&b.1));
        let (Some((room, need)), Some(least)) = (smallest, unit.least_w) else {
            continue;
        };
        if least <= need {
            continue;
        }
        Say {
            rule: "multi-zone-minimum",
            level: Level::Fix,
            place: place_of_unit(&unit.name),
            says: format!(
                "{} cannot turn down to what {room} asks when it calls alone",
                unit.name
            ),
            found: format!(
                "{} least with one head calling; {room} asks {} on the design night",
                heat(input, least),
                heat(input, need)
            ),
            required: "a least output below the load of its smallest room".to_owned(),
            mend: format!("Put {room} on a unit of its own, or choose a smaller outdoor unit."),
            would_tell: String::new(),
            figures: vec![
                keys::of_unit(&year.choice, &unit.name, "least"),
                keys::of_room(&year.choice, room, "need-at-design"),
            ],
            source: trade("trade finding 1, capability 3"),
        }
        .into(out);
    }
}
