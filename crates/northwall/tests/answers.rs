//! JSON against the published schemas, and numbers against each other.

mod support;

use serde_json::Value;
use support::{BOX, DEMO, FREE, json, project, run};

const DAY: &str = "jobs/lake-street/startup.toml";

fn schema(name: &str) -> Value {
    let text = std::fs::read_to_string(project().join("schema").join(name)).expect(name);
    serde_json::from_str(&text).expect("JSON")
}

/// As much of JSON Schema as the schemas use: types, properties, required, items, references,
/// choices and fixed values. What it does not know it refuses, so that nothing passes unlooked.
fn holds(value: &Value, schema: &Value, root: &Value, at: &str) -> Result<(), String> {
    let Some(rules) = schema.as_object() else {
        return if schema == &Value::Bool(true) {
            Ok(())
        } else {
            Err(format!("{at}: refused"))
        };
    };
    for (rule, of) in rules {
        match rule.as_str() {
            "$ref" => {
                let name = of
                    .as_str()
                    .and_then(|r| r.strip_prefix("#/$defs/"))
                    .unwrap_or("");
                holds(value, &root["$defs"][name], root, at)?;
            }
            "type" => {
                let words: Vec<&str> = match of {
                    Value::Array(all) => all.iter().filter_map(Value::as_str).collect(),
                    one => one.as_str().into_iter().collect(),
                };
                let is = match value {
                    Value::Null => "null",
                    Value::Bool(_) => "boolean",
                    Value::Number(n) if n.is_u64() || n.is_i64() => "integer",
                    Value::Number(_) => "number",
                    Value::String(_) => "string",
                    Value::Array(_) => "array",
                    Value::Object(_) => "object",
                };
                let fits = words.contains(&is) || (is == "integer" && words.contains(&"number"));
                if !fits {
                    return Err(format!("{at}: is {is}, not {words:?}"));
                }
            }
            "properties" => {
                for (key, part) in of.as_object().into_iter().flatten() {
                    if let Some(inner) = value.get(key) {
                        holds(inner, part, root, &format!("{at}.{key}"))?;
                    }
                }
                // Keys that the schema does not name are keys nobody can rely on.
                for key in value.as_object().into_iter().flat_map(|o| o.keys()) {
                    if of.get(key).is_none() {
                        return Err(format!("{at}: key {key} is not in the schema"));
                    }
                }
            }
            "required" => {
                for key in of
                    .as_array()
                    .into_iter()
                    .flatten()
                    .filter_map(Value::as_str)
                {
                    if value.get(key).is_none() {
                        return Err(format!("{at}: {key} is missing"));
                    }
                }
            }
            "items" => {
                for (i, item) in value.as_array().into_iter().flatten().enumerate() {
                    holds(item, of, root, &format!("{at}[{i}]"))?;
                }
            }
            "prefixItems" => {
                let parts = of.as_array().into_iter().flatten();
                for (i, (item, part)) in value
                    .as_array()
                    .into_iter()
                    .flatten()
                    .zip(parts)
                    .enumerate()
                {
                    holds(item, part, root, &format!("{at}[{i}]"))?;
                }
            }
            "minItems" | "maxItems" => {
                let many = value.as_array().map(|a| a.len() as u64);
                let bound = of.as_u64();
                let fits = many.zip(bound).is_none_or(|(n, b)| match rule.as_str() {
                    "minItems" => n >= b,
                    _ => n <= b,
                });
                if !fits {
                    return Err(format!("{at}: {many:?} items, {rule} {of}"));
                }
            }
            "anyOf" | "oneOf" => {
                let tried: Vec<_> = of
                    .as_array()
                    .into_iter()
                    .flatten()
                    .map(|s| holds(value, s, root, at))
                    .collect();
                if !tried.iter().any(Result::is_ok) {
                    return Err(format!("{at}: none of {tried:?}"));
                }
            }
            "minimum" => {
                if value
                    .as_f64()
                    .is_some_and(|v| of.as_f64().is_some_and(|least| v < least))
                {
                    return Err(format!("{at}: under {of}"));
                }
            }
            "$schema" | "$defs" | "title" | "description" | "format" => {}
            other => return Err(format!("{at}: rule {other} is not looked at here")),
        }
    }
    Ok(())
}

