//! Widths as decision 8 has them, and what each input does to a house.

use house::describe::Layer;
use house::glazing::Glass;
use house::model::Behind;
use jobfile::Carrier;
use reckon::Known;

use super::{Could, Uncertain, What, either_way, uncertain};
use crate::input::Catalogue;

/// Rounding of a logarithm and back.
const ROUNDING: f64 = 1e-12;

fn read(path: &str) -> String {
    let full = format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(full).expect("a file of the project")
}

/// The demo house with one outdoor unit.
fn demo() -> Could {
    let job = jobfile::read(&read("jobs/lake-street/job.toml")).expect("reads");
    let model = house::geometry::model(&job.house).expect("a model");
    let glasses = model.glazings.iter().map(Glass::new).collect();
    let sheet = heatpump::read_sheet("loon-12", &read("catalogue/loon-12.toml")).expect("reads");
    Could {
        job,
        model,
        glasses,
        catalogue: Catalogue::from([(sheet.name.clone(), sheet)]),
    }
}

fn spread(low: f64, high: f64, difference: bool) -> Uncertain {
    Uncertain {
        name: String::new(),
        known: Known::Assumed,
        low,
        high,
        difference,
        what: What::Gains,
    }
}

#[test]
fn one_in_ten_lies_beyond_each_end() {
    // Normal score of nine in ten, table of the normal distribution.
    const NINE_IN_TEN: f64 = 1.281_551_565_544_6;
    for (low, high, difference, middle) in [
        (0.8, 1.25, false, 1.0),
        // one way more than the other: the middle of a factor is that of its logarithm
        (0.5, 8.0, false, 2.0),
        (-0.8, 0.8, true, 0.0),
        (1.0, 5.0, true, 3.0),
    ] {
        let of = spread(low, high, difference);
        for (score, want) in [(0.0, middle), (-NINE_IN_TEN, low), (NINE_IN_TEN, high)] {
            let got = of.at(score);
            assert!((got - want).abs() < ROUNDING, "{of:?} at {score}: {got}");
        }
    }
    // Twice as far out: a factor grows by the same ratio again, a difference by the same step.
    assert!((spread(0.5, 2.0, false).at(2.0 * NINE_IN_TEN) - 4.0).abs() < ROUNDING);
    assert!((spread(1.0, 5.0, true).at(2.0 * NINE_IN_TEN) - 7.0).abs() < ROUNDING);
    // A quarter up is as likely as a fifth down: both by the same ratio.
    assert_eq!(either_way(0.25), (0.8, 1.25));
}

#[test]
fn widths_are_those_that_were_decided() {
    let demo = demo();
    let all = uncertain(&demo.job, &demo.model);
    let mut kinds = std::collections::BTreeSet::new();
    for of in &all {
        let (kind, seen, label, assumed) = match &of.what {
            What::Construction(_) => ("construction", 0.12, 0.12, 0.40),
            What::Glazing(_) => ("glazing", 0.12, 0.08, 0.30),
            What::Leakage => ("leakage", 0.15, 0.20, 0.50),
            What::Heaters => ("heaters", 0.05, 0.05, 0.10),
            What::Gains => ("gains", 0.40, 0.40, 0.40),
            What::Ground => ("ground", 0.40, 0.40, 0.40),
            What::Contents => ("contents", 0.50, 0.50, 0.50),
            What::Price(_) => ("price", 0.15, 0.15, 0.15),
            // These three do not lie even.
            What::Settings => {
                assert_eq!((of.low, of.high, of.difference), (-0.8, 0.8, true));
                continue;
            }
            What::Capacity => {
                assert_eq!((of.low, of.high), (0.90, 1.03));
                continue;
            }
            What::Electricity => {
                assert_eq!((of.low, of.high), (0.95, 1.25));
                continue;
            }
        };
        kinds.insert(kind);
        let share = match of.known {
            Known::Seen => seen,
            Known::Label => label,
            Known::Assumed => assumed,
        };
        assert!(!of.difference, "{of:?}");
        assert!((of.high - 1.0 - share).abs() < ROUNDING, "{of:?}");
        assert!((of.low * of.high - 1.0).abs() < ROUNDING, "{of:?}");
    }
    assert_eq!(kinds.len(), 8, "{kinds:?}");
    // Every construction that a surface has, every glazing, every price; nothing twice.
    let count = |is: fn(&What) -> bool| all.iter().filter(|u| is(&u.what)).count();
    let mut used: Vec<usize> = demo.model.surfaces.iter().map(|s| s.construction).collect();
    used.sort_unstable();
    used.dedup();
    assert_eq!(count(|w| matches!(w, What::Construction(_))), used.len());
    assert_eq!(
        count(|w| matches!(w, What::Glazing(_))),
        demo.model.glazings.len()
    );
    assert_eq!(
        count(|w| matches!(w, What::Price(_))),
        demo.job.prices.by_carrier.len()
    );
    // What stands in the cellar touches the ground; a house without ground has no such input.
    let mut stilts = demo.model.clone();
    stilts
        .surfaces
        .retain(|s| !matches!(s.behind, Behind::Ground(_)));
    let without = uncertain(&demo.job, &stilts);
    assert!(without.iter().all(|u| u.what != What::Ground));
    // The boiler's label is known as the boiler is.
    let heaters = all.iter().find(|u| u.what == What::Heaters);
    let boiler = demo.job.existing.as_ref().expect("a boiler");
    assert_eq!(heaters.expect("it heats").known, boiler.known);
}

