//! Figures of bands: each gives its value again, none hangs in the air, and all are held against the
//! bands they are of.

mod support;

use std::collections::BTreeSet;

use plan::{Leaf, Plan, Why, band_figures, banded, plan, source, why, why_beside};
use reckon::Book;
use season::bands::{Asked, Band, Bands, Told};
use support::{catalogue, read, weather};

/// The demo with bands of few houses: no number here leans on how many they are.
fn demo(told: Option<Told>) -> (Plan, Bands, Book) {
    let job = jobfile::read(&read("jobs/lake-street/job.toml")).expect("reads");
    let (catalogue, weather) = (catalogue(), weather());
    let plan = plan(&job, &catalogue, &weather);
    let asked = Asked {
        samples: 3,
        told,
        ..Asked::default()
    };
    let choices = job.choices();
    let found = banded(&job, &catalogue, &weather, &choices, &asked, &|_| true).expect("bands");
    let book = band_figures(&found, &plan);
    (plan, found, book)
}

/// 1e-9 of the value: the formula is the one that was evaluated, so only rounding is left.
#[test]
fn every_figure_gives_its_value_again_and_names_its_source() {
    let (plan, _, book) = demo(None);
    let mut evaluated = 0;
    for f in book.iter() {
        assert!(
            source(&f.source.key).is_some() || f.source.key == "job",
            "{}",
            f.key
        );
        let mut named = Vec::new();
        for input in &f.inputs {
            let value = book
                .value(&input.key)
                .or_else(|| plan.book.value(&input.key));
            assert!(value.is_some(), "{}: no figure {}", f.key, input.key);
            named.push((input.symbol.as_ref(), value.unwrap_or(f64::NAN)));
        }
        if f.formula.is_empty() || f.formula.starts_with("over the year:") {
            continue;
        }
        let got = reckon::evaluate(&f.formula, &named).expect("reads");
        assert!(
            (got - f.value).abs() <= 1e-9 * f.value.abs(),
            "{} {got}",
            f.key
        );
        evaluated += 1;
    }
    assert!(evaluated > 15, "only {evaluated} formulas");
}

/// The demo has two outer doors of one transmittance, one seen and one assumed: two inputs, each told
/// by its room, and each with the resistance it is a factor on.
#[test]
fn every_input_tells_what_it_is_of() {
    let (_, found, book) = demo(None);
    let names: BTreeSet<&str> = found.inputs.iter().map(|u| u.name.as_str()).collect();
    assert_eq!(names.len(), found.inputs.len(), "{names:?}");
    for room in ["hall", "kitchen"] {
        let name = format!("resistance of door leaf of {room}");
        assert!(names.contains(name.as_str()), "{names:?}");
        let key = format!("bands.input.resistance-of-door-leaf-of-{room}");
        let inputs = &book.get(&key).expect("a figure").inputs;
        let of = format!("construction.door-leaf-of-{room}.wall.r");
        assert!(inputs.iter().any(|i| i.key == of), "{key}: {inputs:?}");
    }
}

#[test]
fn every_end_of_every_band_is_the_band_and_begins_at_the_year_as_entered() {
    let (plan, found, book) = demo(None);
    assert_eq!(found.choices.len(), 3, "what is chosen and two options");
    for (name, of) in &found.choices {
        let of = of.as_ref().expect("a year");
        let key = plan::bands_key(name);
        let hour = 3600.0;
        let all: [(&str, Option<&Band>, f64); 6] = [
            ("cost", of.cost.as_ref(), 1.0),
            ("cop", of.cop.as_ref(), 1.0),
            ("heads-share", of.heads_share.as_ref(), 1.0),
            ("short", Some(&of.short_h), hour),
            ("cycling", Some(&of.cycling_h), hour),
            ("least", Some(&of.least_c), 1.0),
        ];
        for (what, band, times) in all {
            let band = band.unwrap_or_else(|| panic!("{name} has a band of {what}"));
            for (end, value) in [
                ("low", band.low),
                ("middle", band.middle),
                ("high", band.high),
            ] {
                let key = format!("{key}.{what}.{end}");
                let tree = why_beside(&plan, &book, &key).expect("a figure");
                assert_eq!(tree.value, times * value, "{key}");
                // Two ways to the same year: the plan's, which tells more of it, and that of bands.
                let entered = tree.inputs.first().expect("inputs");
                assert_eq!(entered.symbol, "x", "{key} begins at what was entered");
                let off = (entered.value - times * band.as_entered).abs();
                assert!(
                    off <= 1e-9 * entered.value.abs(),
                    "{key}: {}",
                    entered.value
                );
            }
        }
        let carries = book
            .get(&format!("{key}.carries"))
            .expect("what it carries");
        assert_eq!(carries.value, of.carries);
    }
    let load = found.house.load_w.as_ref().expect("a design temperature");
    let tree = why_beside(&plan, &book, "bands.load.high").expect("a figure");
    assert_eq!(tree.value, load.high);
    assert!((tree.inputs[0].value - load.as_entered).abs() <= 1e-9 * load.as_entered);
    assert_eq!(
        book.value("bands.loss.low"),
        Some(found.house.loss_w_per_k.low)
    );
}

