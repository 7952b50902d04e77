//! `[[bills]]`: files of bills; `[winters]`: what happened between them.

use super::Desk;
use super::prices::carrier;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Kind, Table, may, must, usual};
use crate::{BillFile, Carrier, Winters, carriers};

pub(super) static TABLE: Table = Table {
    name: "bills",
    about: "A file of bills: a utility's table, Green Button, or a dealer's slips",
    label: &["file"],
    assumed: false,
    fields: &[
        must("file", Kind::Text, "Path from the job's folder"),
        may(
            "of",
            Kind::Word(&["electricity", "oil", "propane", "gas", "wood"]),
            "What was bought; by the unit if not given",
        ),
        may(
            "kind",
            Kind::Word(&["meter", "green button", "deliveries"]),
            "What kind of file it is; by its beginning if not given",
        ),
        may(
            "unit",
            Kind::Text,
            "Unit of the amounts, where the file does not say it",
        ),
        may("from_column", Kind::Text, "Heading of the first day"),
        may(
            "to_column",
            Kind::Text,
            "Heading of the day of the reading or delivery",
        ),
        may("amount_column", Kind::Text, "Heading of the amount"),
        may(
            "estimated_column",
            Kind::Text,
            "Heading that tells estimated readings, or full fills",
        ),
        may(
            "meter",
            Kind::Text,
            "Title of the meter, where the file has several",
        ),
    ],
};

pub(super) static WINTERS: Table = Table {
    name: "winters",
    about: "What happened in the time the bills cover",
    label: &[],
    assumed: false,
    fields: &[
        may(
            "temperatures",
            Kind::Texts,
            "Files of daily mean temperatures of those dates; paths from the job's folder",
        ),
        may("installed", Kind::Day, "Day from which the heat pump heats"),
        may(
            "wood_before",
            Kind::Text,
            "Wood burnt in a winter before it: 1 cord; none",
        ),
        may("wood_after", Kind::Text, "Wood burnt in a winter after it"),
        may(
            "changed",
            Kind::Text,
            "What else changed between: people, insulation, rooms closed off; nothing",
        ),
        usual(
            "sun",
            Kind::YesNo,
            "false",
            "The house makes electricity of its own behind the meter",
        ),
        usual(
            "backup_metered",
            Kind::YesNo,
            "false",
            "Electric backup has a meter of its own, or there is none",
        ),
    ],
};

pub(super) fn read(row: &Row) -> BillFile {
    BillFile {
        file: row.words("file"),
        of: row.text("of").and_then(carrier),
        kind: row.text("kind").map(str::to_owned),
        unit: row.text("unit").map(str::to_owned),
        from_column: row.text("from_column").map(str::to_owned),
        to_column: row.text("to_column").map(str::to_owned),
        amount_column: row.text("amount_column").map(str::to_owned),
        estimated_column: row.text("estimated_column").map(str::to_owned),
        meter: row.text("meter").map(str::to_owned),
    }
}

pub(super) fn winters(row: &Row, desk: &mut Desk) -> Winters {
    let mut wood = |key: &str| -> Option<f64> {
        let text = row.text(key)?;
        if matches!(text.trim(), "none" | "nothing" | "0") {
            return Some(0.0);
        }
        let joules = carriers::amount_j(text, Carrier::Wood);
        if joules.is_none() {
            let says = Says::new("this does not read as an amount of wood")
                .got(format!("\"{text}\""))
                .allowed("cord, ton, MMBtu, or none")
                .mend("write it like \"1.5 cord\"");
            desk.at(row, key, says);
        }
        joules
    };
    Winters {
        wood_before_j: wood("wood_before"),
        wood_after_j: wood("wood_after"),
        temperatures: row.texts("temperatures"),
        installed: row.text("installed").map(str::to_owned),
        changed: row.text("changed").map(str::to_owned),
        sun: row.yes("sun"),
        backup_metered: row.yes("backup_metered"),
    }
}
