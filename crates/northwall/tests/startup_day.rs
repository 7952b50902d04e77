//! The start-up day by the command: readings survive the power cut, records prove themselves.
//!
//! Long because: the whole day in the order in which it is lived, each test with what it changes.

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

/// A day without a job: all of it is in the one file.
const ALONE: &str = r#"
northwall_startup = 1
who = "A. Fitter"
refrigerant = "R-32"
elevation = "205 m"
offset = "-05:00"
outdoor = "loon-12"
heads = ["teal-12"]
[[line]]
tube = "1/4 in"
length = "24 ft"
[[line]]
tube = "3/8 in"
length = "24 ft"
[[volume]]
what = "coil of the head"
volume = "0.7 L"
within = "30 %"
[gauge]
id = "gauge 1"
accuracy = "2 psi"
step = "0.1 psi"
calibrated = "2026-05-04"
[thermometer]
id = "thermometer 1"
accuracy = "1 K"
step = "0.1 K"
calibrated = "2026-05-04"
[pressure]
plate = "600 psi"
target = "550 psi"
worth = "200 g"
[wrench]
length = "10 in"
crowfoot = "2 in"
[[flare]]
place = "head, liquid"
tube = "1/4 in"
torque = "16 N m"
initials = "AF"
[[brazed]]
place = "tee"
nitrogen = "3 ft3/h"
initials = "AF"
[charge]
factory = "1.1 kg"
trim = "-6 g"
cylinder = "7"
before = "9.000 kg"
after = "9.006 kg"
scale_within = "5 g"
[[movement]]
cylinder = "recovery 2"
before = "3.000 kg"
after = "3.900 kg"
system = "-900 g"
"#;

/// A folder with a day of its own, and its paths as text.
struct Folder(tempfile::TempDir);

impl Folder {
    fn new() -> Self {
        Self(tempfile::tempdir().expect("a folder"))
    }

    fn path(&self, name: &str) -> String {
        self.0.path().join(name).to_str().expect("text").to_owned()
    }

    fn write(&self, name: &str, text: &str) -> String {
        std::fs::write(self.0.path().join(name), text).expect("written");
        self.path(name)
    }
}

/// On one line, as words: where a line breaks is the terminal's affair.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

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
    assert!(flat(&out).contains("The last line was never finished"));
    let (code, out, err) = run(&["test", "pressure", DAY, "--record", name]);
    assert_eq!(code, 0, "{out}{err}");
    assert!(out.contains("cannot tell yet"), "{out}");
    let text = std::fs::read_to_string(&record).expect("there");
    assert!(text.contains("bytes_never_finished"));
    assert!(text.ends_with('\n'));
}

#[test]
fn an_altered_record_is_found() {
    let folder = Folder::new();
    let name = folder.path("record.jsonl");
    let name = name.as_str();
    for _ in 0..3 {
        // valves noted as open with no test in the record
        assert_eq!(run(&["charge", DAY, "--record", name]).0, 1);
    }
    let (code, out, _) = run(&["record", "verify", name, "--json"]);
    assert_eq!(code, 0);
    let answer: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    let last = answer["last"].as_str().expect("a hash").to_owned();
    let whole = std::fs::read_to_string(name).expect("there");
    let cut: String = whole.split_inclusive('\n').take(2).collect();
    std::fs::write(name, cut).expect("written");
    assert_eq!(run(&["record", "verify", name]).0, 0);
    // as it was copied by hand: the first 16 letters, in groups
    let by_hand = format!("{} {}", &last[..8], &last[8..16]);
    for wanted in [last.as_str(), by_hand.as_str()] {
        let (code, out, _) = run(&["record", "verify", name, "--last", wanted]);
        assert_eq!(code, 1);
        assert!(
            flat(&out).contains("the end was cut off or made anew"),
            "{out}"
        );
    }
    let (code, _, err) = run(&["record", "verify", name, "--last", "12ab"]);
    assert_eq!(code, 2);
    assert!(err.contains("its first 16 letters or more"), "{err}");
    std::fs::write(name, whole.replacen("A. Fitter", "B. Fitter", 1)).expect("written");
    let (code, out, _) = run(&["record", "verify", name]);
    assert_eq!(code, 1);
    assert!(
        out.starts_with("altered: line 1: record 1 was altered after it was made"),
        "{out}"
    );
    let (code, _, err) = run(&["charge", DAY, "--record", name]);
    assert_eq!(code, 2);
    assert!(err.contains("record 1 was altered"), "{err}");
    std::fs::write(name, &whole).expect("written");
    assert_eq!(
        run(&["record", "verify", name, "--last", &by_hand]).0,
        0,
        "the whole one holds"
    );
}

