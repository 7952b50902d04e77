//! Headings as utilities write them, and what the columns under them are taken for.

use jobfile::Carrier;

use super::meter::{Asked, number, says_estimated};
use super::table::{Head, Table, shown, words};
use crate::{Note, Refused};

pub(super) const FROM: &[&str] = &[
    "from",
    "start date",
    "period start",
    "service from",
    "start",
    "begin",
    "begins",
    "previous read date",
    "last read date",
    "service start",
    "usage start",
    "starting",
];
pub(super) const TO: &[&str] = &[
    "to",
    "end date",
    "period end",
    "through",
    "service to",
    "end",
    "ends",
    "current read date",
    "read date",
    "reading date",
    "meter read date",
    "service end",
    "usage end",
    "date read",
    "ending",
];
pub(super) const BILLED: &[&str] = &[
    "bill date",
    "billing date",
    "statement date",
    "invoice date",
    "billed",
];
pub(super) const SINGLE: &[&str] = &["date", "day", "time", "timestamp", "dt", "interval"];
pub(super) const AMOUNT: &[&str] = &[
    "usage",
    "use",
    "used",
    "consumption",
    "consumed",
    "imported",
    "import",
    "quantity",
    "amount used",
    "energy",
    "volume",
    "kwh",
    "wh",
    "mwh",
    "therms",
    "therm",
    "ccf",
    "mcf",
    "gallons",
    "gal",
    "mmbtu",
    "dth",
    "m3",
    "gj",
    "value",
    "amount",
];
pub(super) const NOT_AMOUNT: &[&str] = &[
    "cost",
    "charge",
    "charges",
    "price",
    "due",
    "usd",
    "paid",
    "balance",
    "temperature",
    "demand",
    "kw",
    "rate",
    "export",
    "exported",
    "returned",
    "generation",
    "generated",
    "received",
    "days",
    "date",
    "carbon",
    "previous",
    "current",
    "degree",
    "tax",
    "factor",
    "unit",
    "units",
    "uom",
    "type",
];
const BACK: &[&str] = &[
    "export",
    "exported",
    "returned",
    "sent",
    "generation",
    "generated",
    "received",
    "solar",
];
const ESTIMATED: &[&str] = &[
    "estimated",
    "estimate",
    "est",
    "read type",
    "reading type",
    "read method",
    "quality",
    "status",
    "type",
    "notes",
    "note",
];

pub(super) fn column(
    head: &Head,
    asked: Option<&str>,
    guess: impl FnOnce() -> Option<usize>,
) -> Result<Option<usize>, Refused> {
    match asked {
        None => Ok(guess()),
        Some(name) => match head.named(name) {
            Some(c) => Ok(Some(c)),
            None => Err(head.missing(
                &format!("\"{name}\", which the job asks for,"),
                "those there",
            )),
        },
    }
}

/// Carrier, unit, and the column that names the unit row by row.
pub(super) fn unit_of(
    table: &Table,
    head: &Head,
    amount: usize,
    asked: &Asked,
) -> Result<(Carrier, String, Option<usize>), Refused> {
    const UNITS: [&str; 22] = [
        "kwh", "wh", "mwh", "therms", "therm", "thm", "ccf", "mcf", "cf", "hcf", "ft3", "m3",
        "dth", "gj", "gal", "gallons", "gallon", "l", "liters", "litres", "mmbtu", "cords",
    ];
    let in_head = words(head.name(amount))
        .into_iter()
        .find(|w| UNITS.contains(&w.as_str()));
    let unit_column = head
        .find(&["unit", "units", "uom"])
        .filter(|c| *c != amount);
    let in_rows = unit_column.and_then(|c| {
        table
            .rows
            .iter()
            .map(|r| r.cell(c).to_lowercase())
            .find(|u| !u.is_empty())
    });
    let unit = asked.unit.clone().or(in_rows).or(in_head).ok_or_else(|| {
        Refused::new(
            "nothing says in which unit the amounts are",
            shown(head.name(amount)),
            "kWh, therm, ccf, gal, MMBtu, in the heading or in a column \"unit\"",
            "add the unit that the bill prints, or `unit` in the job's [[bills]]",
        )
    })?;
    let carrier = asked
        .of
        .or_else(|| carrier_of(&unit, head))
        .ok_or_else(|| {
            Refused::new(
                "nothing says what was bought",
                shown(&unit),
                "electricity, oil, propane, gas, wood",
                "say it: `of = \"oil\"` in [[bills]], or oil: before the file on the command line",
            )
        })?;
    let unit_column = if asked.unit.is_some() {
        None
    } else {
        unit_column
    };
    Ok((carrier, unit, unit_column))
}

fn carrier_of(unit: &str, head: &Head) -> Option<Carrier> {
    let named = |words: &[&str]| head.find(words).is_some();
    if named(&["oil"]) {
        return Some(Carrier::Oil);
    }
    if named(&["propane", "lp"]) {
        return Some(Carrier::Propane);
    }
    match unit.to_lowercase().as_str() {
        "kwh" | "wh" | "mwh" if !named(&["gas"]) => Some(Carrier::Electricity),
        "therms" | "therm" | "thm" | "ccf" | "mcf" | "cf" | "hcf" | "ft3" | "m3" | "dth" => {
            Some(Carrier::Gas)
        }
        _ if named(&["gas"]) => Some(Carrier::Gas),
        _ => None,
    }
}

/// Whether something is sent back to the grid.
pub(super) fn sent_back(table: &Table, head: &Head, amount: usize, notes: &mut Vec<Note>) -> bool {
    let Some(back) = head
        .find_but(BACK, &["date", "read"])
        .filter(|c| *c != amount)
    else {
        return false;
    };
    let any = table
        .rows
        .iter()
        .any(|r| matches!(number(r, back), Ok(Some(v)) if v != 0.0));
    if any {
        notes.push(Note::new(
            None,
            format!(
                "\"{}\" shows energy sent back: what the house used of its own sun is on no bill",
                head.name(back)
            ),
        ));
    }
    any
}

/// The column that tells estimates: one that speaks of them, or one whose heading can mean
/// nothing else.
pub(super) fn estimates(table: &Table, head: &Head, amount: usize) -> Option<usize> {
    let named: Vec<usize> = ESTIMATED
        .iter()
        .filter_map(|word| head.find_but(&[word], &["unit", "service", "meter", "account"]))
        .filter(|c| *c != amount)
        .collect();
    let speaks = |c: &&usize| {
        let name = head.name(**c);
        table.rows.iter().any(|r| says_estimated(r.cell(**c), name))
    };
    let sure = || {
        head.find(&[
            "estimated",
            "estimate",
            "read type",
            "reading type",
            "read method",
        ])
    };
    named.iter().find(speaks).copied().or_else(sure)
}
