//! The start-up day by the command: readings survive the power cut, records prove themselves.

use std::fmt::Write as _;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use assert_cmd::cargo::cargo_bin;

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn run(arguments: &[&str]) -> (i32, String, String) {
    let out = Command::new(cargo_bin("northwall"))
        .current_dir(top())
        .args(arguments)
        .output()
        .expect("it runs");
    (
        out.status.code().unwrap_or(-1),
        String::from_utf8_lossy(&out.stdout).into_owned(),
        String::from_utf8_lossy(&out.stderr).into_owned(),
    )
}

const DAY: &str = "jobs/lake-street/startup.toml";

/// Writes readings, waits for each acknowledgement, and kills it without warning: in the middle of
/// the next one.
fn cut(record: &str, many: usize, from: usize) -> usize {
    let mut child = Command::new(cargo_bin("northwall"))
        .current_dir(top())
        .args(["test", "pressure", DAY, "--live", "--record", record])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("it starts");
    let mut keyboard = child.stdin.take().expect("a pipe");
    let mut lines = BufReader::new(child.stdout.take().expect("a pipe")).lines();
    let mut kept = 0;
    for i in 0..many {
        writeln!(
            keyboard,
            "{:.1} psi, 62.1 F",
            550.0 - 0.1 * (from + i) as f64
        )
        .expect("written");
        for line in lines.by_ref() {
            if line.expect("text").starts_with("kept ") {
                kept += 1;
                break;
            }
        }
    }
    // one more on its way when the power goes
    let _ = writeln!(keyboard, "540.0 psi, 62.1 F");
    child.kill().expect("killed");
    let _ = child.wait();
    kept
}

#[test]
fn a_power_cut_loses_no_acknowledged_reading() {
    let folder = tempfile::tempdir().expect("a folder");
    let record = folder.path().join("record.jsonl");
    let name = record.to_str().expect("text");
    let mut acknowledged = 0;
    for round in 0..6 {
        acknowledged += cut(name, 4, round * 4);
        let text = std::fs::read_to_string(&record).expect("there");
        for i in 0..acknowledged {
            let psi = 550.0 - 0.1 * i as f64;
            let pa = psi * 6894.757293168361;
            assert!(
                text.lines().any(|l| {
                    let v: serde_json::Value = serde_json::from_str(l).unwrap_or_default();
                    v["says"]["pa"]
                        .as_f64()
                        .is_some_and(|p| (p - pa).abs() < 1.0)
                }),
                "reading {i} of {acknowledged} is lost"
            );
        }
        // half a line, cut inside a letter of two bytes
        let mut file = std::fs::OpenOptions::new()
            .append(true)
            .open(&record)
            .expect("open");
        file.write_all(b"{\"n\":99,\"who\":\"\xc3")
            .expect("written");
    }
    assert_eq!(acknowledged, 24);
    let (code, out, _) = run(&["record", "verify", name]);
    assert_eq!(code, 0, "{out}");
    assert!(out.contains("the last line was never finished"));
    let (code, out, err) = run(&["test", "pressure", DAY, "--record", name]);
    assert_eq!(code, 0, "{out}{err}");
    assert!(out.contains("cannot tell yet"), "{out}");
    let text = std::fs::read_to_string(&record).expect("there");
    assert!(text.contains("bytes_never_finished"));
    assert!(text.ends_with('\n'));
}

#[test]
fn an_altered_record_is_found() {
    let folder = tempfile::tempdir().expect("a folder");
    let record = folder.path().join("record.jsonl");
    let name = record.to_str().expect("text");
    for _ in 0..3 {
        assert_eq!(run(&["charge", DAY, "--record", name]).0, 0);
    }
    let (code, out, _) = run(&["record", "verify", name]);
    assert_eq!(code, 0);
    let last = out
        .lines()
        .find_map(|l| l.strip_prefix("last "))
        .expect("a hash")
        .to_owned();
    let whole = std::fs::read_to_string(&record).expect("there");
    let cut: String = whole.split_inclusive('\n').take(2).collect();
    std::fs::write(&record, cut).expect("written");
    assert_eq!(run(&["record", "verify", name]).0, 0);
    let (code, out, _) = run(&["record", "verify", name, "--last", &last]);
    assert_eq!(code, 1);
    assert!(out.contains("the end was cut off or made anew"));
    std::fs::write(&record, whole.replacen("A. Fitter", "B. Fitter", 1)).expect("written");
    let (code, out, _) = run(&["record", "verify", name]);
    assert_eq!(code, 1);
    assert!(
        out.starts_with("altered: line 1: record 1 was altered after it was made"),
        "{out}"
    );
    let (code, _, err) = run(&["charge", DAY, "--record", name]);
    assert_eq!(code, 2);
    assert!(err.contains("record 1 was altered"), "{err}");
}

