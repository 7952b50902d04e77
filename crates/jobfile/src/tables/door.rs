//! `[[door]]`, and `door_to` of a room: openings between rooms.

use house::describe::{Door, Stands};
use units::Dim;

use super::Desk;
use crate::Job;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Family, Field, Kind, Table, must, usual};

const WIDTH: Field = usual(
    "width",
    Kind::Q(Dim::Length, 0.2, 10.0),
    "30 in",
    "Clear width",
);
const HEIGHT: Field = usual(
    "height",
    Kind::Q(Dim::Length, 0.5, 6.0),
    "80 in",
    "Clear height",
);
const USUALLY: Field = usual(
    "usually",
    Kind::Word(&["open", "ajar", "closed"]),
    "open",
    "How it usually stands",
);
const UNDERCUT: Field = usual(
    "undercut",
    Kind::Q(Dim::Length, 0.0, 0.3),
    "0.5 in",
    "Gap under the leaf",
);
const TRANSFER: Field = usual(
    "transfer",
    Kind::Q(Dim::VolumeFlow, 0.0, 1.0),
    "0 cfm",
    "Air moved each way by a grille or a fan when shut",
);

pub(super) static TABLE: Table = Table {
    name: "door",
    about: "An opening between two rooms",
    label: &["rooms"],
    assumed: false,
    fields: &[
        must(
            "rooms",
            Kind::List(&Kind::Ref(Family::Room), 2),
            "The two rooms",
        ),
        WIDTH,
        HEIGHT,
        USUALLY,
        UNDERCUT,
        TRANSFER,
    ],
};

pub(super) static DOOR_TO: Table = Table {
    name: "door_to",
    about: "A door from this room to another",
    label: &["room"],
    assumed: false,
    fields: &[
        must("room", Kind::Ref(Family::Room), "The other room"),
        WIDTH,
        HEIGHT,
        USUALLY,
        UNDERCUT,
        TRANSFER,
    ],
};

pub(super) fn read(row: &Row, job: &mut Job, desk: &mut Desk) {
    let names = row.texts("rooms");
    match <[String; 2]>::try_from(names) {
        Ok(rooms) => add(row, rooms, job, desk),
        Err(names) if row.has("rooms") => {
            let says = Says::new("a door joins two rooms")
                .got(names.join(", "))
                .allowed("two rooms")
                .mend("name two; write a door for each pair");
            desk.at(row, "rooms", says);
        }
        Err(_) => {}
    }
}

/// Puts a door between two rooms. The same door may be named from both rooms: then twice the
/// same is one door.
pub(super) fn add(row: &Row, rooms: [String; 2], job: &mut Job, desk: &mut Desk) {
    if rooms[0] == rooms[1] && !rooms[0].is_empty() {
        let key = if row.table.name == "door" {
            "rooms"
        } else {
            "room"
        };
        let says = Says::new("this door leads from a room to itself")
            .got(format!("\"{}\"", rooms[0]))
            .allowed("two different rooms")
            .mend("name the room on the other side");
        desk.at(row, key, says);
        return;
    }
    let door = Door {
        rooms,
        width_m: row.si_or_0("width"),
        height_m: row.si_or_0("height"),
        stands: match row.text("usually") {
            Some("ajar") => Stands::Ajar,
            Some("closed") => Stands::Closed,
            _ => Stands::Open,
        },
        undercut_m: row.si_or_0("undercut"),
        transfer_m3_per_s: row.si_or_0("transfer"),
    };
    let turned = Door {
        rooms: [door.rooms[1].clone(), door.rooms[0].clone()],
        ..door.clone()
    };
    if row.table.name == "door" || !job.house.doors.contains(&turned) {
        job.house.doors.push(door);
        desk.numbered
            .push((format!("door.{}", job.house.doors.len()), row.path.clone()));
    }
}
