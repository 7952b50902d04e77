//! Houses for the tests of the geometry.
#![allow(dead_code, reason = "each test file uses some of these")]

use house::describe::*;
use house::geometry;
use house::model::{Behind, Model, Surface};
use reckon::Known;

/// A heated room of this outline.
pub fn room(name: &str, storey: &str, outline: &[[f64; 2]]) -> Room {
    Room {
        name: name.to_owned(),
        storey: storey.to_owned(),
        outline: outline.to_vec(),
        ceiling_m: None,
        heated: Some(Setting::always(20.0)),
        cooled: None,
        gains: Vec::new(),
        used_for: Use::Living,
        people: 0.0,
        own_air_changes_per_h: None,
    }
}

/// An upright rectangle.
pub fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<[f64; 2]> {
    vec![[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
}

/// A storey.
pub fn storey(name: &str, floor_m: f64, ceiling_m: f64, under: Under, over: Over) -> Storey {
    Storey {
        name: name.to_owned(),
        floor_m,
        ceiling_m,
        under,
        over,
    }
}

/// A window 1 m by 1 m at 0.9 m.
pub fn window(room: &str, side: Side) -> Window {
    Window {
        name: String::new(),
        room: room.to_owned(),
        side,
        width_m: 1.0,
        height_m: 1.0,
        sill_m: 0.9,
        from_left_m: None,
        count: 1,
        glazing: "g".to_owned(),
        shade: Shade::default(),
        known: Known::Seen,
    }
}

/// An open door.
pub fn door(a: &str, b: &str) -> Door {
    Door {
        rooms: [a.to_owned(), b.to_owned()],
        width_m: 0.8,
        height_m: 2.0,
        stands: Stands::Open,
        undercut_m: 0.0,
        transfer_m3_per_s: 0.0,
    }
}

/// One solid layer.
pub fn one_layer(name: &str, k: f64, thickness_m: f64) -> Construction {
    Construction {
        name: name.to_owned(),
        layers: vec![Layer::Solid {
            name: "stuff".to_owned(),
            thickness_m,
            k_w_per_mk: k,
            density_kg_per_m3: 1400.0,
            cp_j_per_kgk: 1000.0,
        }],
        sun_absorptance_out: 0.6,
        emittance_out: 0.9,
        sun_absorptance_in: 0.6,
        emittance_in: 0.9,
        known: Known::Seen,
    }
}

/// The box of Standard 140: 8 m by 6 m by 2.7 m, flat roof, raised floor.
pub fn test_box() -> House {
    House {
        storeys: vec![storey("ground", 0.0, 2.7, Under::StillAir, Over::FlatRoof)],
        rooms: vec![room("box", "ground", &rect(0.0, 0.0, 8.0, 6.0))],
        glazings: vec![
            house::library::glazing_by_name("double clear")
                .map(|mut g| {
                    "g".clone_into(&mut g.name);
                    g
                })
                .expect("a library window"),
        ],
        leakage: Leakage::Fixed { per_h: 0.5 },
        ground_albedo: 0.2,
        ..House::default()
    }
}

/// Two storeys, an attic, a basement, a garage beside, an outer door, doors between.
pub fn family_house() -> House {
    let mut h = test_box();
    h.storeys = vec![
        storey("basement", -2.1, 2.1, Under::Ground, Over::Attic),
        storey("ground", 0.3, 2.4, Under::Ground, Over::Attic),
        storey("upper", 2.95, 2.3, Under::OpenAir, Over::Attic),
    ];
    let mut garage = room("garage", "ground", &rect(8.0, 0.0, 12.0, 6.0));
    garage.heated = None;
    garage.own_air_changes_per_h = Some(2.0);
    h.rooms = vec![
        room("cellar", "basement", &rect(0.0, 0.0, 8.0, 8.0)),
        room("living", "ground", &rect(0.0, 0.0, 8.0, 4.0)),
        room("kitchen", "ground", &rect(0.0, 4.0, 5.0, 8.0)),
        room("hall", "ground", &rect(5.0, 4.0, 8.0, 8.0)),
        garage,
        room("bed", "upper", &rect(0.0, 0.0, 8.0, 5.0)),
        room("bath", "upper", &rect(0.0, 5.0, 8.0, 8.5)),
    ];
    h.windows = vec![
        window("living", Side::Facing(Compass::South)),
        window("kitchen", Side::Facing(Compass::West)),
        window("bed", Side::Facing(Compass::South)),
    ];
    h.outer_doors = vec![OuterDoor {
        room: "hall".to_owned(),
        side: Side::Facing(Compass::North),
        width_m: 0.9,
        height_m: 2.0,
        u_w_per_m2k: 2.0,
        known: Known::Label,
    }];
    h.doors = vec![
        door("living", "kitchen"),
        door("hall", "living"),
        door("hall", "bath"),
    ];
    h.leakage = Leakage::BlowerDoor {
        flow_m3_per_s: 1.0,
        at_pa: 50.0,
        exponent: 0.65,
        known: Known::Seen,
    };
    h.furnishing_j_per_m2k = 20_000.0;
    h
}

/// The model; what is wrong fails the test.
pub fn made(h: &House) -> Model {
    geometry::model(h).unwrap_or_else(|e| panic!("{e:#?}"))
}

/// A surface by name.
pub fn named<'a>(m: &'a Model, name: &str) -> &'a Surface {
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

/// Equal to a millionth.
pub fn near(got: f64, want: f64) {
    assert!(
        (got - want).abs() < 1e-6 * want.abs().max(1.0),
        "got {got}, want {want}"
    );
}

/// Compass direction of an outdoor surface.
pub fn azimuth(s: &Surface) -> f64 {
    match s.behind {
        Behind::Outdoor { azimuth_deg, .. } => azimuth_deg,
        _ => panic!("{} is not outdoors", s.name),
    }
}
