//! Which head stands for a room, and which head for a unit.

use std::collections::BTreeMap;

use heatpump::Sheet;

use super::{Shelf, nominal_w, tested};

fn sheet(file: &str) -> Sheet {
    let path = format!("{}/../../catalogue/{file}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).expect("a sheet");
    heatpump::read_sheet(file, &text).expect("reads")
}

/// A head that gives so much at most and is sold by this size.
fn head(name: &str, nominal_w: f64, most_w: Option<f64>) -> Sheet {
    let mut out = sheet("teal-9");
    name.clone_into(&mut out.name);
    let of = out.head.as_mut().expect("a head");
    (of.nominal_w, of.heating_max_w) = (nominal_w, most_w);
    out
}

#[test]
fn the_smallest_head_that_carries_a_room_and_the_next_below_it() {
    let heads = [
        head("two", 2000.0, Some(2500.0)),
        head("three", 3000.0, Some(3500.0)),
        // sold as the same size, and gives more
        head("strong three", 3000.0, Some(3900.0)),
        // says nothing of its most: as it is sold
        head("four", 4000.0, None),
    ];
    let shelf = Shelf {
        pairs: Vec::new(),
        several: Vec::new(),
        heads: heads.iter().collect(),
        ready: BTreeMap::new(),
        like: BTreeMap::new(),
    };
    for (peak_w, want) in [
        (0.0, vec!["two"]),
        (2500.0, vec!["two"]),
        (2501.0, vec!["three", "two"]),
        // The next below is a smaller size, not another of the same.
        (3600.0, vec!["strong three", "two"]),
        (4000.0, vec!["four", "strong three"]),
        // None carries it: the largest.
        (9000.0, vec!["four", "strong three"]),
    ] {
        assert_eq!(shelf.sizes(peak_w), want, "{peak_w} W");
    }
}

#[test]
fn a_unit_goes_with_a_head_it_was_tested_with() {
    let heads = [
        head("two", 2000.0, None),
        head("three", 3000.0, None),
        head("four", 4000.0, None),
    ];
    let all: Vec<&Sheet> = heads.iter().collect();
    let mut unit = sheet("loon-12");
    unit.tested_with = vec!["not here".to_owned(), "four".to_owned(), "two".to_owned()];
    let name = |unit: &Sheet| tested(unit, &all).map(|h| h.name.clone());
    assert_eq!(name(&unit).as_deref(), Some("four"));
    unit.tested_with = vec!["not here".to_owned()];
    assert_eq!(name(&unit), None);
    // Without a list the head nearest to what it is rated for at its mildest point.
    unit.tested_with.clear();
    let mildest = unit.heating.iter_mut().rev().find_map(|p| p.rated.as_mut());
    mildest.expect("rated").capacity_w = 3400.0;
    assert_eq!(name(&unit).as_deref(), Some("three"));
    assert_eq!(nominal_w(&unit), 0.0);
}
