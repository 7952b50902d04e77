//! The invented catalogue: every sheet reads, nothing on it must be mended, and the cold-climate
//! units look like such units.

mod support;

use std::collections::BTreeMap;

use heatpump::{
    Conditions, Duty, Head, Kind, Mode, OutdoorUnit, Performance, Sheet, System, capability,
    check_sheet, check_system, sheet_ratings,
};
use reckon::Level;
use support::{all_sheets, f, file};

fn catalogue() -> BTreeMap<String, Sheet> {
    let all = all_sheets().into_iter();
    all.map(|sheet| (sheet.name.clone(), sheet)).collect()
}

fn system(outdoor: &str, heads: &[&str]) -> System {
    let all = catalogue();
    let take = |n: &str| all.get(n).unwrap_or_else(|| panic!("{n}")).clone();
    System::new(
        OutdoorUnit::new(take(outdoor)).expect("outdoor"),
        heads
            .iter()
            .map(|h| Head::new(take(h)).expect("head"))
            .collect(),
    )
    .expect("system")
}

#[test]
fn has_every_kind() {
    let all = catalogue();
    assert!(all.len() >= 16, "{}", all.len());
    for kind in Kind::ALL {
        assert!(all.values().any(|s| s.kind == kind), "{}", kind.words());
    }
    assert!(all.values().any(|s| s.year.is_some_and(|y| y <= 2011)));
}

#[test]
fn every_sheet_says_that_it_is_invented() {
    for sheet in catalogue().values() {
        let text = file("../../catalogue", &sheet.file);
        assert!(text.starts_with("# INVENTED DATA"), "{}", sheet.file);
        assert!(sheet.invented, "{}", sheet.file);
    }
}

#[test]
fn nothing_on_it_stops_or_needs_mending() {
    for sheet in catalogue().values() {
        let loud: Vec<String> = check_sheet(sheet, units::System::Us)
            .into_iter()
            .filter(|x| x.level <= Level::Fix)
            .map(|x| format!("{} {}: {}", sheet.file, x.rule, x.says))
            .collect();
        assert!(loud.is_empty(), "{loud:?}");
    }
}

/// The ratings it prints are invented near what its points give: within a tenth.
#[test]
fn printed_ratings_follow_from_the_points() {
    let mut compared = 0;
    for sheet in catalogue().values() {
        let Some(own) = System::alone(sheet).ok().map(|s| sheet_ratings(&s)) else {
            continue;
        };
        let own = own.unwrap_or_else(|e| panic!("{} {e}", sheet.name));
        let both = [
            (sheet.printed.hspf2, own.hspf2),
            (sheet.printed.seer2, own.seer2),
        ];
        for (printed, points) in both {
            let Some(printed) = printed else { continue };
            let points = points.unwrap_or(f64::NAN);
            let apart = (printed / points - 1.0).abs();
            assert!(apart <= 0.1, "{}: {printed} against {points}", sheet.name);
            compared += 1;
        }
    }
    assert!(compared >= 20, "{compared}");
}

/// Common practice, no source: COP about 4.7 in mild weather, about 1.6 to 2 near 0 F, near 1 at
/// -20 F; the tolerance is what "about" can mean.
#[test]
fn a_cold_climate_unit_behaves_like_one() {
    let loon = system("Loon 9", &["Teal 9"]);
    let c = Conditions::at_sea_level(f(70.0));
    let at = |t: f64| capability(&loon, Duty::Heating, f(t), c).expect("within the sheet");
    let mild = at(47.0).rated.expect("rated").cop();
    assert!((4.4..5.0).contains(&mild), "{mild}");
    let cold = at(0.0).max.cop();
    assert!((1.6..2.0).contains(&cold), "{cold}");
    let coldest = at(-20.0).max.cop();
    assert!((0.9..1.3).contains(&coldest), "{coldest}");
    let held = at(5.0).max.capacity_w / at(47.0).rated.expect("rated").capacity_w;
    assert!(held >= 1.0, "{held}");
}

#[test]
fn several_heads_have_a_high_minimum() {
    let grebe = system("Grebe 30", &["Teal 9", "Teal 9", "Bittern 12"]);
    let loon = system("Loon 9", &["Teal 9"]);
    let c = Conditions::at_sea_level(21.0);
    let many = capability(&grebe, Duty::Heating, 8.0, c)
        .expect("grebe")
        .min
        .capacity_w;
    let one = capability(&loon, Duty::Heating, 8.0, c)
        .expect("loon")
        .min
        .capacity_w;
    assert!(many > 4.0 * one, "{many} {one}");
}

#[test]
fn every_outdoor_unit_makes_a_table() {
    let all = catalogue();
    for sheet in all.values() {
        let heads: &[&str] = match sheet.kind {
            Kind::OutdoorSingle => &["Teal 9"],
            Kind::OutdoorMulti => &["Teal 9", "Teal 9"],
            Kind::Head(_) => continue,
        };
        for duty in [Duty::Heating, Duty::Cooling] {
            let s = system(&sheet.name, heads);
            let p = Performance::new(&s, duty, Conditions::at_sea_level(23.0))
                .unwrap_or_else(|e| panic!("{} {e}", sheet.name));
            let (cold, warm) = p.span_c();
            let run = p.operate(0.5 * (cold + warm), 500.0);
            assert!(
                matches!(run.mode, Mode::Cycling | Mode::Modulating) && run.delivered_w == 500.0,
                "{} {run:?}",
                sheet.name
            );
        }
    }
}

/// Every pair the catalogue names exists, holds one refrigerant and has nothing to say.
#[test]
fn named_pairs_fit() {
    let all = catalogue();
    let mut pairs = 0;
    for outdoor in all.values().filter(|s| s.kind == Kind::OutdoorSingle) {
        for head in &outdoor.tested_with {
            let found = check_system(&system(&outdoor.name, &[head]), units::System::Us);
            assert!(found.is_empty(), "{} with {head}: {found:?}", outdoor.name);
            pairs += 1;
        }
    }
    assert!(pairs >= 20, "{pairs}");
}
