//! Outlines to surfaces: areas by hand, boxes of the test standard, symmetry.

mod geometry_houses;

use geometry_houses::*;
use house::describe::*;
use house::geometry::{self, GeometryError};
use house::model::{Behind, Model, Surface, SurfaceKind};
use proptest::prelude::*;

fn made(h: &House) -> Model {
    geometry::model(h).unwrap_or_else(|e| panic!("{e:#?}"))
}

fn named<'a>(m: &'a Model, name: &str) -> &'a Surface {
    m.surfaces
        .iter()
        .find(|s| s.name == name)
        .unwrap_or_else(|| {
            panic!(
                "no {name} in {:?}",
                m.surfaces.iter().map(|s| &s.name).collect::<Vec<_>>()
            )
        })
}

fn near(got: f64, want: f64) {
    assert!(
        (got - want).abs() < 1e-6 * want.abs().max(1.0),
        "got {got}, want {want}"
    );
}

fn azimuth(s: &Surface) -> f64 {
    match s.behind {
        Behind::Outdoor { azimuth_deg, .. } => azimuth_deg,
        _ => panic!("{} is not outdoors", s.name),
    }
}

/// Standard 140-2020, case 600: sizes as in `std-140`, exact arithmetic.
#[test]
fn the_test_box() {
    let mut h = test_box();
    for left in [0.5, 4.5] {
        let mut w = window("box", Side::Facing(Compass::South));
        (w.width_m, w.height_m, w.sill_m, w.from_left_m) = (3.0, 2.0, 0.2, Some(left));
        h.windows.push(w);
    }
    let m = made(&h);
    assert_eq!(m.zones.len(), 1);
    assert_eq!(m.surfaces.len(), 6);
    near(m.zones[0].volume_m3, 129.6);
    near(named(&m, "box.wall-south").area_m2, 8.0 * 2.7 - 12.0);
    near(named(&m, "box.wall-north").area_m2, 21.6);
    near(named(&m, "box.wall-east").area_m2, 16.2);
    near(named(&m, "box.roof").area_m2, 48.0);
    near(azimuth(named(&m, "box.wall-south")), 180.0);
    near(azimuth(named(&m, "box.wall-east")), 90.0);
    near(azimuth(named(&m, "box.wall-west")), 270.0);
    let floor = named(&m, "box.floor");
    assert_eq!(
        floor.behind,
        Behind::Outdoor {
            azimuth_deg: 0.0,
            sun: false,
            wind: false
        }
    );
    near(floor.tilt_deg, 180.0);
    near(m.panes.iter().map(|p| p.area_m2).sum(), 12.0);
    assert!(
        m.panes
            .iter()
            .all(|p| m.surfaces[p.in_surface].name == "box.wall-south")
    );
    near(m.zones[0].fixed_air_m3_per_s, 0.5 * 129.6 / 3600.0);
    near(m.top_m, 2.7);
}

/// Standard 140-2020, case 960: the shared wall has its own construction.
#[test]
fn two_rooms_share_a_wall_of_their_own() {
    let mut h = test_box();
    h.rooms = vec![
        room("back", "ground", &rect(0.0, 2.0, 8.0, 8.0)),
        room("sun", "ground", &rect(0.0, 0.0, 8.0, 2.0)),
    ];
    h.rooms[1].heated = None;
    h.constructions.push(one_layer("shared", 0.51, 0.2));
    for (room, side) in [("back", Compass::South), ("sun", Compass::North)] {
        h.walls = vec![WallNote {
            room: room.to_owned(),
            side: Side::Facing(side),
            construction: Some("shared".to_owned()),
            adiabatic: false,
            no_sun: false,
        }];
        let m = made(&h);
        let walls: Vec<_> = m
            .surfaces
            .iter()
            .filter(|s| s.kind == SurfaceKind::Partition)
            .collect();
        assert_eq!(walls.len(), 1);
        near(walls[0].area_m2, 21.6);
        assert_eq!(m.constructions[walls[0].construction].name, "shared");
        // the room that names it is inside
        assert_eq!(m.zones[walls[0].zone].name, room);
        let outside: f64 = m
            .surfaces
            .iter()
            .filter(|s| s.kind == SurfaceKind::Wall)
            .map(|s| s.area_m2)
            .sum();
        near(outside, (8.0 + 8.0 + 2.0 * 8.0) * 2.7);
    }
}