#[test]
fn the_first_run_becomes_the_baseline_and_the_visit_is_ranked() {
    let folder = tempfile::tempdir().expect("a folder");
    let name = folder.path().join("record.jsonl");
    let name = name.to_str().expect("text");
    let (_, out, _) = run(&["visit", DAY, "--record", name]);
    assert!(out.contains("There is no accepted baseline"), "{out}");
    let (code, out, err) = run(&["run", DAY, "--accept", "--record", name]);
    assert_eq!(code, 0, "{out}{err}");
    assert!(out.contains("Next: None: all is inside."), "{out}");
    let (code, out, _) = run(&["visit", DAY, "--record", name]);
    assert_eq!(code, 0);
    assert!(out.contains("Most likely charge lost."), "{out}");
    assert!(out.contains("Next: Measure defrosts a day"), "{out}");
}

#[test]
fn a_logger_file_is_judged_drawn_and_refused_to_the_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = folder.path().join("log.csv");
    let svg = folder.path().join("curve.svg");
    let mut text = String::from("Serial 12\nTime,Pressure,Line\n");
    for i in 0..60 {
        let psi = 550.0 - 0.5 * f64::from(i);
        writeln!(
            text,
            "2026-11-24T{:02}:{:02}:00,{psi:.1},62.0",
            10 + i / 12,
            i % 12 * 5
        )
        .expect("written");
    }
    std::fs::write(&log, &text).expect("written");
    let at = log.to_str().expect("text");
    let (code, out, err) = run(&[
        "test",
        "pressure",
        DAY,
        "--log",
        at,
        "--svg",
        svg.to_str().expect("text"),
    ]);
    assert_eq!(code, 1, "{out}{err}");
    assert!(out.contains("fails. Gas is lost"), "{out}");
    assert_eq!(out.matches("Never oxygen").count(), 1);
    let drawn = std::fs::read_to_string(&svg).expect("drawn");
    assert!(drawn.contains("no leak can be told from none"));
    std::fs::write(&log, text.replacen("549.5", "549.5 bar", 1)).expect("written");
    let (code, _, err) = run(&["test", "pressure", DAY, "--log", at]);
    assert_eq!(code, 2);
    assert!(
        err.contains("line 4") && err.contains("it is not a number"),
        "{err}"
    );
}

#[test]
fn a_bad_start_up_file_says_its_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("day.toml");
    let good = std::fs::read_to_string(top().join(DAY)).expect("there");
    let at = file.to_str().expect("text");
    for (from, to, says) in [
        (
            "target = \"550 psi\"",
            "target = \"650 psi\"",
            "at most 600 psi, the plate's",
        ),
        ("target = \"550 psi\"", "target = \"550\"", "has no unit"),
        (
            "target = \"550 psi\"",
            "target = \"55 F\"",
            "is a unit of temperature",
        ),
        (
            "plate = \"600 psi\"",
            "plaet = \"600 psi\"",
            "unknown field `plaet`",
        ),
        (
            "refrigerant = \"R-32\"",
            "refrigerant = \"R-99\"",
            "this refrigerant is not known",
        ),
        (
            "tube = \"1/4 in\"",
            "tube = \"1/3 in\"",
            "there is no such coil tube",
        ),
        (
            "offset = \"-05:00\"",
            "offset = \"EST\"",
            "this is no offset from UTC",
        ),
        (
            "northwall_startup = 1",
            "northwall_startup = 9",
            "this version of a start-up file is not known",
        ),
        (
            "calibrated = \"2026-05-04\"",
            "calibrated = \"May\"",
            "a date has year, month and day",
        ),
    ] {
        std::fs::write(&file, good.replacen(from, to, 1)).expect("written");
        let (code, _, err) = run(&["test", "pressure", at]);
        assert_eq!(code, 2, "{to}");
        let flat = err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(says), "{to}: {err}");
    }
}
