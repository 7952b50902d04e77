//! `[[room]]`: rooms and unheated spaces by outline, with settings, gains and doors.

use house::describe::{Gain, Room, Setting, Use};
use units::Dim;

use super::{Desk, door};
use crate::Job;
use crate::cell::{Row, Value};
use crate::check::Says;
use crate::field::{Family, Kind, Table, may, must, usual};

pub(super) static TABLE: Table = Table {
    name: "room",
    about: "A room or an unheated space (garage, porch, cellar), by its outline",
    label: &["name"],
    assumed: false,
    fields: &[
        must("name", Kind::NewName, "Name, unique"),
        must("storey", Kind::Ref(Family::Storey), "Storey it is on"),
        must(
            "outline",
            Kind::List(&Kind::Point, 3),
            "Corners in order, inside faces, each `east, north` on the plan",
        ),
        may(
            "ceiling",
            Kind::Q(Dim::Length, 0.3, 12.0),
            "Own ceiling height; the mean one under a slope",
        ),
        may(
            "heated_to",
            Kind::ByHour(Dim::Temperature, -20.0, 40.0),
            "Thermostat; without it the room is not heated",
        ),
        may(
            "cooled_to",
            Kind::ByHour(Dim::Temperature, 5.0, 50.0),
            "Cooling setting, where the room is meant to be cooled",
        ),
        may(
            "gains",
            Kind::List(&Kind::Sub(&GAIN), 1),
            "Heat from people and appliances",
        ),
        usual(
            "used_for",
            Kind::Word(&[
                "living", "sleeping", "kitchen", "bath", "passage", "storage",
            ]),
            "living",
            "What the room is used for",
        ),
        usual(
            "people",
            Kind::Q(Dim::Ratio, 0.0, 100.0),
            "0",
            "People usually there",
        ),
        may(
            "own_air",
            Kind::Q(Dim::AirChanges, 0.0, 100.0),
            "Outdoor air that enters an unheated space (vented garage, porch)",
        ),
        may(
            "door_to",
            Kind::List(&Kind::Sub(&door::DOOR_TO), 1),
            "Doors to other rooms",
        ),
    ],
};

static GAIN: Table = Table {
    name: "gains",
    about: "Heat set free in a room",
    label: &[],
    assumed: false,
    fields: &[
        must(
            "heat",
            Kind::ByHour(Dim::Power, 0.0, 50_000.0),
            "Heat, all day or by hours",
        ),
        usual(
            "radiant",
            Kind::Q(Dim::Share, 0.0, 1.0),
            "0.5",
            "Share that is radiant",
        ),
    ],
};

pub(super) fn read<'r>(rows: impl Iterator<Item = &'r Row>, job: &mut Job, desk: &mut Desk) {
    for row in rows {
        let outline = row.list("outline").iter().filter_map(|c| match c.value {
            Value::Point(p) => Some(p),
            _ => None,
        });
        let setting = |key| {
            row.by_hour(key).map(|by_hour_c| Setting {
                by_hour_c,
                ramps: row.ramps(key),
            })
        };
        let (heated, cooled) = (setting("heated_to"), setting("cooled_to"));
        if let (Some(h), Some(c)) = (&heated, &cooled) {
            fight(row, h, c, desk);
        }
        job.house.rooms.push(Room {
            name: row.words("name"),
            storey: row.words("storey"),
            outline: outline.collect(),
            ceiling_m: row.si("ceiling"),
            heated,
            cooled,
            gains: row.rows("gains").map(gain).collect(),
            used_for: match row.text("used_for") {
                Some("sleeping") => Use::Sleeping,
                Some("kitchen") => Use::Kitchen,
                Some("bath") => Use::Bath,
                Some("passage") => Use::Passage,
                Some("storage") => Use::Storage,
                _ => Use::Living,
            },
            people: row.si_or_0("people"),
            own_air_changes_per_h: row.si("own_air"),
        });
        let name = row.words("name");
        for to in row.rows("door_to") {
            let rooms = [name.clone(), to.words("room")];
            door::add(to, rooms, job, desk);
        }
    }
}

fn gain(row: &Row) -> Gain {
    let hours = row.by_hour("heat").unwrap_or([None; 24]);
    Gain {
        by_hour_w: hours.map(|w| w.unwrap_or(0.0)),
        radiant: row.si_or_0("radiant"),
    }
}

/// Heating set above cooling would run both at once.
fn fight(row: &Row, heated: &Setting, cooled: &Setting, desk: &mut Desk) {
    let hour = heated
        .by_hour_c
        .iter()
        .zip(&cooled.by_hour_c)
        .position(|pair| match pair {
            (Some(h), Some(c)) => h > c,
            _ => false,
        });
    if let Some(hour) = hour {
        let written = |key| row.cell(key).map_or("", |c| c.written.as_str());
        let says = Says::new(format!(
            "heating is set above cooling in the hour from {hour}:00"
        ))
        .got(format!(
            "heated_to {}, cooled_to {}",
            written("heated_to"),
            written("cooled_to")
        ))
        .allowed("heated_to at or below cooled_to")
        .mend("lower heated_to or raise cooled_to");
        desk.at(row, "heated_to", says);
    }
}
