//! The ends of bands as figures, each down to the year as entered, the houses behind it and the
//! widths of what is not known.

use std::borrow::Cow;

use reckon::{Book, Figure, Input, Source, Verdict, in_key};
use season::bands::{Band, Bands, ChoiceBands, Matters};
use units::Dim;

use super::inputs;
use crate::Plan;

const LOW: &str = "over the year: the value that one in ten of the houses this could be lies below, each \
                   run hour by hour, counted by what the bills tell where there are any";
const MIDDLE: &str = "over the year: the value that half of the houses this could be lie below, each run \
                      hour by hour, counted by what the bills tell where there are any";
const HIGH: &str = "over the year: the value that one in ten of the houses this could be lies above, each \
                    run hour by hour, counted by what the bills tell where there are any";
const CARRIES: &str = "over the year: the part of the houses this could be in which no room with a head is \
                       more than 1 K short in more than 35 hours, and a heater gives such rooms 2 % of \
                       their heat at most";
const AGREE: &str = "over the year: the square of the sum of what the houses count over the sum of their \
                     squares; each counts by how near the heat loss of its year lies to that of the bills";

const COMES_OF: &str = "over the year: the square of the correlation of where this input lies in its width \
                        with the result, over all houses";
const AT_DESIGN: &str = "over the year: the line of what all rooms ask at night, with what heats now alone, \
                         at the design temperature";
const AS_BILLS: &str = "over the year: the line through its months with what heats now alone, drawn as \
                        through bills";

/// Seconds of an hour: hours of figures are seconds.
const HOUR_S: f64 = 3600.0;

/// Inputs told of a band, at the most.
const MOST_TOLD: usize = 5;

/// Key of the part of a band that goes with its n-th input, the most first: `bands.load.comes-of-1`.
pub fn comes_of(band: &str, n: usize) -> String {
    format!("{band}.comes-of-{}", n + 1)
}

/// Beginning of the keys of a choice's bands: `bands.chosen`.
pub fn bands_key(choice: &str) -> String {
    format!("bands.{}", in_key(choice))
}

/// The ends of all bands as figures that rest on the plan: `bands.load.low`,
/// `bands.chosen.cost.high`, `bands.chosen.carries`. They are not in the plan's book; a figure of the
/// plan that is not there is left out of their inputs.
pub fn band_figures(found: &Bands, plan: &Plan) -> Book {
    let mut pen = Pen {
        book: Book::new(),
        plan,
        sample: Vec::new(),
        spreads: inputs::Spreads::default(),
    };
    pen.sample = pen.houses(found);
    pen.spreads = inputs::write(found, plan, &mut pen.book);
    house(found, &mut pen);
    for (name, of) in &found.choices {
        if let Ok(of) = of {
            choice(name, of, &mut pen);
        }
    }
    pen.book
}

/// The house, whatever heats it. The year it shows itself in is none that the plan explains, so what
/// was entered is a figure of its own.
fn house(found: &Bands, pen: &mut Pen<'_>) {
    let matters = &found.house.matters;
    let mut put = |key: &str, what: &'static str, band: &Band, dim: Dim, line: &'static str| {
        let entered = format!("{key}.entered");
        let design = Some("season.chosen.design").filter(|k| dim == Dim::Power && pen.is_there(k));
        let inputs = design.map(|k| input("To", k)).into_iter().collect();
        let says = format!("{what}, as entered");
        pen.put(entered.clone(), says, (band.as_entered, dim), line, inputs);
        pen.band(&(key.to_owned(), what), band, dim, Some(entered), matters);
    };
    if let Some(load) = &found.house.load_w {
        put(
            "bands.load",
            "load of the house",
            load,
            Dim::Power,
            AT_DESIGN,
        );
    }
    let what = "heat loss as bills would show it";
    let (loss, unit) = (&found.house.loss_w_per_k, Dim::Conductance);
    put("bands.loss", what, loss, unit, AS_BILLS);
    let Some(agreed) = &found.agreed else { return };
    // By the survey alone no house counts more than another.
    let all = pen.sample.clone();
    pen.sample.retain(|i| i.key != "bands.agreeing");
    let named = ("bands.survey".to_owned(), "heat loss by the survey alone");
    let entered = Some("bands.loss.entered".to_owned());
    pen.band(&named, &agreed.survey_w_per_k, unit, entered, matters);
    pen.sample = all;
}