/// Lengths, tubes, refrigerant, plate, test pressure, trim and calibration come from the job.
#[test]
fn what_the_job_knows_is_not_typed_again() {
    let (code, out, err) = run(&["test", "pressure", DAY]);
    assert_eq!(code, 0, "{err}");
    let out = flat(&out);
    // coils 0.7, 0.6, hoses 0.1; 60 ft of 1/4 and 3/8 in: 0.335 and 0.896 L by ASTM B280
    assert!(out.contains("2.63 L under test; plate 600 psi."), "{out}");
    assert!(
        out.contains("living: 1/4 in and 3/8 in, 21 ft as planned"),
        "{out}"
    );
    assert!(out.contains("3. 550 psi, hold 10 min"), "{out}");
    let (_, out, _) = run(&["charge", DAY]);
    assert!(
        flat(&out).contains("Factory 4 lb 13.6 oz (2,200 g)"),
        "{out}"
    );
    // as built wins over planned
    let folder = Folder::new();
    let job = std::fs::read_to_string(top().join("jobs/lake-street/job.toml")).expect("there");
    let built = "\n[[as_built]]\nhead = \"living\"\nline_length = \"60 ft\"\nwho = \"A. Fitter\"\n\
                 when = \"2026-12-07\"\n";
    folder.write("job.toml", &(job + built));
    let day = std::fs::read_to_string(top().join(DAY)).expect("there");
    let at = folder.write("startup.toml", &day);
    let (code, out, err) = run(&["test", "pressure", &at, "--catalogue", "catalogue"]);
    assert_eq!(code, 0, "{err}");
    assert!(
        flat(&out).contains("living: 1/4 in and 3/8 in, 60 ft as built"),
        "{out}"
    );
    for (from, to, place, says) in [
        (
            "who = ",
            "refrigerant = \"R-32\"\nwho = ",
            "refrigerant:",
            "stands in",
        ),
        (
            "who = ",
            "elevation = \"10 m\"\nwho = ",
            "elevation:",
            "stands in",
        ),
        (
            "cylinder = ",
            "trim = \"5 g\"\ncylinder = ",
            "charge.trim:",
            "stands in",
        ),
        (
            "worth = ",
            "target = \"500 psi\"\nworth = ",
            "pressure.target:",
            "stands in",
        ),
        (
            "[[volume]]",
            "[[line]]\ntube = \"1/4 in\"\nlength = \"9 ft\"\n[[volume]]",
            "line.tube:",
            "stands in",
        ),
        (
            "place = \"living, head, gas\"",
            "place = \"living, head, gas\"\ntube = \"3/8 in\"",
            "flare.tube:",
            "the job says the tube already",
        ),
        (
            "place = \"living, head, gas\"",
            "place = \"living, head, gas\"\nsheet = [\"30 N m\", \"40 N m\"]",
            "flare.sheet:",
            "the unit's sheet says the torque already",
        ),
        (
            "gauge_at = ",
            "hold = \"5 min\"\ngauge_at = ",
            "vacuum.hold:",
            "stands in",
        ),
        (
            "place = \"living, head, gas\"",
            "place = \"attic\"",
            "flare.place:",
            "living, head, liquid",
        ),
        (
            "on = \"east wall\"",
            "on = \"west wall\"",
            "on:",
            "east wall",
        ),
        (
            "who = ",
            "tested = [\"cellar\"]\nwho = ",
            "tested:",
            "living, landing",
        ),
    ] {
        let at = folder.write("twice.toml", &day.replacen(from, to, 1));
        let command: &[&str] = if place.starts_with("flare") {
            &["test", "joints"]
        } else {
            &["test", "pressure"]
        };
        let (code, _, err) = run(&[command, &[&at, "--catalogue", "catalogue"]].concat());
        assert_eq!(code, 2, "{to}");
        let err = flat(&err);
        assert!(err.contains(place) && err.contains(says), "{to}: {err}");
    }
    // one head's lines alone
    let at = folder.write(
        "one.toml",
        &day.replacen("who = ", "tested = [\"landing\"]\nwho = ", 1),
    );
    let (_, out, _) = run(&["test", "pressure", &at, "--catalogue", "catalogue"]);
    assert!(
        !flat(&out).contains("living:") && flat(&out).contains("landing:"),
        "{out}"
    );
    // a plate read lower than the sheet's counts
    let at = folder.write(
        "plate.toml",
        &day.replacen("worth = ", "plate = \"500 psi\"\nworth = ", 1),
    );
    let (code, _, err) = run(&["test", "pressure", &at, "--catalogue", "catalogue"]);
    assert_eq!(code, 2);
    assert!(
        flat(&err).contains("at most 500 psi (3447 kPa), the plate's"),
        "{err}"
    );
}

