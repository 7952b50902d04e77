//! Running the command as a person would.
#![allow(dead_code)]

use std::path::{Path, PathBuf};

use assert_cmd::Command;

/// The project's own folder.
pub fn project() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The command, run in the project's folder, without colours.
pub fn northwall(arguments: &[&str]) -> Command {
    let mut command = Command::cargo_bin("northwall").expect("is built");
    command
        .current_dir(project())
        .env("NO_COLOR", "1")
        .args(arguments);
    command
}

/// What came out: code, standard output, standard error.
pub fn run(arguments: &[&str]) -> (i32, String, String) {
    let out = northwall(arguments).output().expect("runs");
    (
        out.status.code().unwrap_or(-1),
        String::from_utf8(out.stdout).expect("text"),
        String::from_utf8(out.stderr).expect("text"),
    )
}

/// The answer as JSON, of a run that answered.
pub fn json(arguments: &[&str]) -> serde_json::Value {
    let mut all = arguments.to_vec();
    all.push("--json");
    let (code, out, err) = run(&all);
    assert!(code == 0 || code == 1, "{arguments:?}: {code}\n{err}");
    serde_json::from_str(&out).unwrap_or_else(|e| panic!("{arguments:?}: {e}\n{out}"))
}

pub const DEMO: &str = "jobs/lake-street/job.toml";
pub const BOX: &str = "jobs/standard-140/600.toml";
pub const FREE: &str = "jobs/standard-140/960.toml";

/// Runs and asks for a refusal whose message holds all of these words.
pub fn refused(arguments: &[&str], words: &[&str]) {
    let (code, out, err) = run(arguments);
    assert_eq!(code, 2, "{arguments:?}\n{out}\n{err}");
    assert!(out.is_empty(), "{arguments:?} printed an answer: {out}");
    assert!(
        !err.contains("defect of the program") && !err.contains("panicked"),
        "{err}"
    );
    // Lines are broken at spaces; the words of a message may lie on two of them.
    let flat = err.split_whitespace().collect::<Vec<_>>().join(" ");
    for word in words {
        assert!(
            flat.contains(word),
            "{arguments:?}: no \"{word}\" in\n{err}"
        );
    }
}
