//! What rooms without a head, doors and the cooling load are explained with is what the balance
//! has: figures against the model's own numbers.

mod support;

use house::balance::{Doors, Passage};
use house::describe::{House, Stands};
use house::drive::Drive;
use house::glazing::Glass;
use house::leakage::Leakage;
use house::loads::{self, AIR_CP_J_PER_KGK, CoolingLoads, Design};
use house::model::Model;
use physics::moist_air::saturation_pressure_pa;
use reckon::{Book, Source, evaluate, in_key};

const OUTDOOR_C: f64 = -20.0;

fn demo() -> House {
    let text = include_str!("../../../jobs/lake-street/job.toml");
    jobfile::read(text).expect("the demo job reads").house
}

fn design(air: &Drive) -> Design {
    Design {
        outdoor_c: OUTDOOR_C,
        outdoor_source: Source::job("place.heating_design"),
        outdoor_known: None,
        wind_m_per_s: 4.0,
        wind_source: Source::new("weather", "hours"),
        air_j_per_m3k: air.air_j_per_m3k,
        monthly_outdoor_c: air.monthly_outdoor_c,
    }
}

fn near(book: &Book, key: &str, want: f64) {
    let got = book.value(key);
    let got = got.unwrap_or_else(|| panic!("no figure {key}"));
    let size = want.abs().max(1e-3);
    assert!(
        (got - want).abs() <= 1e-9 * size,
        "{key}: {got} against {want}"
    );
}

/// Everything with a formula is what its formula gives.
fn evaluates(book: &Book) {
    let words = ["over the year:", "step by step:"];
    for f in book.iter() {
        if f.formula.is_empty() || words.iter().any(|w| f.formula.starts_with(w)) {
            continue;
        }
        let value = |key: &str| {
            book.value(key)
                .unwrap_or_else(|| panic!("{}: {key}", f.key))
        };
        let named: Vec<(&str, f64)> = f
            .inputs
            .iter()
            .map(|i| (&*i.symbol, value(&i.key)))
            .collect();
        let got = evaluate(&f.formula, &named).expect("reads");
        let off = (got - f.value).abs();
        assert!(off <= 1e-9 * f.value.abs().max(0.1), "{}: {off}", f.key);
    }
}

/// The demo with the first door ajar and the last shut, on the design night.
fn rooms(house: &House) -> (Model, Design, Vec<loads::RoomFloat>, Book) {
    let model = house::geometry::model(house).expect("a house that can be drawn");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let weather = support::weather("chicago-725300.epw.gz");
    let design = design(&Drive::of_air(&model, &weather));
    let mut book = Book::new();
    let (_, steady) = loads::heating(&model, &glasses, &design, &mut book).expect("loads");
    let outdoors = [("design", OUTDOOR_C), ("30f", -1.1)];
    let living = model.zones.iter().position(|z| z.name == "living");
    let held = [living.expect("a living room")];
    let floats = loads::rooms_without_heads(&steady, &model, &design, &held, &outdoors, &mut book);
    (model, design, floats.expect("rooms"), book)
}

#[test]
fn rooms_and_doors() {
    let mut house = demo();
    let last = house.doors.len() - 1;
    (house.doors[0].stands, house.doors[last].stands) = (Stands::Ajar, Stands::Closed);
    let (model, design, floats, book) = rooms(&house);
    assert!(floats.len() > 20, "{} cases", floats.len());
    for float in &floats {
        near(&book, &float.key, float.air_c);
    }
    evaluates(&book);
    let mut stands_met = std::collections::BTreeSet::new();
    let mut stairs = 0;
    for (i, opening) in model.openings.iter().enumerate() {
        let [a, b] = opening.zones.map(|z| model.zones[z].middle_m);
        stairs += usize::from((a - b).abs() > 2.0);
        for doors in [Doors::AsUsual, Doors::Open, Doors::Closed] {
            let stands = doors.of(opening.stands);
            let passage = Passage::new(opening, stands, &model, design.air_j_per_m3k);
            let word = format!("{stands:?}").to_lowercase();
            let key = |what: &str| format!("door.{}.{word}.{what}", i + 1);
            near(&book, &key("steady"), passage.steady_w_per_k);
            near(
                &book,
                &key("from-1"),
                passage.buoyant_a_w / design.air_j_per_m3k,
            );
            near(
                &book,
                &key("from-2"),
                passage.buoyant_b_w / design.air_j_per_m3k,
            );
            stands_met.insert(word);
        }
    }
    assert_eq!(stands_met.len(), 3, "{stands_met:?}");
    assert!(stairs > 0, "the demo has stairs");
}

