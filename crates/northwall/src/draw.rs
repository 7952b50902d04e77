//! Which chart a command writes.

use plan::Plan;
use season::Year;

use crate::files::Loaded;
use crate::say::Say;

/// Capacity against need, with the hours beneath.
pub fn capacity(plan: &Plan, _loaded: &Loaded, say: Say) -> Option<String> {
    plan::draw::capacity(plan, plan.year()?, say.system)
}

/// The plan of each storey.
pub fn storeys(plan: &Plan, loaded: &Loaded, say: Say) -> Option<String> {
    plan::draw::storeys(plan, &loaded.job, say.system)
}

/// Losses of the rooms.
pub fn bars(plan: &Plan, say: Say) -> Option<String> {
    plan::draw::bars(plan, say.system)
}

/// The year as a field of hours.
pub fn year(plan: &Plan, year: Option<&Year>, _loaded: &Loaded, say: Say) -> Option<String> {
    plan::draw::year(plan, year, say.system)
}

/// Places on the plan, lines and drains from the side, circuits, the list.
pub fn installation(
    loaded: &Loaded,
    plan: &Plan,
    part: crate::installation::Part,
    say: Say,
) -> Option<String> {
    use crate::installation::Part;
    match part {
        Part::Place => plan::draw::placed(plan, &loaded.job, say.system),
        Part::Lines => plan::draw::side(plan, &loaded.job, say.system),
        Part::Wires => plan::draw::circuit(plan, &loaded.job, say.system),
        Part::List => plan::draw::bring(plan),
    }
}
