//! Ground heat flow against the published table and its own definition.

use house::describe::Soil;
use house::ground::*;

fn clay() -> Soil {
    Soil {
        k_w_per_mk: 1.5,
        capacity_j_per_m3k: 3.0e6,
        wall_thickness_m: 0.3,
    }
}

/// `iso-13370` solid floor as tabulated in a public handbook, soil 1.5, wall 0.3 m; printed to two
/// places, so half a unit of the second.
#[test]
fn the_table_of_solid_floors() {
    let rows = [
        (0.0, [0.22, 0.49, 0.70, 1.05]),
        (0.5, [0.18, 0.38, 0.50, 0.68]),
    ];
    for (r, printed) in rows {
        for (ratio, u) in [0.1, 0.3, 0.5, 1.0].into_iter().zip(printed) {
            let b = characteristic_m(1.0, ratio).expect("over zero");
            let got = floor_u_w_per_m2k(&clay(), b, r, 0.0).expect("in range");
            assert!(
                (got - u).abs() <= 0.005 + 1e-9,
                "P/A {ratio}, R {r}: {got}, printed {u}"
            );
        }
    }
}

/// Standard 140 case GC10a: 12 m by 12 m, wall 0.24 m, soil 1.9, 30 C inside, 10 C outside; exact
/// 2432.6 W, programs 2415 to 2432 W (`std-140`; inputs from memory). The case fixes the surface
/// temperatures, so there are no films; the standard formula always has some. Taking the
/// formula with its 0.21 m2 K/W of films gives less, without them more: between the two lies the
/// exact value. This shows the formula, not the program, to be within 4 %.
#[test]
fn slab_of_the_test_standard() {
    let soil = Soil {
        k_w_per_mk: 1.9,
        capacity_j_per_m3k: 2.0e6,
        wall_thickness_m: 0.24,
    };
    let b = characteristic_m(144.0, 48.0).expect("over zero");
    let with_films = floor_u_w_per_m2k(&soil, b, 0.0, 0.0).expect("in range") * 144.0 * 20.0;
    // the same equation with the bare wall thickness
    let (d, pi) = (soil.wall_thickness_m, core::f64::consts::PI);
    let bare = 2.0 * 1.9 / (pi * b + d) * (pi * b / d + 1.0).ln() * 144.0 * 20.0;
    assert!(with_films < 2432.6 && bare > 2432.6, "{with_films} {bare}");
    assert!((bare / 2432.6 - 1.0).abs() < 0.04, "{bare}");
}

/// The layers of the hourly model add up to the transmittance: film, build-up, soil, virtual.
#[test]
fn the_layers_add_up() {
    for (r, depth) in [(0.0, 0.0), (0.05, 0.0), (2.0, 0.0), (0.1, 2.1)] {
        let c = floor_contact(&clay(), 80.0, 36.0, r, depth).expect("in range");
        let sum = 0.17 + r + c.soil_m / 1.5 + c.virtual_r_m2k_per_w;
        assert!((sum * c.u_w_per_m2k - 1.0).abs() < 1e-12);
        assert!(c.virtual_r_m2k_per_w > 0.0 && c.soil_m > 0.0);
    }
    for (r, depth) in [(0.0, 0.05), (0.1, 0.5), (0.1, 2.1), (3.0, 2.4)] {
        let c = wall_contact(&clay(), r, 0.1, depth).expect("in range");
        let sum = 0.13 + r + c.soil_m / 1.5 + c.virtual_r_m2k_per_w;
        assert!((sum * c.u_w_per_m2k - 1.0).abs() < 1e-12);
        assert!(c.virtual_r_m2k_per_w > 0.0 && c.soil_m > 0.0);
    }
}

/// `iso-13370` annex: the flow of every month with steady indoors is
/// `U (Ti - Te) + Hpe/A (Te - Te of a month before)`; the virtual temperatures must give it back.
#[test]
fn monthly_flow_is_that_of_the_standard() {
    let outdoor = [
        -8.0, -6.0, 0.0, 7.0, 13.0, 18.0, 21.0, 20.0, 15.0, 9.0, 2.0, -5.0,
    ];
    let mean = outdoor.iter().sum::<f64>() / 12.0;
    let c = floor_contact(&clay(), 80.0, 36.0, 0.05, 0.0).expect("in range");
    let v = virtual_temperatures_c(&c, &outdoor);
    for m in 0..12 {
        let before = outdoor[(m + 11) % 12];
        let standard = c.u_w_per_m2k * (20.0 - mean) + c.periodic_w_per_m2k * (mean - before);
        assert!((c.u_w_per_m2k * (20.0 - v[m]) - standard).abs() < 1e-9);
    }
    assert!((v.iter().sum::<f64>() / 12.0 - mean).abs() < 1e-12);
    // the coldest ground comes a month after the coldest air
    let coldest = (0..12).min_by(|a, b| v[*a].total_cmp(&v[*b]));
    assert_eq!(coldest, Some(1));
}

#[test]
fn insulation_and_depth_save() {
    let mut last = f64::INFINITY;
    for r in [0.0, 0.5, 1.0, 2.0, 4.0] {
        let u = floor_u_w_per_m2k(&clay(), 5.0, r, 0.0).expect("in range");
        assert!(u < last);
        last = u;
    }
    let mut last = f64::INFINITY;
    for z in [0.2, 0.5, 1.0, 2.0, 3.0] {
        let u = basement_wall_u_w_per_m2k(&clay(), 0.2, 0.1, z).expect("in range");
        assert!(u < last);
        last = u;
    }
}

#[test]
fn out_of_range_is_said() {
    assert!(characteristic_m(0.0, 10.0).is_err());
    assert!(characteristic_m(10.0, f64::NAN).is_err());
    let e = floor_u_w_per_m2k(&clay(), 5.0, -1.0, 0.0).expect_err("negative resistance");
    assert_eq!(
        e.to_string(),
        "floor resistance, m2 K/W is -1, usable: 0 to 100"
    );
    assert!(basement_wall_u_w_per_m2k(&clay(), 0.1, 0.1, 0.0).is_err());
}

/// A vented crawl space loses more than a tight floor on the ground alone would.
#[test]
fn crawl_space_air() {
    let crawl = Crawl {
        height_m: 0.5,
        wall_u_w_per_m2k: 1.5,
        vent_m2_per_m: 0.0015,
        wind_m_per_s: 4.0,
        wind_shielding: 0.05,
    };
    // 1450 * 0.0015 * 4 * 0.05 * 20 / 1200, by hand
    let air = crawl_air_m3_per_s(&crawl, 40.0).expect("in range");
    assert!((air - 0.00725).abs() < 1e-12);
    let vented = suspended_floor_u_w_per_m2k(0.3, 0.4, 5.0, &crawl).expect("in range");
    assert!(vented > 1.0 / (1.0 / 0.3 + 1.0 / 0.4) && vented < 0.3);
}
