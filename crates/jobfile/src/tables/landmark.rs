//! `[[landmark]]`: what stands around the house and bears on where an outdoor unit may stand.

use units::Dim;

use super::install::point;
use crate::cell::Row;
use crate::field::{Kind, Table, may, must};
use crate::job::Landmark;

/// What a landmark may be.
pub(super) static WHAT: [&str; 11] = [
    "gas_regulator",
    "dryer",
    "intake",
    "meter",
    "disconnect",
    "walk",
    "lot_line",
    "wall",
    "eave",
    "valley",
    "drift",
];

pub(super) static TABLE: Table = Table {
    name: "landmark",
    about: "Something around the house, on the plan: every distance to it is then measured there",
    label: &["what", "name"],
    assumed: false,
    fields: &[
        must("what", Kind::Word(&WHAT), "What it is"),
        may("name", Kind::Text, "Name, where there are several"),
        must(
            "at",
            Kind::Point,
            "On the plan, east and north; one end of a line",
        ),
        may(
            "to",
            Kind::Point,
            "Other end: of a lot line, a walk, an eave, a wall or fence",
        ),
        may(
            "throws_back",
            Kind::Q(Dim::Share, 0.0, 1.0),
            "Share of sound a wall throws back; a flat hard wall 100 %",
        ),
    ],
};

pub(super) fn landmark(row: &Row) -> Landmark {
    Landmark {
        what: row.words("what"),
        name: row.text("name").map(str::to_owned),
        at_m: row.cell("at").and_then(point).unwrap_or_default(),
        to_m: row.cell("to").and_then(point),
        throws_back: row.si("throws_back"),
    }
}