/// Twice the resistance of every layer.
fn doubled(before: &Layer, after: &Layer) -> bool {
    match (before, after) {
        (Layer::Solid { k_w_per_mk: a, .. }, Layer::Solid { k_w_per_mk: b, .. }) => *b == a / 2.0,
        (Layer::Resistance { r_m2k_per_w: a, .. }, Layer::Resistance { r_m2k_per_w: b, .. }) => {
            *b == 2.0 * a
        }
        (
            Layer::Framed {
                cavity: a,
                framing: x,
                ..
            },
            Layer::Framed {
                cavity: b,
                framing: y,
                ..
            },
        ) => b[0] == a[0] / 2.0 && y[0] == x[0] / 2.0 && b[1..] == a[1..] && y[1..] == x[1..],
        _ => false,
    }
}

#[test]
fn doubled_and_halved_a_house_is_what_it_was() {
    // Two and a half are exact, so the house comes back to the bit.
    let start = demo();
    for of in uncertain(&start.job, &start.model) {
        let mut could = start.clone();
        could.set(&of.what, 2.0);
        let changed = could.job != start.job
            || could.model != start.model
            || could.glasses != start.glasses
            || could.catalogue != start.catalogue;
        assert!(changed, "{}", of.name);
        could.set(&of.what, if of.difference { -2.0 } else { 0.5 });
        match of.what {
            // At most all that is burnt becomes heat, so here the way back is not to the bit.
            What::Heaters => continue,
            // Added and taken away again: rounding.
            What::Settings => {
                let setting = |c: &Could| c.model.zones[1].heated.clone().expect("living");
                let (a, b) = (setting(&start), setting(&could));
                for (a, b) in a.by_hour_c.iter().zip(&b.by_hour_c) {
                    assert!((a.expect("set") - b.expect("set")).abs() < ROUNDING);
                }
                continue;
            }
            _ => {}
        }
        assert_eq!(could.job, start.job, "{}", of.name);
        assert_eq!(could.model, start.model, "{}", of.name);
        assert_eq!(could.glasses, start.glasses, "{}", of.name);
        assert_eq!(could.catalogue, start.catalogue, "{}", of.name);
    }
}

