//! A house that stands at an angle on its plan.

mod geometry_houses;

use geometry_houses::{family_house, made, rect};
use house::model::Model;

/// Found by chance: turned by this much, polygons that share edges made the clipping of them fall.
#[test]
fn a_house_turned_by_an_odd_angle_is_the_same_house() {
    let mut h = family_house();
    h.windows.clear();
    h.outer_doors.clear();
    let depth = 2.4466930378336396;
    h.rooms[1].outline = rect(0.0, 0.0, 8.0, depth);
    h.rooms[2].outline = rect(0.0, depth, 2.0, 8.0);
    h.rooms[3].outline = rect(2.0, depth, 8.0, 8.0);
    let plain = made(&h);
    let (s, c) = 59.058287739001074_f64.to_radians().sin_cos();
    for corner in h.rooms.iter_mut().flat_map(|r| &mut r.outline) {
        *corner = [corner[0] * c + corner[1] * s, corner[1] * c - corner[0] * s];
    }
    let turned = made(&h);
    assert_eq!(plain.surfaces.len(), turned.surfaces.len());
    for (p, t) in plain.zones.iter().zip(&turned.zones) {
        assert!((p.volume_m3 - t.volume_m3).abs() < 1e-4, "{}", p.name);
    }
    let area = |m: &Model| m.surfaces.iter().map(|s| s.area_m2).sum::<f64>();
    assert!((area(&plain) - area(&turned)).abs() < 1e-3);
}
