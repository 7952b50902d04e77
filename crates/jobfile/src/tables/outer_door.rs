//! `[[outer_door]]`: doors to outside.

use house::describe::OuterDoor;
use units::Dim;

use super::{Desk, wall};
use crate::cell::Row;
use crate::field::{Family, Kind, Table, must, usual};

pub(super) static TABLE: Table = Table {
    name: "outer_door",
    about: "A door to outside",
    label: &["room", "wall"],
    assumed: true,
    fields: &[
        must("room", Kind::Ref(Family::Room), "Room"),
        must(
            "wall",
            Kind::Side,
            "Which wall: plan direction it faces, or its number",
        ),
        usual("width", Kind::Q(Dim::Length, 0.3, 6.0), "36 in", "Width"),
        usual("height", Kind::Q(Dim::Length, 0.5, 5.0), "80 in", "Height"),
        must(
            "u",
            Kind::Q(Dim::UValue, 0.05, 8.0),
            "U-value, films included",
        ),
    ],
};

pub(super) fn read(row: &Row, desk: &mut Desk) -> OuterDoor {
    OuterDoor {
        room: row.words("room"),
        side: wall::side(row),
        width_m: row.si_or_0("width"),
        height_m: row.si_or_0("height"),
        u_w_per_m2k: row.si_or_0("u"),
        known: desk.known(
            row,
            format!("size and U-value of the outer door {}", row.name),
        ),
    }
}
