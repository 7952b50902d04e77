//! What is wrong with a house is said with place, found, allowed and mend; all at once.

mod geometry_houses;

use geometry_houses::*;
use house::describe::*;
use house::geometry::{self, GeometryError};
use reckon::Known;

fn errors(h: &House) -> Vec<GeometryError> {
    match geometry::model(h) {
        Ok(_) => panic!("this house should not be accepted"),
        Err(e) => {
            for x in &e {
                assert!(
                    [&x.place, &x.what, &x.got, &x.allowed, &x.mend]
                        .iter()
                        .all(|t| !t.is_empty()),
                    "{x:?}"
                );
            }
            e
        }
    }
}

/// The only error, as (place, what).
fn only(h: &House) -> GeometryError {
    let e = errors(h);
    assert_eq!(e.len(), 1, "{e:#?}");
    e[0].clone()
}

fn shaped(outline: &[[f64; 2]]) -> House {
    let mut h = test_box();
    h.rooms[0].outline = outline.to_vec();
    h
}

fn with_window(change: impl Fn(&mut Window)) -> House {
    let mut h = test_box();
    let mut w = window("box", Side::Facing(Compass::South));
    change(&mut w);
    h.windows.push(w);
    h
}

#[test]
fn outlines() {
    let e = only(&shaped(&[[0.0, 0.0], [1.0, 0.0]]));
    assert_eq!(
        (e.place.as_str(), e.got.as_str()),
        ("room.box.outline", "2")
    );
    let e = only(&shaped(&[[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]]));
    assert_eq!(e.what, "the outline crosses or touches itself");
    assert_eq!(e.got, "walls 1 and 3 meet");
    let e = only(&shaped(&[[0.0, 0.0], [4.0, 0.0], [8.0, 0.0]]));
    assert!(
        e.what.contains("crosses") || e.what.contains("no area"),
        "{e}"
    );
    let e = only(&shaped(&[[0.0, 0.0], [0.1, 0.0], [0.1, 0.1], [0.0, 0.1]]));
    assert_eq!(e.what, "the room has no area");
    let e = only(&shaped(&[
        [0.0, 0.0],
        [4.0, 0.0],
        [4.0, 4.0],
        [0.0, 4.0],
        [0.0, 0.0],
    ]));
    assert_eq!(e.what, "two corners fall together");
    for bad in [f64::NAN, f64::INFINITY, 1e9] {
        let e = only(&shaped(&[[0.0, 0.0], [bad, 0.0], [4.0, 4.0]]));
        assert_eq!(e.what, "a corner is out of reach");
    }
}

#[test]
fn rooms_over_each_other() {
    let mut h = test_box();
    h.rooms
        .push(room("more", "ground", &rect(7.0, 0.0, 9.0, 6.0)));
    let e = only(&h);
    assert_eq!(e.place, "room.box.outline");
    assert_eq!(e.what, "lies over the room \"more\"");
    assert!(e.got.starts_with("6.00 m2"), "{e}");
    // 3 cm over each other is drawing, not a fault
    h.rooms[1].outline = rect(7.97, 0.0, 9.0, 6.0);
    assert!(geometry::model(&h).is_ok());
}

#[test]
fn a_ceiling_through_the_floor_above() {
    let mut h = family_house();
    h.rooms[1].ceiling_m = Some(4.5);
    let e = only(&h);
    assert_eq!(e.place, "room.living");
    assert!(e.what.contains("\"bed\""), "{e}");
}

#[test]
fn names() {
    let mut h = test_box();
    h.rooms
        .push(room("box", "grond", &rect(8.0, 0.0, 9.0, 6.0)));
    let e = errors(&h);
    assert_eq!(e.len(), 2, "{e:#?}");
    assert!(
        e.iter().any(|x| x.mend == "did you mean \"ground\"?"),
        "{e:#?}"
    );
    assert!(e.iter().any(|x| x.what.contains("share a name")), "{e:#?}");

    let e = only(&with_window(|w| w.room = "bax".to_owned()));
    assert_eq!(
        (e.place.as_str(), e.mend.as_str()),
        ("window.1.room", "did you mean \"box\"?")
    );
    let e = only(&with_window(|w| w.glazing = "zzz".to_owned()));
    assert_eq!(
        (e.place.as_str(), e.allowed.as_str()),
        ("window.1.glazing", "\"g\"")
    );

    let mut h = test_box();
    h.constructions.push(one_layer("brick wall", 0.8, 0.2));
    h.walls.push(WallNote {
        room: "box".to_owned(),
        side: Side::Facing(Compass::East),
        construction: Some("brik wall".to_owned()),
        adiabatic: false,
        no_sun: false,
    });
    assert_eq!(only(&h).mend, "did you mean \"brick wall\"?");
}

