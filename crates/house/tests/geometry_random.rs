//! Properties of the geometry over random houses: it closes, it never panics, mirrors mirror.

mod geometry_houses;

use geometry_houses::*;
use house::describe::*;
use house::geometry::{self, GeometryError};
use house::model::{Behind, Model, SurfaceKind};
use proptest::prelude::*;

/// Areas, kinds and azimuths of a model, in a fixed order, for comparing.
fn tally(m: &Model, turn: impl Fn(f64) -> f64) -> Vec<(String, i64, i64)> {
    let mut all: Vec<(String, i64, i64)> = m
        .surfaces
        .iter()
        .map(|s| {
            let face = match s.behind {
                Behind::Outdoor { azimuth_deg, .. } if s.tilt_deg > 1.0 && s.tilt_deg < 179.0 => {
                    (turn(azimuth_deg).rem_euclid(360.0) * 1e3).round() as i64 % 360_000
                }
                _ => -1,
            };
            (
                format!("{:?} {}", s.kind, s.zone),
                (s.area_m2 * 1e3).round() as i64,
                face,
            )
        })
        .collect();
    all.sort();
    all
}

/// Whether two models have the same faces; a last digit may be rounded the other way.
fn alike(a: &[(String, i64, i64)], mut b: Vec<(String, i64, i64)>) -> bool {
    let near = |a: i64, b: i64| matches!((a - b).rem_euclid(360_000), 0 | 1 | 359_999);
    a.iter().all(|(kind, area, face)| {
        let found = b
            .iter()
            .position(|o| o.0 == *kind && (o.1 - area).abs() <= 1 && near(o.2, *face));
        found.map(|i| b.swap_remove(i)).is_some()
    }) && b.is_empty()
}

fn changed(h: &House, f: impl Fn([f64; 2]) -> [f64; 2]) -> House {
    let mut h = h.clone();
    for r in &mut h.rooms {
        for c in &mut r.outline {
            *c = f(*c);
        }
    }
    h
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any two-storey house of rectangles either makes a model that closes or says what is
    /// wrong; it never panics.
    #[test]
    fn random_houses_close(
        cuts in prop::collection::vec((0.0..12.0f64, 0.0..9.0f64, 0.3..6.0f64, 0.3..6.0f64), 1..6),
        turn in 0.0..360.0f64,
        floor in -3.0..1.0f64,
        over in 0..4usize,
        under in 0..5usize,
    ) {
        let mut h = test_box();
        let overs = [Over::Attic, Over::FlatRoof, Over::Sloped { pitch_deg: 35.0 }, Over::Adiabatic];
        let unders =
            [Under::Ground, Under::OpenAir, Under::StillAir, Under::Crawl, Under::Adiabatic];
        h.storeys = vec![
            storey("low", floor, 2.4, unders[under], overs[over]),
            storey("high", floor + 2.7, 2.4, Under::OpenAir, Over::Attic),
        ];
        let (s, c) = turn.to_radians().sin_cos();
        h.rooms = cuts
            .iter()
            .enumerate()
            .map(|(i, (x, y, w, d))| {
                let place = if i % 2 == 0 { "low" } else { "high" };
                let mut r = room(&format!("r{i}"), place, &rect(*x, *y, x + w, y + d));
                for p in &mut r.outline {
                    *p = [p[0] * c - p[1] * s, p[0] * s + p[1] * c];
                }
                r
            })
            .collect();
        match geometry::model(&h) {
            Ok(m) => {
                prop_assert!(m.surfaces.iter().all(|s| s.area_m2.is_finite() && s.area_m2 >= 0.0));
                floors_close(&m, &h);
            }
            Err(e) => prop_assert!(!e.is_empty() && e.iter().all(|x| !x.place.is_empty())),
        }
    }

    /// Wild numbers never panic.
    #[test]
    fn wild_numbers_are_refused(
        corners in prop::collection::vec((any::<f64>(), any::<f64>()), 0..8),
        floor in any::<f64>(),
        ceiling in any::<f64>(),
        width in any::<f64>(),
    ) {
        let mut h = test_box();
        h.storeys[0].floor_m = floor;
        h.storeys[0].ceiling_m = ceiling;
        h.rooms[0].outline = corners.iter().map(|(x, y)| [*x, *y]).collect();
        let mut w = window("box", Side::Number(1));
        w.width_m = width;
        h.windows.push(w);
        let told: Result<Model, Vec<GeometryError>> = geometry::model(&h);
        prop_assert!(told.is_ok_and(|m| m.zones.len() == 1) || geometry::model(&h).is_err());
    }

    /// Mirrored and turned houses have mirrored and turned models.
    #[test]
    fn mirrored_and_turned(at in 2.0..6.0f64, depth in 2.0..5.0f64, turn in 1.0..89.0f64) {
        let mut h = family_house();
        h.windows.clear();
        h.outer_doors.clear();
        h.rooms[1].outline = rect(0.0, 0.0, 8.0, depth);
        h.rooms[2].outline = rect(0.0, depth, at, 8.0);
        h.rooms[3].outline = rect(at, depth, 8.0, 8.0);
        let plain = made(&h);
        let mirrored = made(&changed(&h, |p| [-p[0], p[1]]));
        prop_assert!(alike(&tally(&plain, |a| a), tally(&mirrored, |a| 360.0 - a)));
        // turned clockwise by `turn`: azimuths grow by it
        let (s, c) = turn.to_radians().sin_cos();
        let turned = made(&changed(&h, |p| [p[0] * c + p[1] * s, p[1] * c - p[0] * s]));
        prop_assert!(alike(&tally(&plain, |a| a + turn), tally(&turned, |a| a)));
    }
}

/// The floor of every room closes, but for strips narrower than rooms touch (5 cm), which go
/// with a neighbour.
fn floors_close(m: &Model, h: &House) {
    let around: f64 = h
        .rooms
        .iter()
        .flat_map(|r| r.outline.iter().zip(r.outline.iter().cycle().skip(1)))
        .map(|(p, q)| (p[0] - q[0]).hypot(p[1] - q[1]))
        .sum();
    let strips = geometry::TOUCH_M * 0.5 * around;
    for (i, r) in h.rooms.iter().enumerate() {
        let floor: f64 = m
            .surfaces
            .iter()
            .filter(|x| x.zone == i)
            .filter(|x| matches!(x.kind, SurfaceKind::Floor | SurfaceKind::InnerFloor))
            .map(|x| x.area_m2)
            .sum();
        let area = m.zones[i].floor_m2;
        assert!(
            (floor - area).abs() < strips,
            "{}: floor {floor} of {area}",
            r.name
        );
    }
}
