//! What is judged of the demo's places, lines, charge and wires, four digits of each number: a
//! change of any of them is seen and must be meant. What is right is held elsewhere; here it is held
//! that nothing moves unseen.

#[path = "../../../checks/rounded.rs"]
mod rounded;

use std::fmt::Write as _;

use heatpump::read_sheet;
use house::glazing::Glass;
use house::loads::{Design, PaneComfort, glass, heating};
use house::model::Model;
use install::{Input, OnTheDay, installation, suggest};
use reckon::{Book, Source};
use rounded::rounded;
use season::Catalogue;

fn catalogue() -> Catalogue {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../catalogue");
    let files = std::fs::read_dir(folder).expect("the catalogue");
    let mut out = Catalogue::new();
    for path in files.map(|f| f.expect("a file").path()) {
        if path.extension().is_some_and(|e| e == "toml") {
            let name = path.display().to_string();
            let text = std::fs::read_to_string(&path).expect("a sheet");
            let sheet = read_sheet(&name, &text).expect("it reads");
            out.insert(sheet.name.clone(), sheet);
        }
    }
    out
}

/// What the glass of the design night is like.
fn panes(model: &Model, glasses: &[Glass]) -> Vec<PaneComfort> {
    let design = Design {
        outdoor_c: -20.0,
        outdoor_source: Source::job("place.heating_design"),
        outdoor_known: None,
        wind_m_per_s: 3.0,
        wind_source: Source::job("place.shelter"),
        air_j_per_m3k: 1200.0,
        monthly_outdoor_c: [5.0; 12],
    };
    let mut book = Book::new();
    heating(model, glasses, &design, &mut book).expect("loads");
    glass(model, glasses, &mut book).expect("glass")
}

fn told(edit: impl Fn(String) -> String) -> String {
    let text = include_str!("../../../jobs/lake-street/job.toml").to_owned();
    let job = jobfile::read(&edit(text)).unwrap_or_else(|p| panic!("{p:?}"));
    let model = house::geometry::model(&job.house).expect("the house holds");
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let glass = panes(&model, &glasses);
    let catalogue = catalogue();
    let input = Input {
        job: &job,
        catalogue: &catalogue,
        model: Some(&model),
        year: None,
        glass: &glass,
        winter_wind_deg: Some(290.0),
        design_c: -20.0,
    };
    let done = installation(&input).expect("no defect");
    let mut out = String::new();
    let _ = writeln!(out, "{:#?}", suggest(&input).expect("no defect"));
    for outdoor in &job.equipment.outdoors {
        let day = OnTheDay::of(&job, &catalogue, &done.book, outdoor).expect("sheets");
        let heads = job.equipment.heads_on(&outdoor.name);
        let costs: Vec<_> = heads.map(|h| day.cost_share(Some(&h.name))).collect();
        let _ = writeln!(out, "{:?} {costs:?} {:?}", day.lines, day.cost_share(None));
        let _ = writeln!(
            out,
            "{:?} {:?} {:?} {:?} {:?} {:?}",
            day.refrigerant, day.plate_pa, day.target_pa, day.factory_kg, day.trim_kg, day.most_kg
        );
    }
    for judged in done.place.iter().chain(&done.lines).chain(&done.wires) {
        let _ = writeln!(out, "{judged:?}");
    }
    let _ = writeln!(
        out,
        "{:#?}\n{:?}\n{:?}\n{:?}\n{:?}",
        done.list, done.labels, done.changed, done.ways, done.spots
    );
    for f in done.book.iter() {
        let _ = writeln!(out, "{} = {:?}", f.key, f.value);
    }
    for f in &done.findings {
        let _ = writeln!(
            out,
            "{:?} {}: {} | {} | {} | {}",
            f.level, f.rule, f.says, f.found, f.required, f.mend
        );
    }
    rounded(&out)
}

#[test]
fn the_demo() {
    insta::assert_snapshot!(told(|t| t));
}

/// Lines twice as long, more snow, a smaller breaker.
#[test]
fn the_demo_with_much_that_does_not_do() {
    insta::assert_snapshot!(told(|t| {
        let out = t
            .replace("length = \"12 ft\"", "length = \"60 ft\"")
            .replace("snow_depth = ", "snow_depth = \"50 in\" # ")
            .replace("breaker = ", "breaker = \"15 A\" # ");
        assert_ne!(out, t);
        out
    }));
}
