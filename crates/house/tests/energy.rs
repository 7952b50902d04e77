//! What must hold for any house: the ledger closes, mirrored houses mirror, more insulation never
//! costs more, and the same input gives the same bits.

mod geometry_houses;

use geometry_houses::{door, rect, room, storey, window};
use house::balance::{Balance, Doors};
use house::describe::{
    Compass, Gain, Glazing, GlazingData, House, Leakage, Over, Shelter, Side, Under,
};
use house::drive::Drive;
use house::glazing::Glass;
use house::ideal::{HouseYear, through_the_day, year};
use proptest::prelude::*;
use reckon::Known;

fn weather() -> climate::Weather {
    let bytes = include_bytes!("../../../weather/chicago-725300.epw.gz");
    climate::read_any(bytes).expect("a shipped station").value
}

/// What varies from house to house.
#[derive(Debug, Clone)]
struct Kind {
    wide_m: f64,
    deep_m: f64,
    split: f64,
    under: Under,
    over: Over,
    cfm50: f64,
    wall: &'static str,
    gains_w: f64,
    heated_c: f64,
}

fn kinds() -> impl Strategy<Value = Kind> {
    (
        (6.0..14.0_f64, 5.0..11.0_f64, 0.25..0.75_f64),
        prop_oneof![
            Just(Under::Ground),
            Just(Under::Crawl),
            Just(Under::OpenAir)
        ],
        prop_oneof![Just(Over::Attic), Just(Over::FlatRoof)],
        500.0..4000.0_f64,
        prop_oneof![
            Just("2x4 empty wall"),
            Just("2x4 wall with batt"),
            Just("2x6 wall with batt")
        ],
        (0.0..800.0_f64, 16.0..23.0_f64),
    )
        .prop_map(
            |((wide_m, deep_m, split), under, over, cfm50, wall, (gains_w, heated_c))| Kind {
                wide_m,
                deep_m,
                split,
                under,
                over,
                cfm50,
                wall,
                gains_w,
                heated_c,
            },
        )
}

/// Two storeys, three rooms, one of them unheated, doors between them, windows to two sides.
fn house_of(k: &Kind, mirrored: bool) -> House {
    let at = |x: f64| if mirrored { k.wide_m - x } else { x };
    let cut = k.wide_m * k.split;
    let side = |east: bool| {
        Side::Facing(if east == mirrored {
            Compass::West
        } else {
            Compass::East
        })
    };
    let mut left = room(
        "left",
        "ground",
        &rect(at(0.0).min(at(cut)), 0.0, at(0.0).max(at(cut)), k.deep_m),
    );
    left.gains = vec![Gain {
        by_hour_w: [k.gains_w; 24],
        radiant: 0.4,
    }];
    left.heated = Some(house::describe::Setting::always(k.heated_c));
    left.cooled = Some(house::describe::Setting::always(26.0));
    let mut right = room(
        "right",
        "ground",
        &rect(
            at(cut).min(at(k.wide_m)),
            0.0,
            at(cut).max(at(k.wide_m)),
            k.deep_m,
        ),
    );
    right.heated = None;
    let mut up = room("up", "upper", &rect(0.0, 0.0, k.wide_m, k.deep_m));
    up.heated = Some(house::describe::Setting::always(k.heated_c - 2.0));
    let mut wall = house::library::construction_by_name(k.wall).expect("a wall of the library");
    "wall".clone_into(&mut wall.name);
    House {
        storeys: vec![
            storey("ground", 0.3, 2.5, k.under, k.over),
            storey("upper", 3.1, 2.4, k.under, k.over),
        ],
        rooms: vec![left, right, up],
        windows: vec![
            window("left", side(false)),
            window("up", side(true)),
            window("up", Side::Facing(Compass::South)),
        ],
        doors: vec![door("left", "right")],
        constructions: vec![wall],
        glazings: vec![Glazing {
            name: "g".to_owned(),
            made_of: GlazingData::Label {
                u_w_per_m2k: 2.8,
                shgc: 0.6,
                panes: 2,
            },
            frame_share: 0.0,
            frame_u_w_per_m2k: 0.0,
            known: Known::Label,
        }],
        leakage: Leakage::BlowerDoor {
            flow_m3_per_s: k.cfm50 * 0.000_471_947,
            at_pa: 50.0,
            exponent: 0.65,
            known: Known::Seen,
        },
        shelter: Shelter::Suburban,
        ground_albedo: 0.2,
        ..House::default()
    }
}

