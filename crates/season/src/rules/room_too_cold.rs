//! **What it checks** A room people live or sleep in, with a heating setting but no head and no
//! heater of its own, stays at 62 F or more through the three coldest days, doors as usual, if
//! the boiler or furnace does not call.
//!
//! **Why it matters on site** A head warms the room it blows into. A boiler left in with one
//! thermostat never calls while the heat pump holds that thermostat's room, and the bedrooms behind
//! shut doors go cold: the call comes in the first cold week.
//!
//! **What to do** A head or a small panel heater in the room, or a zone of its own with its own
//! thermostat for the boiler, or a transfer fan; or the owner's name under the temperature.
//!
//! **Source** Trade card F11 (flag below 62 F), finding 7.

use house::describe::Use;
use reckon::{Finding, Level};

use super::{Say, counted, f, place_of_room, trade};
use crate::input::Input;
use crate::keys;
use crate::run::TOO_COLD_C;
use crate::year::{RoomYear, Year};

/// This rule's name in a finding. Who adds to what it says (the plan knows how large a heater has to
/// be) finds it by this.
pub const RULE: &str = "room-too-cold";

/// Room hours under 62 F in the whole year that make a room without any heater too cold.
const MANY_HOURS: u32 = 24;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for room in year.rooms.iter().filter(|r| r.heated && !r.own_heater) {
        let Some(alone_c) = room.heads_alone_c else {
            continue;
        };
        let lives = matches!(room.used_for, Use::Living | Use::Sleeping | Use::Kitchen);
        let hours = if room.heaters == 0 {
            room.under_62f_h
        } else {
            0
        };
        if alone_c >= TOO_COLD_C && hours <= MANY_HOURS {
            continue;
        }
        let level = match (lives, room.heads) {
            (true, 0) => Level::Stop,
            // With a head of its own and a boiler beside, the boiler answers where it matters.
            (_, n) if n > 0 && room.heaters > 0 => continue,
            (true, _) => Level::Stop,
            (false, _) => Level::Fix,
        };
        Say {
            rule: RULE,
            level,
            place: place_of_room(&room.name),
            says: says(room),
            found: found(input, room, alone_c),
            required: format!(
                "{} or more in a room people live or sleep in",
                f(input, TOO_COLD_C)
            ),
            mend: mend(room),
            would_tell: String::new(),
            figures: vec![
                keys::of_room(&year.choice, &room.name, "heads-alone"),
                keys::of_room(&year.choice, &room.name, "least"),
            ],
            source: trade("trade card F11: flag below 62 F"),
        }
        .into(out);
    }
}

fn says(room: &RoomYear) -> String {
    if room.heads > 0 {
        format!("{}: its head does not keep it warm", room.name)
    } else if room.heaters > 0 {
        format!(
            "{} has no head: it is warm only while the boiler or furnace calls for it",
            room.name
        )
    } else {
        format!("{} has no head and goes cold", room.name)
    }
}

fn found(input: &Input<'_>, room: &RoomYear, alone_c: f64) -> String {
    let mut text = format!(
        "{} in the three coldest days by the heads alone",
        f(input, alone_c)
    );
    if room.heaters == 0 {
        text = format!(
            "{text}; {} hours of the year under {}",
            counted(room.under_62f_h),
            f(input, TOO_COLD_C)
        );
    }
    text
}

/// Without a size: what heaters gave here over the year was given to a set-back room with warm ones
/// beside it, and nothing where none is. The plan says what the room loses on the design night.
fn mend(room: &RoomYear) -> String {
    let thermostat = if room.heaters > 0 {
        ", or a boiler zone with its own thermostat there"
    } else {
        ""
    };
    format!("A head or a panel heater in {}{thermostat}.", room.name)
}
