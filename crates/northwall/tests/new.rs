//! A first job from flags: what is written reads, and nothing is written over.

mod support;

use std::path::Path;

use support::{refused, run};

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

#[test]
fn new_asks_nothing_without_a_terminal_and_writes_over_nothing() {
    let dir = folder();
    let job = dir.path().join("job.toml").display().to_string();
    let make = [
        "new",
        &job,
        "--name",
        "Hill Road 3",
        "--built",
        "empty",
        "--blower-door",
        "1800 cfm at 50 Pa",
    ];
    let (code, out, err) = run(&make);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("next: northwall check"), "{out}");
    let first = std::fs::read_to_string(&job).expect("written");
    assert!(first.contains("Hill Road 3"));
    refused(&make, &["the file is there already", "--force"]);
    assert_eq!(std::fs::read_to_string(&job).expect("is there"), first);
    for ask in ["check", "loads", "season"] {
        let (code, _, err) = run(&[ask, &job]);
        assert!(code == 0 || code == 1, "{ask}: {err}");
    }
    let mut again = make.to_vec();
    again[3] = "Hill Road 4";
    again.push("--force");
    assert_eq!(run(&again).0, 0);
    assert!(
        std::fs::read_to_string(&job)
            .expect("is there")
            .contains("Hill Road 4")
    );
    assert_eq!(
        std::fs::read_dir(dir.path()).expect("is there").count(),
        1,
        "no scraps"
    );
}

#[test]
fn new_refuses_what_no_house_is() {
    let dir = folder();
    let job = dir.path().join("job.toml").display().to_string();
    let bad: [(&[&str], &[&str]); 12] = [
        (
            &["--rooms", "living,,bath"],
            &["--rooms", "a name is missing"],
        ),
        (
            &["--rooms", "bed 1, bed 1"],
            &["--rooms", "two rooms have one name"],
        ),
        (&["--storeys", "4"], &["--storeys", "1, 2 or 3"]),
        (&["--width", "30"], &["--width", "30", "7 ft to 200 ft"]),
        (&["--width", "1 ft"], &["out of range"]),
        (&["--depth", "30 kg"], &["--depth", "30 kg"]),
        (&["--area", "-5 ft2"], &["--area", "-5 ft2"]),
        (&["--area", "NaN ft2"], &["--area"]),
        (&["--built", "god"], &["--built", "did you mean good?"]),
        (&["--under", "celler"], &["basement, crawl, slab"]),
        (
            &["--heat-now", "boiler"],
            &["what does it burn?", "boiler:oil"],
        ),
        (
            &["--windows", "doubl clear"],
            &["did you mean \"double clear\"?"],
        ),
    ];
    for (flags, words) in bad {
        // A value that begins with a dash must be bound to its flag.
        let bound = format!("{}={}", flags[0], flags[1]);
        refused(&["new", &job, "--name", "x", &bound], words);
        assert!(!Path::new(&job).exists(), "{flags:?} wrote a file");
    }
    refused(
        &["new", &job, "--name", "x", "--blower-door", "leaky"],
        &["leaky"],
    );
    refused(
        &["new", &job, "--name", "x", "--svg", "a.svg"],
        &["new has no chart"],
    );
    assert!(!Path::new(&job).exists());
}

/// As a person types them: a value apart from its flag, and below zero.
#[test]
fn a_flag_below_zero_or_empty_is_refused_in_the_same_words() {
    let dir = folder();
    let job = dir.path().join("job.toml").display().to_string();
    for (flag, value, told) in [
        ("--area", "-5 ft2", "100 to 20,000 ft2"),
        ("--width", "-30 ft", "7 ft to 200 ft"),
        ("--blower-door", "-2100 cfm", "mend"),
        ("--name", " ", "nothing is written here"),
    ] {
        refused(&["new", &job, flag, value], &[value, told]);
    }
    assert!(!dir.path().join("job.toml").exists());
}

/// The path of a weather file is given from where somebody stands, and written from the job.
#[test]
fn a_weather_file_is_named_from_the_folder_of_the_job() {
    let dir = folder();
    let sub = dir.path().join("jobs/one");
    std::fs::create_dir_all(&sub).expect("a folder");
    let shipped = support::project().join("weather/denver-725650.epw.gz");
    std::fs::copy(shipped, dir.path().join("here.epw.gz")).expect("copies");
    let made = support::northwall(&["new", "jobs/one/job.toml", "--weather", "here.epw.gz"])
        .current_dir(dir.path())
        .output()
        .expect("runs");
    assert!(made.status.success());
    let job = sub.join("job.toml").display().to_string();
    let text = std::fs::read_to_string(&job).expect("written");
    assert!(text.contains("weather = \"../../here.epw.gz\""), "{text}");
    assert_eq!(run(&["loads", &job]).0, 0);
    std::fs::remove_file(dir.path().join("here.epw.gz")).expect("removed");
    refused(&["loads", &job], &["from the job's folder"]);
}

/// A station that nobody named is said to be none of somebody's choosing.
#[test]
fn a_station_that_nobody_named_is_told() {
    let dir = folder();
    let at = |name: &str| dir.path().join(name).display().to_string();
    let out = run(&["new", &at("a.toml")]).1;
    assert!(out.contains("nobody named a station"), "{out}");
    let out = run(&["new", &at("b.toml"), "--weather", "denver-725650"]).1;
    assert!(!out.contains("nobody named a station"), "{out}");
}