fn leaves<'w>(of: &'w Why, all: &mut Vec<&'w Why>) {
    if of.inputs.is_empty() {
        all.push(of);
    }
    for i in &of.inputs {
        leaves(i, all);
    }
}

#[test]
fn a_band_rests_on_lines_of_the_job_on_widths_and_on_the_seed() {
    let (plan, found, book) = demo(None);
    let tree = why_beside(&plan, &book, "bands.chosen.cost.high").expect("a figure");
    // What matters most stands first of what is not known.
    let spreads: Vec<&Why> = tree.inputs.iter().filter(|i| i.symbol == "s").collect();
    assert_eq!(spreads.len(), found.inputs.len());
    let of = found.choices[0].1.as_ref().expect("a year");
    let most = &of.cost_matters[0].name;
    assert!(
        spreads[0].what.contains(most.as_str()),
        "{} is not of {most}",
        spreads[0].what
    );
    let mut all = Vec::new();
    leaves(&tree, &mut all);
    let value = |key: &str| all.iter().find(|w| w.key == key).map(|w| w.value);
    assert_eq!(value("bands.houses"), Some(3.0));
    assert_eq!(value("bands.seed"), Some(1.0));
    for input in &found.inputs {
        let key = input.name.replace([' ', '/', '.'], "-");
        let end = |side: &str| {
            let key = format!("bands.input.{key}.{side}");
            value(&key).unwrap_or_else(|| panic!("{key} is not unfolded"))
        };
        assert_eq!((end("low"), end("high")), (input.low, input.high), "{key}");
    }
    // Every value of the job that the demo writes down itself is found with its line.
    let lines: BTreeSet<String> = all
        .iter()
        .filter_map(|w| match &w.leaf {
            Leaf::Job {
                path,
                line: Some(_),
            } => Some(path.clone()),
            _ => None,
        })
        .collect();
    for path in [
        "leakage.blower_door",
        "construction.wall",
        "construction.ceiling",
        "prices.oil",
        "window.picture window.glazing",
        "existing.efficiency",
    ] {
        assert!(lines.contains(path), "{path} is not in {lines:?}");
    }
    // What the library describes is not said to stand in the job.
    assert!(!lines.contains("construction.floor"), "{lines:?}");
    // What rests on nothing of the job rests on the widths that were decided.
    for w in &all {
        if let Leaf::Publication { key, place, .. } = &w.leaf
            && w.key.starts_with("bands.")
        {
            assert!(
                key == "common-practice" && place.contains("decision 8"),
                "{}: {place}",
                w.key
            );
        }
    }
}

#[test]
fn beside_bills_the_houses_that_count_are_named() {
    // A band so wide that every house lies in it: all count.
    let (plan, found, book) = demo(Some(Told::of_band(1.0, 2000.0)));
    assert!(found.agreed.is_some());
    let tree = why_beside(&plan, &book, "bands.survey.low").expect("a figure");
    assert!(tree.inputs.iter().all(|i| i.key != "bands.agreeing"));
    // Three houses are fewer than a band needs beside bills, so none is said to count.
    let tree = why_beside(&plan, &book, "bands.load.low").expect("a figure");
    assert!(tree.inputs.iter().all(|i| i.key != "bands.agreeing"));
}

/// The part of a band that goes with an input rests on how wide that input is.
#[test]
fn what_a_band_comes_of_is_told_input_by_input() {
    let (_, found, book) = demo(None);
    for (i, of) in found.house.matters.iter().take(5).enumerate() {
        let figure = book
            .get(&plan::comes_of("bands.load", i))
            .expect("a figure");
        assert_eq!(figure.value.to_bits(), of.share.to_bits());
        let spread = &figure.inputs.first().expect("a width").key;
        let width = book.get(spread).expect("written");
        assert!(width.what.contains(&of.name), "{}: {}", width.what, of.name);
    }
}

#[test]
fn a_key_that_no_band_has_names_those_that_are_near() {
    let (plan, _, book) = demo(None);
    let none = why_beside(&plan, &book, "bands.chosen.cost").expect_err("a beginning");
    let keys: Vec<&str> = none.beginning.iter().map(|b| b.0.as_str()).collect();
    let (parts, ends): (Vec<&str>, Vec<&str>) =
        keys.into_iter().partition(|k| k.contains(".comes-of-"));
    assert_eq!(parts.len(), 5, "the inputs that matter most");
    assert_eq!(
        ends,
        [
            "bands.chosen.cost.high",
            "bands.chosen.cost.low",
            "bands.chosen.cost.middle"
        ]
    );
    // They are not the plan's own.
    assert!(why(&plan, "bands.chosen.cost.low").is_err());
}
