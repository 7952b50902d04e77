//! `[[wall]]`: walls that are not like the rest.

use house::describe::{Compass, Side, WallNote};

use crate::cell::{Row, Value};
use crate::field::{Family, Kind, Table, may, must, usual};

pub(super) static TABLE: Table = Table {
    name: "wall",
    about: "One wall of a room that is not like the rest",
    label: &["room", "wall"],
    assumed: false,
    fields: &[
        must("room", Kind::Ref(Family::Room), "Room"),
        must(
            "wall",
            Kind::Side,
            "Which wall: plan direction it faces, or its number",
        ),
        may(
            "construction",
            Kind::Ref(Family::Construction),
            "Build-up, if not the usual",
        ),
        usual(
            "adiabatic",
            Kind::YesNo,
            "false",
            "No heat flows through (a shared wall to a heated neighbour)",
        ),
        usual("no_sun", Kind::YesNo, "false", "No sun reaches it"),
    ],
};

pub(super) fn read(row: &Row) -> WallNote {
    WallNote {
        room: row.words("room"),
        side: side(row),
        construction: row.text("construction").map(str::to_owned),
        adiabatic: row.yes("adiabatic"),
        no_sun: row.yes("no_sun"),
    }
}

/// Which wall is meant.
pub(super) fn side(row: &Row) -> Side {
    match row.cell("wall").map(|c| &c.value) {
        Some(Value::Whole(n)) => Side::Number(usize::try_from(*n).unwrap_or(1)),
        Some(Value::Text(t)) => Side::Facing(match t.as_str() {
            "east" => Compass::East,
            "south" => Compass::South,
            "west" => Compass::West,
            _ => Compass::North,
        }),
        _ => Side::Number(1),
    }
}
