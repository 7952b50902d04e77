//! Design loads: by hand on a plain box, the cards of the trade, and every figure against its own
//! formula on the demo house.

use house::describe::{
    Construction, Door, Glazing, GlazingData, House, Layer, Leakage, Over, Room, Setting, Shade,
    Shelter, Side, Stands, Storey, Under, Use, Window,
};
use house::glazing::Glass;
use house::loads::{self, Design, HeatingLoads, SteadyHouse};
use house::model::Model;
use reckon::{Book, Known, Source, evaluate};

fn plain(name: &str, r_m2k_per_w: f64) -> Construction {
    Construction {
        name: name.into(),
        layers: vec![Layer::Resistance {
            name: "layer".into(),
            r_m2k_per_w,
        }],
        sun_absorptance_out: 0.6,
        emittance_out: 0.9,
        sun_absorptance_in: 0.6,
        emittance_in: 0.9,
        known: Known::Seen,
    }
}

fn room(name: &str, x: f64, wide: f64) -> Room {
    Room {
        name: name.into(),
        storey: "ground".into(),
        outline: vec![[x, 0.0], [x + wide, 0.0], [x + wide, 5.0], [x, 5.0]],
        ceiling_m: None,
        heated: Some(Setting::always(20.0)),
        cooled: None,
        gains: Vec::new(),
        used_for: Use::Living,
        people: 0.0,
        own_air_changes_per_h: None,
    }
}

/// Two rooms beside each other under a flat roof, floor in still air, one window, one door.
fn two_rooms(wall_r: f64) -> House {
    House {
        storeys: vec![Storey {
            name: "ground".into(),
            floor_m: 0.0,
            ceiling_m: 2.5,
            under: Under::StillAir,
            over: Over::FlatRoof,
        }],
        rooms: vec![room("west", 0.0, 4.0), room("east", 4.0, 6.0)],
        windows: vec![Window {
            name: "pane".into(),
            room: "west".into(),
            side: Side::Number(1),
            width_m: 1.5,
            height_m: 1.2,
            sill_m: 0.8,
            from_left_m: None,
            count: 1,
            glazing: "label".into(),
            shade: Shade::default(),
            known: Known::Label,
        }],
        doors: vec![Door {
            rooms: ["west".into(), "east".into()],
            width_m: 0.8,
            height_m: 2.0,
            stands: Stands::Closed,
            undercut_m: 0.0,
            transfer_m3_per_s: 0.0,
        }],
        constructions: vec![
            plain("wall", wall_r),
            plain("roof", 5.0),
            plain("open floor", 4.0),
            plain("partition", 0.3),
        ],
        glazings: vec![Glazing {
            name: "label".into(),
            made_of: GlazingData::Label {
                u_w_per_m2k: 1.6,
                shgc: 0.4,
                panes: 2,
            },
            frame_share: 0.0,
            frame_u_w_per_m2k: 0.0,
            known: Known::Label,
        }],
        leakage: Leakage::Fixed { per_h: 0.5 },
        shelter: Shelter::Suburban,
        ground_albedo: 0.2,
        ..House::default()
    }
}

fn design(outdoor_c: f64) -> Design {
    Design {
        outdoor_c,
        outdoor_source: Source::job("place.heating_design"),
        outdoor_known: None,
        wind_m_per_s: 2.0,
        wind_source: Source::job("place.shelter"),
        air_j_per_m3k: 1200.0,
        monthly_outdoor_c: [5.0; 12],
    }
}

fn heating(house: &House, outdoor_c: f64) -> (Model, Vec<Glass>, HeatingLoads, SteadyHouse, Book) {
    let model = house::geometry::model(house).expect("the house holds");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let mut book = Book::new();
    let (loads, steady) =
        loads::heating(&model, &glasses, &design(outdoor_c), &mut book).expect("loads");
    (model, glasses, loads, steady, book)
}

/// By hand, ISO 6946 films: walls R 2.5 + 0.17; roof R 5 + 0.14; floor R 4 + 0.21; window U 1.6;
/// air 0.5 changes of 1200 J/(m3 K). West room 4 x 5 x 2.5 m, 40 K.
#[test]
fn a_plain_box_by_hand() {
    let (_, _, loads, _, _) = heating(&two_rooms(2.5), -20.0);
    let walls = (4.0 * 2.0 + 5.0) * 2.5 - 1.5 * 1.2;
    let ua = walls / 2.67 + 1.8 * 1.6 + 20.0 / 5.14 + 20.0 / 4.21 + 0.5 * 50.0 * 1200.0 / 3600.0;
    let want = ua * 40.0;
    let got = loads.rooms[0].heat_w;
    assert!(
        (got / want - 1.0).abs() < 1e-9,
        "{got} W against {want} W by hand"
    );
    let sum: f64 = loads.rooms.iter().map(|r| r.heat_w).sum();
    assert!(
        (sum - loads.heat_w).abs() < 1e-9 * sum,
        "rooms {sum}, house {}",
        loads.heat_w
    );
}

#[test]
fn more_insulation_never_raises_a_load() {
    let mut before = f64::INFINITY;
    for r in [0.3, 0.6, 1.2, 2.4, 4.8, 9.6] {
        let (_, _, loads, ..) = heating(&two_rooms(r), -20.0);
        assert!(
            loads.heat_w < before,
            "R {r}: {} W after {before} W",
            loads.heat_w
        );
        before = loads.heat_w;
    }
}

