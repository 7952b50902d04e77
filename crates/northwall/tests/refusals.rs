//! Bad files and flags: one clear message with place, value, what is allowed and how to mend it;
//! exit code 2; nothing written.

mod support;

use std::path::Path;

use support::{BOX, DEMO, northwall, project, refused, run};

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

fn write(folder: &Path, name: &str, text: &[u8]) -> String {
    let path = folder.join(name);
    std::fs::write(&path, text).expect("writes");
    path.display().to_string()
}

fn demo_with(from: &str, to: &str) -> String {
    let text = std::fs::read_to_string(project().join(BOX)).expect("reads");
    assert!(text.contains(from), "{from} is not in the job");
    text.replace(from, to)
        .replace("../../weather/denver-725650.epw.gz", "denver-725650")
}

#[test]
fn job_files_that_are_none() {
    let dir = folder();
    let d = dir.path();
    let empty = write(d, "empty.toml", b"");
    let binary = write(d, "photo.toml", &[0xff, 0xd8, 0xff, 0xe0, 0, 16]);
    let weather = write(
        d,
        "job.toml",
        b"LOCATION,Denver,CO,USA,TMY3,725650,39.83,-104.65,-7,1650\n",
    );
    let huge = write(d, "huge.toml", &vec![b'#'; 5_000_000]);
    let gz = project()
        .join("weather/denver-725650.epw.gz")
        .display()
        .to_string();
    let png = write(d, "not.toml", b"{\"json\": 1}");
    for ask in ["check", "loads", "season", "why"] {
        refused(
            &[ask, "no-such.toml"],
            &["no-such.toml", "there is no such job file", "mend"],
        );
        refused(
            &[ask, "jobs"],
            &["this is a folder, not a job file", "mend"],
        );
    }
    refused(&["check", &empty], &["the file is empty", "northwall new"]);
    refused(&["check", &binary], &["not UTF-8 text", "mend"]);
    refused(
        &["check", &weather],
        &["this is a weather file, not a job file", "[place]"],
    );
    refused(&["check", &gz], &["this is a weather file, not a job file"]);
    refused(
        &["check", &huge],
        &["too large", "5000000 bytes", "at most 4000000 bytes"],
    );
    refused(&["check", &png], &["not.toml, line 1"]);
    refused(&["check", "/dev/null"], &["not an ordinary file"]);
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read() {
    use std::os::unix::fs::PermissionsExt;
    let dir = folder();
    let path = write(dir.path(), "secret.toml", b"northwall = 1\n");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o000)).expect("is ours");
    // The one user whom nothing is refused cannot be tested this way.
    if std::fs::read(&path).is_err() {
        refused(&["check", &path], &["may not be read", "mend"]);
    }
}

#[test]
fn a_line_of_the_job_is_shown_with_its_value() {
    let dir = folder();
    let job = write(
        dir.path(),
        "job.toml",
        demo_with("heated_to = \"20 C\"", "heated_to = 20").as_bytes(),
    );
    refused(
        &["loads", &job],
        &[
            "line",
            "heated_to = 20",
            "^^",
            "room.box.heated_to",
            "got",
            "allowed",
            "mend",
        ],
    );
    let job = write(
        dir.path(),
        "job.toml",
        demo_with("width = \"3 m\"", "width = \"30 m\"").as_bytes(),
    );
    refused(&["loads", &job], &["window", "30", "mend"]);
    let job = write(
        dir.path(),
        "job.toml",
        demo_with("cooled_to", "coold_to").as_bytes(),
    );
    refused(&["loads", &job], &["did you mean `cooled_to`?"]);
}

#[test]
fn weather_that_cannot_be_used() {
    let dir = folder();
    let d = dir.path();
    let empty = write(d, "empty.epw", b"");
    let short = write(d, "short.epw", b"LOCATION,A,B,USA,TMY3,1,45,-90,-6,100\n");
    let job = write(
        d,
        "job.toml",
        demo_with("cooled_to", "cooled_to")
            .replace("denver-725650", "no.epw")
            .as_bytes(),
    );
    refused(
        &["season", &job],
        &["no.epw", "there is no such weather file", "denver-725650"],
    );
    refused(
        &["season", BOX, "--weather", "nowhere.epw"],
        &["nowhere.epw", "there is no such weather file"],
    );
    refused(
        &["season", BOX, "--weather", "jobs"],
        &["this is a folder, not a weather file"],
    );
    refused(
        &["season", BOX, "--weather", &empty],
        &["the weather file is empty"],
    );
    refused(&["season", BOX, "--weather", &short], &["short.epw"]);
    refused(
        &["season", BOX, "--weather", DEMO],
        &["not a weather file known here"],
    );
    let (code, out, _) = run(&["season", BOX, "--weather", "denver-725650"]);
    assert!(
        code == 0 && out.contains("Denver"),
        "a station that ships goes by its name"
    );
}

#[test]
fn catalogues_that_cannot_be_used() {
    let dir = folder();
    let d = dir.path();
    refused(
        &["check", DEMO, "--catalogue", "no-such"],
        &["no such folder of data sheets", "--catalogue"],
    );
    refused(
        &["check", DEMO, "--catalogue", BOX],
        &["a file, not a folder"],
    );
    refused(
        &["check", DEMO, "--catalogue", &d.display().to_string()],
        &["no data sheet in this folder"],
    );
    write(
        d,
        "bad.toml",
        b"northwall_sheet = 1\nname = \"A\"\nsheet = \"B\"\nkind = \"wall hed\"\n",
    );
    refused(
        &["check", DEMO, "--catalogue", &d.display().to_string()],
        &["bad.toml, line 4", "wall hed", "wall head"],
    );
}

