//! Houses by the thousand: what goes in, what comes out, a run ended with kill -9, bad files.

mod support;

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;

use parquet::data_type::{ByteArray, ByteArrayType, Int64Type};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::file::writer::SerializedFileWriter;
use parquet::record::{Field, Row};
use parquet::schema::parser::parse_message_type;
use serde_json::Value;
use support::{DEMO, project, refused, run};
use tempfile::TempDir;

/// Writes a table of required text columns.
fn table(to: &Path, names: &[&str], rows: &[Vec<&str>]) {
    let fields = names.iter().map(|n| format!("required binary {n} (UTF8);"));
    let fields = fields.collect::<Vec<String>>().concat();
    let schema = parse_message_type(&format!("message houses {{{fields}}}")).expect("a schema");
    let file = std::fs::File::create(to).expect("made");
    let mut writer =
        SerializedFileWriter::new(file, Arc::new(schema), Arc::default()).expect("a writer");
    // Two row groups: rows go on over the border between them.
    let (first, second) = rows.split_at(rows.len() / 2);
    for rows in [first, second] {
        let mut group = writer.next_row_group().expect("a group");
        for at in 0..names.len() {
            let mut to = group.next_column().expect("a column").expect("there");
            let cells: Vec<ByteArray> = rows.iter().map(|r| ByteArray::from(r[at])).collect();
            to.typed::<ByteArrayType>()
                .write_batch(&cells, None, None)
                .expect("written");
            to.close().expect("closed");
        }
        group.close().expect("closed");
    }
    writer.close().expect("closed");
}

/// A folder with the sheets beside and a table of `n` houses of the demo, each with its own leaks.
fn programme(n: usize) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(project().join(DEMO)).expect("the demo");
    let ids: Vec<String> = (0..n).map(|i| format!("h{i}")).collect();
    let leaks: Vec<String> = (0..n)
        .map(|i| format!("{} cfm at 50 Pa", 2100 + 40 * i))
        .collect();
    let rows: Vec<Vec<&str>> = (0..n)
        .map(|i| vec![ids[i].as_str(), &text, "chicago-725300", &leaks[i]])
        .collect();
    let file = folder.path().join("houses.parquet");
    let names = ["id", "job", "weather", "set:leakage.blower_door"];
    table(&file, &names, &rows);
    (folder, file)
}

fn asked(file: &Path, out: &Path, more: &[&str]) -> Vec<String> {
    let sheets = project().join("catalogue");
    let mut all = vec!["season".to_owned(), "--many".to_owned()];
    all.push(file.display().to_string());
    all.extend(["--out".to_owned(), out.display().to_string()]);
    all.extend(["--catalogue".to_owned(), sheets.display().to_string()]);
    all.extend(more.iter().map(|m| (*m).to_owned()));
    all
}

fn ran(file: &Path, out: &Path, more: &[&str]) -> (i32, String, String) {
    let all = asked(file, out, more);
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    run(&all)
}

fn rows(part: &Path) -> Vec<Row> {
    let file = std::fs::File::open(part).expect("a part");
    let file = SerializedFileReader::new(file).expect("Parquet");
    let rows = file.get_row_iter(None).expect("rows");
    rows.map(|r| r.expect("a row")).collect()
}

fn cell<'a>(row: &'a Row, name: &str) -> &'a Field {
    let found = row.get_column_iter().find(|(n, _)| *n == name);
    found.map(|(_, f)| f).expect("a column")
}

fn number(row: &Row, name: &str) -> f64 {
    match cell(row, name) {
        Field::Double(v) => *v,
        Field::Long(v) => *v as f64,
        other => panic!("{name}: {other}"),
    }
}

fn word(row: &Row, name: &str) -> String {
    match cell(row, name) {
        Field::Str(text) => text.clone(),
        other => panic!("{name}: {other}"),
    }
}

/// Names and bytes of the parts.
fn parts(out: &Path) -> Vec<(String, Vec<u8>)> {
    let mut all: Vec<(String, Vec<u8>)> = std::fs::read_dir(out)
        .expect("the folder")
        .map(|e| e.expect("entry").path())
        .filter(|p| p.extension().is_some_and(|e| e == "parquet"))
        .map(|p| {
            let name = p.file_name().unwrap_or_default().display().to_string();
            (name, std::fs::read(&p).expect("bytes"))
        })
        .collect();
    all.sort();
    all
}

