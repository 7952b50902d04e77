//! What a system can give: at the points, between them, and never past them.

mod support;

use heatpump::{
    Conditions, Duty, Mode, Performance, Reason, capability, check_system, most_made_of, plot_data,
    sheet_ratings,
};
use support::{f, grebe_30, loon_9, single, wren_9};

const SEA: f64 = 101_325.0;

fn warm(indoor_f: f64) -> Conditions {
    Conditions::at_sea_level(f(indoor_f))
}

#[test]
fn says_the_sheet_at_its_points() {
    let loon = loon_9();
    for p in &loon.outdoor.sheet.heating {
        // 17 F is the end of the frost band and 47 F past it: no loss is taken there. The base-pan
        // heater (95 W below 36 F) comes on top of the sheet's power.
        let pan = if p.outdoor_c < 0.0 { 95.0 } else { 0.0 };
        let c = capability(&loon, Duty::Heating, p.outdoor_c, warm(70.0)).expect("a point");
        let (max, min) = (p.max.expect("max"), p.min.expect("min"));
        assert!(
            (c.max.capacity_w / max.capacity_w - 1.0).abs() < 1e-12,
            "{p:?}"
        );
        assert!(
            (c.min.electric_w - pan - min.electric_w).abs() < 1e-9,
            "{p:?} {c:?}"
        );
        assert!(
            (c.max.electric_w - pan - max.electric_w).abs() < 1e-9,
            "{p:?} {c:?}"
        );
    }
}

/// The terms that the most is explained with give it, at every temperature from the coldest point to
/// the mildest, indoors cool and warm, low and high; past the points there are none.
#[test]
fn the_most_term_by_term() {
    for system in [loon_9(), wren_9(), grebe_30()] {
        let sheet = &system.outdoor.sheet;
        let coldest = sheet.coldest().expect("points").outdoor_c;
        let mut told = 0;
        for (indoor_f, pressure_pa) in [(70.0, SEA), (66.0, 83_500.0), (74.0, 99_000.0)] {
            let air = Conditions {
                pressure_pa,
                ..warm(indoor_f)
            };
            for step in 0..70 {
                let outdoor_c = coldest + f64::from(step) * 0.7;
                let most = capability(&system, Duty::Heating, outdoor_c, air).map(|c| c.max);
                let made = most_made_of(&system, outdoor_c, air);
                assert_eq!(
                    most.is_ok(),
                    made.is_some(),
                    "{} at {outdoor_c}",
                    sheet.name
                );
                let (Ok(most), Some(made)) = (most, made) else {
                    continue;
                };
                let (cold, warm) = (made.colder, made.warmer);
                assert!(cold.outdoor_c <= outdoor_c + 1e-9 || cold == warm);
                let span = warm.outdoor_c - cold.outdoor_c;
                let share = if span > 0.0 {
                    (outdoor_c - cold.outdoor_c) / span
                } else {
                    0.0
                };
                let printed = cold.most_w + share * (warm.most_w - cold.most_w);
                let indoor = 1.0 - 0.004 * (made.indoor_c - made.tested_c);
                let altitude = (made.pressure_pa / SEA).powf(0.3);
                let again = printed * made.heads * indoor * altitude * made.frost;
                assert!((again / most.capacity_w - 1.0).abs() < 1e-9);
                told += 1;
            }
        }
        assert!(told > 100, "{}: {told}", sheet.name);
        assert!(most_made_of(&system, coldest - 1.0, warm(70.0)).is_none());
    }
}

#[test]
fn never_past_the_coldest_point() {
    let loon = loon_9();
    let got = capability(&loon, Duty::Heating, f(-22.5), warm(70.0)).expect_err("too cold");
    assert!(matches!(got.reason, Reason::CutOut { .. }), "{got:?}");
    let mut no_limit = loon.clone();
    no_limit.outdoor.sheet.limits.heating_cut_out_c = None;
    let got = capability(&no_limit, Duty::Heating, f(-30.0), warm(70.0)).expect_err("too cold");
    assert_eq!(
        got.to_string(),
        "Loon 9 has no heating data at -30 F (-34.4 C): its last published point is \
         -22 F (-30.0 C). A heating test point at -30 F (-34.4 C) or beyond would tell."
    );
    let p = Performance::new(&no_limit, Duty::Heating, warm(70.0)).expect("table");
    assert_eq!(p.operate(f(-30.0), 1000.0).mode, Mode::CannotTell);
    let p = Performance::new(&loon, Duty::Heating, warm(70.0)).expect("table");
    assert_eq!(p.operate(f(-30.0), 1000.0).mode, Mode::CutOut);
    assert_eq!(p.operate(f(80.0), 1000.0).mode, Mode::CutOut);
    let got = capability(&loon, Duty::Cooling, f(120.0), warm(80.0)).expect_err("too hot");
    assert!(matches!(got.reason, Reason::CutOut { .. }), "{got:?}");
}

