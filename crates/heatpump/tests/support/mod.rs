//! Units of the invented catalogue, put together.
#![allow(dead_code)] // each test file uses its own share of these

use heatpump::{Head, OutdoorUnit, Sheet, System, read_sheet};

/// Fahrenheit to C.
pub fn f(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

/// Text of a sheet by the name of its file.
pub fn file(folder: &str, name: &str) -> String {
    let path = format!("{}/{folder}/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"))
}

pub fn catalogue(name: &str) -> Sheet {
    read_sheet(name, &file("../../catalogue", name)).expect("a good sheet")
}

/// Every sheet of the catalogue, in order of its name.
pub fn all_sheets() -> Vec<Sheet> {
    let folder = format!("{}/../../catalogue", env!("CARGO_MANIFEST_DIR"));
    let mut all: Vec<Sheet> = std::fs::read_dir(folder)
        .expect("the catalogue")
        .map(|file| file.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .map(|path| catalogue(&path.file_stem().expect("a name").to_string_lossy()))
        .collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

/// A sheet of `tests/sheets`, with a deliberate oddity.
pub fn odd(name: &str) -> Sheet {
    let text = file("tests/sheets", name);
    read_sheet(&format!("{name}.toml"), &text)
        .unwrap_or_else(|e| panic!("{}", e.first().map(ToString::to_string).unwrap_or_default()))
}

pub fn good_text() -> String {
    file("tests/sheets", "good")
}

pub fn single(outdoor: &str, head: &str) -> System {
    System::new(
        OutdoorUnit::new(catalogue(outdoor)).expect("outdoor"),
        vec![Head::new(catalogue(head)).expect("head")],
    )
    .expect("system")
}

pub fn loon_9() -> System {
    single("loon-9", "teal-9")
}

pub fn wren_9() -> System {
    single("wren-9", "teal-9")
}

pub fn grebe_30() -> System {
    let heads = ["teal-9", "teal-12", "bittern-9"].map(|h| Head::new(catalogue(h)).expect("head"));
    System::new(
        OutdoorUnit::new(catalogue("grebe-30")).expect("outdoor"),
        heads.into(),
    )
    .expect("system")
}