/// *Own other way*: the first house is the demo as it stands, so its row holds what `loads` and
/// `season` say of the demo, to the bit.
#[test]
fn a_row_says_what_the_plan_says() {
    let (folder, file) = programme(2);
    let out = folder.path().join("out");
    let (code, _, err) = ran(&file, &out, &[]);
    assert_eq!(code, 0, "{err}");
    let rows = rows(&out.join("part-00000.parquet"));
    assert_eq!(rows.len(), 2);
    let json = |command: &str| -> Value {
        let (_, out, err) = run(&[command, DEMO, "--json"]);
        serde_json::from_str(&out).unwrap_or_else(|e| panic!("{e}: {err}"))
    };
    let (season, loads) = (json("season"), json("loads"));
    let now = &season["choices"][0];
    let kwh = |carrier: &str| {
        let bought = season["year"]["bought"].as_array().expect("a list");
        let found = bought.iter().find(|b| b["carrier"] == carrier);
        found.map_or(Value::from(0.0), |b| b["energy_kwh"].clone())
    };
    for (column, want) in [
        ("heat_kwh", season["house"]["heating_kwh"].clone()),
        ("cooling_kwh", season["house"]["cooling_kwh"].clone()),
        ("short_2k_hours", season["house"]["short_2k_hours"].clone()),
        ("short_k_h", season["house"]["short_k_h"].clone()),
        ("heads_share", season["year"]["heads_share"].clone()),
        ("seasonal_cop", season["year"]["seasonal_cop"].clone()),
        ("electric_peak_w", season["year"]["electric_peak_w"].clone()),
        ("electricity_kwh", kwh("electricity")),
        ("oil_kwh", kwh("oil")),
        ("cost", season["year"]["cost"].clone()),
        ("carbon_kg", season["year"]["carbon_kg"].clone()),
        ("now_cost", now["cost"].clone()),
        ("now_carbon_kg", now["carbon_kg"].clone()),
        ("heating_load_w", loads["heating_w"].clone()),
    ] {
        let want = want
            .as_f64()
            .unwrap_or_else(|| panic!("{column}: no such value"));
        assert_eq!(number(&rows[0], column), want, "{column}");
    }
    assert_eq!(word(&rows[0], "state"), "done");
    assert!(
        number(&rows[1], "heat_kwh") > number(&rows[0], "heat_kwh"),
        "more leaks ask more heat"
    );
}

/// Ended with kill -9 after its first part; the next run keeps what is whole, and every byte is as
/// of a run that nobody ended, with another number of threads.
#[test]
fn a_killed_run_goes_on_to_the_same_bytes() {
    let (folder, file) = programme(12);
    let whole = folder.path().join("whole");
    let more = ["--part", "3", "--threads", "1"];
    assert_eq!(ran(&file, &whole, &more).0, 0);
    let ended = folder.path().join("ended");
    let mut child = Command::new(env!("CARGO_BIN_EXE_northwall"))
        .args(asked(&file, &ended, &["--part", "3", "--threads", "2"]))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("runs");
    let first = ended.join("part-00000.parquet");
    while !first.exists() && child.try_wait().expect("asked").is_none() {
        std::thread::sleep(std::time::Duration::from_millis(2));
    }
    child.kill().expect("ended");
    child.wait().expect("gone");
    assert!(
        !ended.join("_done.json").exists(),
        "it was ended in the middle"
    );
    let there = parts(&ended).len();
    assert!((1..4).contains(&there), "{there} parts");
    // What a run that was ended leaves begun, and a part that is not whole.
    std::fs::write(ended.join(".northwall-begun"), "half").expect("written");
    std::fs::write(ended.join("part-00003.parquet"), "PAR1 half").expect("written");
    let (code, out, err) = ran(&file, &ended, &["--part", "3", "--json"]);
    assert_eq!(code, 0, "{err}");
    let view: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(view["kept"], there, "whole parts are kept");
    assert_eq!(view["done"], 12);
    assert!(!ended.join(".northwall-begun").exists());
    assert!(parts(&ended) == parts(&whole), "the same bytes");
    let done = |f: &Path| std::fs::read(f.join("_done.json")).expect("there");
    assert_eq!(done(&ended), done(&whole));
}

/// Bad houses stand in their rows with their reason; the others are run. Exit code 1.
#[test]
fn one_bad_house_stops_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("houses.parquet");
    let good = std::fs::read_to_string(project().join(DEMO)).expect("the demo");
    let newer = good.replacen("northwall = 1", "northwall = 99", 1);
    let half = format!("{}\n[[room", &good[..good.len() / 3]);
    std::fs::write(folder.path().join("own.toml"), &good).expect("written");
    let here = "chicago-725300";
    let rows_in = [
        vec!["good", good.as_str(), here, ""],
        vec!["newer", &newer, here, ""],
        vec!["half", &half, here, ""],
        vec!["lost", "not/there.toml", here, ""],
        vec!["nowhere", &good, "atlantis-1", ""],
        vec!["other", &good, here, "no such option"],
        vec!["", &good, here, ""],
        vec!["empty", "", here, ""],
        vec!["own", "own.toml", here, ""],
    ];
    // An empty text sets nothing.
    let rows_in = rows_in.map(|mut row| {
        row.push("");
        row
    });
    let names = ["id", "job", "weather", "option", "set:leakage.blower_door"];
    table(&file, &names, &rows_in);
    let out = folder.path().join("out");
    let (code, said, err) = ran(&file, &out, &[]);
    assert_eq!(code, 1, "{err}");
    assert!(said.contains("refused") && said.contains('7'), "{said}");
    let rows = rows(&out.join("part-00000.parquet"));
    assert_eq!(rows.len(), 9);
    for (row, says) in rows.iter().zip([
        None,
        Some("99"),
        Some("line "),
        Some("there is no such job file"),
        Some("atlantis-1"),
        Some("no option \"no such option\""),
        Some("id: the cell is empty"),
        Some("job: the cell is empty"),
        None,
    ]) {
        match says {
            None => assert_eq!(word(row, "state"), "done"),
            Some(says) => {
                assert_eq!(word(row, "state"), "refused");
                assert!(word(row, "says").contains(says), "{}", word(row, "says"));
                assert!(matches!(cell(row, "heat_kwh"), Field::Null));
            }
        }
    }
    assert_eq!(
        number(&rows[0], "heat_kwh"),
        number(&rows[8], "heat_kwh"),
        "by its text or by its path"
    );
}

