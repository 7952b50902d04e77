//! The demo's files: text, sheets, weather.
#![allow(dead_code)] // each test file uses its own share of these

use plan::Catalogue;

/// Text of a file of the project.
pub fn read(path: &str) -> String {
    let full = format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(full).expect("a file of the project")
}

/// The invented catalogue, its sheets in the order of their files.
pub fn catalogue() -> Catalogue {
    let folder = format!("{}/../../catalogue", env!("CARGO_MANIFEST_DIR"));
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("the catalogue")
        .filter_map(|e| Some(e.ok()?.path()))
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .filter_map(|p| Some(format!("catalogue/{}", p.file_name()?.to_str()?)))
        .collect();
    names.sort();
    let sheets: Vec<String> = names.iter().map(|n| read(n)).collect();
    let files = names.iter().zip(&sheets);
    Catalogue::read(files.map(|(n, t)| (n.as_str(), t.as_str()))).expect("reads")
}

/// The demo's weather.
pub fn weather() -> climate::Weather {
    let bytes = plan::shipped::weather("chicago-725300").expect("ships");
    climate::read_any(bytes).expect("reads").value
}
