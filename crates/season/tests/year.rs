//! The year of the demo house: energy adds up, regimes are counted once, and what must follow
//! from a change does follow.

mod support;

use house::balance::Doors;
use jobfile::Carrier;
use proptest::prelude::*;
use season::{Input, Regime, Row, SeasonError, Year};
use support::{Site, choice, job, lake_street};

/// Sums of 8760 hours in another order: rounding only.
const ROUNDING: f64 = 1e-9;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= ROUNDING * a.abs().max(b.abs()).max(1.0)
}

fn adds_up(year: &Year) {
    let rooms: f64 = year
        .rooms
        .iter()
        .map(|r| r.by_heads_j + r.by_heaters_j)
        .sum();
    let units: f64 = year.units.iter().map(|u| u.heat_j).sum();
    let heaters: f64 = year.heaters.iter().map(|h| h.heat_j).sum();
    assert!(
        near(rooms, year.heat_j),
        "rooms {rooms}, house {}",
        year.heat_j
    );
    assert!(near(units + heaters, year.heat_j), "{}", year.choice);
    let hourly: f64 = year
        .heads_w
        .iter()
        .zip(&year.heaters_w)
        .map(|(a, b)| a + b)
        .sum();
    assert!(near(hourly * 3600.0, year.heat_j));
    for unit in &year.units {
        assert_eq!(unit.hours.iter().sum::<u32>() as usize, year.hours);
        assert_eq!(unit.by_hour.len(), year.hours);
        assert!(
            unit.apart_j <= 1e-8 * unit.heat_j,
            "{} {}",
            unit.apart_j,
            unit.heat_j
        );
        let heads: f64 = unit.heads.iter().map(|h| h.heat_j).sum();
        assert!(near(heads, unit.heat_j));
        assert!(near(unit.heat_by_regime_j.iter().sum(), unit.heat_j));
        for idle in [
            Regime::Off,
            Regime::CutOut,
            Regime::CannotTell,
            Regime::SwitchedOff,
        ] {
            assert_eq!(
                unit.heat_in_j(idle),
                0.0,
                "{} while {}",
                unit.name,
                idle.word()
            );
        }
        if let Some(cop) = unit.seasonal_cop() {
            assert!(near(cop * unit.electric.heating_j(), unit.heat_j));
            assert!((1.0..7.0).contains(&cop), "{} COP {cop}", unit.name);
        }
        let e = &unit.electric;
        for part in [
            e.compressor_j,
            e.defrost_j,
            e.base_pan_j,
            e.standby_j,
            e.cooling_j,
        ] {
            assert!(part >= 0.0, "{}: {e:?}", unit.name);
        }
    }
    let metered: f64 = year.electric_w.iter().sum::<f64>() * 3600.0;
    assert!(
        near(metered, year.bought_j(Carrier::Electricity)),
        "meter {metered}, bought {}",
        year.bought_j(Carrier::Electricity)
    );
    // The house closes to 0.01 % (issue 3).
    assert!(year.closure.abs() < 1e-4, "closure {}", year.closure);
    // Where two stages of heat hand over to each other through an open door, an hour in a thousand
    // may stop before it has settled to 20 W; the ledger above closes all the same.
    assert!(year.unsettled_hours <= 8, "{} hours", year.unsettled_hours);
}

#[test]
fn energy_adds_up_in_every_choice_and_without_equipment() {
    let site = Site::lake_street();
    for c in &site.job.choices() {
        adds_up(&site.year(c));
    }
    let nothing = choice("nothing", &[], &[]);
    let year = site.year(&nothing);
    adds_up(&year);
    assert!(year.units.is_empty() && year.heads_share().is_none());
    let alone = season::baseline(&site.input(&nothing))
        .expect("runs")
        .expect("a boiler");
    adds_up(&alone);
    // Nothing is short with a boiler of 85 kBtu/h and its thermostat at the rooms' settings.
    assert!(alone.rooms.iter().all(|r| r.short_2k_h == 0));
    // Oil bought is heat over the efficiency of the job, 80 %.
    assert!(near(alone.bought_j(Carrier::Oil) * 0.80, alone.heat_j));
}

