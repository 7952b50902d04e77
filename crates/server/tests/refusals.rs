//! Every refusal has the one form, also where the framework and not a handler refuses. The cases are
//! those that schemathesis found (`checks/interface`).
// A test may say that what it set up is there.
#![allow(clippy::expect_used, clippy::missing_panics_doc)]

mod support;

use axum::http::StatusCode;
use serde_json::Value;
use support::Desk;

#[tokio::test(flavor = "multi_thread")]
async fn what_does_not_read_is_refused_in_the_one_form() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    for (method, to, status) in [
        (
            "GET",
            format!("/api/jobs/{job}/plan?si=null"),
            StatusCode::BAD_REQUEST,
        ),
        (
            "GET",
            format!("/api/jobs/{job}/changes?after=x"),
            StatusCode::BAD_REQUEST,
        ),
        (
            "GET",
            "/api/trail?before=9223372036854775808".to_owned(),
            StatusCode::BAD_REQUEST,
        ),
        (
            "GET",
            "/api/jobs/%ff/plan".to_owned(),
            StatusCode::BAD_REQUEST,
        ),
        (
            "POST",
            format!("/api/jobs/{job}/photos?shows=x&id=x&keep_position=null"),
            StatusCode::BAD_REQUEST,
        ),
        (
            "PATCH",
            format!("/api/jobs/{job}"),
            StatusCode::METHOD_NOT_ALLOWED,
        ),
        ("GET", "/api/nothing".to_owned(), StatusCode::NOT_FOUND),
    ] {
        let answer = desk.raw(method, &to, None).await;
        assert_eq!(answer.status, status, "{method} {to}: {}", answer.text());
        assert_eq!(
            answer.header("content-type"),
            "application/json",
            "{method} {to}"
        );
        let refused: Value = serde_json::from_slice(&answer.bytes).expect("JSON");
        for key in ["kind", "says", "got", "allowed", "mend"] {
            assert!(
                refused[key].is_string(),
                "{method} {to}: {key} in {refused}"
            );
        }
        assert!(refused["problems"].is_array(), "{method} {to}");
    }
}
