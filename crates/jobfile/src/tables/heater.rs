//! `[existing]` and `[[backup]]`: heaters beside the heat pump.

use units::Dim;

use super::Desk;
use super::prices::carrier;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Family, Field, Kind, Need, Table, may, must, usual};
use crate::{Carrier, Heater, HeaterKind};

const FUEL: Field = Field {
    key: "fuel",
    kind: Kind::Word(&["oil", "propane", "gas", "electricity", "wood"]),
    need: Need::May,
    what: "What it burns or draws",
};
const EFFICIENCY: Field = may(
    "efficiency",
    Kind::Q(Dim::Share, 0.1, 1.0),
    "Heat given per energy bought (higher heating value); 1 for electricity",
);
const CAPACITY: Field = may(
    "capacity",
    Kind::Q(Dim::Power, 50.0, 200_000.0),
    "Most heat it gives",
);
const SERVES: Field = may(
    "serves",
    Kind::List(&Kind::Ref(Family::Room), 1),
    "Rooms it serves; all heated rooms if not given",
);
const SET_BELOW: Field = usual(
    "set_below",
    Kind::Q(Dim::TemperatureDifference, 0.0, 20.0),
    "3 F",
    "How far its thermostat is set below the rooms' setting",
);
const LOCKED_OUT: Field = may(
    "locked_out_above",
    Kind::Q(Dim::Temperature, -60.0, 30.0),
    "Outdoor temperature above which it is locked out",
);
const HOT_WATER: Field = usual(
    "hot_water",
    Kind::YesNo,
    "false",
    "It also makes the hot water",
);

pub(super) static EXISTING: Table = Table {
    name: "existing",
    about: "What heats the house now",
    label: &[],
    assumed: true,
    fields: &[
        must(
            "kind",
            Kind::Word(&["boiler", "furnace", "baseboard", "stove", "none"]),
            "Kind",
        ),
        FUEL,
        EFFICIENCY,
        CAPACITY,
        usual(
            "stays",
            Kind::YesNo,
            "false",
            "It stays when the heat pump is in",
        ),
        SERVES,
        SET_BELOW,
        LOCKED_OUT,
        HOT_WATER,
    ],
};

pub(super) static BACKUP: Table = Table {
    name: "backup",
    about: "A heater added beside the heat pump",
    label: &["name"],
    assumed: true,
    fields: &[
        must("name", Kind::NewName, "Name, unique"),
        must(
            "kind",
            Kind::Word(&["boiler", "furnace", "baseboard", "stove"]),
            "Kind",
        ),
        FUEL,
        EFFICIENCY,
        CAPACITY,
        SERVES,
        SET_BELOW,
        LOCKED_OUT,
        HOT_WATER,
    ],
};

pub(super) fn existing(row: &Row, desk: &mut Desk) -> Option<Heater> {
    if row.text("kind") == Some("none") {
        return None;
    }
    Some(heater(row, "existing".to_owned(), row.yes("stays"), desk))
}

pub(super) fn backup(row: &Row, desk: &mut Desk) -> Heater {
    heater(row, row.words("name"), true, desk)
}

fn heater(row: &Row, name: String, stays: bool, desk: &mut Desk) -> Heater {
    let kind = match row.text("kind") {
        Some("furnace") => HeaterKind::Furnace,
        Some("baseboard") => HeaterKind::Baseboard,
        Some("stove") => HeaterKind::Stove,
        _ => HeaterKind::Boiler,
    };
    let fuel = row.text("fuel").and_then(carrier);
    if fuel.is_none() && !row.has("fuel") {
        let says = Says::new(format!(
            "nothing says what the {} burns or draws",
            kind.word()
        ))
        .allowed("oil, propane, gas, electricity, wood")
        .mend("add a line `fuel = \"oil\"`");
        desk.at(row, "fuel", says);
    }
    let carrier = fuel.unwrap_or(Carrier::Electricity);
    if carrier != Carrier::Electricity && !row.has("efficiency") {
        let says = Says::new("a heater that burns something needs its efficiency")
            .allowed("10 % to 100 %, by the higher heating value")
            .mend("add a line `efficiency = \"82 %\"`, from the combustion test or the plate");
        desk.at(row, "efficiency", says);
    }
    Heater {
        name,
        kind,
        carrier,
        efficiency: row.si("efficiency").unwrap_or(1.0),
        capacity_w: row.si("capacity"),
        stays,
        serves: row.texts("serves"),
        set_below_k: row.si_or_0("set_below"),
        locked_out_above_c: row.si("locked_out_above"),
        hot_water: row.yes("hot_water"),
        known: desk.known(
            row,
            format!("efficiency and capacity of the {}", kind.word()),
        ),
    }
}
