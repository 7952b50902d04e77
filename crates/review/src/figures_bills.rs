//! Figures of each bill: `bills.oil.2025-10-01.used` and what it rests on.

use reckon::{Book, Figure, FormulaError, Input, Source};
use units::Dim;

use crate::calendar::iso;
use crate::{Bills, Fit, Period};

const DAY_S: f64 = 86_400.0;

/// The key of a bill's figures: what was bought, and its first day.
pub fn bill_key(bills: &Bills, period: &Period) -> String {
    format!("bills.{}.{}", bills.carrier.word(), iso(period.from))
}

/// Writes each bill of a carrier down: `.used`, mean power of what was bought; where its days have
/// temperatures `.outdoor`, and where a line is `drawn` through them `.line`, what that says.
///
/// # Errors
/// A formula that does not read: a defect of the program.
pub fn write_bills(
    bills: &Bills,
    fit: Option<&Fit>,
    drawn: bool,
    book: &mut Book,
) -> Result<(), FormulaError> {
    let word = bills.carrier.word();
    let dim = match word {
        "electricity" => Dim::ElectricEnergy,
        _ => Dim::Heat,
    };
    for p in &bills.periods {
        let base = bill_key(bills, p);
        let k = |what: &str| format!("{base}.{what}");
        let span = format!("{} to {}", iso(p.from), iso(p.to));
        let read = || Source::job(format!("bills of {word}, line or entry {}", p.line));
        let what = format!("{word} bought, {span}");
        book.given(k("amount"), what, p.energy_j, dim, read(), None);
        let length = DAY_S * f64::from(p.days());
        book.given(
            k("time"),
            "from reading to reading",
            length,
            Dim::Hours,
            read(),
            None,
        );
        book.reckon(
            k("used"),
            format!("{word} used, mean of {span}"),
            Dim::Power,
            "E / t",
            &[("E", &k("amount")), ("t", &k("time"))],
            Source::new("trade-cards", "F1: use over time"),
        )?;
        let fitted = fit.and_then(|f| Some((f, f.observations.iter().find(|o| o.from == p.from)?)));
        let Some((fit, seen)) = fitted else { continue };
        book.given(
            k("outdoor"),
            format!("mean outdoor air, {span}"),
            seen.mean_c(),
            Dim::Temperature,
            Source::new("weather", "means of its days"),
            None,
        );
        if !drawn {
            continue;
        }
        let line = [
            ("b", format!("bills.{word}.slope")),
            ("q0", format!("bills.{word}.base")),
            ("T0", format!("bills.{word}.balance")),
            ("To", k("outdoor")),
        ];
        book.put(Figure {
            key: k("line"),
            what: format!("{word} by the line, mean of {span}"),
            value: fit.fitted_w(seen),
            dim: Dim::Power,
            formula: "over the year: the line at the temperature of each day, mean of its days"
                .into(),
            inputs: line
                .into_iter()
                .map(|(symbol, key)| Input {
                    symbol: symbol.into(),
                    key,
                })
                .collect(),
            source: Source::new("caltrack-2", "3.3 and 3.4"),
            known: None,
        });
    }
    Ok(())
}

/// What a line through the bills was drawn through, in order of time.
pub(crate) fn drawn_through(carrier: &str, book: &Book) -> Vec<Input> {
    let beginning = format!("bills.{carrier}.");
    let of_a_bill = |f: &&Figure| {
        let rest = f.key.strip_prefix(&beginning);
        rest.and_then(|r| r.split_once('.'))
            .is_some_and(|(_, end)| end == "used")
    };
    let input = |f: &Figure| Input {
        symbol: "u".into(),
        key: f.key.clone(),
    };
    book.iter().filter(of_a_bill).map(input).collect()
}
