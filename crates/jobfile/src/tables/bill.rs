//! `[[bill]]`: bills and deliveries.

use super::Desk;
use super::prices::carrier;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Kind, Table, must, usual};
use crate::{Bill, carriers};

pub(super) static TABLE: Table = Table {
    name: "bill",
    about: "A bill or a delivery",
    label: &["of", "from"],
    assumed: false,
    fields: &[
        must(
            "of",
            Kind::Word(&["electricity", "oil", "propane", "gas", "wood"]),
            "What was bought",
        ),
        must("from", Kind::Day, "First day"),
        must("to", Kind::Day, "Last day"),
        must(
            "amount",
            Kind::Text,
            "Amount with unit: 620 gal, 85 therm, 1200 kWh",
        ),
        usual(
            "estimated",
            Kind::YesNo,
            "false",
            "The reading was estimated, or the fill was not full",
        ),
    ],
};

pub(super) fn read(row: &Row, desk: &mut Desk) -> Option<Bill> {
    let of = carrier(row.text("of")?)?;
    let (from, to) = (row.text("from")?.to_owned(), row.text("to")?.to_owned());
    if from >= to {
        let says = Says::new("the bill ends before it begins")
            .got(format!("from {from} to {to}"))
            .allowed("`to` after `from`")
            .mend("check both days");
        desk.at(row, "to", says);
    }
    let typed = row.text("amount")?.to_owned();
    let Some(energy_j) = carriers::amount_j(&typed, of) else {
        let units: Vec<&str> = carriers::sold_by(of).iter().map(|(n, _)| *n).collect();
        let says = Says::new(format!("this does not read as an amount of {}", of.word()))
            .got(format!("\"{typed}\""))
            .allowed(format!("units: {}", units.join(", ")))
            .mend(format!(
                "write it like \"620 {}\"",
                units.first().unwrap_or(&"")
            ));
        desk.at(row, "amount", says);
        return None;
    };
    Some(Bill {
        carrier: of,
        from,
        to,
        energy_j,
        typed,
        estimated: row.yes("estimated"),
    })
}
