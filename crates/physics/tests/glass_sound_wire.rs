//! Glass, sound and wire against the formula cards and published examples.

use physics::downdraught::{dew_point_c, humidity_limit, saturation_pa, speed_m_per_s, surface_c};
use physics::electricity::{
    Column, WIRES, Wire, ambient_factor, breaker_at_most_a, minimum_ampacity_a, overcurrent_a,
    voltage_drop_v,
};
use physics::sound::{Surroundings, distance_for_m, level_at_db, together_db};
use proptest::prelude::*;

/// Trade card F12, printed to a whole degree.
#[test]
fn glass_of_card_f12() {
    for (u, ts) in [(2.8, 6.0), (1.8, 11.0), (1.2, 15.0), (0.8, 17.0)] {
        let got = surface_c(21.0, -20.0, u, 0.13).unwrap();
        assert!((got - ts).abs() < 0.5, "{u}: {got}");
    }
    let difference = 21.0 - surface_c(21.0, -20.0, 2.8, 0.13).unwrap();
    let v = speed_m_per_s(1.5, difference, 0.0).unwrap();
    assert!((v - 0.26).abs() < 0.005, "{v}");
    // The three pieces of the correlation meet within 4 %, and the speed never grows away from
    // the glass.
    for (near, far) in [(0.399, 0.401), (1.99, 2.01)] {
        let ratio =
            speed_m_per_s(1.5, 10.0, far).unwrap() / speed_m_per_s(1.5, 10.0, near).unwrap();
        assert!(ratio > 0.96 && ratio < 1.01, "{ratio}");
    }
}

/// Outside checks, section 7: ISO 13788 (from memory), printed to 0.1 Pa.
#[test]
fn iso_13788_saturation() {
    for (t, pa) in [(0.0, 610.5), (10.0, 1227.3), (20.0, 2337.0), (-10.0, 259.3)] {
        let got = saturation_pa(t).unwrap();
        assert!((got - pa).abs() < 0.5, "{t}: {got}");
    }
}

/// Trade note E, printed to 0.1 dB and 0.1 m; and the planning manual's 42 dB(A).
#[test]
fn noise_of_card_f14() {
    for (q, level, metres) in [
        (Surroundings::Ground, 47.5, 4.0),
        (Surroundings::Wall, 50.5, 5.6),
        (Surroundings::Corner, 53.5, 8.0),
    ] {
        assert!((level_at_db(65.0, q, 3.0).unwrap() - level).abs() < 0.06);
        assert!((distance_for_m(65.0, q, 45.0).unwrap() - metres).abs() < 0.05);
    }
    assert!((level_at_db(67.0, Surroundings::Wall, 10.0).unwrap() - 42.0).abs() < 0.1);
    // Two alike are 3 dB more: 10 log10(2).
    assert!((together_db(&[46.0, 46.0]) - 46.0 - 3.0103).abs() < 1e-4);
    assert!(level_at_db(65.0, Surroundings::Wall, 0.0).is_err());
}

/// Trade note E, percent printed to 0.01.
#[test]
fn voltage_drop_of_card_f18() {
    for (wire, percent) in [
        (Wire::Awg14, 3.77),
        (Wire::Awg12, 2.37),
        (Wire::Awg10, 1.49),
        (Wire::Awg8, 0.94),
    ] {
        let got = voltage_drop_v(18.0, 80.0 * 0.3048, wire).unwrap() / 240.0 * 100.0;
        assert!((got - percent).abs() < 0.006, "{wire:?}: {got}");
    }
}

/// Outside checks, section 6: code quiz in the trade press.
#[test]
fn plate_ampacity_and_breaker() {
    assert_eq!(minimum_ampacity_a(20.0, 2.5), Ok(27.5));
    let o = overcurrent_a(20.0, 2.5).unwrap();
    assert_eq!((o.usual_a, o.at_most_a), (35.0, 45.0));
    assert_eq!(breaker_at_most_a(14.9), None);
    assert!(overcurrent_a(100.0, 0.0).is_err());
}

/// Outside checks, section 6: the tables as listed there.
#[test]
fn wire_tables() {
    for (wire, a60, a75, a90) in [
        (Wire::Awg14, 15.0, 20.0, 25.0),
        (Wire::Awg12, 20.0, 25.0, 30.0),
        (Wire::Awg10, 30.0, 35.0, 40.0),
        (Wire::Awg8, 40.0, 50.0, 55.0),
        (Wire::Awg6, 55.0, 65.0, 75.0),
    ] {
        assert_eq!(wire.ampacity_a(Column::C60), a60);
        assert_eq!(wire.ampacity_a(Column::C75), a75);
        assert_eq!(wire.ampacity_a(Column::C90), a90);
        // Resistance and cross section tell the same story: 12.9 ohm circular mil per foot,
        // within 1 % (the table is stranded and rounded).
        let ohm_cmil_per_ft = wire.resistance_ohm_per_m() * 0.3048 * wire.circular_mils();
        assert!(
            (ohm_cmil_per_ft / 12.9 - 1.0).abs() < 0.01,
            "{wire:?} {ohm_cmil_per_ft}"
        );
    }
    assert_eq!(ambient_factor(35.0, Column::C60), Ok(0.91));
    assert_eq!(ambient_factor(36.0, Column::C75), Ok(0.88));
    assert_eq!(ambient_factor(45.0, Column::C90), Ok(0.87));
    assert!(ambient_factor(46.0, Column::C90).is_err());
    assert!(
        WIRES
            .windows(2)
            .all(|w| w[0].circular_mils() < w[1].circular_mils())
    );
}

proptest! {
    /// Dew point undoes saturation; exact inverses of the same formula but at the 0 C seam.
    #[test]
    fn dew_point_undoes_saturation(t in -40.0..40.0f64) {
        let back = dew_point_c(saturation_pa(t).unwrap()).unwrap();
        prop_assert!((back - t).abs() < 1e-9, "{} {}", t, back);
        let limit = humidity_limit(t, 21.0).unwrap();
        prop_assert!((0.0..=1.0).contains(&limit) && (t >= 21.0) == (limit >= 1.0));
    }

    /// At the distance that was asked for, the level is the limit.
    #[test]
    fn distance_undoes_level(lw in 50.0..80.0f64, limit in 35.0..50.0f64) {
        let r = distance_for_m(lw, Surroundings::Wall, limit).unwrap();
        if (0.5..=500.0).contains(&r) {
            prop_assert!((level_at_db(lw, Surroundings::Wall, r).unwrap() - limit).abs() < 1e-9);
        }
    }

    /// A breaker protects: never above the sum it may be, the higher one never the lower.
    #[test]
    fn breakers_are_ordered(largest in 7.0..40.0f64, rest in 0.0..20.0f64) {
        let o = overcurrent_a(largest, rest).unwrap();
        prop_assert!(o.usual_a <= o.at_most_a && o.at_most_a <= 2.25 * largest + rest);
    }
}
