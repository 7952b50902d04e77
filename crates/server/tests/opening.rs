//! Charge and first run over the interface. The figures asked are those of the job's own sheets;
//! limits are those that `startup` documents.
// A test may say that what it set up is there.
#![allow(clippy::expect_used, clippy::missing_panics_doc)]

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Desk, id};

const WHEN: &str = "2026-11-25T10:00:00-05:00";

fn weighing(n: u64, before: &str, after: &str) -> Value {
    json!({ "id": id(n), "at": WHEN, "who": "Ada", "outdoor": "east wall", "cylinder": "7",
        "before": before, "after": after, "scale_within": "5 g" })
}

fn run(n: u64) -> Value {
    json!({ "id": id(n), "at": WHEN, "who": "Ada", "outdoor_unit": "east wall", "head": "living",
        "mode": "heating", "minutes": 25.0, "outdoor": "44 F", "back": "68 F", "supply": "104 F",
        "flow": "280 cfm", "power": "900 W", "volts": "236 V" })
}

fn number(v: &Value, at: &str) -> f64 {
    v.pointer(at).and_then(Value::as_f64).unwrap_or(f64::NAN)
}

#[tokio::test(flavor = "multi_thread")]
async fn a_weighing_is_held_against_what_the_lines_ask() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let (status, opening) = desk.get(&format!("/api/jobs/{job}/opening")).await;
    assert_eq!(status, StatusCode::OK, "{opening}");
    let unit = &opening["units"][0];
    assert_eq!(unit["outdoor"], "east wall");
    let trim = number(unit, "/trim_kg");
    assert!(
        trim.is_finite() && number(unit, "/factory_kg") > 0.5,
        "{unit}"
    );
    assert_eq!(opening["release"].as_array().map(Vec::len), Some(5));
    let to = format!("/api/jobs/{job}/charges");
    let right = |n| weighing(n, "9.000 kg", &format!("{:.4} kg", 9.0 - trim));

    let mut trial = right(20);
    trial["trial"] = json!(true);
    let (status, tried) = desk.post(&to, &trial).await;
    assert_eq!(
        (status, &tried["verdict"], &tried["n"]),
        (StatusCode::OK, &json!("holds"), &Value::Null),
        "{tried}"
    );
    assert!(
        tried["would_tell"]
            .as_str()
            .is_some_and(|t| t.contains("Leave the valves shut"))
    );
    let (_, none) = desk.get(&format!("/api/jobs/{job}/opening")).await;
    assert_eq!(none["charges"], json!([]), "a trial is not kept");

    let (status, kept) = desk.post(&to, &right(21)).await;
    assert_eq!((status, &kept["n"]), (StatusCode::OK, &json!(1)), "{kept}");
    let (_, again) = desk.post(&to, &right(21)).await;
    assert_eq!(again["n"], json!(1), "the same again changes nothing");
    assert!((number(&kept, "/weighed/added_kg/0") - trim).abs() < 1e-3);

    // half a pound too much, from another cylinder
    let mut much = weighing(22, "8.000 kg", &format!("{:.4} kg", 8.0 - trim - 0.227));
    much["cylinder"] = json!("8");
    let (_, fails) = desk.post(&to, &much).await;
    assert_eq!(fails["verdict"], "fails", "{fails}");
    assert!(
        fails["would_tell"]
            .as_str()
            .is_some_and(|t| t.contains("Recover"))
    );
    let (_, opening) = desk.get(&format!("/api/jobs/{job}/opening")).await;
    assert_eq!(opening["ledger"]["verdict"], "fails");
    assert!((number(&opening, "/ledger/unaccounted_kg") - 0.227).abs() < 2e-3);

    // corrected: the first stays in the chain, the last word stands
    much["id"] = json!(id(23));
    much["after"] = json!(format!("{:.4} kg", 8.0 - trim));
    much["corrects"] = json!(2);
    let (status, refused) = desk.post(&to, &much).await;
    assert_eq!(
        status,
        StatusCode::BAD_REQUEST,
        "a correction needs why: {refused}"
    );
    much["why"] = json!("read the wrong line");
    let (status, put_right) = desk.post(&to, &much).await;
    assert_eq!(
        (status, &put_right["verdict"]),
        (StatusCode::OK, &json!("holds")),
        "{put_right}"
    );
    let (_, opening) = desk.get(&format!("/api/jobs/{job}/opening")).await;
    assert_eq!(opening["charges"].as_array().map(Vec::len), Some(2));
    assert_eq!(
        opening["ledger"]["verdict"], "holds",
        "{}",
        opening["ledger"]
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn valves_opened_before_the_tests_hold_fail() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let mut early = weighing(30, "9.000 kg", "9.000 kg");
    early["opened"] = json!("AF");
    let (status, judged) = desk.post(&format!("/api/jobs/{job}/charges"), &early).await;
    assert_eq!(
        (status, &judged["verdict"]),
        (StatusCode::OK, &json!("fails")),
        "{judged}"
    );
    let says = judged["says"].as_str().unwrap_or_default();
    assert!(says.contains("pressure and the vacuum"), "{says}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_first_run_against_the_units_own_data() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let to = format!("/api/jobs/{job}/runs");
    let mut trial = run(40);
    trial["trial"] = json!(true);
    trial["power"] = Value::Null;
    let (status, tried) = desk.post(&to, &trial).await;
    assert_eq!(
        (status, &tried["verdict"]),
        (StatusCode::OK, &json!("cannot tell")),
        "{tried}"
    );
    assert!(
        tried["would_tell"]
            .as_str()
            .is_some_and(|t| t.contains("power meter")),
        "{tried}"
    );
    let (_, kept) = desk.post(&to, &run(41)).await;
    assert_eq!(
        (&kept["verdict"], &kept["n"]),
        (&json!("holds"), &json!(1)),
        "{kept}"
    );
    // cold air out of a head that heats
    let mut cold = run(42);
    cold["supply"] = json!("60 F");
    let (_, fails) = desk.post(&to, &cold).await;
    assert_eq!(fails["verdict"], "fails", "{fails}");
    let (_, opening) = desk.get(&format!("/api/jobs/{job}/opening")).await;
    let runs = opening["runs"].as_array().expect("runs");
    assert_eq!(runs.len(), 2);
    assert_eq!(runs[0]["checks"], kept["checks"], "kept as it was judged");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cannot_be_used_says_where_and_how_to_mend() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    for (to, change, place) in [
        ("charges", json!({ "before": "9.0" }), "before"),
        ("charges", json!({ "cylinder": " " }), "cylinder"),
        ("charges", json!({ "outdoor": "roof" }), "outdoor unit"),
        ("charges", json!({ "after": "900 kg" }), "scale after"),
        ("charges", json!({ "id": "none" }), "UUID"),
        ("charges", json!({ "corrects": 1, "why": "x" }), "corrects"),
        ("runs", json!({ "head": "attic" }), "head"),
        ("runs", json!({ "head": null }), "head"),
        ("runs", json!({ "mode": "drying" }), "mode"),
        ("runs", json!({ "outdoor": "44" }), "outdoor"),
        ("runs", json!({ "flow": null, "speed": 99 }), "speed"),
        ("runs", json!({ "minutes": -3.0 }), "minutes"),
    ] {
        let mut body = if to == "runs" {
            run(50)
        } else {
            weighing(50, "9.000 kg", "9.000 kg")
        };
        for (k, v) in change.as_object().expect("object") {
            body[k] = v.clone();
        }
        let (status, refused) = desk.post(&format!("/api/jobs/{job}/{to}"), &body).await;
        assert_eq!(status, StatusCode::BAD_REQUEST, "{change}: {refused}");
        let says = refused["says"].as_str().unwrap_or_default();
        assert!(says.contains(place), "{change}: {refused}");
    }
    let (_, opening) = desk.get(&format!("/api/jobs/{job}/opening")).await;
    assert_eq!(
        (&opening["charges"], &opening["runs"]),
        (&json!([]), &json!([]))
    );
}