fn run(house: &House, weather: &climate::Weather) -> HouseYear {
    let model = house::geometry::model(house).expect("the house holds");
    year(&model, weather, Doors::AsUsual).expect("a year")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Heat in less heat out less stored stays below 0.01 % of what went through, for the house
    /// and for every zone, and hours settle.
    #[test]
    fn the_ledger_closes(kind in kinds()) {
        let weather = weather();
        let model = house::geometry::model(&house_of(&kind, false)).expect("the house holds");
        let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
        let drive = Drive::new(&model, &glasses, &weather).expect("drive");
        let mut balance =
            Balance::new(&model, &glasses, &drive, Doors::AsUsual).expect("a balance");
        let supply = through_the_day(&model, 1);
        balance.begin_sums();
        for h in 0..drive.steps {
            balance.step(h, &supply[h % 24]);
            balance.accept(h);
        }
        let (gap, through) = balance.closure_j();
        prop_assert!((gap / through).abs() < 1e-4, "house open by {}", gap / through);
        for (z, zone) in model.zones.iter().enumerate() {
            let (gap, through) = balance.zone_closure_j(z);
            prop_assert!((gap / through).abs() < 1e-4, "{} open by {}", zone.name, gap / through);
        }
        // At most an hour in a thousand stops before it has settled to 20 W.
        prop_assert!(balance.unsettled_steps <= 8, "{} steps", balance.unsettled_steps);
    }

    /// A house mirrored east to west, under weather that has neither, needs the same. Real weather
    /// does not mirror; a year without sun and wind does.
    #[test]
    fn mirrored_houses_mirror(kind in kinds()) {
        let station = weather().station.clone();
        let still = climate::Weather::constant(station, -5.0, -8.0, 0.0, 230.0).expect("still");
        let (a, b) = (run(&house_of(&kind, false), &still), run(&house_of(&kind, true), &still));
        // 0.1 %: the iteration stops within 20 W of a zone's faces.
        let off = (a.heating_j - b.heating_j).abs() / a.heating_j.max(1.0);
        prop_assert!(off < 1e-3, "{} and {} J", a.heating_j, b.heating_j);
    }

    /// More insulation never needs more heat, and a lower setting never does.
    #[test]
    fn less_loss_never_needs_more(kind in kinds()) {
        let weather = weather();
        let with = |wall, heated_c| {
            let k = Kind { wall, heated_c, ..kind.clone() };
            run(&house_of(&k, false), &weather).heating_j
        };
        let (bare, some, good) = (
            with("2x4 empty wall", 20.0),
            with("2x4 wall with batt", 20.0),
            with("2x6 wall with batt", 20.0),
        );
        prop_assert!(bare > some && some > good, "{bare}, {some}, {good}");
        let cooler = with("2x4 wall with batt", 18.0);
        prop_assert!(cooler < some, "{cooler} at 18 C, {some} at 20 C");
    }
}

fn usual() -> Kind {
    Kind {
        wide_m: 9.0,
        deep_m: 7.0,
        split: 0.4,
        under: Under::Ground,
        over: Over::Attic,
        cfm50: 1800.0,
        wall: "2x4 wall with batt",
        gains_w: 300.0,
        heated_c: 21.0,
    }
}

/// Whatever arithmetic the processor has, the bits are those of plain arithmetic.
#[test]
fn the_same_bits_on_every_processor() {
    let model = house::geometry::model(&house_of(&usual(), false)).expect("a sound house");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = Drive::new(&model, &glasses, &weather()).expect("weather");
    let new = || Balance::new(&model, &glasses, &drive, Doors::AsUsual).expect("a balance");
    let (mut wide, mut plain) = (new(), new().plainly());
    let supplies = through_the_day(&model, 1);
    for h in 0..drive.steps {
        let supply = &supplies[usize::from(drive.hour_of_day[h])];
        let got = [&mut wide, &mut plain].map(|balance| {
            let got = balance.step(h, supply);
            let bits = |of: &[f64]| of.iter().map(|x| x.to_bits()).collect::<Vec<_>>();
            let got = (bits(got.heat_w), bits(got.air_c));
            balance.accept(h);
            got
        });
        assert_eq!(got[0], got[1], "hour {h}");
    }
    assert_eq!(wide.sums, plain.sums);
    assert_eq!(wide.closure_j().0.to_bits(), plain.closure_j().0.to_bits());
}

/// The same house and weather give the same bits.
#[test]
fn the_same_bits_again() {
    let kind = usual();
    let weather = weather();
    let (a, b) = (
        run(&house_of(&kind, false), &weather),
        run(&house_of(&kind, false), &weather),
    );
    assert_eq!(a.heating_j.to_bits(), b.heating_j.to_bits());
    assert_eq!(a.hourly_air_c, b.hourly_air_c);
}
