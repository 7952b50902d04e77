//! The search against brute force with the whole year, on small catalogues.

mod support;

use jobfile::Choice;
use season::choose::{Aim, Care, Found, Grain, Wishes, among, search};
use support::{Site, choice, job, lake_street, weather, weeks};

const ON: [&str; 2] = ["a", "b"];

/// Two rooms, every pair of singles and every outdoor unit for several heads: 6 x 6 + 3 x 3 x 3.
fn small_catalogue() -> Vec<Choice> {
    let singles = [
        ("Loon 6", "Teal 6"),
        ("Loon 9", "Teal 9"),
        ("Loon 12", "Teal 12"),
        ("Loon 15", "Teal 15"),
        ("Wren 9", "Teal 9"),
        ("Wren 12", "Teal 12"),
    ];
    let mut all = Vec::new();
    for (a, head_a) in singles {
        for (b, head_b) in singles {
            all.push(choice(
                &format!("{a} and {b}"),
                &[(ON[0], a), (ON[1], b)],
                &[("living", head_a, ON[0]), ("landing", head_b, ON[1])],
            ));
        }
    }
    for outdoor in ["Grebe 20", "Grebe 30", "Grebe 42"] {
        for a in ["Teal 6", "Teal 9", "Teal 12"] {
            for b in ["Teal 6", "Teal 9", "Teal 12"] {
                all.push(choice(
                    &format!("{outdoor}, {a}, {b}"),
                    &[(ON[0], outdoor)],
                    &[("living", a, ON[0]), ("landing", b, ON[0])],
                ));
            }
        }
    }
    all
}

/// The demo house over a week of each month, for what does not hang on the hours.
fn over_weeks() -> Site {
    let weather = weather("chicago-725300.epw.gz");
    Site::new(job(&lake_street()), weeks(&weather))
}

fn usual() -> Wishes {
    Wishes {
        grain: Some(Grain::default()),
        ..Wishes::default()
    }
}

fn names(found: &Found) -> Vec<String> {
    let mut all: Vec<String> = found
        .survivors
        .iter()
        .map(|s| s.choice.name.clone())
        .collect();
    all.sort();
    all
}

/// The same survivors with the same numbers, to the bit, whether every candidate is run whole or
/// only what the quick year leaves. No tolerance: what is said is of the whole year both times.
fn same_as_brute_force(site: &Site, choices: &[Choice], wishes: &Wishes) -> Found {
    let input = site.input(&choices[0]);
    let sure = Wishes {
        care: Care::Sure,
        ..wishes.clone()
    };
    let all = Wishes {
        care: Care::AllWhole,
        ..wishes.clone()
    };
    let quick = among(&input, choices, &sure).expect("runs");
    let brute = among(&input, choices, &all).expect("runs");
    assert_eq!(brute.run_whole, choices.len());
    assert_eq!(names(&quick), names(&brute));
    for s in &quick.survivors {
        let b = brute
            .survivors
            .iter()
            .find(|b| b.choice.name == s.choice.name)
            .expect("is there");
        assert_eq!(s.measure, b.measure);
        assert_eq!(s.row, b.row);
    }
    // Without that care: for every survivor of brute force one is found that is no worse in
    // anything by more than a grain, which is what nobody would notice, and the error of the quick
    // year of that survivor, for which it was passed over.
    let survivors: Vec<Choice> = brute.survivors.iter().map(|s| s.choice.clone()).collect();
    let off = season::choose::quick_against_whole(&input, &survivors, wishes).expect("runs");
    let fast = among(&input, choices, wishes).expect("runs");
    assert!(fast.run_whole <= quick.run_whole);
    for b in &brute.survivors {
        let near = |aim: Aim, f: &season::choose::Survivor| {
            let by = |m: &season::choose::Measure| m.by(aim).unwrap_or(0.0);
            let error = off
                .iter()
                .find(|a| a.name == b.choice.name && a.aim == aim)
                .map_or(0.0, |a| a.bound);
            by(&f.measure) <= by(&b.measure) + brute.grain.by(aim) + error
        };
        let found = fast
            .survivors
            .iter()
            .any(|f| Aim::ALL.iter().all(|aim| near(*aim, f)));
        assert!(found, "{}", b.choice.name);
    }
    quick
}

#[test]
fn same_as_brute_force_with_the_boiler_behind() {
    let site = Site::lake_street();
    let choices = small_catalogue();
    let found = same_as_brute_force(&site, &choices, &usual());
    assert!(found.run_whole < choices.len(), "{}", found.run_whole);
    assert!(!found.survivors.is_empty() && found.survivors.len() < choices.len() / 2);
}

#[test]
fn same_as_brute_force_with_nothing_behind() {
    // Without the boiler what is short stays short: comfort parts the choices.
    let site = Site::new(
        job(&lake_street().replace("stays = true", "stays = false")),
        weather("chicago-725300.epw.gz"),
    );
    same_as_brute_force(&site, &small_catalogue(), &usual());
}

#[test]
fn same_as_brute_force_in_another_climate_with_finer_grains() {
    let site = Site::new(
        job(&lake_street()),
        weather("greensboro-723170.tmy3.csv.gz"),
    );
    let wishes = Wishes {
        grain: Some(Grain {
            comfort_k_h: 25.0,
            cycling_h: 25.0,
            cost: 5.0,
            carbon_kg: 25.0,
            equipment: 25.0,
        }),
        ..Wishes::default()
    };
    same_as_brute_force(&site, &small_catalogue(), &wishes);
}

