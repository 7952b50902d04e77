//! What houses come to, four digits of each number: a change of any of them is seen and must be
//! meant. What is right is held elsewhere; here it is held that nothing moves unseen.

mod geometry_houses;
#[path = "../../../checks/rounded.rs"]
mod rounded;
mod support;

use std::fmt::Write as _;

use geometry_houses::family_house;
use house::balance::Doors;
use house::describe::{House, Over, Under};
use house::drive::Drive;
use house::glazing::Glass;
use house::ideal::{HouseYear, year_on};
use house::loads::{self, Design};
use reckon::{Book, Source};
use rounded::rounded;

fn lake_street() -> House {
    let text = include_str!("../../../jobs/lake-street/job.toml");
    jobfile::read(text).expect("the demo reads").house
}

fn at(outdoor_c: f64) -> Design {
    Design {
        outdoor_c,
        outdoor_source: Source::job("place.heating_design"),
        outdoor_known: None,
        wind_m_per_s: 3.0,
        wind_source: Source::job("place.shelter"),
        air_j_per_m3k: 1200.0,
        monthly_outdoor_c: [
            -4.0, -3.0, 2.0, 9.0, 15.0, 20.0, 23.0, 22.0, 18.0, 11.0, 4.0, -2.0,
        ],
    }
}

/// Surfaces, loads and the rooms without a head.
fn design_night(house: &House, book: &mut Book) -> String {
    let model = match house::geometry::model(house) {
        Ok(model) => model,
        Err(why) => return format!("{why:#?}\n"),
    };
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let design = at(-18.0);
    let (of_rooms, steady) = loads::heating(&model, &glasses, &design, book).expect("loads");
    let outdoors = [("design", -18.0), ("30-F", -1.1)];
    loads::rooms_without_heads(&steady, &model, &design, &[1], &outdoors, book).expect("rooms");
    loads::glass(&model, &glasses, book).expect("glass");
    let mut out = String::new();
    for zone in &model.zones {
        let _ = writeln!(out, "{zone:?}");
    }
    for s in &model.surfaces {
        let _ = writeln!(out, "{s:?}");
    }
    for p in &model.panes {
        let _ = writeln!(out, "{p:?}");
    }
    let _ = writeln!(out, "{:?}\n{:?}\n{of_rooms:?}", model.leak, model.openings);
    out
}

#[test]
fn the_design_night_of_the_demo() {
    let mut book = Book::new();
    let mut out = design_night(&lake_street(), &mut book);
    for f in book.iter() {
        let _ = writeln!(out, "{} = {:?}", f.key, f.value);
    }
    insta::assert_snapshot!(rounded(&out));
}

#[test]
fn what_is_under_and_over_a_house() {
    let mut out = String::new();
    for (under, over) in [
        (Under::Crawl, Over::Attic),
        (Under::OpenAir, Over::FlatRoof),
        (Under::StillAir, Over::Sloped { pitch_deg: 35.0 }),
        (Under::Adiabatic, Over::Adiabatic),
    ] {
        let mut house = family_house();
        if let Some(low) = house.storeys.first_mut() {
            low.under = under;
        }
        if let Some(top) = house.storeys.last_mut() {
            top.over = over;
        }
        let said = design_night(&house, &mut Book::new());
        let _ = writeln!(out, "{under:?} {over:?}\n{said}");
    }
    insta::assert_snapshot!(rounded(&out));
}

fn summed(mut year: HouseYear) -> HouseYear {
    year.hourly_heat_w.clear();
    year.hourly_air_c.clear();
    year.closure = 0.0;
    year
}

#[test]
fn the_year_of_the_demo() {
    let model = house::geometry::model(&lake_street()).expect("the demo holds");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let mut out = String::new();
    for station in ["chicago-725300.epw.gz", "denver-725650.epw.gz"] {
        let weather = support::weather(station);
        let drive = Drive::new(&model, &glasses, &weather).expect("drive");
        for doors in [Doors::AsUsual, Doors::Open, Doors::Closed] {
            let year = year_on(&model, &glasses, &drive, doors).expect("runs");
            let _ = writeln!(out, "{station} {doors:?}\n{:#?}", summed(year));
        }
        let mut cooling = loads::cooling(&model, &glasses, &drive, &weather).expect("loads");
        // what an hour is made of, `unfolded_rooms.rs` holds
        for room in &mut cooling.rooms {
            (room.made_of, room.in_hour_of_house) = (None, None);
        }
        let _ = writeln!(out, "{cooling:#?}");
        for glass in &glasses {
            let _ = writeln!(out, "{glass:?}");
        }
    }
    insta::assert_snapshot!(rounded(&out));
}
