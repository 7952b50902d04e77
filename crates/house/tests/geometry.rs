//! Outlines to surfaces: areas by hand, boxes of the test standard, symmetry.

mod geometry_houses;

use geometry_houses::*;
use house::describe::*;
use house::model::{Behind, Model, SurfaceKind};

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

/// A shared wall to a heated neighbour carries no heat, and its length is not exposed: the slab
/// loses through three sides only. Two notes on one wall add up.
#[test]
fn a_wall_without_heat_flow() {
    let mut h = test_box();
    h.storeys[0].under = Under::Ground;
    let note = |construction: Option<&str>, adiabatic: bool| WallNote {
        room: "box".to_owned(),
        side: Side::Facing(Compass::East),
        construction: construction.map(str::to_owned),
        adiabatic,
        no_sun: false,
    };
    let slab = |h: &House| match named(&made(h), "box.floor").behind {
        Behind::Ground(ref c) => c.clone(),
        ref other => panic!("{other:?}"),
    };
    let free = slab(&h);
    h.constructions.push(one_layer("party wall", 0.8, 0.3));
    h.walls = vec![note(Some("party wall"), false), note(None, true)];
    let m = made(&h);
    let east = named(&m, "box.wall-east");
    assert_eq!(east.behind, Behind::Adiabatic);
    assert_eq!(m.constructions[east.construction].name, "party wall");
    let r = house::assembly::r_without_films_m2k_per_w(
        m.constructions
            .iter()
            .find(|c| c.name == "slab")
            .expect("slab"),
        house::assembly::Flow::Down,
    )
    .expect("in range");
    let by_hand = house::ground::floor_contact(&h.soil, 48.0, 22.0, r, 0.0).expect("in range");
    near(slab(&h).u_w_per_m2k, by_hand.u_w_per_m2k);
    assert!(slab(&h).u_w_per_m2k < free.u_w_per_m2k);
}
