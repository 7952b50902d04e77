//! Moist air against psychrolib 2.5 on a grid, and against the published table values.

use physics::OutOfRange;
use physics::moist_air::{MoistAir, saturation_humidity_ratio, saturation_pressure_pa};
use proptest::prelude::*;

/// Rows of a kept file of outside values as numbers; text cells are refused.
fn rows(name: &str) -> Vec<Vec<f64>> {
    let path = format!("{}/../../checks/values/{name}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(path)
        .unwrap();
    reader
        .records()
        .map(|r| {
            r.unwrap()
                .iter()
                .map(|cell| cell.parse().unwrap())
                .collect()
        })
        .collect()
}

/// Oracle: psychrolib 2.5.0, the ideal mixture of the same equations. Direct results agree to the
/// digits the file prints (1e-6 of the value); wet bulb and dew point to psychrolib's own
/// iteration tolerance, 0.001 C, plus half of the last printed digit.
#[test]
fn psychrolib_grid() {
    let mut worst = [0.0_f64; 4];
    let mut doubles = 0;
    let all = rows("physics_reference_psychro_states.csv");
    assert!(all.len() > 600);
    for r in &all {
        let (p, t, rh) = (r[1], r[2], r[3]);
        let (w, wet, dew, pv, h, v, rho) = (r[4], r[5], r[6], r[7], r[8], r[9], r[11]);
        let air = MoistAir::from_relative_humidity(t, rh, p).unwrap();
        let at = format!("{t} C {rh} {p} Pa: {air:?}");
        let near = |a: f64, b: f64| ((a - b) / b).abs();
        worst[0] = worst[0].max(near(air.humidity_ratio(), w));
        assert!(near(air.humidity_ratio(), w) < 2e-6, "{at} W {w}");
        assert!(near(air.vapour_pressure_pa(), pv) < 5e-6, "{at} pv {pv}");
        assert!(
            (air.enthalpy_j_per_kg() / 1000.0 - h).abs() < 1e-5 + 1e-7 * h.abs(),
            "{at} h {h}"
        );
        assert!(
            near(air.specific_volume_m3_per_kg(), v) < 1e-6,
            "{at} v {v}"
        );
        assert!(near(air.density_kg_per_m3(), rho) < 1e-6, "{at} rho {rho}");
        let got_wet = air.wet_bulb_c().unwrap();
        let got_dew = air.dew_point_c().unwrap();
        worst[2] = worst[2].max((got_dew - dew).abs());
        worst[3] = worst[3].max((air.relative_humidity() - rh).abs());
        if (got_wet - wet).abs() < 1.1e-3 {
            worst[1] = worst[1].max((got_wet - wet).abs());
        } else {
            // Just around 0 C dry air may have two wet bulbs, one over ice and one over water.
            // Ours is over water; psychrolib's search ends at either. Both must give this W.
            doubles += 1;
            let theirs = MoistAir::from_wet_bulb(t, wet, p).unwrap();
            assert!(
                (theirs.humidity_ratio() - w).abs() < 1e-6,
                "{at} wet {got_wet} {wet}"
            );
            assert!(
                wet < 0.0 && (0.0..0.6).contains(&got_wet),
                "{at} wet {got_wet} {wet}"
            );
        }
        assert!((got_dew - dew).abs() < 1.1e-3, "{at} dew {got_dew} {dew}");
        assert!((air.relative_humidity() - rh).abs() < 1e-12, "{at}");
    }
    assert!(doubles <= 3, "{doubles} states with two wet bulbs");
    eprintln!(
        "largest differences: W {:e}, wet bulb {:e} C, dew {:e} C, RH {:e}",
        worst[0], worst[1], worst[2], worst[3]
    );
}

/// Same oracle, from dry and wet bulb as data sheets print their rating points.
#[test]
fn psychrolib_from_wet_bulb() {
    let all = rows("physics_reference_wet_bulb.csv");
    assert!(all.len() > 20);
    for r in &all {
        let (p, t, wet, w, rh, rho) = (r[1], r[2], r[3], r[4], r[5], r[8]);
        let air = MoistAir::from_wet_bulb(t, wet, p).unwrap();
        assert!(
            (air.humidity_ratio() / w - 1.0).abs() < 1e-6,
            "{t} {wet} {p}: {air:?} W {w}"
        );
        // The file prints six digits of humidity.
        assert!(
            (air.relative_humidity() - rh).abs() < 1.5e-6,
            "{t} {wet} {p}: {air:?} RH {rh}"
        );
        assert!(
            (air.density_kg_per_m3() / rho - 1.0).abs() < 1e-6,
            "{t} {wet} {p}"
        );
    }
}

/// ASHRAE Fundamentals 2017 chapter 1 tables, as quoted with these tolerances by psychrolib's
/// tests (the tables are of a real gas, the equations of an ideal one).
#[test]
fn published_saturation() {
    for (t, pa) in [
        (-5.0, 401.74),
        (5.0, 872.6),
        (25.0, 3169.7),
        (50.0, 12351.3),
    ] {
        let got = saturation_pressure_pa(t).unwrap();
        assert!((got / pa - 1.0).abs() < 3e-4, "{t}: {got} {pa}");
    }
    for (t, w, tolerance) in [
        (-20.0, 0.0006373, 0.01),
        (-5.0, 0.0024863, 0.005),
        (25.0, 0.020173, 0.005),
    ] {
        let got = saturation_humidity_ratio(t, 101_325.0).unwrap();
        assert!((got / w - 1.0).abs() < tolerance, "{t}: {got} {w}");
    }
    let h = MoistAir::from_humidity_ratio(30.0, 0.02, 101_325.0)
        .unwrap()
        .enthalpy_j_per_kg();
    // Printed to a joule.
    assert!((h - 81_316.0).abs() < 1.0, "{h}");
}

/// Trade note E (computed there), printed to 0.1 C.
#[test]
fn dew_points_of_a_room() {
    for (rh, dew) in [(0.25, 0.2), (0.30, 2.8), (0.35, 5.0), (0.40, 6.9)] {
        let got = MoistAir::from_relative_humidity(21.0, rh, 101_325.0)
            .unwrap()
            .dew_point_c()
            .unwrap();
        assert!((got - dew).abs() < 0.06, "{rh}: {got}");
    }
}

/// Trade note E: vapour pressure in micron of mercury over ice and water, printed to 1.
#[test]
fn vapour_pressure_in_micron() {
    for (t, micron) in [
        (-25.0, 475.0),
        (-20.0, 775.0),
        (-10.0, 1949.0),
        (0.0, 4584.0),
        (20.0, 17_496.0),
    ] {
        let got = saturation_pressure_pa(t).unwrap() / 0.1333224;
        // 0.3 %: the note used a plainer equation over water; at 20 C the table of ASHRAE (2,339
        // Pa, 17,543 micron) is with us.
        assert!((got - micron).abs() < 1.0 + 3e-3 * micron, "{t}: {got}");
    }
}

#[test]
fn what_cannot_be_is_said() {
    let e = MoistAir::from_relative_humidity(20.0, 1.2, 101_325.0).unwrap_err();
    assert_eq!(
        e.to_string(),
        "relative humidity is 1.2 of 1, usable from 0 to 1 of 1"
    );
    assert!(MoistAir::from_relative_humidity(f64::NAN, 0.5, 101_325.0).is_err());
    assert!(MoistAir::from_relative_humidity(20.0, 0.5, 1_000.0).is_err());
    assert!(MoistAir::from_wet_bulb(20.0, 21.0, 101_325.0).is_err());
    assert!(MoistAir::from_dew_point(20.0, 21.0, 101_325.0).is_err());
    // Dry air of 30 C has a wet bulb of 10.5 C: colder cannot be.
    assert!(matches!(
        MoistAir::from_wet_bulb(30.0, 5.0, 101_325.0),
        Err(OutOfRange {
            what: "wet bulb",
            ..
        })
    ));
    let dry = MoistAir::from_relative_humidity(20.0, 0.0, 101_325.0).unwrap();
    assert!(dry.dew_point_c().is_err(), "dry air has no dew point");
}

proptest! {
    /// The three ways into a state agree: humidity -> dew point -> state, and -> wet bulb -> state.
    /// Tolerance: the iterations stop below 1e-9 C. Near 0 C the wet bulb may belong to either
    /// equation, so it is left out there.
    #[test]
    fn ways_into_a_state_agree(t in -50.0..60.0f64, rh in 0.05..1.0f64, p in 65_000.0..105_000.0f64) {
        let air = MoistAir::from_relative_humidity(t, rh, p).unwrap();
        let dew = air.dew_point_c().unwrap();
        prop_assert!(dew <= t + 1e-9);
        let again = MoistAir::from_dew_point(t, dew.min(t), p).unwrap();
        prop_assert!((again.humidity_ratio() / air.humidity_ratio() - 1.0).abs() < 1e-8);
        let wet = air.wet_bulb_c().unwrap();
        prop_assert!(wet <= t + 1e-6 && wet >= dew - 1e-6, "dew {} wet {} dry {}", dew, wet, t);
        if wet.abs() > 0.02 {
            let again = MoistAir::from_wet_bulb(t, wet.min(t), p).unwrap();
            prop_assert!((again.humidity_ratio() - air.humidity_ratio()).abs() < 1e-9);
        }
    }

    /// More humid air is lighter, has more heat and higher dew point and wet bulb.
    #[test]
    fn humidity_is_monotonous(t in -40.0..50.0f64, rh in 0.05..0.9f64, p in 65_000.0..105_000.0f64) {
        let less = MoistAir::from_relative_humidity(t, rh, p).unwrap();
        let more = MoistAir::from_relative_humidity(t, rh + 0.1, p).unwrap();
        prop_assert!(more.density_kg_per_m3() < less.density_kg_per_m3());
        prop_assert!(more.enthalpy_j_per_kg() > less.enthalpy_j_per_kg());
        prop_assert!(more.dew_point_c().unwrap() > less.dew_point_c().unwrap());
        prop_assert!(more.wet_bulb_c().unwrap() > less.wet_bulb_c().unwrap());
    }

    /// No number, however odd, panics.
    #[test]
    fn odd_numbers_are_refused(a: f64, b: f64, c: f64) {
        let _ = MoistAir::from_wet_bulb(a, b, c).map(|s| (s.wet_bulb_c(), s.dew_point_c()));
        let made = MoistAir::from_relative_humidity(a, b, c);
        prop_assert!(made.is_err() || (a.is_finite() && (0.0..=1.0).contains(&b)));
    }
}