#[test]
fn sheets_that_cannot_be_used() {
    let dir = folder();
    let d = dir.path();
    let empty = write(d, "empty.toml", b"");
    let torn = write(d, "torn.toml", b"northwall_sheet = 1\nname = \n");
    let binary = write(d, "scan.toml", &[0xff, 0xfe, 0]);
    refused(&["sheet", "no-such.toml"], &["there is no such data sheet"]);
    refused(
        &["sheet", "catalogue"],
        &["this is a folder, not a data sheet"],
    );
    refused(&["sheet", &empty], &["an empty file", "mend"]);
    refused(&["sheet", &torn], &["torn.toml, line 2"]);
    refused(&["sheet", &binary], &["not UTF-8 text"]);
    refused(&["sheet", BOX], &["northwall"]);
}

#[test]
fn keys_and_options_that_are_not_there() {
    refused(
        &["why", DEMO, "loads.hous.heating"],
        &["no figure of this name", "did you mean loads.house.heating"],
    );
    refused(
        &["why", DEMO, "qqq"],
        &["no figure of this name", "ask for a beginning"],
    );
    refused(
        &["season", DEMO, "--option", "a head in each bedroom"],
        &[
            "no such option",
            "did you mean \"a head in every bedroom\"?",
        ],
    );
    refused(
        &["season", BOX, "--option", "x"],
        &["no such option", "no [[option]]"],
    );
    refused(
        &["prove", "--only", "no-such-check"],
        &["no check has an id like this"],
    );
}

#[test]
fn flags_that_are_none() {
    for arguments in [
        &["chek", DEMO][..],
        &["check"],
        &["check", DEMO, "--jsn"],
        &["check", DEMO, "--svg"],
        &["season", DEMO, "--ideal", "--option", "x"],
        &["loads", DEMO, "--chart", "pie"],
        &["completions", "tcl"],
        &["sheet", "catalogue/loon-12.toml", "--duty", "drying"],
    ] {
        let (code, out, err) = run(arguments);
        assert_eq!(code, 2, "{arguments:?}");
        assert!(
            out.is_empty() && err.contains("error"),
            "{arguments:?}: {err}"
        );
    }
    let (_, _, err) = run(&["chek", DEMO]);
    assert!(err.contains("check"), "the nearest command is named: {err}");
}

#[test]
fn charts_are_written_whole_or_not_at_all() {
    let dir = folder();
    let d = dir.path();
    let at = |name: &str| d.join(name).display().to_string();
    refused(
        &["season", DEMO, "--svg", &at("no/such/a.svg")],
        &["no such folder to write into", "mend"],
    );
    refused(
        &["season", DEMO, "--svg", &d.display().to_string()],
        &["this is a folder; a file is wanted"],
    );
    refused(
        &["why", DEMO, "loads.house.heating", "--svg", &at("a.svg")],
        &["why has no chart to write"],
    );
    refused(
        &["man", "--svg", &at("a.svg")],
        &["man has no chart to write"],
    );
    refused(
        &["sheet", "catalogue/teal-12.toml", "--svg", &at("a.svg")],
        &["no chart to write"],
    );
    let left: Vec<_> = std::fs::read_dir(d).expect("is there").collect();
    assert!(left.is_empty(), "something was left behind: {left:?}");
    let asks: [&[&str]; 8] = [
        &["check", DEMO],
        &["loads", DEMO],
        &["loads", DEMO, "--chart", "bars"],
        &["season", DEMO],
        &["season", DEMO, "--chart", "year"],
        &["season", BOX],
        &["sheet", "catalogue/loon-12.toml"],
        &["prove"],
    ];
    for (i, ask) in asks.iter().enumerate() {
        let file = at(&format!("{i}.svg"));
        let mut all = ask.to_vec();
        all.extend(["--svg", &file]);
        let (code, _, err) = run(&all);
        assert!(code == 0 || code == 1, "{ask:?}: {err}");
        let svg = std::fs::read_to_string(&file).expect("written");
        assert!(
            svg.starts_with("<svg") && svg.ends_with("</svg>\n"),
            "{ask:?}"
        );
        assert!(
            !svg.contains("NaN") && !svg.contains("inf"),
            "{ask:?} has a place that is none"
        );
        assert!(
            svg.contains("prefers-color-scheme:dark") && svg.contains("<title>"),
            "{ask:?}"
        );
        well_formed(&svg, ask);
    }
    assert_eq!(std::fs::read_dir(d).expect("is there").count(), asks.len());
}

/// Every tag that opens closes, in order.
fn well_formed(svg: &str, of: &[&str]) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = svg;
    while let Some(at) = rest.find('<') {
        let end = at
            + rest[at..]
                .find('>')
                .unwrap_or_else(|| panic!("{of:?}: a tag without end"));
        let tag = &rest[at + 1..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "{of:?}");
        } else if !tag.ends_with('/') {
            open.push(tag.split_whitespace().next().unwrap_or(""));
        }
    }
    assert!(open.is_empty(), "{of:?}: {open:?} never close");
}

#[test]
fn refusals_are_json_where_json_is_asked() {
    let out = northwall(&["check", "no-such.toml", "--json"])
        .output()
        .expect("runs");
    assert_eq!(out.status.code(), Some(2));
    let err: serde_json::Value = serde_json::from_slice(&out.stderr).expect("JSON");
    assert_eq!(err["refused"][0]["file"], "no-such.toml");
    assert!(
        err["refused"][0]["says"]
            .as_str()
            .is_some_and(|s| s.contains("no such"))
    );
}