#[test]
fn the_ordinary_unit_is_off_below_its_limit() {
    let p = Performance::new(&wren_9(), Duty::Heating, warm(70.0)).expect("table");
    assert_eq!(p.operate(f(4.0), 1000.0).mode, Mode::CutOut);
    assert_eq!(p.operate(f(6.0), 900.0).mode, Mode::Modulating);
    let off = p.operate(f(4.0), 1000.0);
    assert!(off.electric_w > 0.0 && off.delivered_w == 0.0, "{off:?}");
}

/// `cfr-430-m1` default for 35 F: 0.90 of capacity, 0.985 of power, only where the sheet does not
/// include defrosting.
#[test]
fn frost_is_taken_off_once() {
    let loon = loon_9();
    let mut stated = loon.clone();
    let mut point = stated.outdoor.sheet.heating.last().expect("47 F").clone();
    point.outdoor_c = f(35.0);
    point.defrost_included = Some(true);
    let bare = capability(&loon, Duty::Heating, f(35.0), warm(70.0)).expect("35 F");
    let line = (bare.max.capacity_w, bare.frost_share);
    assert!((line.1 - (1.0 - 0.90 / 0.985)).abs() < 1e-12, "{line:?}");
    stated.outdoor.sheet.heating.push(point.clone());
    let with = capability(&stated, Duty::Heating, f(35.0), warm(70.0)).expect("35 F");
    let max = point.max.expect("max").capacity_w;
    assert!((with.max.capacity_w / max - 1.0).abs() < 1e-12 && with.frost_share == 0.0);
    let dry = Conditions {
        humidity: Some(0.0),
        ..warm(70.0)
    };
    let dry = capability(&loon, Duty::Heating, f(35.0), dry).expect("dry");
    assert!(dry.max.capacity_w > bare.max.capacity_w);
}

#[test]
fn thin_air_takes_capacity_and_leaves_power() {
    let low = capability(&loon_9(), Duty::Heating, 0.0, warm(70.0)).expect("sea level");
    let high = Conditions {
        pressure_pa: 83_500.0,
        ..warm(70.0)
    };
    let high = capability(&loon_9(), Duty::Heating, 0.0, high).expect("1,600 m");
    let ratio = high.max.capacity_w / low.max.capacity_w;
    assert!((0.93..0.96).contains(&ratio), "{ratio}");
    assert_eq!(high.max.electric_w, low.max.electric_w);
    for pressure_pa in [0.0, 2.0 * SEA, f64::NAN] {
        let c = Conditions {
            pressure_pa,
            ..warm(70.0)
        };
        let got = capability(&loon_9(), Duty::Heating, 0.0, c).expect_err("no such air");
        assert!(
            matches!(got.reason, Reason::PressureOutOfRange { .. }),
            "{got:?}"
        );
    }
}

#[test]
fn warmer_rooms_cost_cop() {
    let at = |t| {
        capability(&loon_9(), Duty::Heating, 0.0, warm(t))
            .expect("in range")
            .max
            .cop()
    };
    assert!(at(74.0) < at(70.0) && at(70.0) < at(64.0));
    let got = capability(&loon_9(), Duty::Heating, 0.0, warm(120.0)).expect_err("sauna");
    assert!(
        matches!(got.reason, Reason::IndoorOutOfRange { .. }),
        "{got:?}"
    );
}

/// Card F8: below the minimum the unit cycles with Cd 0.25.
#[test]
fn cycles_below_the_minimum() {
    let p = Performance::new(&loon_9(), Duty::Heating, warm(70.0)).expect("table");
    let range = p.range(f(47.0)).expect("47 F");
    let half = p.operate(f(47.0), 0.5 * range.min_w);
    let least = p.operate(f(47.0), range.min_w);
    assert_eq!((half.mode, least.mode), (Mode::Cycling, Mode::Modulating));
    let waiting_w = p.operate(f(47.0), 0.0).electric_w;
    let want = least.electric_w * 0.5 / (1.0 - 0.25 * 0.5) + 0.5 * waiting_w;
    assert!(
        (half.electric_w - want).abs() < 1e-9 && half.on_fraction == 0.5,
        "{half:?}"
    );
    let full = p.operate(f(47.0), 1e6);
    assert_eq!((full.mode, full.delivered_w), (Mode::Full, range.max_w));
}