/// A room without a head is as warm as the card's formula says, with the conductances of the
/// model and the air of a shut door.
#[test]
fn a_closed_room_follows_the_card() {
    let house = two_rooms(2.5);
    let (model, _, _, steady, mut book) = heating(&house, -20.0);
    let out = loads::rooms_without_heads(
        &steady,
        &model,
        &design(-20.0),
        &[1],
        &[("design", -20.0)],
        &mut book,
    )
    .expect("rooms");
    let closed = out
        .iter()
        .find(|r| r.doors == house::balance::Doors::Closed)
        .expect("the west room, doors closed");
    let walls = (4.0 * 2.0 + 5.0) * 2.5 - 1.5 * 1.2;
    let ua = walls / 2.67 + 1.8 * 1.6 + 20.0 / 5.14 + 20.0 / 4.21 + 0.5 * 50.0 * 1200.0 / 3600.0;
    // The door leaf, U 2, is taken off the partition and conducts on its own.
    let part = (5.0 * 2.5 - 1.6) / (0.3 + 0.26) + 1.6 * 2.0;
    let air = 1200.0 * 5.0 * 0.3048_f64 * 0.3048 * 0.3048 / 60.0;
    let want = loads::room_temperature_c(ua, -20.0, part, 20.0, air, 0.0);
    assert!(
        (closed.air_c - want).abs() < 1e-6,
        "{} against {want}",
        closed.air_c
    );
    let open = out
        .iter()
        .find(|r| r.doors == house::balance::Doors::Open)
        .expect("open");
    assert!(
        open.air_c > closed.air_c + 1.0,
        "an open door helps: {} C",
        open.air_c
    );
}

/// Trade card F11, table E: UA 30 (then 15), partition 25, hall 70 F, gains 250 Btu/h; shut doors
/// that pass 15, 40 and 150 cfm; at 30, 10 and -5 F. Printed to 0.1 F; 1.08 Btu/(h cfm F).
#[test]
fn rooms_of_the_card() {
    let rows = [
        (15.0, [[56.7, 48.2, 41.9], [63.8, 58.4, 54.4]]),
        (40.0, [[60.3, 54.2, 49.6], [65.8, 62.2, 59.5]]),
        (150.0, [[65.6, 62.9, 60.8], [68.3, 66.8, 65.7]]),
    ];
    for (cfm, by_ua) in rows {
        for (ua, want) in [30.0, 15.0].into_iter().zip(by_ua) {
            for (outdoor, want) in [30.0, 10.0, -5.0].into_iter().zip(want) {
                // The formula is the same in any consistent units.
                let got = loads::room_temperature_c(ua, outdoor, 25.0, 70.0, 1.08 * cfm, 250.0);
                assert!(
                    (got - want).abs() < 0.06,
                    "{cfm} cfm, UA {ua}, {outdoor} F: {got}"
                );
            }
        }
    }
}

/// Every figure that has a formula is what its formula gives over its inputs.
#[test]
fn every_figure_is_its_formula() {
    let text = include_str!("../../../jobs/lake-street/job.toml");
    let job = jobfile::read(text).expect("the demo job reads");
    let (model, glasses, _, steady, mut book) = heating(&job.house, -20.0);
    loads::rooms_without_heads(
        &steady,
        &model,
        &design(-20.0),
        &[1],
        &[("design", -20.0), ("10-F", -12.2)],
        &mut book,
    )
    .expect("rooms");
    loads::glass(&model, &glasses, &mut book).expect("glass");
    let mut checked = 0;
    let of_table = |f: &&reckon::Figure| f.formula.starts_with("step by step:");
    assert_eq!(
        book.iter().filter(of_table).count(),
        2,
        "stack and wind factor"
    );
    let worked = |f: &&reckon::Figure| !f.formula.is_empty() && !of_table(f);
    for figure in book.iter().filter(worked) {
        let named: Vec<(&str, f64)> = figure
            .inputs
            .iter()
            .map(|i| {
                (
                    &*i.symbol,
                    book.value(&i.key).expect("every input is in the book"),
                )
            })
            .collect();
        let again = evaluate(&figure.formula, &named).expect("every formula reads");
        // Rooms hang on each other: the value is the one all were solved for, to the rounding of that.
        let solved = figure.source.place.contains("solved together");
        let near = if solved {
            1e-10
        } else {
            1e-12 * figure.value.abs().max(1e-12)
        };
        let off = (again - figure.value).abs();
        assert!(off <= near, "{}: off by {off}", figure.key);
        checked += 1;
    }
    assert!(checked > 300, "only {checked} figures have a formula");
}

/// The temperature of an unheated space, worked out from its pulls, is the one that all spaces
/// solved together give.
#[test]
fn spaces_agree_with_their_own_balance() {
    let text = include_str!("../../../jobs/lake-street/job.toml");
    let job = jobfile::read(text).expect("the demo job reads");
    let (model, _, loads, _, book) = heating(&job.house, -20.0);
    assert_eq!(loads.unheated.len(), 2, "cellar and attic");
    for (z, solved) in &loads.unheated {
        let name = model.zones[*z].name.replace(' ', "-");
        let told = book
            .value(&format!("space.{name}.temperature"))
            .expect("a figure");
        assert!(
            (told - solved).abs() < 1e-6,
            "{name}: {told} against {solved}"
        );
        assert!(*solved > -20.0 && *solved < 20.0, "{name} at {solved} C");
    }
}