#[test]
fn the_number_of_threads_changes_nothing() {
    let site = over_weeks();
    let nothing = choice("nothing", &[], &[]);
    let wishes = Wishes {
        rooms: vec![
            "living".to_owned(),
            "landing".to_owned(),
            "bed 1".to_owned(),
        ],
        most_heads: 2,
        ..Wishes::default()
    };
    let one = search(&site.input(&nothing), &wishes).expect("runs");
    let three = search(
        &site.input(&nothing),
        &Wishes {
            threads: 3,
            ..wishes
        },
    )
    .expect("runs");
    assert_eq!(one, three);
    assert!(one.looked_at > 20 && one.layouts == 6, "{one:?}");
}

#[test]
fn every_survivor_has_a_reason() {
    let site = Site::lake_street();
    let choices = small_catalogue();
    let found = among(&site.input(&choices[0]), &choices, &Wishes::default()).expect("runs");
    for s in &found.survivors {
        let beside = s.beside.as_ref();
        // It is best in something, or better in something than the one nearest to it.
        let reason = !s.best_in.is_empty() || beside.is_some_and(|b| b.worse().next().is_some());
        assert!(reason, "{s:?}");
        if let Some(beaten) = &s.runner_up {
            assert!(beaten.worse().next().is_some(), "{beaten:?}");
        }
    }
}

#[test]
fn a_room_that_is_not_there_is_said() {
    let site = Site::lake_street();
    let nothing = choice("nothing", &[], &[]);
    let wishes = Wishes {
        rooms: vec!["loft".to_owned()],
        ..Wishes::default()
    };
    let why = search(&site.input(&nothing), &wishes).expect_err("no such room");
    assert_eq!(
        why.to_string(),
        "head `looked for` is in room `loft`, which the house does not have"
    );
}

/// How far quick and whole year lie apart, whole years of 8760 hours: inside the bound by which the
/// sifting allows for it.
fn within_its_own_bound(stays: bool, file: &str) {
    let text = lake_street().replace("stays = true", &format!("stays = {stays}"));
    let site = Site::new(job(&text), weather(file));
    let choices = small_catalogue();
    let off =
        season::choose::quick_against_whole(&site.input(&choices[0]), &choices, &Wishes::default())
            .expect("runs");
    assert!(off.len() >= 5 * choices.len(), "{}", off.len());
    for a in off {
        assert!((a.quick - a.whole).abs() <= a.bound, "{a:?}");
    }
}

#[test]
fn the_quick_year_lies_within_its_own_bound_with_the_boiler_behind() {
    within_its_own_bound(true, "chicago-725300.epw.gz");
}

#[test]
fn the_quick_year_lies_within_its_own_bound_with_nothing_behind() {
    within_its_own_bound(false, "chicago-725300.epw.gz");
}

#[test]
fn the_quick_year_lies_within_its_own_bound_where_it_is_colder() {
    within_its_own_bound(false, "aurora-buckley-724695.epw.gz");
}

/// What the habits and the heaters of the job say, the quick year does as the whole one does.
#[test]
fn the_quick_year_keeps_to_the_limits_of_the_job() {
    let text = lake_street();
    let off = text.replace("[habits]", "[habits]\noff_below = \"25 F\"");
    let locked = text.replace(
        "set_below = \"4 F\"",
        "set_below = \"4 F\"\nlocked_out_above = \"30 F\"",
    );
    let choices: Vec<Choice> = small_catalogue().into_iter().step_by(9).collect();
    let lying = |text: &str| {
        let site = Site::new(job(text), weeks(&weather("chicago-725300.epw.gz")));
        let input = site.input(&choices[0]);
        season::choose::quick_against_whole(&input, &choices, &Wishes::default()).expect("runs")
    };
    let plain = lying(&text);
    for (text, aim) in [(off, Aim::Carbon), (locked, Aim::Comfort)] {
        for (a, before) in lying(&text).iter().zip(&plain) {
            assert!((a.quick - a.whole).abs() <= a.bound, "{a:?}");
            // Heat that is lacking widens that bound; what the limit does is seen far closer.
            if a.aim == aim {
                let does = (a.whole - before.whole).abs();
                assert!((a.quick - a.whole).abs() < 0.03 * does, "{a:?} {before:?}");
            }
        }
    }
}

/// Candidates are counted before they are made. If the count were off, a limit of just as many as
/// there are would drop a size, or one less would keep it.
#[test]
fn fewer_sizes_are_kept_where_there_would_be_too_many() {
    let site = over_weeks();
    let nothing = choice("nothing", &[], &[]);
    let most = |most: usize| {
        let rooms = ["living", "kitchen", "landing"];
        let wishes = Wishes {
            rooms: rooms.map(str::to_owned).to_vec(),
            most,
            ..Wishes::default()
        };
        search(&site.input(&nothing), &wishes).expect("runs")
    };
    let whole = most(20_000);
    let all = whole.looked_at;
    assert!(
        whole.sizes_kept > 4 && all > 50,
        "{} {all}",
        whole.sizes_kept
    );
    let just = most(all);
    assert_eq!((just.looked_at, just.sizes_kept), (all, whole.sizes_kept));
    let less = most(all - 1);
    assert!(less.looked_at < all && less.sizes_kept < whole.sizes_kept);
}
