//! Build-ups against the worked wall; properties of all of the library.

use house::assembly::*;
use house::describe::{Construction, Layer};
use house::library;
use proptest::prelude::*;
use reckon::Known;

fn solid(thickness_m: f64, k_w_per_mk: f64) -> Layer {
    Layer::Solid {
        name: String::new(),
        thickness_m,
        k_w_per_mk,
        density_kg_per_m3: 1000.0,
        cp_j_per_kgk: 1000.0,
    }
}

fn framed(thickness_m: f64, share: f64, cavity: f64, framing: f64) -> Layer {
    Layer::Framed {
        name: String::new(),
        thickness_m,
        framing_share: share,
        cavity: [cavity, 20.0, 1000.0],
        framing: [framing, 500.0, 1600.0],
    }
}

fn wall(layers: Vec<Layer>) -> Construction {
    Construction {
        name: "w".to_owned(),
        layers,
        sun_absorptance_out: 0.6,
        emittance_out: 0.9,
        sun_absorptance_in: 0.6,
        emittance_in: 0.9,
        known: Known::Seen,
    }
}

/// `iso-6946`, worked wall of a public building standard's annex: printed upper 3.435, lower
/// 3.304, U 0.297; tolerance half a unit of the last printed digit.
fn worked() -> Construction {
    wall(vec![
        solid(0.102, 0.77),
        Layer::Resistance {
            name: "cavity".to_owned(),
            r_m2k_per_w: 0.18,
        },
        solid(0.009, 0.13),
        framed(0.140, 0.15, 0.04, 0.12),
        solid(0.0125, 0.21),
    ])
}

#[test]
fn the_worked_wall() {
    let t = total_resistance(&worked(), 0.13, 0.04).expect("in range");
    assert!((t.upper_m2k_per_w - 3.435).abs() < 0.0005, "{t:?}");
    assert!((t.lower_m2k_per_w - 3.304).abs() < 0.0005, "{t:?}");
    let u = u_w_per_m2k(&worked(), Flow::Level).expect("in range");
    assert!((u - 0.297).abs() < 0.0005, "{u}");
}

#[test]
fn the_slabs_keep_the_total() {
    let slabs = resolved(&worked(), Flow::Level).expect("in range");
    assert_eq!(slabs.len(), 5);
    let sum: f64 = slabs.iter().map(|s| s.r_m2k_per_w).sum();
    let total = total_resistance(&worked(), 0.13, 0.04)
        .expect("in range")
        .total_m2k_per_w;
    assert!((sum + 0.17 - total).abs() < 1e-12);
    // outside first; no heat stored in a bare resistance; shares of both in the frame
    assert!((slabs[0].r_m2k_per_w - 0.102 / 0.77).abs() < 1e-12);
    assert_eq!(slabs[1].c_j_per_m2k, 0.0);
    let c = 0.140 * (0.85 * 20.0 * 1000.0 + 0.15 * 500.0 * 1600.0);
    assert!((slabs[3].c_j_per_m2k - c).abs() < 1e-6);
}

/// Every usual build-up reads and lies where houses lie: 0.05 to 6 W/(m2 K).
#[test]
fn every_usual_build_up() {
    let names = library::construction_names();
    assert!(names.len() >= 25);
    for n in names {
        let c = library::construction_by_name(n).unwrap_or_else(|e| panic!("{n}: {e}"));
        let u = u_w_per_m2k(&c, Flow::Level).unwrap_or_else(|e| panic!("{e}"));
        assert!((0.05..=6.0).contains(&u), "{n}: {u}");
        assert_eq!(c.known, Known::Assumed);
    }
    for n in [
        "wall",
        "roof",
        "ceiling",
        "floor",
        "partition",
        "slab",
        "basement wall",
        "open floor",
        "attic roof",
        "crawl ground",
    ] {
        assert_eq!(
            library::usual_construction(n)
                .unwrap_or_else(|e| panic!("{n}: {e}"))
                .name,
            n
        );
    }
}

/// Trade card F3 (common practice): whole wall 2x4 empty 0.20 to 0.25, R-13 cavity 0.08 to 0.10
/// Btu/(h ft2 F).
#[test]
fn walls_of_the_trade() {
    let u = |n: &str| {
        let c = library::construction_by_name(n).unwrap_or_else(|e| panic!("{e}"));
        u_w_per_m2k(&c, Flow::Level).unwrap_or_else(|e| panic!("{e}")) / 5.678_263
    };
    let empty = u("2x4 empty wall");
    let batt = u("2x4 wall with batt");
    assert!((0.20..=0.25).contains(&empty), "{empty}");
    assert!((0.08..=0.10).contains(&batt), "{batt}");
}

proptest! {
    /// More insulation, lower U; the mean lies between the bounds.
    #[test]
    fn more_insulation_lower_u(
        d in 0.02..0.4f64, more in 0.001..0.3f64, share in 0.0..0.5f64,
        k in 0.02..0.06f64, wood in 0.08..0.2f64,
    ) {
        let w = |d: f64| wall(vec![solid(0.01, 0.16), framed(d, share, k, wood), solid(0.0127, 0.16)]);
        let thin = total_resistance(&w(d), 0.13, 0.04).expect("in range");
        let thick = total_resistance(&w(d + more), 0.13, 0.04).expect("in range");
        prop_assert!(thick.total_m2k_per_w > thin.total_m2k_per_w);
        prop_assert!(thin.upper_m2k_per_w >= thin.lower_m2k_per_w - 1e-12);
    }
}

#[test]
fn a_bad_layer_is_named() {
    let e = resolved(&wall(vec![solid(0.1, 0.5), solid(f64::NAN, 0.5)]), Flow::Up);
    assert_eq!(
        e.expect_err("not a number").to_string(),
        "construction \"w\", layer 2: thickness, m is NaN, usable: over 0 to 5"
    );
    assert!(resolved(&wall(Vec::new()), Flow::Up).is_err());
}