#[test]
fn joints_are_listed_kept_and_corrected() {
    let folder = Folder::new();
    let record = folder.path("record.jsonl");
    let (code, out, err) = run(&["test", "joints", DAY, "--record", &record]);
    assert_eq!(code, 0, "{err}");
    let out = flat(&out);
    assert!(
        out.contains("8 joints: 8 hold, 0 fail, 0 not noted."),
        "{out}"
    );
    // 38 N m with 2 in more on a wrench of 10 in: the lever, 31.7 N m
    assert!(
        out.contains("set this wrench to 32 N m (23 ft lb)"),
        "{out}"
    );
    assert!(
        out.contains("brazed with nitrogen at 3.0 ft3/h, BK"),
        "{out}"
    );
    assert!(out.contains("Kept as records 1 to 8"), "{out}");
    // the same again adds nothing
    let (_, out, _) = run(&["test", "joints", DAY, "--record", &record]);
    assert!(!out.contains("Kept"), "{out}");
    let day = std::fs::read_to_string(top().join(DAY)).expect("there");
    let job = top().join("jobs/lake-street/job.toml");
    let job = format!("{:?}", job.to_str().expect("text"));
    let day = day.replacen("\"job.toml\"", &job, 1);
    let other = folder.write("other.toml", &day.replacen("28 ft lb", "20 ft lb", 1));
    let files = ["--catalogue", "catalogue", "--record", &record];
    let (code, _, err) = run(&[&["test", "joints", &other][..], &files].concat());
    assert_eq!(code, 2);
    assert!(flat(&err).contains("--corrects 2 --why TEXT"), "{err}");
    let why = ["--corrects", "2", "--why", "read from the other scale"];
    let (code, out, _) = run(&[&["test", "joints", &other][..], &files, &why].concat());
    assert_eq!(code, 1, "27 N m is too little: {out}");
    assert!(
        flat(&out).contains("27 N m is less than the sheet's 34: tighten it, two wrenches"),
        "{out}"
    );
    let (_, out, _) = run(&["record", "show", &record]);
    let out = flat(&out);
    assert!(
        out.contains("2 2026-") && out.contains("(corrected since)"),
        "{out}"
    );
    assert!(
        out.contains("(corrects 2: read from the other scale)"),
        "{out}"
    );
    assert_eq!(run(&["record", "verify", &record]).0, 0);
    for (from, to, says) in [
        ("28 ft lb", "28", "a number with N m, ft lb or in lb"),
        ("3 ft3/h", "3", "a number with ft3/h, scfh or L/min"),
        (
            "living, head, gas",
            "living, head, liquid",
            "this joint is noted twice",
        ),
    ] {
        let bad = folder.write("bad.toml", &day.replacen(from, to, 1));
        let (code, _, err) = run(&["test", "joints", &bad, "--catalogue", "catalogue"]);
        assert_eq!(code, 2, "{to}");
        assert!(flat(&err).contains(says), "{to}: {err}");
    }
    // no nitrogen while brazing fails, nobody's joint is not told
    let none = folder.write(
        "none.toml",
        &day.replacen("3 ft3/h", "none", 1).replacen(
            "[[flare]]\nplace = \"landing, outdoor, gas\"\ninitials = \"BK\"\n",
            "",
            1,
        ),
    );
    let (code, out, _) = run(&["test", "joints", &none, "--catalogue", "catalogue"]);
    assert_eq!(code, 1);
    assert!(
        flat(&out).contains("8 joints: 6 hold, 1 fail, 1 not noted."),
        "{out}"
    );
}