#[test]
fn files_that_are_not_houses_are_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    let no = |file: &Path, out: &Path, words: &[&str]| {
        let all = asked(file, out, &[]);
        let all: Vec<&str> = all.iter().map(String::as_str).collect();
        refused(&all, words);
        assert!(!out.join("_done.json").exists());
    };
    std::fs::write(at("a.csv"), "id,job\n1,x\n").expect("written");
    no(
        &at("a.csv"),
        &at("o"),
        &["not a whole Parquet file", "nothing was written"],
    );
    std::fs::write(at("empty"), "").expect("written");
    no(&at("empty"), &at("o"), &["not a whole Parquet file"]);
    no(&at("none"), &at("o"), &["there is no such file of houses"]);
    no(folder.path(), &at("o"), &["this is a folder"]);
    table(
        &at("b"),
        &["name", "job"],
        &[vec!["a", "b"], vec!["c", "d"]],
    );
    no(&at("b"), &at("o"), &["there is no column id", "name, job"]);
    table(&at("c"), &["id", "toml"], &[vec!["a", "b"], vec!["c", "d"]]);
    no(&at("c"), &at("o"), &["there is no column job"]);
    table(&at("d"), &["id", "job"], &[]);
    no(&at("d"), &at("o"), &["there is no house in this file"]);
    let schema = "message houses { required int64 id; required int64 job; }";
    let schema = parse_message_type(schema).expect("a schema");
    let file = std::fs::File::create(at("e")).expect("made");
    let mut writer =
        SerializedFileWriter::new(file, Arc::new(schema), Arc::default()).expect("a writer");
    let mut group = writer.next_row_group().expect("a group");
    while let Some(mut to) = group.next_column().expect("a column") {
        to.typed::<Int64Type>()
            .write_batch(&[1], None, None)
            .expect("written");
        to.close().expect("closed");
    }
    group.close().expect("closed");
    writer.close().expect("closed");
    no(
        &at("e"),
        &at("o"),
        &[
            "job: the column is of another kind",
            "INT64",
            "text (UTF-8)",
        ],
    );
    assert!(
        !at("o").exists(),
        "nothing was made for a file that is refused"
    );

    let rows = [vec!["a", "x.toml"], vec!["b", "y.toml"]];
    table(&at("f"), &["id", "job"], &rows);
    let bytes = std::fs::read(at("f")).expect("bytes");
    std::fs::write(at("cut"), &bytes[..bytes.len() - 9]).expect("written");
    no(&at("cut"), &at("o"), &["not a whole Parquet file"]);
    std::fs::create_dir(at("full")).expect("made");
    std::fs::write(at("full").join("letter.txt"), "x").expect("written");
    no(
        &at("f"),
        &at("full"),
        &["holds something else", "letter.txt"],
    );
    no(&at("f"), &at("no/such"), &["the folder cannot be made"]);
    assert_eq!(ran(&at("f"), &at("o"), &[]).0, 1);
    table(
        &at("g"),
        &["id", "job"],
        &[vec!["a", "z.toml"], vec!["b", "y.toml"]],
    );
    let all = asked(&at("g"), &at("o"), &[]);
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    refused(&all, &["the answer to another question", "file:"]);
    assert!(!parts(&at("o")).is_empty(), "and its parts stand");
}

#[test]
fn the_page_has_every_column() {
    let (_, schema, _) = run(&["schema", "many.output.json"]);
    assert!(schema.contains("rows_a_part"));
    let page = std::fs::read_to_string(project().join("docs/many.md")).expect("the page");
    for column in programme::COLUMNS {
        let row = format!(
            "| `{}` | {} | {} |",
            column.name,
            column.word(),
            column.says
        );
        assert!(page.contains(&row), "docs/many.md: {row}");
    }
}
