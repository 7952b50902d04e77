//! `[leakage]`: from a blower-door test, or fixed air changes.

use house::describe::Leakage;
use units::Dim;

use super::Desk;
use crate::Job;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Kind, Table, may, usual};

pub(super) static TABLE: Table = Table {
    name: "leakage",
    about: "Air leakage: a blower-door test, or fixed air changes as test houses ask",
    label: &[],
    assumed: true,
    fields: &[
        may("blower_door", Kind::FlowAt, "Flow at a pressure"),
        usual(
            "exponent",
            Kind::Q(Dim::Ratio, 0.5, 1.0),
            "0.65",
            "Exponent of the test, if it was measured at several pressures",
        ),
        may(
            "air_changes",
            Kind::Q(Dim::AirChanges, 0.0, 50.0),
            "Fixed air changes per hour of each heated room",
        ),
    ],
};

pub(super) fn read(row: &Row, job: &mut Job, desk: &mut Desk) {
    let known = desk.known(row, "air leakage of the house");
    match (row.flow_at("blower_door"), row.si("air_changes")) {
        (Some((flow_m3_per_s, at_pa)), None) => {
            let exponent = row.si_or_0("exponent");
            job.house.leakage = Leakage::BlowerDoor {
                flow_m3_per_s,
                at_pa,
                exponent,
                known,
            };
        }
        (None, Some(per_h)) => job.house.leakage = Leakage::Fixed { per_h },
        (both, _) if both.is_some() || !(row.has("blower_door") || row.has("air_changes")) => {
            let says = Says::new(if both.is_some() {
                "leakage is given twice"
            } else {
                "nothing says how leaky the house is"
            })
            .allowed("either `blower_door` or `air_changes`")
            .mend("keep one, such as `blower_door = \"2100 cfm at 50 Pa\"`");
            desk.at(row, "air_changes", says);
        }
        _ => {}
    }
}