/// The release asks for both tests, and the ledger for every gram.
#[test]
fn charge_asks_for_the_tests_and_balances() {
    let folder = Folder::new();
    let day = folder.write("day.toml", ALONE);
    let (code, out, err) = run(&["charge", &day]);
    assert_eq!(code, 0, "{err}");
    let words = flat(&out);
    assert!(
        words.contains("pressure test: not in the record: leave the valves shut"),
        "{words}"
    );
    assert!(
        words.contains("holds. 0.2 oz (6 g) came out; the lines ask for 0.2 oz (6 g) out."),
        "{words}"
    );
    assert!(
        words.contains("Ledger: holds. Cylinders and systems balance to 0.0 oz (0 g)."),
        "{words}"
    );
    assert!(
        words.contains("Nobody has noted that the valves are open"),
        "{words}"
    );
    let lost = folder.write("lost.toml", &ALONE.replacen("3.900 kg", "3.700 kg", 1));
    let (code, out, _) = run(&["charge", &lost]);
    assert_eq!(code, 1);
    assert!(
        flat(&out).contains("7.1 oz (200 g) are not accounted for"),
        "{out}"
    );
    let (code, _, err) = run(&[
        "charge",
        &day,
        "--record",
        &folder.path("r"),
        "--corrects",
        "4",
        "--why",
        "x",
    ]);
    assert_eq!(code, 2);
    assert!(
        flat(&err).contains("record 4 is no charge, or was corrected since"),
        "{err}"
    );
}

#[test]
fn the_first_run_becomes_the_baseline_and_the_visit_is_ranked() {
    let folder = Folder::new();
    let name = folder.path("record.jsonl");
    let firm = folder.path("firm.jsonl");
    let (_, out, _) = run(&["visit", DAY, "--record", &name]);
    assert!(out.contains("There is no accepted baseline"), "{out}");
    let (code, out, err) = run(&["run", DAY, "--accept", "--record", &name]);
    assert_eq!(code, 0, "{out}{err}");
    assert!(out.contains("Next: None: all is inside."), "{out}");
    let (code, out, _) = run(&["visit", DAY, "--record", &name]);
    assert_eq!(code, 1, "not as on the first day is a finding");
    let words = flat(&out);
    assert!(
        words.contains("supply less return: 36.0 F then, 20.0 F now: down"),
        "{words}"
    );
    assert!(
        words.contains("Not as on the first day. Most likely charge lost."),
        "{words}"
    );
    assert!(words.contains("Next: Measure defrosts a day"), "{words}");
    let share = |out: &str| -> f64 {
        let words = flat(out);
        let rest = words
            .split("charge lost ")
            .nth(1)
            .expect("ranked")
            .to_owned();
        rest.split(' ')
            .next()
            .and_then(|p| p.parse().ok())
            .expect("a share")
    };
    let before = share(&out);
    // what it turned out to be is learned from, over all jobs of the firm
    for _ in 0..12 {
        let found = [
            "--found", "parts", "--hours", "3", "--cost", "400", "--firm", &firm,
        ];
        let (code, _, err) = run(&[&["visit", DAY, "--record", &name][..], &found].concat());
        // as the log grows the ranking changes, and with it whether one cause leads
        assert!(code <= 1, "{err}");
    }
    let (_, out, _) = run(&["visit", DAY, "--record", &name, "--firm", &firm]);
    assert!(share(&out) < before, "{out}");
    assert!(
        flat(&out).contains("12 of ours, 3.0 h and 400 each"),
        "{out}"
    );
    let (code, _, err) = run(&[
        "visit", DAY, "--record", &name, "--firm", &firm, "--found", "ghosts", "--hours", "1",
        "--cost", "1",
    ]);
    assert_eq!(code, 2);
    assert!(err.contains("low-charge, dirty-indoors"), "{err}");
}

