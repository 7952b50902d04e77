//! `[prices]`: prices and carbon of energy.

use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::check::{Says, nearest};
use crate::field::{Kind, Table, may, usual};
use crate::{Carbon, Carrier, Job, Price, carriers};

pub(super) static TABLE: Table = Table {
    name: "prices",
    about: "Prices and carbon of energy",
    label: &[],
    assumed: false,
    fields: &[
        usual("currency", Kind::Text, "$", "Sign or name of the money"),
        may("as_of", Kind::Day, "Day the prices are of"),
        may(
            "electricity",
            Kind::Price(Carrier::Electricity),
            "Price of electricity",
        ),
        may("oil", Kind::Price(Carrier::Oil), "Price of heating oil"),
        may("propane", Kind::Price(Carrier::Propane), "Price of propane"),
        may("gas", Kind::Price(Carrier::Gas), "Price of natural gas"),
        may("wood", Kind::Price(Carrier::Wood), "Price of wood"),
        may(
            "grid",
            Kind::Text,
            "State whose grid carbon holds (eGRID), by name or two letters",
        ),
        may(
            "carbon",
            Kind::Sub(&CARBON),
            "Carbon intensities of the user's own",
        ),
    ],
};

const LEAST: f64 = 0.0;
/// 5 kg/kWh: several times the worst there is.
const MOST: f64 = 5.0 / units::constants::KWH_J;

static CARBON: Table = Table {
    name: "carbon",
    about: "Carbon of energy bought; the source says where the figures are from",
    label: &[],
    assumed: false,
    fields: &[
        may(
            "electricity",
            Kind::Q(Dim::CarbonIntensity, LEAST, MOST),
            "Of electricity",
        ),
        may("oil", Kind::Q(Dim::CarbonIntensity, LEAST, MOST), "Of oil"),
        may(
            "propane",
            Kind::Q(Dim::CarbonIntensity, LEAST, MOST),
            "Of propane",
        ),
        may("gas", Kind::Q(Dim::CarbonIntensity, LEAST, MOST), "Of gas"),
        may(
            "wood",
            Kind::Q(Dim::CarbonIntensity, LEAST, MOST),
            "Of wood",
        ),
        may("source", Kind::Text, "Where the figures are from"),
    ],
};

/// A carrier by its word.
pub(super) fn carrier(word: &str) -> Option<Carrier> {
    Carrier::ALL.into_iter().find(|c| c.word() == word)
}

pub(super) fn read(row: Option<&Row>, job: &mut Job, desk: &mut Desk) {
    let prices = &mut job.prices;
    "$".clone_into(&mut prices.currency);
    let mut grid = None;
    if let Some(row) = row {
        prices.currency = row.words("currency");
        prices.as_of = row.text("as_of").map(str::to_owned);
        for carrier in Carrier::ALL {
            if let (Some(per_j), Some(cell)) = (row.si(carrier.word()), row.cell(carrier.word())) {
                prices.by_carrier.push((
                    carrier,
                    Price {
                        per_j,
                        typed: cell.written.clone(),
                    },
                ));
            }
        }
        if !prices.by_carrier.is_empty() && !row.has("as_of") {
            let says = Says::new("prices without a day are worth nothing in a year")
                .allowed("a line `as_of`")
                .mend("add a line `as_of = \"2026-11-01\"`");
            desk.at(row, "as_of", says);
        }
        grid = grid_of(row, desk);
    }
    let own = row.and_then(|r| r.row("carbon"));
    for carrier in Carrier::ALL {
        let typed = own.and_then(|r| Some((r.si(carrier.word())?, r)));
        let carbon = match typed {
            Some((kg_per_j, own)) => Some(Carbon {
                kg_per_j,
                source: "job".to_owned(),
                place: own.text("source").unwrap_or("prices.carbon").to_owned(),
            }),
            None if carrier == Carrier::Electricity => grid.take(),
            None => carriers::fuel_carbon(carrier),
        };
        if let Some(carbon) = carbon {
            prices.carbon.push((carrier, carbon));
        }
    }
}

fn grid_of(row: &Row, desk: &mut Desk) -> Option<Carbon> {
    let state = row.text("grid")?;
    let found = carriers::grid_carbon(state);
    if found.is_none() {
        let states = carriers::grid_states();
        let mend = match nearest(state, states.iter().map(String::as_str)) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => "name the state, or give carbon.electricity yourself".to_owned(),
        };
        let says = Says::new("no state of this name in the table of grid carbon")
            .got(format!("\"{state}\""))
            .allowed("a state of the United States by name or two letters, or usa")
            .mend(mend);
        desk.at(row, "grid", says);
    }
    found
}