#[test]
fn waiting_power_is_standby_and_crankcase() {
    let p = Performance::new(&loon_9(), Duty::Heating, warm(70.0)).expect("table");
    // 6 W standby; 30 W crankcase heater below 50 F.
    assert!((p.operate(f(30.0), 0.0).electric_w - 36.0).abs() < 1e-9);
    assert!((p.operate(f(60.0), 0.0).electric_w - 6.0).abs() < 1e-9);
    assert_eq!(p.operate(f(30.0), f64::NAN).mode, Mode::CannotTell);
    assert_eq!(p.operate(f64::NAN, 100.0).mode, Mode::CannotTell);
}

#[test]
fn heads_share_the_most_and_the_least() {
    let grebe = grebe_30();
    let p = Performance::new(&grebe, Duty::Heating, warm(70.0)).expect("table");
    let cold = f(5.0);
    let max = p.range(cold).expect("5 F").max_w;
    // More than there is: cut in proportion, each head to its own most at first.
    let need = [3000.0, 6000.0, 2000.0];
    let mut given = [0.0; 3];
    let small = p.share(cold, &need, &mut given);
    assert_eq!(small.mode, Mode::Full, "{max} {small:?}");
    assert!(
        (given.iter().sum::<f64>() - max).abs() < 1e-6,
        "{given:?} {max}"
    );
    let most = p.heads()[1].max_w;
    assert!(
        (given[1] / given[0] - most / 3000.0).abs() < 1e-9,
        "{given:?} {most}"
    );
    // One small call: the outdoor unit's least with one head.
    let one = p.share(f(40.0), &[600.0, 0.0, 0.0], &mut given);
    assert_eq!(one.mode, Mode::Cycling);
    let least = p.range(f(40.0)).expect("40 F").min_w;
    assert!(
        (one.on_fraction - 600.0 / least).abs() < 1e-9,
        "{one:?} {least}"
    );
    // The same call shared by three heads: the outdoor unit's least is higher.
    let three = p.share(f(40.0), &[200.0, 200.0, 200.0], &mut given);
    assert!(three.on_fraction < one.on_fraction, "{three:?}");
    assert_eq!(p.share(cold, &[1.0], &mut given).mode, Mode::CannotTell);
}

#[test]
fn heads_outside_the_table_are_said() {
    let mut grebe = grebe_30();
    assert!(
        check_system(&grebe, units::System::Us).is_empty(),
        "{:?}",
        check_system(&grebe, units::System::Us)
    );
    for head in &mut grebe.heads {
        head.data.nominal_w *= 3.0;
    }
    let got = capability(&grebe, Duty::Heating, 0.0, warm(70.0)).expect_err("too many");
    assert!(
        matches!(got.reason, Reason::NoCombination { .. }),
        "{got:?}"
    );
    let rules: Vec<String> = check_system(&grebe, units::System::Us)
        .into_iter()
        .map(|x| x.rule)
        .collect();
    assert_eq!(rules, ["system-outside-combinations"]);
    let rules: Vec<String> = check_system(&single("heron-12", "dunlin-12"), units::System::Us)
        .into_iter()
        .map(|x| x.rule)
        .collect();
    assert_eq!(
        rules,
        ["system-refrigerants-differ", "system-not-tested-together"]
    );
}

#[test]
fn the_plot_ends_where_the_sheet_ends() {
    let plot = plot_data(&loon_9(), Duty::Heating, warm(70.0)).expect("plot");
    let (first, last) = (
        plot.curves.first().expect("first"),
        plot.curves.last().expect("last"),
    );
    assert!((first.outdoor_c - f(-22.0)).abs() < 1e-9 && (last.outdoor_c - f(75.0)).abs() < 1e-9);
    // six points with rated at three of them
    assert_eq!(plot.marks.len(), 6 * 2 + 3);
    assert!(
        plot.curves
            .iter()
            .all(|p| p.min_w < p.max_w && p.max_cop > 0.8)
    );
}

/// Plausibility, no source: a cold-climate unit rates about 9 to 13 HSPF2, and the ordinary one
/// under it.
#[test]
fn ratings_come_from_the_same_points() {
    let cold = sheet_ratings(&loon_9()).expect("ratings");
    let plain = sheet_ratings(&wren_9()).expect("ratings");
    let hspf2 = cold.hspf2.expect("hspf2");
    assert!((8.0..13.0).contains(&hspf2), "{cold:?}");
    assert!(plain.hspf2.expect("hspf2") < hspf2, "{plain:?}");
    assert!(
        (15.0..35.0).contains(&cold.seer2.expect("seer2")),
        "{cold:?}"
    );
    assert!((2.5..5.0).contains(&cold.scop.expect("scop")), "{cold:?}");
}
