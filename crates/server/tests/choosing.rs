//! An option of the job is taken through the interface.

mod support;

use axum::http::StatusCode;
use serde_json::json;
use support::{Desk, id};

#[tokio::test(flavor = "multi_thread")]
async fn an_option_is_taken_once_and_put_back_to_the_letter() {
    let desk = Desk::new().await;
    let job = id(1);
    let new = json!({ "id": job, "template": "example", "who": "Ada" });
    assert_eq!(desk.post("/api/jobs", &new).await.0, StatusCode::CREATED);
    let (_, before) = desk.get(&format!("/api/jobs/{job}")).await;
    let take = json!({ "id": id(70), "option": "a head in every bedroom", "who": "Ada" });
    let to = format!("/api/jobs/{job}/options/taken");
    let (status, kept) = desk.send("POST", &to, &take).await;
    assert_eq!(status, StatusCode::OK, "{kept}");
    let (_, after) = desk.get(&format!("/api/jobs/{job}")).await;
    assert_eq!(after["values"]["head"].as_array().map(Vec::len), Some(5));
    // The same again gives the same answer and changes nothing.
    let (status, again) = desk.send("POST", &to, &take).await;
    assert_eq!(
        (status, &again["revision"]),
        (StatusCode::OK, &kept["revision"])
    );
    let none = json!({ "id": id(71), "option": "attic" });
    let (status, refused) = desk.send("POST", &to, &none).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{refused}");
    // Somebody changes a thing and changes it back; then what was taken is still the last.
    for (n, value) in [(72, "40 in"), (73, "20 in")] {
        let (_, now) = desk.get(&format!("/api/jobs/{job}")).await;
        let change = json!({ "id": id(n), "base_revision": now["revision"],
            "edits": [{ "path": "place.snow_depth", "value": value }] });
        let (status, kept) = desk
            .send("POST", &format!("/api/jobs/{job}/changes"), &change)
            .await;
        assert_eq!(status, StatusCode::OK, "{kept}");
    }
    let undo = format!("/api/jobs/{job}/changes/{}/undo", id(70));
    let (status, undone) = desk.send("POST", &undo, &json!({ "id": id(74) })).await;
    assert_eq!(status, StatusCode::OK, "{undone}");
    let (_, back) = desk.get(&format!("/api/jobs/{job}")).await;
    assert_eq!(back["text"], before["text"]);
}
