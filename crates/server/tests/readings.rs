//! Readings of a test as more than one person takes them.

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Desk, id};

/// The time of a reading is said to the second, and two phones may look at one gauge in one second.
/// Expected by the rule: the hold is judged all the same, by the higher of the two, and both stay.
#[tokio::test(flavor = "multi_thread")]
async fn two_readings_of_one_second_leave_a_hold_to_be_judged() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let rests_on = json!({
        "kind": "vacuum", "refrigerant": "R-32",
        "lines": [{ "tube": "1/4 in", "length": "24 ft" }, { "tube": "3/8 in", "length": "24 ft" }],
        "gauge": { "id": "g", "accuracy": "10 micron", "step": "1 micron", "calibrated": "2026-05-04" },
        "gauge_at": "system", "coldest": "46 F", "source": "the sheet, page 9",
        "reach": "500 micron", "limit": "700 micron", "hold": "15 min"
    });
    let begin = json!({ "id": id(20), "test": "vacuum 1", "who": "Ada", "at": "2026-11-25T10:00:00-05:00", "rests_on": rests_on });
    let (status, test) = desk.post(&format!("/api/jobs/{job}/tests"), &begin).await;
    assert_eq!(status, StatusCode::OK, "{test}");
    let to = format!("/api/jobs/{job}/readings");
    let read = async |n: u64, at: &str, micron: u32| -> Value {
        let reading = json!({ "id": id(n), "at": format!("2026-11-25T{at}-05:00"), "pressure": format!("{micron} micron") });
        let given = json!({ "test": "vacuum 1", "who": "Ada", "readings": [reading] });
        let (status, kept) = desk.post(&to, &given).await;
        assert_eq!(status, StatusCode::OK, "{kept}");
        kept["test"].clone()
    };
    read(30, "10:00:05", 412).await;
    let two = read(31, "10:00:05", 415).await;
    assert_eq!(two["readings"].as_array().map(Vec::len), Some(2), "{two}");
    assert!(
        two["says"]
            .as_str()
            .is_some_and(|s| s.contains("highest 415 micron")),
        "{two}"
    );
    for (n, at) in [(32, "10:04:00"), (33, "10:08:00"), (34, "10:12:00")] {
        assert_eq!(read(n, at, 418).await["verdict"], "cannot tell");
    }
    // a little after its time, as a hand is
    let over = read(35, "10:15:20", 419).await;
    assert_eq!(over["verdict"], "holds", "{over}");
}
