//! `[[outdoor]]`, `[[head]]` and `[[option]]`: equipment by its names in the catalogue.

use reckon::in_key;

use super::{Desk, PLACED, install};
use crate::cell::Row;
use crate::check::{Says, nearest};
use crate::field::{Family, Field, Kind, Table, may, must};
use crate::{CHOSEN, Choice, Equipment, HeadChoice, HeaterKind, OutdoorChoice};

const UNIT: Field = must("unit", Kind::Text, "Name of its sheet in the catalogue");
const SERIAL: Field = may("serial", Kind::Text, "Serial number, once installed");

pub(super) static OUTDOOR: Table = Table {
    name: "outdoor",
    about: "An outdoor unit",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::NewName, "Name in this job"),
        UNIT,
        SERIAL,
    ],
};

pub(super) static HEAD: Table = Table {
    name: "head",
    about: "A head in a room, on an outdoor unit",
    label: &["room"],
    assumed: false,
    fields: &[
        may(
            "name",
            Kind::NewName,
            "Name in this job; the room's name if not given",
        ),
        must("room", Kind::Ref(Family::Room), "Room it blows into"),
        UNIT,
        must("on", Kind::Text, "Name of the outdoor unit it hangs on"),
        SERIAL,
    ],
};

pub(super) static OPTION: Table = Table {
    name: "option",
    about: "Another choice of equipment, to set beside the chosen one",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::NewName, "Name of the option"),
        must("outdoors", Kind::Rows(&OUTDOOR), "Outdoor units"),
        must("heads", Kind::Rows(&HEAD), "Heads"),
        may(
            "outdoor_places",
            Kind::Rows(&install::OUTDOOR),
            "Where its outdoor units stand, once it is taken",
        ),
        may(
            "head_places",
            Kind::Rows(&install::HEAD),
            "Where its heads hang, once it is taken",
        ),
        may(
            "lines",
            Kind::Rows(&install::LINE),
            "Refrigerant lines of its heads, once it is taken",
        ),
        may(
            "drains",
            Kind::Rows(&install::DRAIN),
            "Drains of its heads, once it is taken",
        ),
        may(
            "circuits",
            Kind::Rows(&install::CIRCUIT),
            "Circuits of its outdoor units, once it is taken",
        ),
    ],
};

/// The equipment chosen.
pub(super) fn read(file: &Row, desk: &mut Desk) -> Equipment {
    together(file.rows("outdoor"), file.rows("head"), desk)
}

/// The options.
pub(super) fn options(file: &Row, desk: &mut Desk) -> Vec<Choice> {
    file.rows("option")
        .map(|row| {
            unlike_the_others(row, desk);
            for p in &PLACED {
                install::once(row, p.kept, p.of, desk);
            }
            Choice {
                name: row.words("name"),
                equipment: together(row.rows("outdoors"), row.rows("heads"), desk),
            }
        })
        .collect()
}

/// What is chosen, and what heats now alone, stand beside the options under these names.
fn unlike_the_others(row: &Row, desk: &mut Desk) {
    let mut taken = vec![CHOSEN.to_owned()];
    taken.extend(HeaterKind::ALL.map(HeaterKind::alone));
    let name = row.words("name");
    if taken.iter().any(|t| in_key(t) == in_key(&name)) {
        let says = Says::new("an option may not have this name, the program gives it itself")
            .got(format!("\"{name}\""))
            .allowed(format!("any name but {}", taken.join(", ")))
            .mend("give the option another name");
        desk.at(row, "name", says);
    }
}

fn together<'r>(
    outdoors: impl Iterator<Item = &'r Row>,
    heads: impl Iterator<Item = &'r Row>,
    desk: &mut Desk,
) -> Equipment {
    let rows: Vec<&Row> = outdoors.collect();
    let outdoors: Vec<OutdoorChoice> = rows
        .iter()
        .map(|row| OutdoorChoice {
            name: row.words("name"),
            unit: row.words("unit"),
            serial: row.text("serial").map(str::to_owned),
        })
        .collect();
    let names: Vec<&str> = outdoors.iter().map(|o| o.name.as_str()).collect();
    let mut chosen = Vec::new();
    for row in heads {
        let on = row.words("on");
        if !on.is_empty() && !names.contains(&on.as_str()) {
            let mend = match nearest(&on, names.iter().copied()) {
                Some(near) => format!("did you mean \"{near}\"?"),
                None => "add an outdoor unit of this name, or name one that is there".to_owned(),
            };
            let allowed = if names.is_empty() {
                "none: there is no outdoor unit".to_owned()
            } else {
                names.join(", ")
            };
            let says = Says::new("there is no outdoor unit of this name")
                .got(format!("\"{on}\""))
                .allowed(allowed)
                .mend(mend);
            desk.at(row, "on", says);
        }
        chosen.push(HeadChoice {
            name: row.name.clone(),
            room: row.words("room"),
            unit: row.words("unit"),
            on,
            serial: row.text("serial").map(str::to_owned),
        });
    }
    for (row, outdoor) in rows.iter().zip(&outdoors) {
        if !outdoor.name.is_empty() && !chosen.iter().any(|h| h.on == outdoor.name) {
            let says = Says::new("no head hangs on this outdoor unit")
                .got(format!("\"{}\"", outdoor.name))
                .allowed("at least one head with `on` naming it")
                .mend("add a head, or take the outdoor unit out");
            desk.at(row, "name", says);
        }
    }
    Equipment {
        outdoors,
        heads: chosen,
    }
}
