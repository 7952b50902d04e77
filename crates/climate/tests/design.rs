//! Design days, wind and height.

use climate::design::{clear_hot_days, coldest_days, cooling_degree_days, design_temperatures};
use climate::wind::{Shelter, Terrain, at_height_factor};
use climate::{DesignKind, Weather};

fn read(name: &str) -> Weather {
    let path = format!("{}/../../weather/{name}.gz", env!("CARGO_MANIFEST_DIR"));
    climate::read_any(&std::fs::read(path).expect("shipped"))
        .expect("reads")
        .value
}

/// By hand: a year at -5 C with the 10th to 12th of January at -30 C.
#[test]
fn cold_snap_by_hand() {
    let mut w = Weather::constant(read("denver-725650.epw").station, -5.0, -10.0, 3.0, 200.0)
        .expect("fits");
    w.dry_bulb_c[216..288].fill(-30.0);
    w.dry_bulb_c[250] = -33.0;
    let snap = coldest_days(&w, 3).expect("a year");
    assert_eq!(
        (snap.first_hour, snap.hours, snap.least_c),
        (216, 72, -33.0)
    );
    assert!((snap.mean_c - (-30.0 - 3.0 / 72.0)).abs() < 1e-9 && snap.wind_m_per_s == 3.0);
    assert_eq!(coldest_days(&w, 0), None);
    assert_eq!(coldest_days(&w, 366), None);
    assert_eq!(coldest_days(&w, usize::MAX), None);
}

/// The header is preferred, the hours beside it. Values from the file's second line, checked by
/// eye; the hours from checks/published.md, 12.
#[test]
fn both_kinds_of_design_temperature_are_shown() {
    let all = design_temperatures(&read("denver-725650.epw"));
    assert_eq!(all.len(), 5);
    let of = |kind| *all.iter().find(|d| d.kind == kind).expect("all kinds");
    let cold = of(DesignKind::Heating99);
    assert_eq!((cold.own_c, cold.preferred_c()), (-11.1, -14.0));
    assert!((cold.apart_k().expect("a header") - 2.9).abs() < 1e-9);
    let hot = of(DesignKind::Cooling1).header.expect("a header");
    assert_eq!(
        (hot.dry_bulb_c, hot.coincident_wet_bulb_c),
        (33.2, Some(15.6))
    );
    // The 2021 layout has one more value after Heating.
    let north = design_temperatures(&read("northway-702910.epw"));
    assert_eq!(north[0].preferred_c(), -45.0);
    assert_eq!(
        north[4].header.and_then(|h| h.coincident_wet_bulb_c),
        Some(13.3)
    );
    // A csv file has no header: the hours are all there is.
    let mild = design_temperatures(&read("greensboro-723170.tmy3.csv"));
    assert_eq!((mild[0].preferred_c(), mild[0].apart_k()), (-11.1, None));
    assert!(all.windows(2).all(|p| p[0].kind != p[1].kind));
}

#[test]
fn hot_days_are_clear_and_of_several_months() {
    let w = read("denver-725650.epw");
    let days = clear_hot_days(&w, 24.0);
    assert!(days.len() >= 4, "{days:?}");
    assert!(
        days[0].greatest_c > 33.0 && (6..=8).contains(&days[0].month),
        "{days:?}"
    );
    for d in &days {
        let sun: f64 = w.ghi_w_per_m2[d.first_hour..d.first_hour + 24].iter().sum();
        assert_eq!(sun, d.sun_wh_per_m2);
        assert_eq!(
            (
                w.month[d.first_hour],
                w.day[d.first_hour],
                w.hour[d.first_hour]
            ),
            (d.month, d.day, 0)
        );
        let best = (0..365)
            .filter(|day| w.month[day * 24] == d.month)
            .map(|day| w.ghi_w_per_m2[day * 24..day * 24 + 24].iter().sum::<f64>())
            .fold(0.0, f64::max);
        assert!(sun >= 0.9 * best, "{d:?}");
    }
    assert!(days.windows(2).all(|p| p[0].greatest_c >= p[1].greatest_c));
    assert!(clear_hot_days(&w, 60.0).is_empty());
}

/// By hand: 28.3 C is 10 K over 18.3 C.
#[test]
fn cooling_degree_days_of_a_steady_year() {
    let w =
        Weather::constant(read("denver-725650.epw").station, 28.3, 10.0, 3.0, 350.0).expect("fits");
    let days = cooling_degree_days(&w, 18.3);
    assert!((days.by_daily_mean_k_d - 3650.0).abs() < 1e-6, "{days:?}");
    let real = cooling_degree_days(&read("denver-725650.epw"), 18.3);
    assert!(real.by_hour_k_d > real.by_daily_mean_k_d, "{real:?}");
}

/// By hand from the coefficients: suburb at 10 m over a mast in open land at 10 m is
/// 27^0.14 / 37^0.22 = 1.5863 / 2.2130 = 0.7168.
#[test]
fn wind_by_hand() {
    let f = at_height_factor(Terrain::Open, 10.0, Terrain::Suburb, 10.0);
    assert!((f - 27.0_f64.powf(0.14) / 37.0_f64.powf(0.22)).abs() < 1e-12);
    assert!((f - 0.717).abs() < 0.001, "{f}");
    let heights =
        [2.0, 5.0, 10.0, 30.0].map(|h| at_height_factor(Terrain::Open, 10.0, Terrain::City, h));
    assert!(heights.windows(2).all(|p| p[0] < p[1]));
    let all = [
        Shelter::None,
        Shelter::Light,
        Shelter::Moderate,
        Shelter::Heavy,
        Shelter::VeryHeavy,
    ];
    assert!(
        all.windows(2)
            .all(|p| p[0].share() > p[1].share() && p[0].class() + 1 == p[1].class())
    );
}
