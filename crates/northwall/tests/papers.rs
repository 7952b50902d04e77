//! The papers through the command: what a code says of a job that changed, the owner's bands, and
//! the same papers from the page's interface.

mod served;
mod support;

use std::path::{Path, PathBuf};

use serde_json::Value;
use support::{project, run};

/// The copy has no folder of sheets above it.
const SHEETS: [&str; 2] = ["--catalogue", "catalogue"];

/// The demo in a folder of its own, so that it can be changed.
struct Demo {
    folder: tempfile::TempDir,
}

fn copied(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("folder");
    for entry in std::fs::read_dir(from).expect("there").flatten() {
        let (from, to) = (entry.path(), to.join(entry.file_name()));
        if from.is_dir() {
            copied(&from, &to);
        } else {
            std::fs::copy(&from, &to).expect("copied");
        }
    }
}

impl Demo {
    fn new() -> Self {
        let folder = tempfile::tempdir().expect("folder");
        copied(&project().join("jobs/lake-street"), folder.path());
        Self { folder }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The command on this job: code and what it said.
    fn papers(&self, more: &[&str]) -> (i32, String) {
        let job = self.path("job.toml").display().to_string();
        let into = self.path("out").display().to_string();
        let mut all = vec!["papers", job.as_str(), "--into", into.as_str()];
        all.extend(SHEETS);
        all.extend(more);
        let (code, out, err) = run(&all);
        assert!(code < 2, "{all:?}\n{err}");
        (code, out)
    }

    fn json(&self, more: &[&str]) -> (i32, Value) {
        let mut all = more.to_vec();
        all.push("--json");
        let (code, out) = self.papers(&all);
        (code, serde_json::from_str(&out).expect("JSON"))
    }

    /// What else was offered has bands of its own, a hundred houses each: not asked for here.
    fn without_options(&self) {
        let text = std::fs::read_to_string(self.path("job.toml")).expect("there");
        let (chosen, rest) = text.split_once("[[option]]").expect("options");
        let (_, after) = rest.split_once("[existing]").expect("what they leave in");
        let text = format!("{chosen}[existing]{after}");
        std::fs::write(self.path("job.toml"), text).expect("written");
    }

    fn changed(&self, name: &str, from: &str, to: &str) {
        let text = std::fs::read_to_string(self.path(name)).expect("there");
        let new = text.replacen(from, to, 1);
        assert_ne!(text, new, "{from}");
        std::fs::write(self.path(name), new).expect("written");
    }
}

#[test]
fn verify_names_what_changed() {
    let demo = Demo::new();
    let (_, made) = demo.json(&["--for", "owner"]);
    let code = made["code"].as_str().expect("code").to_owned();
    let list = std::fs::read_to_string(demo.path("out/marks.txt")).expect("the list");
    assert!(list.starts_with(&format!("code {code}\n")), "{list}");
    let typed = code.to_lowercase().replace('-', " ");
    let (exit, says) = demo.papers(&["--verify", &typed]);
    assert_eq!(exit, 0, "{says}");
    assert!(says.starts_with("same:"), "{says}");

    // a file that the job names
    demo.changed("bills/oil-slips.csv", "\n", "\n\n");
    let (exit, says) = demo.papers(&["--verify", &code]);
    assert_eq!(exit, 1);
    assert!(says.starts_with("differs: the job is the same;"), "{says}");
    assert!(
        says.contains("  changed: file bills/oil-slips.csv\n"),
        "{says}"
    );
    // the job too, and records that were not there
    demo.changed("job.toml", "amount = \"498 gal\"", "amount = \"499 gal\"");
    let record = project().join("crates/papers/tests/record.jsonl");
    std::fs::copy(record, demo.path("day.jsonl")).expect("copied");
    let records = demo.path("day.jsonl").display().to_string();
    let (exit, view) = demo.json(&["--verify", &code, "--record", &records]);
    assert_eq!(exit, 1);
    assert_eq!(view["verified"], "other-job");
    let since = serde_json::json!([
        { "what": "changed", "name": "job" },
        { "what": "changed", "name": "file bills/oil-slips.csv" },
        { "what": "new", "name": "records" },
    ]);
    assert_eq!(view["since"], since);
    // without the list: the marks as they are, each of the file as it lies there
    std::fs::remove_file(demo.path("out/marks.txt")).expect("gone");
    let (exit, says) = demo.papers(&["--verify", &code]);
    assert_eq!(exit, 1);
    let (_, view) = demo.json(&["--verify", &code]);
    assert_eq!(view["since"], Value::Null);
    let marks = view["marks"].as_array().expect("marks");
    let names: Vec<&str> = marks.iter().filter_map(|m| m["name"].as_str()).collect();
    // the sheets that the job and its options name, read off job.toml; no records were given now
    let sheets = [
        "Grebe 30", "Grebe 42", "Loon 12", "Loon 9", "Swift 9", "Teal 12", "Teal 6", "Teal 9",
    ];
    let of_sheets = names.iter().filter_map(|n| n.strip_prefix("sheet "));
    assert_eq!(of_sheets.collect::<Vec<_>>(), sheets);
    let others = names.iter().filter(|n| !n.starts_with("sheet "));
    let others = others.map(|n| n.split(' ').next().unwrap_or_default());
    let wanted = ["job", "weather", "file", "file", "file", "program"];
    assert_eq!(others.collect::<Vec<_>>(), wanted, "{names:?}");
    for mark in marks {
        let line = format!(
            "  {}  {}\n",
            mark["mark"].as_str().expect("mark"),
            mark["name"].as_str().expect("name")
        );
        assert!(says.contains(&line), "{line} is not in\n{says}");
    }
    // the reference: coreutils
    let of = |name: &str| marks.iter().find(|m| m["name"] == name).expect("a mark");
    for (mark, file) in [
        ("job", "job.toml"),
        ("file bills/oil-slips.csv", "bills/oil-slips.csv"),
    ] {
        let sum = std::process::Command::new("sha256sum")
            .arg(demo.path(file))
            .output();
        let sum = String::from_utf8(sum.expect("sha256sum").stdout).expect("text");
        assert_eq!(of(mark)["hash"].as_str(), sum.split(' ').next(), "{file}");
    }
    let (exit, says) = demo.papers(&["--verify", "not a code"]);
    assert_eq!(exit, 1);
    assert!(says.starts_with("this is not a code"), "{says}");
}

/// Each sheet of paper says the code, and the last the mark of each piece that `--verify` shows.
#[test]
fn the_marks_are_on_the_last_sheet() {
    let demo = Demo::new();
    let (_, made) = demo.json(&["--for", "crew", "--csv"]);
    let code = made["code"].as_str().expect("code");
    let table = std::fs::read_to_string(demo.path("out/crew-this-paper-and-its-job.csv"));
    let table = table.expect("the table of marks");
    let (_, view) = demo.json(&["--verify", code]);
    let marks = view["marks"].as_array().expect("marks");
    assert_eq!(table.lines().count(), marks.len() + 1, "{table}");
    for mark in marks {
        let mark = mark["mark"].as_str().expect("mark");
        assert!(table.contains(mark), "{mark} is not in\n{table}");
    }
}

/// With `--bands` the owner's promises are those of `northwall bands`.
#[test]
fn bands_are_those_of_the_command() {
    let demo = Demo::new();
    demo.without_options();
    demo.papers(&["--for", "owner", "--bands", "--csv"]);
    let figures = std::fs::read_to_string(demo.path("out/figures.csv")).expect("figures");
    let job = demo.path("job.toml").display().to_string();
    let mut ask = vec!["bands", job.as_str(), "--json"];
    ask.extend(SHEETS);
    let (code, out, err) = run(&ask);
    assert_eq!(code, 0, "{err}");
    let bands: Value = serde_json::from_str(&out).expect("JSON");
    let chosen = &bands["choices"][0];
    // key, title in quotes, value in SI, kind, as shown
    let value = |key: &str| -> f64 {
        let line = figures.lines().find(|l| l.starts_with(&format!("{key},")));
        let line = line.unwrap_or_else(|| panic!("{key} is not in the figures"));
        let after = line.split_once("\",").map_or("", |(_, rest)| rest);
        let value = after.split(',').next().and_then(|v| v.parse().ok());
        value.unwrap_or_else(|| panic!("{line}"))
    };
    for (key, band) in [
        ("bands.load", &bands["load_w"]),
        ("bands.chosen.heads-share", &chosen["heads_share"]),
        ("bands.chosen.cop", &chosen["cop"]),
        ("bands.chosen.cost", &chosen["cost"]),
    ] {
        for end in ["low", "high"] {
            let (ours, theirs) = (value(&format!("{key}.{end}")), band[end].as_f64());
            assert_eq!(Some(ours), theirs, "{key}.{end}");
        }
        let (low, high) = (value(&format!("{key}.low")), value(&format!("{key}.high")));
        assert!(low < high, "{key}: {low} to {high}");
    }
    // And the why of one of them is the same number, down to the seed.
    let mut ask = vec![
        "why",
        job.as_str(),
        "bands.chosen.cost.high",
        "--down",
        "all",
    ];
    ask.extend(SHEETS);
    let (code, out, err) = run(&ask);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("seed = 1"), "{out}");
    ask.push("--json");
    let (_, out, _) = run(&ask);
    let why: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(why["value"], chosen["cost"]["high"]);
}
