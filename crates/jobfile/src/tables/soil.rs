//! `[soil]`: the ground under and around.

use house::describe::Soil;
use reckon::Known;
use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::field::{Kind, Table, VOLUME_HEAT, may, usual};
use crate::{Given, Job};

pub(super) static TABLE: Table = Table {
    name: "soil",
    about: "The ground under and around the house",
    label: &[],
    assumed: true,
    fields: &[
        usual(
            "kind",
            Kind::Word(&["clay", "sand", "rock"]),
            "sand",
            "Soil of ISO 13370 table 7: clay or silt, sand or gravel, homogeneous rock",
        ),
        may(
            "k",
            Kind::Q(Dim::Conductivity, 0.1, 10.0),
            "Conductivity, if not that of the kind",
        ),
        may(
            "capacity",
            Kind::Odd(&VOLUME_HEAT, 1e5, 1e7),
            "Heat capacity per volume, if not that of the kind",
        ),
        usual(
            "wall_thickness",
            Kind::Q(Dim::Length, 0.0, 3.0),
            "12 in",
            "Thickness of the wall at the edge of the floor",
        ),
    ],
};

/// Conductivity W/(m K) and heat capacity J/(m3 K) by kind: ISO 13370 table 7.
fn of_kind(kind: Option<&str>) -> (f64, f64) {
    let usual = Soil::default();
    let of_table = Soil::KINDS.iter().find(|(word, ..)| Some(*word) == kind);
    of_table.map_or(
        (usual.k_w_per_mk, usual.capacity_j_per_m3k),
        |(_, k, capacity)| (*k, *capacity),
    )
}

pub(super) fn read(row: Option<&Row>, job: &mut Job, desk: &mut Desk) {
    let what = "conductivity and heat capacity of the ground";
    let Some(row) = row else {
        job.house.soil = Soil::default();
        desk.given.push(Given {
            path: "soil".to_owned(),
            known: Known::Assumed,
            how: String::new(),
            what: what.to_owned(),
        });
        return;
    };
    desk.known(row, what);
    let (k, capacity) = of_kind(row.text("kind"));
    job.house.soil = Soil {
        k_w_per_mk: row.si("k").unwrap_or(k),
        capacity_j_per_m3k: row.si("capacity").unwrap_or(capacity),
        wall_thickness_m: row.si_or_0("wall_thickness"),
    };
}
