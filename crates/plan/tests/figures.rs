//! Every figure of the demo plan says what made it, and what it says gives its value again.

mod support;

use plan::{Leaf, NoFigure, Plan, Why, plan, source, why};
use support::{catalogue, read, weather};
use units::{Dim, System};

fn demo() -> Plan {
    let job = jobfile::read(&read("jobs/lake-street/job.toml")).expect("reads");
    plan(&job, &catalogue(), &weather())
}

/// 1e-9 of the value: the formula is the one that was evaluated, so only rounding is left.
#[test]
fn every_formula_gives_its_value_again() {
    let plan = demo();
    let mut evaluated = 0;
    for f in plan.book.iter() {
        let mut named = Vec::new();
        for input in &f.inputs {
            let value = plan.book.value(&input.key);
            assert!(value.is_some(), "{}: no figure {}", f.key, input.key);
            named.push((input.symbol.as_ref(), value.unwrap_or(f64::NAN)));
        }
        let in_words = ["over the year:", "step by step:"];
        let words = f.formula.is_empty() || in_words.iter().any(|w| f.formula.starts_with(w));
        if words {
            continue;
        }
        let got = reckon::evaluate(&f.formula, &named).expect("reads");
        let off = (got - f.value).abs();
        let near = 1e-9 * f.value.abs().max(1e-12);
        assert!(
            off <= near || (got.is_nan() && f.value.is_nan()),
            "{}: {} {got} {}",
            f.key,
            f.formula,
            f.value
        );
        evaluated += 1;
    }
    assert!(evaluated > 300, "only {evaluated} formulas");
}

#[test]
fn every_source_is_known() {
    let plan = demo();
    for f in plan.book.iter() {
        let key = f.source.key.as_ref();
        let own = ["job", "sheet", "weather"].contains(&key);
        assert!(
            own || source(key).is_some(),
            "{}: source {key} is not in docs/sources.toml",
            f.key
        );
        assert!(!f.what.is_empty(), "{} says not what it is", f.key);
    }
    for f in &plan.findings {
        let key = f.finding.source.key.as_ref();
        let own = ["job", "sheet", "weather"].contains(&key);
        assert!(
            own || source(key).is_some(),
            "{}: source {key}",
            f.finding.rule
        );
        for figure in &f.finding.figures {
            assert!(
                plan.book.get(figure).is_some(),
                "{}: no figure {figure}",
                f.finding.rule
            );
        }
    }
}

fn leaves<'w>(w: &'w Why, out: &mut Vec<&'w Why>) {
    if w.inputs.is_empty() {
        out.push(w);
    }
    for input in &w.inputs {
        leaves(input, out);
    }
}

#[test]
fn the_house_load_unfolds_to_the_tape_measure() {
    let plan = demo();
    let tree = why(&plan, "loads.house.heating").expect("is there");
    assert_eq!(tree.key, "loads.house.heating");
    let mut all = Vec::new();
    leaves(&tree, &mut all);
    let lines = all
        .iter()
        .filter(|w| matches!(w.leaf, Leaf::Job { line: Some(_), .. }))
        .count();
    assert!(lines > 20, "{lines} leaves rest on a line of the job");
    // A person may write the room as the job does.
    assert!(why(&plan, "loads.bed 1.heating").is_ok());
    // Or joined, where the key has the space.
    for key in ["charge.east wall.total", "charge.east-wall.total"] {
        assert_eq!(
            why(&plan, key).expect("is there").key,
            "charge.east wall.total"
        );
    }
    let some = why(&plan, "charge.east-wall").expect_err("a beginning");
    assert!(
        some.beginning
            .iter()
            .any(|b| b.0 == "charge.east wall.total")
    );
}

/// A temperature reckoned from a sum of heats comes out in F as in C; a leak, whose formula counts
/// seconds and kelvin, does not, and says so.
#[test]
fn formulas_are_known_to_hold_in_the_units_printed_or_not() {
    let plan = demo();
    let holds = |key: &str, system| {
        let tree = why(&plan, key).expect("is there");
        tree.holds_as_printed(system)
    };
    for key in [
        "space.cellar.temperature",
        "space.cellar.pull-1",
        "loads.living.walls.1",
        "loads.house.heating",
    ] {
        assert!(holds(key, System::Us), "{key}");
        assert!(holds(key, System::Si), "{key}");
    }
    assert!(!holds("leaks.stack", System::Us));
    assert!(!holds("loads.living.leaks", System::Us));
    let temperatures = plan.book.iter().filter(|f| f.dim == Dim::Temperature);
    for f in temperatures {
        let tree = why(&plan, &f.key).expect("is there");
        assert!(tree.holds_as_printed(System::Us), "{}", f.key);
    }
}