/// Mirrors what happens by hand: heat that comes to a room is what leaves it.
#[test]
fn a_room_without_a_head_is_in_balance() {
    let (model, _, floats, book) = rooms(&demo());
    for float in &floats {
        let pull = book.value(&format!("{}.pull", float.key)).expect("a pull");
        let per_k = book.value(&format!("{}.conductance", float.key));
        let outdoor_c = float.outdoor_c;
        let left = pull - per_k.expect("conductances") * (float.air_c - outdoor_c);
        assert!(left.abs() < 1e-6, "{}: {left} W", float.key);
    }
    assert!(
        model.zones.iter().any(|z| z.heated.is_none()),
        "cellar and attic"
    );
    for space in ["cellar", "attic-over-upper"] {
        let key = format!("rooms.{space}.design.open");
        let figure = book.get(&key).expect("a space has its balance too");
        assert!(!figure.inputs.is_empty(), "{key}");
    }
}

fn summer(station: &str, house: &House) -> (Model, CoolingLoads, Book) {
    let model = house::geometry::model(house).expect("a house that can be drawn");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let weather = support::weather(station);
    let drive = Drive::new(&model, &glasses, &weather).expect("drive");
    let mut book = Book::new();
    loads::heating(&model, &glasses, &design(&drive), &mut book).expect("loads");
    let mut cooling = loads::cooling(&model, &glasses, &drive, &weather).expect("loads");
    let air = Drive::of_air(&model, &weather);
    cooling
        .write(&model, &air, &weather, &mut book)
        .expect("figures");
    let Some(hour) = cooling.hour else {
        return (model, cooling, book);
    };
    // Moisture by the functions of moist air, not by the figures' own formulas.
    let pa = weather.pressure_pa[hour];
    let ratio = |p: f64| 0.621945 * p / (pa - p);
    let outdoor = ratio(saturation_pressure_pa(weather.dew_point_c[hour]).expect("in range"));
    let indoor = ratio(0.5 * saturation_pressure_pa(loads::USUAL_COOLING_C).expect("in range"));
    let leakage = Leakage::plain(&model, drive.air_j_per_m3k);
    let mut flow = vec![0.0; model.zones.len()];
    let inside = vec![loads::USUAL_COOLING_C; model.zones.len()];
    let (to, wind) = (weather.dry_bulb_c[hour], drive.wind_m_per_s[hour]);
    leakage.steady_w_per_k(&inside, to, wind, &mut flow);
    let fans: f64 = model.vents.iter().map(|v| v.flow_m3_per_s).sum();
    let air_kg =
        flow.iter().sum::<f64>() / AIR_CP_J_PER_KGK + fans * drive.air_j_per_m3k / AIR_CP_J_PER_KGK;
    let people: f64 = model.zones.iter().map(|z| z.people).sum();
    let latent = air_kg * (outdoor - indoor).max(0.0) * 2.45e6 + 50.0 * people;
    near(&book, "loads.house.latent", latent);
    assert_eq!(cooling.latent_w, book.value("loads.house.latent"));
    (model, cooling, book)
}

#[test]
fn the_cooling_load_by_its_parts() {
    for station in ["chicago-725300.epw.gz", "denver-725650.epw.gz"] {
        let (_, cooling, book) = summer(station, &demo());
        assert!(cooling.sensible_w > 0.0);
        evaluates(&book);
        near(&book, "loads.house.cooling", cooling.sensible_w);
        for room in &cooling.rooms {
            let key = format!("loads.{}.cooling", in_key(&room.room));
            near(&book, &key, room.sensible_w);
            // The sun that is told is the sun of the ledger.
            let Some(of) = &room.made_of else { continue };
            if !of.sun.is_empty() {
                near(&book, &format!("{key}.sun"), of.ledger.sun_wh);
            }
            let taken: f64 = of.ledger.faces.iter().map(|f| f.took_wh).sum();
            assert!(taken.abs() > 0.0, "{key}: no wall took or gave anything");
        }
    }
}

/// A house that needs no cooling has loads of nothing, and no hour made up for them.
#[test]
fn no_cooling_needed() {
    let mut house = demo();
    house.windows.clear();
    for room in &mut house.rooms {
        room.gains.clear();
        room.cooled = None;
    }
    let (_, cooling, book) = summer("northway-702910.epw.gz", &house);
    assert_eq!(cooling.hour, None, "no hour in the far north");
    assert_eq!(book.value("loads.house.cooling"), Some(0.0));
    assert_eq!(cooling.latent_w, None);
}
