//! Bands are worked out in the background: edits go on, an edit gives up what it supersedes, and one
//! job is worked on at a time.

mod support;

use axum::http::StatusCode;
use season::bands::Asked;
use serde_json::{Value, json};
use server::Setting;
use support::{Desk, JOB, id};

/// Asks until it is so; how long it takes is not measured.
async fn until(desk: &Desk, job: &str, so: impl Fn(&Value) -> bool) -> Value {
    loop {
        let (status, view) = desk.get(&format!("/api/jobs/{job}/bands")).await;
        assert_eq!(status, StatusCode::OK, "{view}");
        if so(&view) {
            return view;
        }
        tokio::time::sleep(std::time::Duration::from_millis(20)).await;
    }
}

fn with(houses: usize) -> Setting {
    Setting {
        houses: Some(houses),
        ..Setting::default()
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn bands_are_those_of_the_engine_and_are_kept_until_an_edit() {
    let desk = Desk::set(with(4)).await;
    let job = desk.job(1).await;
    let (_, first) = desk.get(&format!("/api/jobs/{job}/bands")).await;
    assert_eq!(first["bands"], Value::Null, "nothing is there at once");
    assert_ne!(first["state"], "done");
    let done = until(&desk, &job, |v| v["state"] == "done").await;
    assert_eq!(
        (&done["revision"], &done["houses"], &done["houses_done"]),
        (&json!(1), &json!(4), &json!(4))
    );

    // The engine asked without a server between: the same numbers.
    let read = jobfile::read(JOB).expect("reads");
    let station = plan::shipped::STATIONS
        .iter()
        .find(|s| read.place.weather.contains(s.name))
        .expect("a station that ships");
    let weather = climate::read_any(station.bytes).expect("weather").value;
    let sheets: Vec<(String, String)> = std::fs::read_dir("../../catalogue")
        .expect("catalogue")
        .map(|f| f.expect("file").path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .map(|p| {
            (
                p.display().to_string(),
                std::fs::read_to_string(p).expect("sheet"),
            )
        })
        .collect();
    let sheets = sheets.iter().map(|(n, t)| (n.as_str(), t.as_str()));
    let catalogue = plan::Catalogue::read(sheets).expect("sheets");
    let asked = Asked {
        samples: 4,
        ..Asked::default()
    };
    let choices = read.choices();
    let own =
        plan::banded(&read, &catalogue, &weather, &choices, &asked, &|_| true).expect("bands");
    let shown = done["bands"]["choices"].as_array().expect("choices");
    assert_eq!(shown.len(), own.choices.len());
    for (shown, (name, own)) in shown.iter().zip(&own.choices) {
        let own = own.as_ref().expect("a year");
        assert_eq!(shown["choice"], *name);
        assert_eq!(shown["carries"], json!(own.carries));
        let cost = own.cost.expect("prices");
        assert_eq!(
            shown["cost"],
            json!({ "key": format!("{}.cost", plan::bands_key(name)), "as_entered": cost.as_entered,
                "low": cost.low, "middle": cost.middle, "high": cost.high })
        );
    }

    // An edit: the bands that were are no longer those of the job.
    let change = json!({ "id": id(10), "base_revision": 1,
        "edits": [{ "path": "place.snow_depth", "value": "30 in" }] });
    let (status, _) = desk
        .post(&format!("/api/jobs/{job}/changes"), &change)
        .await;
    assert_eq!(status, StatusCode::OK);
    let (_, after) = desk.get(&format!("/api/jobs/{job}/bands")).await;
    assert_eq!(
        (&after["revision"], &after["bands"]),
        (&json!(2), &Value::Null)
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn edits_go_on_while_bands_are_worked_out_and_one_job_is_worked_on_at_a_time() {
    // So many houses that none of it comes to an end by itself here.
    let desk = Desk::set(with(1_000_000)).await;
    let (one, two) = (desk.job(1).await, desk.job(2).await);
    let begun = |v: &Value| v["state"] == "working" && v["houses_looked_at"].as_u64() > Some(0);
    until(&desk, &one, begun).await;
    let (_, other) = desk.get(&format!("/api/jobs/{two}/bands")).await;
    assert_eq!(other["state"], "waiting", "the other job has to wait");

    // An edit is kept and its plan made although the work goes on.
    let change = json!({ "id": id(10), "base_revision": 1,
        "edits": [{ "path": "place.snow_depth", "value": "30 in" }] });
    let (status, _) = desk
        .post(&format!("/api/jobs/{one}/changes"), &change)
        .await;
    assert_eq!(status, StatusCode::OK);
    let (status, plan) = desk.get(&format!("/api/jobs/{one}/plan")).await;
    assert_eq!((status, &plan["revision"]), (StatusCode::OK, &json!(2)));
    let (_, still) = desk.get(&format!("/api/jobs/{two}/bands")).await;
    assert_eq!(
        still["state"], "waiting",
        "nobody asked for the new revision yet"
    );

    // Asked for the new revision, the work on the old one is given up and the next has its turn.
    let (_, new) = desk.get(&format!("/api/jobs/{one}/bands")).await;
    assert_eq!(
        (&new["revision"], &new["state"]),
        (&json!(2), &json!("waiting"))
    );
    until(&desk, &two, begun).await;
    let (_, new) = desk.get(&format!("/api/jobs/{one}/bands")).await;
    assert_eq!(new["state"], "waiting");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_job_without_heads_has_none_and_says_so() {
    let desk = Desk::set(with(4)).await;
    let new = json!({ "id": id(1), "template": "first", "who": "Ada" });
    assert_eq!(desk.post("/api/jobs", &new).await.0, StatusCode::CREATED);
    let view = until(&desk, &id(1), |v| v["state"] == "cannot").await;
    let says = view["cannot_tell"].as_str().unwrap_or("");
    assert!(says.contains("no heads"), "{says}");
}

/// Every leaf of a why.
fn leaves(of: &Value, all: &mut Vec<Value>) {
    let inputs = of["inputs"].as_array().expect("inputs");
    if inputs.is_empty() {
        all.push(of.clone());
    }
    for i in inputs {
        leaves(i, all);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn every_number_of_the_table_has_a_why_down_to_the_job_the_widths_and_the_seed() {
    let desk = Desk::set(with(4)).await;
    let job = desk.job(1).await;
    let why = |key: &str| format!("/api/jobs/{job}/bands/why/{key}");
    // None is there before they are asked for.
    let (status, none) = desk.get(&why("bands.chosen.cost.low")).await;
    assert_eq!(status, StatusCode::CONFLICT, "{none}");
    let done = until(&desk, &job, |v| v["state"] == "done").await;
    let choices = done["bands"]["choices"].as_array().expect("choices");
    for c in choices {
        let carries = c["carries_key"].as_str().expect("a key");
        let (status, tree) = desk.get(&why(carries)).await;
        assert_eq!((status, &tree["value"]), (StatusCode::OK, &c["carries"]));
        for (what, times) in [
            ("cost", 1.0),
            ("cop", 1.0),
            ("heads_share", 1.0),
            ("short_h", 3600.0),
            ("cycling_h", 3600.0),
            ("least_c", 1.0),
        ] {
            for end in ["low", "middle", "high"] {
                let key = format!("{}.{end}", c[what]["key"].as_str().expect("a key"));
                let (status, tree) = desk.get(&why(&key)).await;
                assert_eq!(status, StatusCode::OK, "{key}: {tree}");
                let value = c[what][end].as_f64().expect("a number") * times;
                assert_eq!(tree["value"], json!(value), "{key}");
            }
        }
    }
    let (_, tree) = desk.get(&why("bands.chosen.cost.high")).await;
    assert_eq!(tree["inputs"][0]["key"], "season.chosen.house.cost");
    let mut all = Vec::new();
    leaves(&tree, &mut all);
    let of = |key: &str| all.iter().find(|w| w["key"] == key).cloned();
    assert_eq!(of("bands.seed").expect("a seed")["value"], json!(1.0));
    assert_eq!(of("bands.houses").expect("houses")["value"], json!(4.0));
    // The line on which the job says it, counted in the text itself.
    let line = 1 + JOB
        .lines()
        .position(|l| l.starts_with("blower_door"))
        .expect("it is there");
    let leaks = of("leaks.tested").expect("the test of the leakage");
    assert_eq!(
        (&leaks["line"], &leaks["rests_on"], &leaks["known"]),
        (&json!(line), &json!("job"), &json!("seen"))
    );
    let widths = of("bands.input.leakage-of-the-house.low").expect("its width");
    assert_eq!(widths["rests_on"], "publication");

    // No such figure; and after an edit the numbers that were are nobody's.
    let (status, near) = desk.get(&why("bands.chosen.cost")).await;
    assert_eq!(status, StatusCode::NOT_FOUND);
    assert!(
        near["mend"]
            .as_str()
            .expect("near")
            .contains("bands.chosen.cost.low")
    );
    let change = json!({ "id": id(10), "base_revision": 1,
        "edits": [{ "path": "place.snow_depth", "value": "30 in" }] });
    let (status, _) = desk
        .post(&format!("/api/jobs/{job}/changes"), &change)
        .await;
    assert_eq!(status, StatusCode::OK);
    let (status, gone) = desk.get(&why("bands.chosen.cost.low")).await;
    assert_eq!(
        (status, &gone["kind"]),
        (StatusCode::CONFLICT, &json!("waits")),
        "{gone}"
    );
}
