//! `[[storey]]`.

use house::describe::{Over, Storey, Under};
use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Kind, Table, may, must, usual};

/// Thickness of a floor with its joists, m: common practice, no source.
const FLOOR_THICKNESS_M: f64 = 0.25;

pub(super) static TABLE: Table = Table {
    name: "storey",
    about: "A storey: rooms on it share floor level and ceiling height",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::NewName, "Name, unique"),
        may(
            "floor",
            Kind::Q(Dim::Length, -10.0, 50.0),
            "Floor level above grade, below zero for a basement; if not given, 0 for the first \
             storey and 0.25 m above the ceiling below for the others",
        ),
        must("ceiling", Kind::Q(Dim::Length, 1.0, 12.0), "Room height"),
        usual(
            "under",
            Kind::Word(&["ground", "crawl", "open air", "still air", "adiabatic"]),
            "ground",
            "What is under those parts that have no room under them; `still air` is outdoor air \
             without wind, for test houses",
        ),
        usual(
            "over",
            Kind::Word(&["attic", "flat roof", "sloped roof", "adiabatic"]),
            "attic",
            "What is over those parts that have no room over them",
        ),
        may(
            "pitch",
            Kind::Q(Dim::Angle, 0.0, 1.3),
            "Pitch of a sloped roof",
        ),
    ],
};

pub(super) fn read<'r>(rows: impl Iterator<Item = &'r Row>, desk: &mut Desk) -> Vec<Storey> {
    let mut storeys: Vec<Storey> = Vec::new();
    for row in rows {
        let next = storeys
            .last()
            .map_or(0.0, |s| s.floor_m + s.ceiling_m + FLOOR_THICKNESS_M);
        let sloped = row.text("over") == Some("sloped roof");
        if sloped != row.has("pitch") {
            let says = if sloped {
                Says::new("a sloped roof needs its pitch")
                    .got("over = \"sloped roof\"")
                    .allowed("with a line `pitch`")
                    .mend("add a line `pitch = \"30 deg\"`")
            } else {
                Says::new("only a sloped roof has a pitch here")
                    .got("pitch")
                    .allowed("with `over = \"sloped roof\"`")
                    .mend("take the pitch out, or write `over = \"sloped roof\"`")
            };
            desk.at(row, if sloped { "over" } else { "pitch" }, says);
        }
        storeys.push(Storey {
            name: row.words("name"),
            floor_m: row.si("floor").unwrap_or(next),
            ceiling_m: row.si_or_0("ceiling"),
            under: match row.text("under") {
                Some("crawl") => Under::Crawl,
                Some("open air") => Under::OpenAir,
                Some("still air") => Under::StillAir,
                Some("adiabatic") => Under::Adiabatic,
                _ => Under::Ground,
            },
            over: match row.text("over") {
                Some("flat roof") => Over::FlatRoof,
                Some("sloped roof") => Over::Sloped {
                    pitch_deg: row.si_or_0("pitch").to_degrees(),
                },
                Some("adiabatic") => Over::Adiabatic,
                _ => Over::Attic,
            },
        });
    }
    storeys
}
