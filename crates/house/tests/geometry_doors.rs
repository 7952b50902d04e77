//! Doors to outside: which leaf each is of.

mod geometry_houses;

use geometry_houses::*;
use house::describe::*;
use house::model::SurfaceKind;
use reckon::Known;

/// Doors alike and known alike are of one leaf that bears the names of their rooms; another
/// transmittance or another way of knowing is another leaf, and no two are called the same.
#[test]
fn a_door_leaf_is_named_by_its_rooms() {
    let mut h = family_house();
    let hall = h.outer_doors[0].clone();
    let mut kitchen = hall.clone();
    (kitchen.room, kitchen.side) = ("kitchen".to_owned(), Side::Facing(Compass::West));
    let mut seen = kitchen.clone();
    (seen.known, seen.side) = (Known::Seen, Side::Facing(Compass::North));
    let mut better = kitchen.clone();
    (better.u_w_per_m2k, better.side) = (1.0, Side::Facing(Compass::North));
    h.outer_doors = vec![hall.clone(), seen, better, hall, kitchen];
    let m = made(&h);
    let leaf = |i: usize| m.constructions[i].name.as_str();
    let doors: Vec<&str> = m
        .surfaces
        .iter()
        .filter(|s| s.kind == SurfaceKind::Door)
        .map(|s| leaf(s.construction))
        .collect();
    let both = "door leaf of hall and kitchen";
    let (one, two) = ("door leaf of kitchen", "door leaf of kitchen, 2");
    assert_eq!(doors, [both, one, two, both, both]);
}
