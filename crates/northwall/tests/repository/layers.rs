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
        "install",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
        ],
    ),
    ("startup", &["reckon", "units", "physics", "heatpump"]),
    ("review", &["reckon", "units", "climate", "jobfile"]),
    (
        "plan",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
            "install", "startup", "review",
        ],
    ),
    (
        "papers",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
            "install", "startup", "review", "plan",
        ],
    ),
    (
        "programme",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
            "install", "startup", "review", "plan",
        ],
    ),
    ("store", &["jobfile", "startup"]),
    (
        "server",
        &[
            "reckon", "units", "physics", "climate", "heatpump", "house", "jobfile", "season",
            "install", "startup", "review", "plan", "store",
        ],
    ),
    (
        "northwall",
        &[
            "reckon",
            "units",
            "physics",
            "climate",
            "heatpump",
            "house",
            "jobfile",
            "season",
            "install",
            "startup",
            "review",
            "plan",
            "papers",
            "programme",
            "store",
            "server",
        ],
    ),
];

/// What only the tests, benchmarks and examples of a crate may name besides, and why.
const TESTS_MAY_NAME: &[(&str, &str)] = &[
    // the house-year is timed, and handed to numpy, on the example job itself
    ("house", "jobfile"),
];

/// Crates that do no I/O, read no clock, and give the same bits everywhere.
pub fn is_engine(name: &str) -> bool {
    MAY_NAME.iter().any(|(n, _)| *n == name) && !matches!(name, "northwall" | "store" | "server")
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
        for (line, dependency, for_tests) in dependencies(file) {
            let ours = MAY_NAME.iter().any(|(n, _)| *n == dependency);
            let excused = for_tests && TESTS_MAY_NAME.contains(&(name, dependency));
            if ours && !excused && !may.contains(&dependency) {
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

/// Line and name of every dependency, and whether it is only for tests.
fn dependencies(file: &File) -> Vec<(usize, &str, bool)> {
    let mut names = Vec::new();
    let mut table = "";
    for (i, line) in file.lines.iter().enumerate() {
        let line = line.trim();
        if let Some(title) = line.strip_prefix('[') {
            table = title.trim_end_matches(']');
        } else if table.ends_with("dependencies")
            && let Some((name, _)) = line.split_once(['=', '.'])
        {
            names.push((i + 1, name.trim(), table.ends_with("dev-dependencies")));
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
    assert_eq!(
        dependencies(&file),
        [(4, "units", false), (6, "plan", true)]
    );
    let found = complaints(&[file]);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].line, 6);
}