/// Beginning of the keys of a choice's year.
fn of_year(choice: &str) -> String {
    format!("season.{}", in_key(choice))
}

fn choice(name: &str, of: &ChoiceBands, pen: &mut Pen<'_>) {
    let (base, year) = (bands_key(name), of_year(name));
    let whole = |what: &str| Some(format!("{year}.house.{what}"));
    let key = |what: &str, says: &'static str| (format!("{base}.{what}"), says);
    let hours = |b: &Band| Band {
        as_entered: HOUR_S * b.as_entered,
        low: HOUR_S * b.low,
        middle: HOUR_S * b.middle,
        high: HOUR_S * b.high,
    };
    if let Some(b) = &of.heads_share {
        let named = key("heads-share", "share of the heads");
        pen.band(&named, b, Dim::Share, whole("heads-share"), &[]);
    }
    if let Some(b) = &of.cop {
        pen.band(
            &key("cop", "seasonal COP"),
            b,
            Dim::Ratio,
            whole("cop"),
            &[],
        );
    }
    if let Some(b) = &of.cost {
        let named = key("cost", "cost of a year");
        pen.band(&named, b, Dim::Money, whole("cost"), &of.cost_matters);
    }
    let named = key("cycling", "unit hours on and off");
    let cycling = hours(&of.cycling_h);
    pen.band(&named, &cycling, Dim::Hours, whole("hours-cycling"), &[]);
    let rooms = |with_head: bool, what: &str| -> Vec<String> {
        let year = pen.plan.season.done().and_then(|s| {
            let mine = s.years.iter().find(|(n, _)| n == name);
            mine.and_then(|(_, y)| y.as_ref().ok())
        });
        let rooms = year.map_or(&[][..], |y| y.rooms.as_slice());
        let wanted = rooms
            .iter()
            .filter(|r| r.heated && (r.heads > 0 || !with_head));
        let base = of_year(name);
        wanted
            .map(|r| format!("{base}.room.{}.{what}", in_key(&r.name)))
            .collect()
    };
    let (short, least) = (rooms(true, "hours-short-1k"), rooms(false, "least"));
    let named = key(
        "short",
        "hours in which the worst room with a head is more than 1.8 F (1 K) short",
    );
    let entered = pen.of_rooms(&named, "max()", &short, Dim::Hours);
    pen.band(&named, &hours(&of.short_h), Dim::Hours, entered, &[]);
    let named = key("least", "least air temperature of the coldest heated room");
    let entered = pen.of_rooms(&named, "min()", &least, Dim::Temperature);
    pen.band(&named, &of.least_c, Dim::Temperature, entered, &[]);
    pen.carries(&base, of, &short);
}

/// Writes figures of bands.
struct Pen<'a> {
    book: Book,
    plan: &'a Plan,
    sample: Vec<Input>,
    spreads: inputs::Spreads,
}

/// An input by its symbol and key.
pub(super) fn input(symbol: &'static str, key: &str) -> Input {
    Input {
        symbol: Cow::Borrowed(symbol),
        key: key.to_owned(),
    }
}