#[test]
fn every_answer_keeps_to_its_schema() {
    let asked: [(&str, &[&str]); 22] = [
        ("check.output.json", &["check", DEMO]),
        ("check.output.json", &["check", BOX]),
        ("loads.output.json", &["loads", DEMO]),
        ("loads.output.json", &["loads", BOX]),
        ("season.output.json", &["season", DEMO]),
        ("season.output.json", &["season", DEMO, "--ideal"]),
        ("season.output.json", &["season", FREE]),
        ("why.output.json", &["why", DEMO, "loads.house.heating"]),
        ("why.output.json", &["why", DEMO, "loads"]),
        ("prove.output.json", &["prove"]),
        ("sheet.output.json", &["sheet", "catalogue/loon-12.toml"]),
        ("installation.output.json", &["place", DEMO]),
        ("installation.output.json", &["place", BOX]),
        ("installation.output.json", &["lines", DEMO]),
        ("installation.output.json", &["wires", DEMO]),
        ("installation.output.json", &["list", DEMO]),
        ("suggest.output.json", &["place", DEMO, "--suggest"]),
        ("test-joints.output.json", &["test", "joints", DAY]),
        ("test-pressure.output.json", &["test", "pressure", DAY]),
        ("test-vacuum.output.json", &["test", "vacuum", DAY]),
        ("charge.output.json", &["charge", DAY]),
        ("run.output.json", &["run", DAY]),
    ];
    for (name, arguments) in asked {
        let schema = schema(name);
        let answer = json(arguments);
        if let Err(why) = holds(&answer, &schema, &schema, "") {
            panic!("{arguments:?} against {name}: {why}");
        }
    }
}

/// What the day's commands say when they have readings and a record.
#[test]
fn answers_of_the_day_keep_to_their_schemas() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str| folder.path().join(name).to_str().expect("text").to_owned();
    let (record, log, vacuum) = (path("r.jsonl"), path("p.csv"), path("v.csv"));
    let readings = |head: &str, row: &dyn Fn(usize) -> String| {
        (0..40).fold(head.to_owned(), |text, i| text + &row(i) + "\n")
    };
    let clock = |i: usize| format!("{:02}:{:02}", 8 + i / 60, i % 60);
    let pressure = readings("Time,Pressure,Line\n", &|i| {
        format!("2026-10-20 {},550.0,62.0", clock(i))
    });
    let micron = readings("Date;Clock;Vacuum\n", &|i| {
        format!("2026-10-20;{};{}", clock(i), 400 + i)
    });
    std::fs::write(&log, pressure).expect("written");
    std::fs::write(&vacuum, micron).expect("written");
    let asked: [(&str, &[&str]); 8] = [
        ("test-joints.output.json", &["test", "joints", DAY]),
        (
            "test-pressure.output.json",
            &["test", "pressure", DAY, "--log", &log],
        ),
        (
            "test-vacuum.output.json",
            &["test", "vacuum", DAY, "--log", &vacuum],
        ),
        ("charge.output.json", &["charge", DAY]),
        ("run.output.json", &["run", DAY, "--accept"]),
        ("visit.output.json", &["visit", DAY]),
        ("record.output.json", &["record", "show"]),
        ("record.output.json", &["record", "verify"]),
    ];
    for (name, arguments) in asked {
        let mut all = arguments.to_vec();
        if all[0] != "record" {
            all.push("--record");
        }
        all.push(&record);
        let schema = schema(name);
        let answer = json(&all);
        if let Err(why) = holds(&answer, &schema, &schema, "") {
            panic!("{all:?} against {name}: {why}");
        }
    }
}

#[test]
fn the_published_schemas_are_those_of_the_program() {
    let names = [
        "charge",
        "check",
        "loads",
        "papers",
        "papers-verify",
        "prove",
        "record",
        "run",
        "season",
        "sheet",
        "test-joints",
        "test-pressure",
        "test-vacuum",
        "visit",
        "why",
    ];
    for name in names {
        let file = format!("{name}.output.json");
        let (code, out, _) = run(&["schema", &file]);
        assert_eq!(code, 0);
        let now: Value = serde_json::from_str(&out).expect("JSON");
        assert_eq!(
            now,
            schema(&file),
            "northwall schema {file} > schema/{file}"
        );
    }
}

