//! What is not known for certain, as figures: how far each may lie off, and the place of the job it
//! lies off from.

use jobfile::Carrier;
use reckon::{Book, Input, Source, in_key};
use season::bands::{Bands, Matters, Uncertain};
use units::Dim;

use super::figures::input;
use crate::Plan;

/// Keys of the spreads by the names of their inputs, in the order of the sample.
#[derive(Debug, Default)]
pub(super) struct Spreads(Vec<(String, String)>);

impl Spreads {
    /// The key of an input by its name.
    pub fn of(&self, name: &str) -> Option<&str> {
        let found = self.0.iter().find(|(n, _)| n == name);
        found.map(|(_, key)| key.as_str())
    }

    /// As inputs of a band: those that matter most first, and without that in their own order.
    pub fn by(&self, matters: &[Matters]) -> Vec<Input> {
        let rank = |name: &str| matters.iter().position(|m| m.name == name);
        let mut all: Vec<&(String, String)> = self.0.iter().collect();
        all.sort_by_key(|(name, _)| rank(name).unwrap_or(usize::MAX));
        all.into_iter().map(|(_, key)| input("s", key)).collect()
    }
}

/// Writes the spread of every uncertain input: `bands.input.leakage-of-the-house`.
pub(super) fn write(found: &Bands, plan: &Plan, book: &mut Book) -> Spreads {
    let mut all: Vec<(String, String)> = Vec::new();
    for of in &found.inputs {
        let mut key = format!("bands.input.{}", in_key(&of.name));
        // Two names may make one key: `bed 1` and `bed-1`.
        let before = all
            .iter()
            .filter(|(name, _)| in_key(name) == in_key(&of.name))
            .count();
        if before > 0 {
            key = format!("{key}-{}", before + 1);
        }
        spread(&key, of, plan, book);
        all.push((of.name.clone(), key));
    }
    Spreads(all)
}

fn spread(key: &str, of: &Uncertain, plan: &Plan, book: &mut Book) {
    let (dim, formula, value) = if of.difference {
        (Dim::TemperatureDifference, "h - l", of.high - of.low)
    } else {
        (Dim::Ratio, "h / l", of.high / of.low)
    };
    let from = said_in_job(key, of, plan, book).map_or_else(|| rests(of, plan), |k| vec![k]);
    // What no figure says is a habit or a sheet: the width is all there is of it.
    let said = if from.is_empty() {
        "what was taken"
    } else {
        "x"
    };
    let place = format!("widths of decision 8, {}", of.known.word());
    for (end, side, value) in [("low", "below", of.low), ("high", "above", of.high)] {
        let what = if of.difference {
            format!("one time in ten {} lies {side} {said} and this", of.name)
        } else {
            format!("one time in ten {} lies {side} {said} times this", of.name)
        };
        let source = Source::new("common-practice", place.clone());
        book.given(format!("{key}.{end}"), what, value, dim, source, None);
    }
    let mut inputs = vec![
        input("l", &format!("{key}.low")),
        input("h", &format!("{key}.high")),
    ];
    inputs.extend(from.iter().map(|k| input("x", k)));
    book.put(reckon::Figure {
        key: key.to_owned(),
        what: format!("how far {} may lie apart, high against low", of.name),
        value,
        dim,
        formula: formula.into(),
        inputs,
        source: Source::new("common-practice", place),
        known: None,
    });
}

/// A construction or glass as the job itself describes it, at its own line. None where the job leaves
/// it to the library.
fn said_in_job(key: &str, of: &Uncertain, plan: &Plan, book: &mut Book) -> Option<String> {
    let figure = plan.book.get(rests(of, plan).first()?)?;
    let (path, says) = if let Some(name) = of.name.strip_prefix("resistance of ") {
        let path = format!("construction.{name}");
        let written = plan.paths_of_job().any(|p| p == path);
        (written.then_some(path)?, "films included")
    } else {
        let window = figure.key.strip_prefix("window.")?.strip_suffix(".u")?;
        let mine = |p: &&str| {
            let name = p
                .strip_prefix("window.")
                .and_then(|p| p.strip_suffix(".glazing"));
            name.is_some_and(|n| in_key(n) == window)
        };
        (
            plan.paths_of_job().find(mine)?.to_owned(),
            "its transmittance",
        )
    };
    let key = format!("{key}.said");
    let what = format!("{} as the job describes it, {says}", of.name);
    book.given(
        key.clone(),
        what,
        figure.value,
        figure.dim,
        Source::job(path),
        None,
    );
    Some(key)
}

/// Keys of the plan's figures that an input is a factor on, by the name the sample gives it; none
/// where the plan has no figure of it.
fn rests(uncertain: &Uncertain, plan: &Plan) -> Vec<String> {
    let name = uncertain.name.as_str();
    let first = |is: &dyn Fn(&reckon::Figure) -> bool| -> Vec<String> {
        let found = plan.book.iter().find(|f| is(f));
        found.map(|f| f.key.clone()).into_iter().collect()
    };
    if name == "leakage of the house" {
        return first(&|f| f.key == "leaks.c");
    }
    if let Some(of) = name.strip_prefix("resistance of ") {
        let begins = format!("construction.{}", in_key(of));
        return first(&|f| {
            let rest = f.key.strip_prefix(&begins);
            rest.is_some_and(|r| r.starts_with('.')) && f.key.rsplit('.').next() == Some("r")
        });
    }
    if let Some(of) = name.strip_prefix("glass of ") {
        return first(&|f| {
            let place = f.source.place.strip_prefix("glazing ");
            f.key.starts_with("window.") && place.is_some_and(|p| p.trim_start_matches("of ") == of)
        });
    }
    let price = name.strip_prefix("price of ");
    if let Some(of) = price.and_then(|w| Carrier::ALL.iter().find(|c| c.word() == w)) {
        let ends = format!(".house.price-{}", of.word());
        return first(&|f| f.key.starts_with("season.chosen") && f.key.ends_with(&ends));
    }
    if name == "efficiency of the heaters" {
        let is = |f: &&reckon::Figure| {
            f.key.starts_with("season.chosen.heater.") && f.key.ends_with(".efficiency")
        };
        return plan.book.iter().filter(is).map(|f| f.key.clone()).collect();
    }
    Vec::new()
}