impl Pen<'_> {
    fn put(
        &mut self,
        key: String,
        what: String,
        (value, dim): (f64, Dim),
        formula: &'static str,
        inputs: Vec<Input>,
    ) {
        self.book.put(Figure {
            key,
            what,
            value,
            dim,
            formula: Cow::Borrowed(formula),
            inputs,
            source: Source::new("common-practice", "bands of a sample of houses, decision 8"),
            known: None,
        });
    }

    fn is_there(&self, key: &str) -> bool {
        self.book.get(key).is_some() || self.plan.book.get(key).is_some()
    }

    /// How many houses, the seed of their points, and how they agree with the bills.
    fn houses(&mut self, found: &Bands) -> Vec<Input> {
        let points = |says: &str| Source::new("common-practice", format!("decision 8: {says}"));
        self.book.given(
            "bands.houses",
            "houses looked at: one value of every uncertain input each",
            found.samples as f64,
            Dim::Count,
            points("points of a scrambled Halton sequence"),
            None,
        );
        self.book.given(
            "bands.seed",
            "seed of their values: the same seed gives the same houses",
            found.seed as f64,
            Dim::Count,
            points("seed of the sequence"),
            None,
        );
        let mut all = vec![input("n", "bands.houses"), input("seed", "bands.seed")];
        let counted = found.agreed.filter(|a| a.verdict == Verdict::Holds);
        if let Some(agreed) = counted {
            let ends = [("l", "bills.loss.low"), ("h", "bills.loss.high")];
            let told = ends.into_iter().filter(|(_, key)| self.is_there(key));
            let told = told.map(|(symbol, key)| input(symbol, key)).collect();
            self.put(
                "bands.agreeing".to_owned(),
                "houses that count in full beside the bills".to_owned(),
                (agreed.effective, Dim::Ratio),
                AGREE,
                told,
            );
            all.push(input("a", "bands.agreeing"));
        }
        all
    }

    /// The ends and the middle of a band. `matters` puts its inputs in order, the most first.
    fn band(
        &mut self,
        (key, what): &(String, &'static str),
        band: &Band,
        dim: Dim,
        entered: Option<String>,
        matters: &[Matters],
    ) {
        let entered = entered.filter(|k| self.is_there(k));
        let entered = entered.map(|k| input("x", &k));
        let mut inputs: Vec<Input> = entered.into_iter().chain(self.sample.clone()).collect();
        for (i, of) in matters.iter().take(MOST_TOLD).enumerate() {
            let spread = self.spreads.of(&of.name).map(|k| input("s", k));
            let inputs = spread.into_iter().chain(self.sample.clone()).collect();
            let what = format!("part of the spread of {what} that goes with {}", of.name);
            let key = comes_of(key, i);
            self.put(key, what, (of.share, Dim::Share), COMES_OF, inputs);
        }
        inputs.extend(self.spreads.by(matters));
        for (end, words, value, formula) in [
            ("low", "lower end of its band", band.low, LOW),
            ("middle", "middle of its band", band.middle, MIDDLE),
            ("high", "upper end of its band", band.high, HIGH),
        ] {
            let what = format!("{what}, {words}");
            self.put(
                format!("{key}.{end}"),
                what,
                (value, dim),
                formula,
                inputs.clone(),
            );
        }
    }

    /// The worst room as entered, by the figures of the rooms; None where one of them is not there.
    fn of_rooms(
        &mut self,
        (key, what): &(String, &'static str),
        formula: &'static str,
        rooms: &[String],
        dim: Dim,
    ) -> Option<String> {
        let values: Option<Vec<f64>> = rooms.iter().map(|k| self.plan.book.value(k)).collect();
        let named: Vec<(&str, f64)> = values?.into_iter().map(|v| ("t", v)).collect();
        let value = reckon::evaluate(formula, &named).ok()?;
        let key = format!("{key}.entered");
        let inputs = rooms.iter().map(|k| input("t", k)).collect();
        let what = format!("{what}, as entered");
        self.put(key.clone(), what, (value, dim), formula, inputs);
        Some(key)
    }

    fn carries(&mut self, base: &str, of: &ChoiceBands, short: &[String]) {
        let there = short.iter().filter(|k| self.is_there(k));
        let mut inputs: Vec<Input> = there.map(|k| input("t", k)).collect();
        inputs.extend(self.sample.clone());
        inputs.extend(self.spreads.by(&[]));
        let what = "share of the houses this could be that it carries".to_owned();
        self.put(
            format!("{base}.carries"),
            what,
            (of.carries, Dim::Share),
            CARRIES,
            inputs,
        );
    }
}