#[test]
fn windows_that_do_not_fit() {
    let e = only(&with_window(|w| w.width_m = 9.0));
    assert_eq!(e.what, "the window is wider than the wall");
    assert!(
        e.got.starts_with("9.00 m") && e.allowed.starts_with("up to 8.00 m"),
        "{e}"
    );
    let e = only(&with_window(|w| w.height_m = 2.5));
    assert_eq!(e.what, "the window reaches over the ceiling");
    let e = only(&with_window(|w| w.from_left_m = Some(7.5)));
    assert_eq!(e.what, "the window reaches past the end of the wall");
    let e = only(&with_window(|w| w.count = 30));
    assert_eq!(e.place, "room.box");
    assert_eq!(
        e.what,
        "the openings are larger than the wall box.wall-south"
    );
    assert!(
        e.got.starts_with("30.00 m2") && e.allowed.starts_with("up to 21.60 m2"),
        "{e}"
    );
    let e = only(&with_window(|w| w.side = Side::Number(7)));
    assert_eq!((e.got.as_str(), e.allowed.as_str()), ("7", "1 to 4"));
    for bad in [f64::NAN, -1.0, 0.0, f64::INFINITY] {
        assert_eq!(only(&with_window(|w| w.width_m = bad)).what, "width");
    }
    let mut h = with_window(|w| w.from_left_m = Some(1.0));
    h.windows.push(h.windows[0].clone());
    h.windows[1].from_left_m = Some(1.5);
    assert_eq!(only(&h).what, "lies over window.1");
}

#[test]
fn windows_in_the_wrong_wall() {
    let mut h = with_window(|w| w.side = Side::Facing(Compass::East));
    h.rooms
        .push(room("next", "ground", &rect(8.0, 0.0, 12.0, 6.0)));
    let e = only(&h);
    assert_eq!(e.what, "the window is not in an outside wall");
    assert!(e.got.contains("\"next\""), "{e}");

    let mut h = with_window(|_| ());
    h.storeys[0].floor_m = -3.0;
    assert!(only(&h).got.contains("under grade"));

    // two walls face south: the number is needed
    let mut h = with_window(|_| ());
    h.rooms[0].outline = vec![
        [0.0, 0.0],
        [4.0, 0.0],
        [4.0, 2.0],
        [8.0, 2.0],
        [8.0, 6.0],
        [0.0, 6.0],
    ];
    let e = only(&h);
    assert_eq!(e.got, "south: walls 1, 3");
    h.windows[0].side = Side::Number(3);
    let m = geometry::model(&h).expect("by number it is clear");
    assert_eq!(m.surfaces[m.panes[0].in_surface].name, "box.wall-south-3");
}

#[test]
fn doors_to_nowhere() {
    let mut h = family_house();
    h.doors.push(door("bath", "garage"));
    let e = only(&h);
    assert_eq!(e.place, "door.4");
    assert!(e.what.contains("leads nowhere"), "{e}");
    let mut h = family_house();
    h.doors[0].width_m = 5.5;
    assert!(only(&h).what.contains("larger than the wall between"));
    let mut h = family_house();
    h.doors[0].rooms[1] = "living".to_owned();
    assert!(only(&h).what.contains("with itself"));
}

#[test]
fn leakage_in_the_wrong_unit() {
    let mut h = test_box();
    let door = |flow_m3_per_s, exponent| Leakage::BlowerDoor {
        flow_m3_per_s,
        at_pa: 50.0,
        exponent,
        known: Known::Seen,
    };
    // 5 air changes typed as cfm: 0.0024 m3/s for 129.6 m3
    h.leakage = door(0.0024, 0.65);
    assert!(only(&h).what.contains("does not fit the volume"));
    h.leakage = door(0.18, 1.2);
    assert_eq!(only(&h).what, "exponent");
    h.leakage = door(f64::NAN, 0.65);
    assert_eq!(only(&h).what, "flow of the blower door");
}

#[test]
fn a_layer_out_of_range_names_its_place() {
    let mut h = test_box();
    h.constructions.push(one_layer("wall", -1.0, 0.2));
    let e = only(&h);
    assert_eq!(e.place, "construction.wall.layer.1");
    assert_eq!((e.got.as_str(), e.allowed.as_str()), ("-1", "0.005 to 500"));
}

#[test]
fn everything_at_once() {
    let mut h = test_box();
    h.ground_albedo = 2.0;
    h.storeys[0].ceiling_m = 0.2;
    h.windows.push(window("attic", Side::Number(1)));
    h.vents.push(Vent {
        room: "x".to_owned(),
        flow_m3_per_s: -1.0,
        recovery: 2.0,
        on: [true; 24],
    });
    assert_eq!(errors(&h).len(), 6, "{:#?}", errors(&h));
}

/// Word for word, as the person reads it.
#[test]
fn the_words() {
    assert_eq!(
        only(&with_window(|w| w.width_m = 9.0)).to_string(),
        "window.1: the window is wider than the wall: got 9.00 m (29 ft 6 1/2 in); allowed: up to \
         8.00 m (26 ft 3 in); check the width, or which wall is meant"
    );
}