/// Without an anemometer the sheet's own air flow at the speed set, with a quarter of doubt.
#[test]
fn the_speed_of_the_head_stands_for_its_air() {
    let folder = Folder::new();
    let day = std::fs::read_to_string(top().join(DAY)).expect("there");
    let job = top().join("jobs/lake-street/job.toml");
    let day = day.replacen(
        "\"job.toml\"",
        &format!("{:?}", job.to_str().expect("text")),
        1,
    );
    let speed = |n: &str| day.replacen("flow = \"280 cfm\"", &format!("speed = {n}"), 1);
    let at = folder.write("speed.toml", &speed("2"));
    let (code, out, err) = run(&["run", &at, "--catalogue", "catalogue"]);
    assert_eq!(code, 0, "{out}{err}");
    // Teal 12 at speed 2: 250 cfm; 36 F; 1.08 at sea level, 0.976 at 673 ft: 9,490 Btu/h by the rounded 1.08, ours 0.6 % more
    assert!(flat(&out).contains("9,550 Btu/h ± 2,390 Btu/h"), "{out}");
    let at = folder.write("speed.toml", &speed("9"));
    let (code, _, err) = run(&["run", &at, "--catalogue", "catalogue"]);
    assert_eq!(code, 2);
    assert!(flat(&err).contains("1, the slowest, to 4"), "{err}");
}

fn log_of(minutes: i32, every: i32, psi: &dyn Fn(i32) -> f64) -> String {
    let mut text = String::from("Serial 12\nTime,Pressure,Line\n");
    for at in (0..=minutes).step_by(usize::try_from(every).expect("forward")) {
        writeln!(
            text,
            "2026-10-{:02}T{:02}:{:02}:00,{:.1},62.0",
            20 + at / 1440,
            at % 1440 / 60,
            at % 60,
            psi(at)
        )
        .expect("written");
    }
    text
}

#[test]
fn a_logger_file_is_judged_drawn_and_refused_to_the_line() {
    let folder = Folder::new();
    let svg = folder.path("curve.svg");
    let text = log_of(295, 5, &|at| 550.0 - 0.1 * f64::from(at));
    let at = folder.write("log.csv", &text);
    let (code, out, err) = run(&["test", "pressure", DAY, "--log", &at, "--svg", &svg]);
    assert_eq!(code, 1, "{out}{err}");
    assert!(out.contains("fails. Gas is lost"), "{out}");
    assert_eq!(out.matches("Never oxygen").count(), 1);
    assert!(
        flat(&out).contains("o gas left; ░ a leak there cannot be told from none"),
        "{out}"
    );
    let drawn = std::fs::read_to_string(&svg).expect("drawn");
    assert!(drawn.contains("no leak can be told from none"));
    for (from, to, says) in [
        ("549.5", "549.5 bar", "it is not a number"),
        ("T00:10", "T00:05", "the same time has other values"),
        ("T00:10", "T00:01", "earlier than the line before"),
        ("549.0", "3785.2", "pressure of reading 3"),
        ("549.0", "54.9", "psi, bar or kPa mixed up?"),
        ("549.0,62.0", "549.0,16.7", "F and C mixed up"),
    ] {
        let bad = folder.write("bad.csv", &text.replacen(from, to, 1));
        let (code, _, err) = run(&["test", "pressure", DAY, "--log", &bad]);
        assert_eq!(code, 2, "{to}");
        assert!(flat(&err).contains(says), "{to}: {err}");
    }
    let skipped = folder.write("skipped.csv", &text.replacen("549.5", "", 1));
    let (_, out, _) = run(&["test", "pressure", DAY, "--log", &skipped]);
    assert!(out.contains("- line 4 has no pressure: left out"), "{out}");
    // the vacuum gauge's logger has columns of its own
    let mut text = String::from("Date;Clock;Vacuum\n");
    for minute in 0..=16 {
        writeln!(text, "2026-10-20;10:{minute:02};{}", 400 + minute).expect("written");
    }
    let at = folder.write("vacuum.csv", &text);
    let (code, out, err) = run(&["test", "vacuum", DAY, "--log", &at]);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("holds. Highest 415 micron"), "{out}");
    // whose calibration is in the job, and past
    assert!(
        flat(&out).contains("micron gauge was due for calibration"),
        "{out}"
    );
}