#[test]
fn what_heats_now_is_neither_set_lower_nor_locked_out_while_it_is_alone() {
    let text = lake_street();
    let behind = "set_below = \"4 F\"";
    let locked = format!("{behind}\nlocked_out_above = \"30 F\"");
    let nothing = choice("nothing", &[], &[]);
    let alone = |text: &str| {
        let site = Site::new(job(text), support::weather("chicago-725300.epw.gz"));
        season::baseline(&site.input(&nothing)).expect("runs")
    };
    let usual = alone(&text);
    assert!(usual.is_some());
    assert_eq!(alone(&text.replace(behind, &locked)), usual);
    assert_eq!(alone(&text.replace(behind, "set_below = \"9 F\"")), usual);
}

#[test]
fn a_bigger_multi_cycles_more_at_a_lower_cop() {
    // Trade card F8, as shape: one outdoor unit for several heads cycles far more than one a
    // head, a larger one more than a smaller, and the seasonal COP falls in the same order.
    let site = Site::lake_street();
    let heads =
        |on: [&'static str; 2]| [("living", "Teal 12", on[0]), ("landing", "Teal 9", on[1])];
    let singles = choice(
        "singles",
        &[("a", "Loon 12"), ("b", "Loon 9")],
        &heads(["a", "b"]),
    );
    let small = choice("30", &[("a", "Grebe 30")], &heads(["a", "a"]));
    let large = choice("42", &[("a", "Grebe 42")], &heads(["a", "a"]));
    let rows = [&singles, &small, &large].map(|c| Row::of(&site.year(c)));
    let cycling = rows.each_ref().map(|r| r.cycling_share.expect("heat"));
    let cop = rows.each_ref().map(|r| r.seasonal_cop.expect("heat"));
    assert!(
        cycling[0] < cycling[1] && cycling[1] <= cycling[2],
        "{cycling:?}"
    );
    assert!(cop[0] > cop[1] && cop[1] > cop[2], "{cop:?}");
    assert!(cycling[0] < 0.2 && cycling[2] > 0.5, "{cycling:?}");
}

#[test]
fn closed_doors_make_bedrooms_colder() {
    let site = Site::new(
        job(&lake_street().replace("stays = true", "stays = false")),
        support::weather("chicago-725300.epw.gz"),
    );
    let c = site.job.choices().remove(0);
    let [open, shut] = [Doors::Open, Doors::Closed].map(|doors| {
        season::year(&Input {
            doors,
            ..site.input(&c)
        })
        .expect("a year")
    });
    for name in ["bed 1", "bed 2", "bed 3"] {
        let [o, s] = [&open, &shut].map(|y| y.room(name).expect("room"));
        // Card F11 puts 10 to 15 F between them on a cold day.
        assert!(
            s.least_c < o.least_c - 3.0,
            "{name}: {} {}",
            s.least_c,
            o.least_c
        );
        assert!(s.mean_c < o.mean_c);
        assert!(s.short_2k_h > o.short_2k_h);
    }
}

#[test]
fn habits_shut_the_bedroom_doors() {
    // The job says closed; the same house with the doors drawn open must come out the same.
    let text = lake_street();
    let drawn_open = text.replace(
        "usually = \"closed\", undercut = \"0.5 in\" }]",
        "usually = \"open\", undercut = \"0.5 in\" }]",
    );
    assert_ne!(text, drawn_open);
    let least = |text: &str, room: &str| {
        let site = Site::new(job(text), support::weather("chicago-725300.epw.gz"));
        let c = site.job.choices().remove(0);
        let year = site.year(&c);
        year.room(room).map(|r| r.heads_alone_c)
    };
    assert_eq!(
        least(&text, "bed 1"),
        least(
            &drawn_open.replace(
                "{ room = \"hall\", width = \"28 in\", usually = \"open\"",
                "{ room = \"hall\", width = \"28 in\", usually = \"closed\""
            ),
            "bed 1"
        )
    );
}

#[test]
fn a_larger_unit_never_needs_more_backup_and_a_colder_setting_never_more_heat() {
    let site = Site::lake_street();
    let backup = |unit: &str| {
        let c = choice(unit, &[("a", unit)], &[("living", "Teal 9", "a")]);
        let year = site.year(&c);
        year.heat_j - year.by_heads_j()
    };
    // Loon 6, 9, 12, 15: the same line, growing.
    let all = ["Loon 6", "Loon 9", "Loon 12", "Loon 15"].map(backup);
    for pair in all.windows(2) {
        assert!(pair[1] <= pair[0] * (1.0 + ROUNDING), "{all:?}");
    }
    let c = choice("one", &[("a", "Loon 12")], &[("living", "Teal 12", "a")]);
    let colder = Site::new(
        job(&lake_street().replace("heated_to = \"70 F\"", "heated_to = \"66 F\"")),
        support::weather("chicago-725300.epw.gz"),
    );
    assert!(colder.year(&c).heat_j < site.year(&c).heat_j);
}

#[test]
fn the_same_to_the_bit() {
    let site = Site::lake_street();
    let c = site.job.choices().remove(0);
    assert_eq!(site.year(&c), site.year(&c));
}

#[test]
fn switched_off_below_leaves_the_heat_to_the_boiler() {
    let text = lake_street().replace("[habits]", "[habits]\noff_below = \"15 F\"");
    let site = Site::new(job(&text), support::weather("chicago-725300.epw.gz"));
    let c = site.job.choices().remove(0);
    let year = site.year(&c);
    let colder = year
        .outdoor_c
        .iter()
        .filter(|t| **t < (15.0 - 32.0) / 1.8)
        .count();
    assert_eq!(year.hours_in(Regime::SwitchedOff) as usize, colder);
    let always = Site::lake_street().year(&c);
    assert!(year.heads_share() < always.heads_share());
    adds_up(&year);
}

#[test]
fn colder_than_every_sheet_the_units_give_nothing_and_say_so() {
    // Northway, Alaska: below -40 F, which no sheet of the catalogue reaches.
    let site = Site::new(
        job(&lake_street()),
        support::weather("northway-702910.epw.gz"),
    );
    for c in &site.job.choices() {
        let year = site.year(c);
        adds_up(&year);
        for unit in &year.units {
            let (cold_c, _) = unit.span_c.expect("heats");
            let colder = year.outdoor_c.iter().filter(|t| **t < cold_c).count();
            let silent = unit.hours_in(Regime::CutOut) + unit.hours_in(Regime::CannotTell);
            assert!(colder > 100, "{colder}");
            assert_eq!(silent as usize, colder, "{}", unit.name);
        }
        let said = season::findings(&site.input(c), &year);
        let known = ["stops-in-cold", "sheet-ends-too-warm"];
        assert!(
            said.iter().any(|f| known.contains(&f.rule.as_str())),
            "{said:?}"
        );
    }
}

#[test]
fn every_unit_of_the_catalogue_runs_a_year_or_says_why_not() {
    let site = Site::lake_street();
    let (mut ran, mut refused) = (0, 0);
    for (name, sheet) in &site.catalogue {
        let c = match sheet.kind {
            heatpump::Kind::Head(_) => choice(name, &[("a", "Loon 12")], &[("living", name, "a")]),
            heatpump::Kind::OutdoorSingle => {
                choice(name, &[("a", name)], &[("living", "Teal 12", "a")])
            }
            heatpump::Kind::OutdoorMulti => choice(
                name,
                &[("a", name)],
                &[("living", "Teal 12", "a"), ("bed 1", "Teal 9", "a")],
            ),
        };
        match season::year(&site.input(&c)) {
            Ok(year) => {
                adds_up(&year);
                let said = season::findings(&site.input(&c), &year);
                let silent = year.units.iter().any(|u| u.no_heating.is_some());
                assert!(!silent || said.iter().any(|f| f.rule == "sheet-without-heating"));
                ran += 1;
            }
            Err(SeasonError::NotASystem { .. }) => refused += 1,
            Err(other) => panic!("{name}: {other}"),
        }
    }
    assert!(ran >= 14 && refused == 0, "{ran} ran, {refused} refused");
}

proptest! {
    // A year a case: few cases, each over 8760 hours.
    #![proptest_config(ProptestConfig {
        cases: 12,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn any_plant_adds_up_and_keeps_its_limits(
        outdoor in prop::sample::select(vec!["Grebe 20", "Grebe 30", "Grebe 42"]),
        rooms in prop::sample::subsequence(vec!["living", "kitchen", "bed 1", "bed 2"], 2..=3),
        head in prop::sample::select(vec!["Teal 6", "Teal 9"]),
        off_below_f in -20_i32..30,
        set_below_f in 0_i32..10,
        locked_out_above_f in 20_i32..70,
        boiler_kbtu in 4_i32..60,
    ) {
        let text = lake_street()
            .replace("set_below = \"4 F\"", &format!(
                "set_below = \"{set_below_f} F\"\nlocked_out_above = \"{locked_out_above_f} F\""
            ))
            .replace("capacity = \"85 kBtu/h\"", &format!("capacity = \"{boiler_kbtu} kBtu/h\""))
            .replace("[habits]", &format!("[habits]\noff_below = \"{off_below_f} F\""));
        let site = Site::new(job(&text), support::weather("chicago-725300.epw.gz"));
        // Grebe 20 takes two heads.
        let most = if outdoor == "Grebe 20" { 2 } else { 3 };
        let heads: Vec<_> = rooms.iter().take(most).map(|r| (*r, head, "a")).collect();
        let year = site.year(&choice("any", &[("a", outdoor)], &heads));
        adds_up(&year);
        let most_w = f64::from(boiler_kbtu) * 1000.0 * 0.293_071_07;
        let lock_c = (f64::from(locked_out_above_f) - 32.0) / 1.8;
        let off_c = (f64::from(off_below_f) - 32.0) / 1.8;
        for h in 0..year.hours {
            // A millionth: the reader's Btu and this one.
            prop_assert!(year.heaters_w[h] <= most_w * (1.0 + 1e-6));
            prop_assert!(year.outdoor_c[h] <= lock_c + 1e-9 || year.heaters_w[h] == 0.0);
            prop_assert!(year.outdoor_c[h] >= off_c - 1e-9 || year.heads_w[h] == 0.0);
        }
    }
}

#[test]
fn names_that_are_not_there_are_refused_in_words() {
    let site = Site::lake_street();
    let said = |c: &jobfile::Choice| match season::year(&site.input(c)) {
        Ok(_) => String::new(),
        Err(why) => why.to_string(),
    };
    let c = choice("x", &[("a", "Lon 12")], &[("living", "Teal 12", "a")]);
    assert_eq!(
        said(&c),
        "`Lon 12` of outdoor unit `a` is not in the catalogue; did you mean `Loon 12`?"
    );
    let c = choice("x", &[("a", "Loon 12")], &[("attic", "Teal 12", "a")]);
    assert_eq!(
        said(&c),
        "head `attic` is in room `attic`, which the house does not have"
    );
    let c = choice("x", &[], &[("living", "Teal 12", "b")]);
    assert_eq!(
        said(&c),
        "head `living` hangs on `b`, which is not an outdoor unit of this choice"
    );
    let c = choice("x", &[("a", "Loon 12")], &[]);
    assert_eq!(
        said(&c),
        "outdoor unit `a`: `Loon 12` has no head: name at least one"
    );
}
