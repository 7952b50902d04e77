//! Dependencies point down: each crate may name only these.

use crate::Complaint;
use crate::text::File;

/// Crate, and which of our own crates it may name. Lowest first; the picture is in
/// ARCHITECTURE.md.
const MAY_NAME: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("reckon", &["units"]),
    ("physics", &[]),
    ("climate", &["reckon", "units", "physics"]),
    ("heatpump", &["reckon", "units", "physics"]),
    ("house", &["reckon", "units", "physics", "climate"]),
    (
        "jobfile",
        &["reckon", "units", "physics", "climate", "heatpump", "house"],
    ),
    (
        "season",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile",
        ],
    ),
    (
        "plan",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
        ],
    ),
    (
        "northwall",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
            "plan",
        ],
    ),
];

/// Crates that do no I/O, read no clock, and give the same bits everywhere.
pub fn is_engine(name: &str) -> bool {
    MAY_NAME.iter().any(|(n, _)| *n == name) && name != "northwall"
}

pub fn complaints(files: &[File]) -> Vec<Complaint> {
    let mut found = Vec::new();
    for file in files {
        let Some(name) = file
            .path
            .strip_prefix("crates/")
            .and_then(|p| p.strip_suffix("/Cargo.toml"))
            .filter(|p| !p.contains('/'))
        else {
            continue;
        };
        let Some((_, may)) = MAY_NAME.iter().find(|(n, _)| *n == name) else {
            found.push(Complaint::at(
                file,
                1,
                format!("crate `{name}` has no layer"),
                "give it a place in MAY_NAME here and in the table of ARCHITECTURE.md",
            ));
            continue;
        };
        for (line, dependency) in dependencies(file) {
            let ours = MAY_NAME.iter().any(|(n, _)| *n == dependency);
            if ours && !may.contains(&dependency) {
                found.push(Complaint::at(
                    file,
                    line,
                    format!("`{name}` names `{dependency}`, which is not below it"),
                    "move the shared thing down, or hand the value in from above",
                ));
            }
        }
    }
    found
}

/// Names in every dependency table (tests included), with their lines.
fn dependencies(file: &File) -> Vec<(usize, &str)> {
    let mut names = Vec::new();
    let mut inside = false;
    for (i, line) in file.lines.iter().enumerate() {
        let line = line.trim();
        if let Some(table) = line.strip_prefix('[') {
            inside = table.trim_end_matches(']').ends_with("dependencies");
        } else if inside && let Some((name, _)) = line.split_once(['=', '.']) {
            names.push((i + 1, name.trim()));
        }
    }
    names
}

#[test]
fn reads_dependency_tables() {
    let text = "[package]\nname = \"a\"\n[dependencies]\nunits = { workspace = true }\n\
                [dev-dependencies]\nplan.workspace = true\n[lints]\nworkspace = true";
    let file = File {
        path: "crates/house/Cargo.toml".into(),
        lines: text.lines().map(str::to_owned).collect(),
    };
    assert_eq!(dependencies(&file), [(4, "units"), (6, "plan")]);
    let found = complaints(&[file]);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].line, 6);
}
