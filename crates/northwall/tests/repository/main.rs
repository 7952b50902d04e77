//! The repository test: what the conventions ask of the files themselves, checked on the text.
//! It knows nothing of the program. Each complaint names file and line and says how to mend it.

mod formulas;
mod layers;
mod text;
mod words;

use std::fmt::Write as _;

/// A place where the text does not do as the conventions ask.
#[derive(Debug, PartialEq, Eq)]
struct Complaint {
    file: String,
    line: usize,
    says: String,
    mend: String,
}

impl Complaint {
    fn at(file: &text::File, line: usize, says: impl Into<String>, mend: &str) -> Self {
        Self {
            file: file.path.clone(),
            line,
            says: says.into(),
            mend: mend.to_owned(),
        }
    }
}

/// Fails with the whole list, so that one run shows all there is to mend.
fn none(complaints: &[Complaint]) {
    let mut list = String::new();
    for c in complaints {
        let _ = writeln!(
            list,
            "{}:{}: {}\n    mend: {}",
            c.file, c.line, c.says, c.mend
        );
    }
    assert!(
        complaints.is_empty(),
        "{} place(s) to mend\n{list}",
        complaints.len()
    );
}

#[test]
fn the_walk_finds_the_project() {
    let files = text::files();
    for must in [
        "Cargo.toml",
        "docs/sources.toml",
        "crates/reckon/src/lib.rs",
        "ARCHITECTURE.md",
    ] {
        assert!(
            files.iter().any(|f| f.path == must),
            "{must} was not found by the walk"
        );
    }
}

#[test]
fn dependencies_point_down() {
    none(&layers::complaints(&text::files()));
}

#[test]
fn formulas_are_reference_pages() {
    none(&formulas::missing_headings(&text::files()));
}

#[test]
fn source_keys_are_in_the_bibliography() {
    none(&formulas::unknown_keys(&text::files()));
}

#[test]
fn forbidden_words_are_absent() {
    none(&words::forbidden(&text::files()));
}

#[test]
fn engine_gives_the_same_bits_everywhere() {
    none(&words::unlike_bits(&text::files()));
}

#[test]
fn files_are_short() {
    none(&words::too_long(&text::files()));
}

#[test]
fn no_machine_leaves_its_mark() {
    none(&words::machine_marks(&text::files()));
}
