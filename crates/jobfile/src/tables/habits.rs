//! `[habits]`: how people live in the house.

use house::describe::Stands;
use units::Dim;

use crate::Habits;
use crate::cell::Row;
use crate::field::{Kind, Table, may};

pub(super) static TABLE: Table = Table {
    name: "habits",
    about: "How people live in the house",
    label: &[],
    assumed: false,
    fields: &[
        may(
            "bedroom_doors",
            Kind::Word(&["open", "ajar", "closed"]),
            "How bedroom doors stand at night; each door as described if not given",
        ),
        may(
            "winter_humidity",
            Kind::Q(Dim::Share, 0.0, 1.0),
            "Relative humidity kept indoors in winter",
        ),
        may(
            "off_below",
            Kind::Q(Dim::Temperature, -60.0, 25.0),
            "Outdoor temperature below which the owner will switch the heat pump off",
        ),
    ],
};

pub(super) fn read(row: &Row) -> Habits {
    Habits {
        bedroom_doors: match row.text("bedroom_doors") {
            Some("open") => Some(Stands::Open),
            Some("ajar") => Some(Stands::Ajar),
            Some("closed") => Some(Stands::Closed),
            _ => None,
        },
        winter_humidity: row.si("winter_humidity"),
        off_below_c: row.si("off_below"),
    }
}