#[test]
fn season_reports_house_and_rooms() {
    let answer = json(&["season", FREE]);
    assert_eq!(answer["run"], "ideal");
    let rooms = answer["rooms"].as_array().expect("rooms");
    assert_eq!(rooms.len(), 2);
    for of in rooms.iter().chain([&answer["house"]]) {
        for key in [
            "heating_kwh",
            "cooling_kwh",
            "heating_peak_w",
            "cooling_peak_w",
            "least_c",
            "mean_c",
            "greatest_c",
        ] {
            assert!(of[key].is_number(), "{}: {key}", of["name"]);
        }
        let [least, mean, greatest] =
            ["least_c", "mean_c", "greatest_c"].map(|k| of[k].as_f64().unwrap_or(f64::NAN));
        assert!(least <= mean && mean <= greatest, "{}", of["name"]);
    }
    // The sunspace has no heating and no cooling; the house is the back room's need.
    assert_eq!(rooms[1]["heating_kwh"], 0.0);
    assert_eq!(rooms[1]["heating_peak_hour"], Value::Null);
    assert_eq!(rooms[0]["heating_kwh"], answer["house"]["heating_kwh"]);
    assert!(
        rooms[0]["heating_peak_hour"]
            .as_u64()
            .is_some_and(|h| h < 8760)
    );
}

#[test]
fn a_year_with_equipment_adds_up() {
    let answer = json(&["season", DEMO]);
    assert_eq!(answer["run"], "equipment");
    let sum = |key: &str| -> f64 {
        answer["rooms"]
            .as_array()
            .expect("rooms")
            .iter()
            .filter_map(|r| r[key].as_f64())
            .sum()
    };
    // Sums of a year's hours in another order: 1e-6 of the value.
    let near = |a: f64, b: f64| (a - b).abs() <= 1e-6 * b.abs().max(1.0);
    assert!(near(
        sum("heating_kwh"),
        answer["house"]["heating_kwh"].as_f64().unwrap_or(0.0)
    ));
    for unit in answer["year"]["units"].as_array().expect("units") {
        let hours: u64 = unit["hours"]
            .as_array()
            .expect("regimes")
            .iter()
            .filter_map(|h| h["hours"].as_u64())
            .sum();
        assert_eq!(hours, 8760, "{}", unit["name"]);
    }
    assert!(
        answer["year"]["closure"]
            .as_f64()
            .is_some_and(|c| c.abs() < 1e-4)
    );
    let names: Vec<&str> = answer["choices"]
        .as_array()
        .expect("choices")
        .iter()
        .filter_map(|c| c["choice"].as_str())
        .collect();
    assert!(names.contains(&"chosen") && names.len() >= 3, "{names:?}");
    let option = json(&["season", DEMO, "--option", "a head in every bedroom"]);
    assert_eq!(option["choice"], "a head in every bedroom");
}

#[test]
fn units_change_the_words_and_never_the_numbers() {
    assert_eq!(json(&["loads", DEMO]), json(&["loads", DEMO, "--si"]));
    let (us, si) = (run(&["loads", DEMO]).1, run(&["loads", DEMO, "--si"]).1);
    assert!(us.contains("Btu/h") && !si.contains("Btu/h"));
}

#[test]
fn proofs_are_a_list_with_the_five_keys() {
    let answer = json(&["prove"]);
    let all = answer.as_array().expect("a list");
    assert!(all.len() > 100);
    let mut ids: Vec<&str> = Vec::new();
    for check in all {
        for key in ["id", "source", "expected", "got"] {
            assert!(
                check[key].as_str().is_some_and(|t| !t.is_empty()),
                "{check}"
            );
        }
        let verdict = check["verdict"].as_str().unwrap_or("");
        assert!(
            ["holds", "fails", "cannot tell"].contains(&verdict),
            "{check}"
        );
        if verdict != "holds" {
            assert_ne!(
                check["remark"], "",
                "{}: says by how much or why",
                check["id"]
            );
        }
        ids.push(check["id"].as_str().unwrap_or(""));
    }
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), count, "ids are unique");
    let few = json(&["prove", "--only", "std140-600-"]);
    assert!(
        few.as_array().is_some_and(|f| f.len() == 5),
        "four loads and the sun through the glass"
    );
}

#[test]
fn prove_needs_no_files_of_the_project() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = support::northwall(&["prove", "--json"])
        .current_dir(folder.path())
        .output();
    let out = out.expect("runs");
    let here: Value = serde_json::from_slice(&out.stdout).expect("JSON");
    assert_eq!(here, json(&["prove"]));
}
