//! What a room loses on the design night, beside the finding that it has nothing to warm it.

use reckon::Finding;
use season::ROOM_TOO_COLD;
use units::{System, load_number, load_unit};

use crate::Loads;

/// The mend of a room that goes cold is a head or a heater, and this is its size.
pub(crate) fn beside(loads: &Loads, system: System, findings: &mut [Finding]) {
    for finding in findings.iter_mut().filter(|f| f.rule == ROOM_TOO_COLD) {
        let name = finding.place.trim_start_matches("room.");
        let Some(room) = loads.heating.rooms.iter().find(|r| r.room == name) else {
            continue;
        };
        finding.mend.push_str(&format!(
            " It loses {} {} on the design night.",
            load_number(room.heat_w, system),
            load_unit(system)
        ));
        finding.figures.push(room.key.clone());
    }
}