#[test]
fn a_family_house_adds_up() {
    let m = made(&family_house());
    // basement, two attics' worth: rooms first, then buffers
    assert!(m.zones.iter().take(7).all(|z| z.room.is_some()));
    // the attic over the ground storey covers the garage, the upper one the bedrooms
    let attic = m
        .zones
        .iter()
        .find(|z| z.name == "attic over ground")
        .expect("attic");
    near(attic.floor_m2, 24.0);
    near(
        m.zones
            .iter()
            .find(|z| z.name == "attic over upper")
            .expect("attic")
            .floor_m2,
        68.0,
    );
    // bath hangs half a metre over the north wall
    let hang = named(&m, "bath.floor");
    near(hang.area_m2, 4.0);
    assert_eq!(
        hang.behind,
        Behind::Outdoor {
            azimuth_deg: 0.0,
            sun: false,
            wind: true
        }
    );
    // cellar under grade, all of it: 2.1 m deep
    near(
        named(&m, "cellar.wall-north-under-grade").area_m2,
        8.0 * 2.1,
    );
    assert!(m.surfaces.iter().all(|s| s.name != "cellar.wall-north"));
    // garage stands on the ground; the other ground rooms on the cellar
    assert!(matches!(
        named(&m, "garage.floor").behind,
        Behind::Ground(_)
    ));
    near(named(&m, "living.floor-cellar").area_m2, 32.0);
    // living to garage: a vented unheated space is outside the envelope, so an outside wall
    let side = named(&m, "living.partition-garage");
    assert_eq!(m.constructions[side.construction].name, "wall");
    assert_eq!(m.openings.len(), 3);
    let door = named(&m, "hall.door-north");
    near(door.area_m2, 1.8);
    near(named(&m, "hall.wall-north").area_m2, 3.0 * 2.4 - 1.8);
    // the leaf with wall films has the U asked for
    let leaf = &m.constructions[door.construction];
    let u = house::assembly::u_w_per_m2k(leaf, house::assembly::Flow::Level).expect("leaf");
    near(u, 2.0);
    near(m.zones.iter().map(|z| z.leak_share).sum(), 1.0);
    near(m.zones[4].leak_share, 0.0);
    // Q = c dP^n: 1.0 / 50^0.65, computed beside
    near(m.leak.c_m3_per_s_pa_n, 1.0 / 50f64.powf(0.65));
    near(m.leak.bottom_m, 0.0);
    near(m.leak.top_m, 2.95 + 2.3);
    near(m.zones[1].contents_j_per_k, 20_000.0 * 32.0);
    near(m.zones[4].fixed_air_m3_per_s, 2.0 * 24.0 * 2.4 / 3600.0);
    closes(&m, &family_house());
}

/// Every room: floor faces add up to the floor, ceiling faces to the ceiling, walls to
/// perimeter times height.
fn closes(m: &Model, h: &House) {
    for (i, r) in h.rooms.iter().enumerate() {
        let s = h
            .storeys
            .iter()
            .find(|s| s.name == r.storey)
            .expect("storey");
        let height = r.ceiling_m.unwrap_or(s.ceiling_m);
        let (mut floor, mut ceiling, mut wall) = (0.0, 0.0, 0.0);
        for x in &m.surfaces {
            let mine = x.zone == i;
            let behind = x.behind == Behind::Zone(i);
            match x.kind {
                SurfaceKind::Floor | SurfaceKind::InnerFloor if mine => floor += x.area_m2,
                SurfaceKind::InnerFloor if behind => ceiling += x.area_m2,
                SurfaceKind::Ceiling if mine => ceiling += x.area_m2,
                SurfaceKind::Roof if mine => {
                    ceiling += x.area_m2 * x.tilt_deg.to_radians().cos();
                }
                SurfaceKind::Wall | SurfaceKind::BasementWall | SurfaceKind::Door if mine => {
                    wall += x.area_m2;
                }
                SurfaceKind::Partition if mine || behind => wall += x.area_m2,
                _ => {}
            }
        }
        wall += m
            .panes
            .iter()
            .filter(|p| p.zone == i)
            .map(|p| p.area_m2)
            .sum::<f64>();
        for o in &m.openings {
            let flat = m.surfaces.iter().any(|x| {
                x.kind == SurfaceKind::InnerFloor
                    && o.zones.contains(&x.zone)
                    && o.zones.iter().any(|z| x.behind == Behind::Zone(*z))
            });
            if o.zones.contains(&i) && !flat {
                wall += o.width_m * o.height_m;
            }
        }
        let around: f64 = r
            .outline
            .iter()
            .zip(r.outline.iter().cycle().skip(1))
            .map(|(p, q)| (p[0] - q[0]).hypot(p[1] - q[1]))
            .sum();
        let area = m.zones[i].floor_m2;
        // 1 mm2: the polygon operations work on a fine grid
        assert!(
            (floor - area).abs() < 1e-4,
            "{}: floor {floor} of {area}",
            r.name
        );
        assert!(
            (ceiling - area).abs() < 1e-4,
            "{}: ceiling {ceiling} of {area}",
            r.name
        );
        assert!(
            (wall - around * height).abs() < 1e-6 * around,
            "{}: walls {wall}",
            r.name
        );
    }
}

