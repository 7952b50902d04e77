//! Layers as a builder writes them, materials, windows.

use house::describe::{GlazingData, Layer};
use house::library::{self, LibraryError, layer_from_text};

fn read(text: &str) -> Layer {
    layer_from_text(text).unwrap_or_else(|e| panic!("{e}"))
}

fn near(got: f64, want: f64) {
    assert!(
        (got - want).abs() < 1e-9 * want.abs().max(1.0),
        "got {got}, want {want}"
    );
}

#[test]
fn solid_layers() {
    for (text, name, inches) in [
        ("gypsum 0.5 in", "gypsum", 0.5),
        ("drywall 1/2 in", "gypsum", 0.5),
        ("wood siding 0.5 in", "wood siding", 0.5),
        ("Plaster 0.75 in", "plaster", 0.75),
        ("brick 4 in", "brick", 4.0),
        ("sheathing 12.7 mm", "sheathing", 0.5),
    ] {
        let Layer::Solid {
            name: got,
            thickness_m,
            ..
        } = read(text)
        else {
            panic!("{text}")
        };
        assert_eq!(got, name);
        near(thickness_m, inches * 0.0254);
    }
}

#[test]
fn framed_layers() {
    for text in [
        "fiberglass batt 3.5 in in studs 16 in",
        "fiberglass batt 3.5 in studs 16 in",
        "fiberglass batt 88.9 mm in studs 406.4 mm",
    ] {
        let Layer::Framed {
            thickness_m,
            framing_share,
            cavity,
            framing,
            ..
        } = read(text)
        else {
            panic!("{text}")
        };
        near(thickness_m, 0.0889);
        near(framing_share, 0.25);
        near(cavity[0], 0.042);
        near(framing[0], 0.12);
    }
    let Layer::Framed { framing_share, .. } = read("cellulose 5.5 in in studs 24 in") else {
        panic!()
    };
    near(framing_share, 0.22);
    let Layer::Framed { framing_share, .. } = read("cellulose 5.5 in in studs 15 %") else {
        panic!()
    };
    near(framing_share, 0.15);
    // an empty cavity: 0.18 m2 K/W by iso-6946 table 8
    let Layer::Framed {
        thickness_m,
        cavity,
        ..
    } = read("empty 3.5 in in studs 16 in")
    else {
        panic!()
    };
    near(thickness_m / cavity[0], 0.18);
    // a typed R fills the cavity whatever the depth
    let Layer::Framed {
        thickness_m,
        cavity,
        ..
    } = read("R 13 in studs 16 in")
    else {
        panic!()
    };
    near(thickness_m, 0.0889);
    near(thickness_m / cavity[0], 13.0 * 0.176_110_183_682);
}

#[test]
fn bare_resistances() {
    for (text, r) in [
        ("R 13", 13.0 * 0.176_110_183_682),
        ("R-38", 38.0 * 0.176_110_183_682),
        ("RSI 2.5", 2.5),
        ("air space 1 in", 0.18),
    ] {
        let Layer::Resistance { r_m2k_per_w, .. } = read(text) else {
            panic!("{text}")
        };
        near(r_m2k_per_w, r);
    }
}

#[test]
fn what_does_not_read_is_said() {
    let say = |t: &str| layer_from_text(t).expect_err(t).to_string();
    assert_eq!(
        say("gypsun 0.5 in"),
        "no material \"gypsun\" is known; did you mean \"gypsum\"?"
    );
    assert!(say("fibreglas bat 3.5 in in studs 16 in").contains("did you mean"));
    assert!(say("gypsum").contains("the thickness is missing"));
    assert!(say("gypsum 0.5").contains("unit"), "{}", say("gypsum 0.5"));
    assert!(say("gypsum 20 ft").contains("usable: over 0 to 5 m"));
    assert!(say("cellulose 3.5 in in studs").contains("spacing"));
    assert!(say("cellulose 3.5 in in studs 60 in").contains("usable: 12 to 24 in"));
    for bad in [
        "",
        " ",
        "R",
        "R -3",
        "0.5 in",
        "in studs 16 in",
        "air space 9 ft",
        "gypsum -1 in",
    ] {
        assert!(layer_from_text(bad).is_err(), "{bad}");
    }
}

#[test]
fn the_tables_are_whole() {
    let all = library::materials();
    assert!(all.len() >= 60, "{}", all.len());
    for m in &all {
        assert!((0.005..=500.0).contains(&m.k_w_per_mk), "{m:?}");
        assert!(
            m.density_kg_per_m3 > 0.0 && m.cp_j_per_kgk > 0.0 && !m.source.is_empty(),
            "{m:?}"
        );
        for other in m.others.split('|').filter(|o| !o.is_empty()) {
            let found = library::material(other).unwrap_or_else(|e| panic!("{e}"));
            assert_eq!(found.name, m.name, "\"{other}\" is used twice");
        }
    }
    // every line of the table became a material
    let lines = include_str!("../data/materials.csv")
        .lines()
        .filter(|l| !l.trim().is_empty() && !l.starts_with('#'))
        .count();
    assert_eq!(lines, all.len());
}

/// Trade card F3 (common practice): single 1.0, double clear 0.5, low-e 0.30 Btu/(h ft2 F), here
/// within 15 %.
#[test]
fn windows() {
    for (name, us) in [
        ("single", 1.0),
        ("double clear", 0.5),
        ("double low-e argon", 0.30),
    ] {
        let g = library::glazing_by_name(name).unwrap_or_else(|e| panic!("{e}"));
        let GlazingData::Label {
            u_w_per_m2k,
            shgc,
            panes,
        } = g.made_of
        else {
            panic!("{name}")
        };
        assert!(
            (u_w_per_m2k / 5.678_263 / us - 1.0).abs() < 0.15,
            "{name}: {u_w_per_m2k}"
        );
        assert!((0.1..0.9).contains(&shgc) && (1..=4).contains(&panes));
    }
    assert_eq!(library::glazing_names().len(), 13);
    let e = library::glazing_by_name("tripple low-e argon").expect_err("misspelt");
    assert!(
        matches!(&e, LibraryError::Unknown { near: Some(n), .. } if n.contains("triple")),
        "{e}"
    );
}
