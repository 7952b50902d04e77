//! Sets of units: for the view, and in words.

use jobfile::Equipment;
use season::choose::Against;

use crate::view::{AgainstView, DifferenceView, HeadOfView, MeasureView, SystemOfView};

/// Outdoor units with their heads.
pub fn systems(equipment: &Equipment) -> Vec<SystemOfView> {
    equipment
        .outdoors
        .iter()
        .map(|outdoor| SystemOfView {
            outdoor: outdoor.unit.clone(),
            heads: equipment
                .heads_on(&outdoor.name)
                .map(|h| HeadOfView {
                    room: h.room.clone(),
                    unit: h.unit.clone(),
                })
                .collect(),
        })
        .collect()
}

/// Another set and how it differs.
pub fn against(of: &Against, measure: MeasureView) -> AgainstView {
    AgainstView {
        units: systems(&of.choice.equipment),
        measure,
        differs: of
            .differs
            .iter()
            .map(|(aim, by)| DifferenceView {
                aim: aim.word(),
                by: *by,
            })
            .collect(),
    }
}

/// `Loon 12 (living: Teal 12), Loon 9 (landing: Teal 9)`.
pub fn words(equipment: &Equipment) -> String {
    let systems = equipment.outdoors.iter().map(|outdoor| {
        let heads: Vec<String> = equipment
            .heads_on(&outdoor.name)
            .map(|h| format!("{}: {}", h.room, h.unit))
            .collect();
        format!("{} ({})", outdoor.unit, heads.join(", "))
    });
    systems.collect::<Vec<_>>().join("; ")
}