/// Months and spans of outdoor temperature are the same year, cut twice.
#[test]
fn months_and_spans_add_up_to_the_year() {
    let plan = demo();
    let value = |key: &str| plan.book.value(key).unwrap_or_else(|| panic!("no {key}"));
    let year = plan.year().expect("a year");
    for (beginning, least) in [("season.chosen.month.", 12), ("season.chosen.outdoor.", 20)] {
        for (end, of_year) in [
            (".heat-by-heads", value("season.chosen.house.heat-by-heads")),
            (
                ".heat-by-heaters",
                value("season.chosen.house.heat-by-heaters"),
            ),
            (".hours-cycling", value("season.chosen.house.hours-cycling")),
            (".electric", year.electric_w.iter().sum::<f64>() * 3600.0),
        ] {
            let here = |f: &&reckon::Figure| f.key.starts_with(beginning) && f.key.ends_with(end);
            let parts: Vec<f64> = plan.book.iter().filter(here).map(|f| f.value).collect();
            assert!(parts.len() >= least, "{beginning}*{end}: {}", parts.len());
            let sum: f64 = parts.iter().sum();
            assert!(
                (sum - of_year).abs() <= 1e-9 * of_year,
                "{beginning}*{end}: {sum} against {of_year}"
            );
        }
    }
    for unit in &year.units {
        let key = season::key_of_unit(jobfile::CHOSEN, &unit.name, "compressor");
        let (told, counted) = (value(&key), unit.electric.compressor_j);
        assert!(
            (told / counted - 1.0).abs() < 1e-9,
            "{told} against {counted}"
        );
        let heat: f64 = unit.spans.iter().map(|s| s.heat_j).sum();
        assert!((heat / unit.heat_j - 1.0).abs() < 1e-9, "{heat}");
    }
    let gallons = value("season.boiler-alone.house.amount-oil");
    let bought = year_now(&plan).bought.iter().map(season::Bought::amount);
    assert!(bought.clone().any(|a| (a / gallons - 1.0).abs() < 1e-9));
}

fn year_now(plan: &Plan) -> &season::Year {
    let all = plan.season.done().expect("years");
    all.baseline.as_ref().expect("a boiler heats now")
}

/// A heater for a cold room is sized by what the room loses, not by what a set-back boiler gave it.
#[test]
fn a_cold_room_is_told_what_it_loses() {
    let plan = demo();
    let loads = plan.loads.done().expect("loads");
    let cold: Vec<_> = plan
        .findings
        .iter()
        .filter(|f| f.finding.rule == "room-too-cold")
        .collect();
    assert_eq!(cold.len(), 6);
    for f in cold {
        let name = f.finding.place.trim_start_matches("room.");
        let room = loads.heating.rooms.iter().find(|r| r.room == name);
        let loses = units::load_number(room.expect("a heated room").heat_w, System::Us);
        let said = format!("It loses {loses} Btu/h on the design night.");
        assert!(f.finding.mend.ends_with(&said), "{}", f.finding.mend);
    }
}

#[test]
fn a_wrong_key_is_answered_with_near_ones() {
    let plan = demo();
    let NoFigure {
        near, beginning, ..
    } = why(&plan, "loads.hous.heating").expect_err("no such");
    assert!(beginning.is_empty());
    assert_eq!(
        near.first().map(String::as_str),
        Some("loads.house.heating")
    );
    let prefix = why(&plan, "loads.house").expect_err("a beginning");
    assert!(
        prefix
            .beginning
            .iter()
            .all(|(k, _)| k.starts_with("loads.house."))
    );
    assert!(!prefix.beginning.is_empty() && prefix.near.is_empty());
    let none = why(&plan, "zzzz").expect_err("nothing like it");
    assert!(none.near.is_empty() && none.beginning.is_empty());
}

#[test]
fn the_same_inputs_give_the_same_plan() {
    let (a, b) = (demo(), demo());
    assert_eq!(a.book, b.book);
    assert_eq!(a.findings, b.findings);
    assert_eq!(a.loads, b.loads);
    assert_eq!(a.season, b.season);
}

#[test]
fn findings_come_loudest_first_and_are_numbered() {
    let plan = demo();
    assert!(!plan.findings.is_empty());
    for (i, pair) in plan.findings.windows(2).enumerate() {
        assert!(pair[0].finding.level <= pair[1].finding.level, "{i}");
        assert_eq!(pair[1].number, pair[0].number + 1);
    }
    assert_eq!(plan.findings[0].number, 1);
    let words: Vec<&str> = plan
        .findings
        .iter()
        .map(|f| f.finding.level.word())
        .collect();
    for level in ["stop", "fix", "ask"] {
        assert!(words.contains(&level), "the demo has no {level}");
    }
}