/// From the pressure test to the valves: the record carries each verdict to the next step.
#[test]
fn one_step_rests_on_the_one_before() {
    let folder = Folder::new();
    let record = folder.path("record.jsonl");
    let tight = folder.write("tight.csv", &log_of(4000, 20, &|_| 550.0));
    let (code, out, err) = run(&[
        "test", "pressure", DAY, "--log", &tight, "--record", &record,
    ]);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("holds. No leak of"), "{out}");
    let mut text = String::from("Date;Clock;Vacuum\n");
    for minute in 0..=16 {
        writeln!(text, "2026-10-23;10:{minute:02};{}", 300 + 10 * minute).expect("written");
    }
    let at = folder.write("vacuum.csv", &text);
    let (_, out, _) = run(&["test", "vacuum", DAY, "--log", &at, "--record", &record]);
    let out = flat(&out);
    // a straight rise: the pressure test of the same record would have seen such a leak
    assert!(out.contains("The pressure test would have seen"), "{out}");
    let (_, out, _) = run(&["charge", DAY, "--record", &record]);
    let out = flat(&out);
    assert!(out.contains("pressure test: holds (record 1)"), "{out}");
    assert!(out.contains("vacuum test: holds (record 2)"), "{out}");
    assert!(out.contains("Valves open, caps on: AF."), "{out}");
}

/// Guided, on a screen of 40 columns: steps, what cannot be, a correction, and going on after.
#[test]
fn guided_on_a_phone() {
    let folder = Folder::new();
    let record = folder.path("record.jsonl");
    let live = |lines: &str| -> String {
        let mut child = Command::new(cargo_bin("northwall"))
            .current_dir(top())
            .env("COLUMNS", "40")
            .args(["test", "pressure", DAY, "--live", "--record", &record])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("it starts");
        let mut keyboard = child.stdin.take().expect("a pipe");
        for line in lines.lines() {
            writeln!(keyboard, "{line}").expect("written");
        }
        drop(keyboard);
        let out = child.wait_with_output().expect("it ends").stdout;
        let out = String::from_utf8(out).expect("text");
        for line in out.lines() {
            assert!(line.chars().count() <= 40, "{line}");
        }
        flat(&out)
    };
    let out = live(
        "next\nnext !\n100 psi, 62 F\nnext!\nnext\n550 psi\n550 psi, 62 F\n80 psi, 62 F\nhelp\nend\n",
    );
    assert!(
        out.contains("Step 1 of 3: 100 psi") && out.contains("Step 3 of 3: 550 psi"),
        "{out}"
    );
    assert!(
        out.contains("are left of this hold. `next !` goes on without it"),
        "{out}"
    );
    assert!(out.find("Never oxygen") < out.find("Step 1"), "{out}");
    assert!(
        out.contains("not kept: This is under the test pressure."),
        "{out}"
    );
    assert!(
        out.contains("not kept: the temperature of the lines is missing"),
        "{out}"
    );
    assert!(out.contains("kept 3: 550 psi, 62 F"), "{out}");
    assert!(
        out.contains("Write it with ! after it if it is so."),
        "{out}"
    );
    let out = live("fix 3: 549.9 psi, 62 F: misread\n620 psi, 62 F\n549 psi, 62 F\nend\n");
    assert!(out.contains("1 readings are kept; going on."), "{out}");
    assert!(out.contains("kept 4: 549.9 psi, 62 F"), "{out}");
    assert!(
        out.contains("STOP. pressure of reading 2 is 620 psi"),
        "{out}"
    );
    assert!(out.contains("If it was misread, `fix` it"), "{out}");
    assert!(
        out.contains("The program was begun anew before the reading at"),
        "{out}"
    );
}

#[test]
fn a_bad_start_up_file_says_its_line() {
    let folder = Folder::new();
    for (from, to, says) in [
        (
            "target = \"550 psi\"",
            "target = \"650 psi\"",
            "at most 600 psi (4137 kPa), the plate's",
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
        ("plate = \"600 psi\"\n", "", "the lowest of all plates"),
        (
            "refrigerant = \"R-32\"",
            "refrigerant = \"R-99\"",
            "this refrigerant is not known",
        ),
        ("refrigerant = \"R-32\"\n", "", "or job = \"job.toml\""),
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
        (
            "who = \"A. Fitter\"",
            "who = \"A. Fitter\"\njob = \"none.toml\"",
            "there is no such job file",
        ),
    ] {
        let at = folder.write("day.toml", &ALONE.replacen(from, to, 1));
        let (code, _, err) = run(&["test", "pressure", &at]);
        assert_eq!(code, 2, "{to}");
        assert!(flat(&err).contains(says), "{to}: {err}");
    }
}
