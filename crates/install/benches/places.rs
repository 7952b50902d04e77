//! The installation of a job, and positions tried for a head and an outdoor unit.

use install::{Input, installation, suggest};
use season::Catalogue;

/// What stands in the job besides the room.
const MORE: &str = r#"
[[head_place]]
head = "living"
at = "17.5 ft, 7 ft"
blows = "270 deg"
height = "7 ft"
seats = ["6 ft, 7 ft"]
[[outdoor_place]]
outdoor = "out"
wall = "east"
along = "7 ft"
[[listener]]
name = "lot line"
at = "40 ft, 7 ft"
night = "45 dB(A)"
source = "bylaw"
[[landmark]]
what = "wall"
at = "44 ft, -10 ft"
to = "44 ft, 30 ft"
"#;

const ROOM: &str = include_str!("../../../checks/one-room.toml");

fn main() {
    divan::main();
}

fn with(work: impl FnOnce(&Input<'_>)) {
    let job = jobfile::read(&format!("{ROOM}{MORE}")).expect("reads");
    let model = house::geometry::model(&job.house).expect("model");
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../catalogue/");
    let sheet = |file: &str| {
        let text = std::fs::read_to_string(format!("{folder}{file}")).expect("sheet");
        heatpump::read_sheet(file, &text).expect("sheet reads")
    };
    let catalogue: Catalogue = [
        ("OUT".to_owned(), sheet("loon-12.toml")),
        ("HEAD".to_owned(), sheet("teal-12.toml")),
    ]
    .into();
    work(&Input {
        job: &job,
        catalogue: &catalogue,
        model: Some(&model),
        year: None,
        glass: &[],
        winter_wind_deg: Some(300.0),
        design_c: -20.0,
    });
}

/// Every rule of the installation, once.
#[divan::bench]
fn every_rule(bencher: divan::Bencher<'_, '_>) {
    with(|input| bencher.bench_local(|| installation(divan::black_box(input))));
}

/// About 170 positions, each judged by the rules that hang on it.
#[divan::bench]
fn positions(bencher: divan::Bencher<'_, '_>) {
    with(|input| bencher.bench_local(|| suggest(divan::black_box(input))));
}