#[test]
fn more_of_an_input_is_more_of_it() {
    let start = demo();
    let with = |what: What, value: f64| {
        let mut could = start.clone();
        could.set(&what, value);
        could
    };
    for (i, before) in start.model.constructions.iter().enumerate() {
        let after = with(What::Construction(i), 2.0);
        let layers = before
            .layers
            .iter()
            .zip(&after.model.constructions[i].layers);
        for (a, b) in layers {
            assert!(doubled(a, b), "{}: {a:?}, {b:?}", before.name);
        }
    }
    let cold = with(What::Glazing(0), 2.0);
    let (a, b) = (&start.glasses[0], &cold.glasses[0]);
    assert_eq!(b.core_w_per_m2k, 2.0 * a.core_w_per_m2k);
    assert_eq!(b.core_slope, 2.0 * a.core_slope);
    let leak = |c: &Could| c.model.leak.c_m3_per_s_pa_n;
    assert_eq!(leak(&with(What::Leakage, 2.0)), 2.0 * leak(&start));
    // Air of the attic is not what a blower door measures; that of a heated room is.
    let mut aired = start.clone();
    for zone in &mut aired.model.zones {
        zone.fixed_air_m3_per_s = 0.01;
    }
    aired.set(&What::Leakage, 2.0);
    for zone in &aired.model.zones {
        let want = if zone.heated.is_some() { 0.02 } else { 0.01 };
        assert_eq!(zone.fixed_air_m3_per_s, want, "{}", zone.name);
    }
    let gains = |c: &Could| -> f64 {
        let gains = c.model.zones.iter().flat_map(|z| &z.gains);
        gains.flat_map(|g| g.by_hour_w).sum()
    };
    assert_eq!(gains(&with(What::Gains, 2.0)), 2.0 * gains(&start));
    let contents = |c: &Could| {
        c.model
            .zones
            .iter()
            .map(|z| z.contents_j_per_k)
            .sum::<f64>()
    };
    assert_eq!(contents(&with(What::Contents, 2.0)), 2.0 * contents(&start));
    // Kept 1.5 K warmer in every hour that has a setting.
    let warmer = with(What::Settings, 1.5);
    for (a, b) in start.model.zones.iter().zip(&warmer.model.zones) {
        let (Some(a), Some(b)) = (&a.heated, &b.heated) else {
            assert!(a.heated.is_none() && b.heated.is_none());
            continue;
        };
        for (a, b) in a.by_hour_c.iter().zip(&b.by_hour_c) {
            assert_eq!(b.expect("set"), a.expect("set") + 1.5);
        }
    }
    // More heat through the ground: less resistance, more conductance.
    let wet = with(What::Ground, 2.0);
    for (a, b) in start.model.surfaces.iter().zip(&wet.model.surfaces) {
        if let (Behind::Ground(a), Behind::Ground(b)) = (&a.behind, &b.behind) {
            assert_eq!(b.virtual_r_m2k_per_w, a.virtual_r_m2k_per_w / 2.0);
            assert_eq!(b.u_w_per_m2k, 2.0 * a.u_w_per_m2k);
            assert_eq!(b.periodic_w_per_m2k, 2.0 * a.periodic_w_per_m2k);
        }
    }
    let rated = |c: &Could| {
        let point = &c.catalogue["Loon 12"].heating[0];
        let at = point.max.or(point.rated).expect("a point");
        (at.capacity_w, at.electric_w)
    };
    let (heat, electric) = rated(&start);
    // A unit that gives more at the same COP draws more; one that draws more gives the same.
    assert_eq!(
        rated(&with(What::Capacity, 2.0)),
        (2.0 * heat, 2.0 * electric)
    );
    assert_eq!(rated(&with(What::Electricity, 2.0)), (heat, 2.0 * electric));
}

#[test]
fn a_heater_gives_no_more_than_it_burns_and_prices_go_one_by_one() {
    let start = demo();
    let with = |what: What, value: f64| {
        let mut could = start.clone();
        could.set(&what, value);
        could
    };
    let efficiency = |c: &Could| c.job.existing.as_ref().expect("a boiler").efficiency;
    assert_eq!(
        efficiency(&with(What::Heaters, 0.5)),
        0.5 * efficiency(&start)
    );
    assert_eq!(efficiency(&with(What::Heaters, 2.0)), 1.0);
    // A strip of electric heat turns all it draws into heat, whatever the sheet of a boiler says.
    let mut electric = start.clone();
    if let Some(heater) = &mut electric.job.existing {
        heater.carrier = Carrier::Electricity;
    }
    let before = efficiency(&electric);
    electric.set(&What::Heaters, 0.5);
    assert_eq!(efficiency(&electric), before);
    let dear = with(What::Price(Carrier::Oil), 2.0);
    for (a, b) in start
        .job
        .prices
        .by_carrier
        .iter()
        .zip(&dear.job.prices.by_carrier)
    {
        let times = if a.0 == Carrier::Oil { 2.0 } else { 1.0 };
        assert_eq!(b.1.per_j, times * a.1.per_j, "{}", a.0.word());
    }
}