#[test]
fn a_room_partly_under_grade_is_split_there() {
    let mut h = test_box();
    h.storeys[0].floor_m = -1.0;
    h.storeys[0].under = Under::Ground;
    let m = made(&h);
    near(named(&m, "box.wall-south-under-grade").area_m2, 8.0);
    near(named(&m, "box.wall-south").area_m2, 8.0 * 1.7);
    // less than half of it is buried: over grade it is an ordinary wall
    assert_eq!(
        m.constructions[named(&m, "box.wall-south").construction].name,
        "wall"
    );
    h.storeys[0].floor_m = -2.0;
    let m = made(&h);
    assert_eq!(
        m.constructions[named(&m, "box.wall-south").construction].name,
        "basement wall"
    );
    closes(&m, &h);
}

#[test]
fn a_taller_room_looks_over_its_neighbour() {
    let mut h = test_box();
    h.rooms = vec![
        room("low", "ground", &rect(0.0, 0.0, 4.0, 6.0)),
        room("tall", "ground", &rect(4.0, 0.0, 8.0, 6.0)),
    ];
    h.rooms[1].ceiling_m = Some(3.7);
    let m = made(&h);
    near(named(&m, "low.partition-tall").area_m2, 6.0 * 2.7);
    near(named(&m, "tall.wall-west-over-low").area_m2, 6.0);
    closes(&m, &h);
}

#[test]
fn an_attic_and_a_crawl_space_are_zones() {
    let mut h = test_box();
    h.storeys[0].over = Over::Attic;
    h.storeys[0].under = Under::Crawl;
    let m = made(&h);
    let names: Vec<&str> = m.zones.iter().map(|z| z.name.as_str()).collect();
    assert_eq!(names, ["box", "crawl", "attic"]);
    // by hand: rise 3 tan 30, volume 48 rise/2, slopes 48/cos 30
    let rise = 3.0 * 30f64.to_radians().tan();
    near(m.zones[2].volume_m3, 24.0 * rise);
    near(m.zones[2].fixed_air_m3_per_s, 3.0 * 24.0 * rise / 3600.0);
    let slopes: Vec<f64> = m
        .surfaces
        .iter()
        .filter(|s| s.zone == 2 && s.kind == SurfaceKind::Roof)
        .map(|s| s.area_m2)
        .collect();
    assert_eq!(slopes.len(), 2);
    for a in &slopes {
        near(*a, 24.0 / 30f64.to_radians().cos());
    }
    let faces: Vec<f64> = m
        .surfaces
        .iter()
        .filter(|s| s.zone == 2 && s.kind == SurfaceKind::Roof)
        .map(azimuth)
        .collect();
    assert!(faces.contains(&0.0) && faces.contains(&180.0), "{faces:?}");
    near(named(&m, "box.ceiling").area_m2, 48.0);
    near(named(&m, "box.floor-crawl").area_m2, 48.0);
    assert!(matches!(
        named(&m, "crawl.ground").behind,
        Behind::Ground(_)
    ));
    assert!(m.zones[1].fixed_air_m3_per_s > 0.0);
    closes(&m, &h);
}

#[test]
fn a_sloped_roof_has_two_sides() {
    let mut h = test_box();
    h.storeys[0].over = Over::Sloped { pitch_deg: 40.0 };
    let m = made(&h);
    near(
        named(&m, "box.roof-south").area_m2,
        24.0 / 40f64.to_radians().cos(),
    );
    near(azimuth(named(&m, "box.roof-north")), 0.0);
    closes(&m, &h);
}

#[test]
fn the_plan_can_be_turned() {
    let mut h = test_box();
    h.plan_north_deg = 30.0;
    let m = made(&h);
    near(azimuth(named(&m, "box.wall-south")), 210.0);
    near(azimuth(named(&m, "box.wall-west")), 300.0);
}

#[test]
fn vents_without_a_room_go_by_volume() {
    let mut h = family_house();
    h.vents = vec![Vent {
        room: String::new(),
        flow_m3_per_s: 0.06,
        recovery: 0.7,
        on: [true; 24],
    }];
    let m = made(&h);
    near(m.vents.iter().map(|v| v.flow_m3_per_s).sum(), 0.06);
    assert!(m.vents.iter().all(|v| m.zones[v.zone].name != "garage"));
}

#[test]
fn what_stands_in_is_marked_assumed() {
    let m = made(&test_box());
    assert!(m.constructions.iter().any(|c| c.name == "wall"));
    assert!(
        m.constructions
            .iter()
            .all(|c| c.known == reckon::Known::Assumed)
    );
}

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
        prop_assert_eq!(tally(&plain, |a| a), tally(&mirrored, |a| 360.0 - a));
        // turned clockwise by `turn`: azimuths grow by it
        let (s, c) = turn.to_radians().sin_cos();
        let turned = made(&changed(&h, |p| [p[0] * c + p[1] * s, p[1] * c - p[0] * s]));
        prop_assert_eq!(tally(&plain, |a| a + turn), tally(&turned, |a| a));
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
