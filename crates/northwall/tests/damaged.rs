//! What the command alone reads, damaged: the file of the day, and an auditor's file where the
//! program is built with the papers. The exit is never that of a defect, and nothing falls.
//! `checks/damaged` runs as many as asked.

#[path = "../../plan/tests/mutated/damage.rs"]
mod damage;

use std::path::Path;
use std::process::Command;

use assert_cmd::cargo::cargo_bin;
use damage::{Damage, Tally, seeds};

fn top() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Runs a command on one damaged file after another.
fn damaged(kind: &str, one_in: u64, good: &[u8], run: impl Fn(&Path) -> Command) {
    let folder = tempfile::tempdir().expect("folder");
    let file = folder.path().join("damaged");
    let mut tally = Tally::new(kind, &seeds(one_in));
    for seed in seeds(one_in) {
        std::fs::write(&file, Damage::new(seed).done_to(good)).expect("written");
        tally.begin();
        let out = run(&file).output().expect("it runs");
        tally.done(seed, matches!(out.status.code(), Some(0 | 1)));
        let err = String::from_utf8_lossy(&out.stderr);
        match out.status.code() {
            Some(0 | 1) => {}
            Some(2) => assert!(
                err.len() > 20 && err.len() < 12_000 && !err.contains("defect"),
                "{kind}, seed {seed}: {err}"
            ),
            other => panic!("{kind}, seed {seed}: {other:?} {err}"),
        }
    }
    tally.row();
}

#[test]
fn a_damaged_day_is_answered() {
    let job = top().join("jobs/lake-street/job.toml");
    let day = std::fs::read_to_string(top().join("jobs/lake-street/startup.toml")).expect("there");
    let good = day.replace("\"job.toml\"", &format!("{:?}", job.display().to_string()));
    assert_ne!(good, day);
    damaged("file of the day", 2, good.as_bytes(), |file| {
        let mut c = Command::new(cargo_bin("northwall"));
        c.arg("charge").arg(file);
        c.arg("--catalogue").arg(top().join("catalogue"));
        c
    });
}

#[cfg(feature = "papers")]
#[test]
fn a_damaged_audit_is_answered() {
    let folder = tempfile::tempdir().expect("folder");
    let out = Command::new(cargo_bin("northwall"))
        .args(["papers", "--for", "owner", "--hpxml", "4", "--into"])
        .arg(folder.path())
        .arg(top().join("jobs/lake-street/job.toml"))
        .output()
        .expect("it runs");
    let made = std::fs::read_dir(folder.path()).expect("folder").flatten();
    let audit = made
        .map(|e| e.path())
        .find(|p| p.extension().is_some_and(|e| e == "xml"))
        .unwrap_or_else(|| panic!("no HPXML: {}", String::from_utf8_lossy(&out.stderr)));
    let good = std::fs::read(audit).expect("there");
    damaged("HPXML", 2, &good, |file| {
        let mut c = Command::new(cargo_bin("northwall"));
        c.arg("import")
            .arg(file)
            .arg(folder.path().join("job.toml"));
        c.arg("--force");
        c
    });
}
