//! **What it checks** A room with a head has a heating setting.
//!
//! **Why it matters on site** Without one the year cannot run the head, and the room shows as
//! unheated.
//!
//! **What to do** Write the setting the people keep there.
//!
//! **Source** The job file.

use reckon::{Finding, Level, Source};

use super::{Say, place_of_room};
use crate::input::Input;
use crate::year::Year;

pub(super) fn check(_input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for room in year.rooms.iter().filter(|r| r.heads > 0 && !r.heated) {
        Say {
            rule: "head-without-setting",
            level: Level::Ask,
            place: place_of_room(&room.name),
            says: format!("{} has a head and no heating setting", room.name),
            found: "no heated_to".to_owned(),
            required: "the temperature the room is kept at".to_owned(),
            mend: format!("Write heated_to = \"70 F\" in room {}.", room.name),
            would_tell: "Ask how warm the people keep it.".to_owned(),
            figures: Vec::new(),
            source: Source::new("job", format!("room.{}.heated_to", room.name)),
        }
        .into(out);
    }
}
