//! Findings are words, and words speak in the units of who asks.

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Desk, id};

/// What the findings of a plan say, by level, place and rule.
async fn said(desk: &Desk, to: &str) -> Vec<String> {
    let (status, plan) = desk.get(to).await;
    assert_eq!(status, StatusCode::OK, "{plan}");
    let text = |f: &Value, what: &str| f[what].as_str().unwrap_or_default().to_owned();
    let words = [
        "level", "place", "rule", "says", "found", "required", "mend",
    ];
    let findings = plan["findings"].as_array().expect("findings");
    findings
        .iter()
        .map(|f| words.map(|w| text(f, w)).join(" | "))
        .collect()
}

/// Whether a text has a number with a unit of the US.
fn of_the_us(text: &str) -> bool {
    let words: Vec<&str> = text.split([' ', ',', ';', '(', ')']).collect();
    words.windows(2).any(|pair| {
        let number = pair[0].ends_with(|c: char| c.is_ascii_digit());
        number && ["Btu/h", "F", "ft/min", "gal/h", "psi", "cfm"].contains(&pair[1])
    })
}

#[tokio::test(flavor = "multi_thread")]
async fn findings_are_in_the_units_asked_for() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let us = format!("/api/jobs/{job}/plan");
    let si = format!("/api/jobs/{job}/plan?si=true");
    let (first, other) = (said(&desk, &us).await, said(&desk, &si).await);
    assert_eq!(first.len(), other.len());
    assert!(first.iter().any(|f| of_the_us(f)), "{first:#?}");
    let wrong: Vec<&String> = other.iter().filter(|f| of_the_us(f)).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert_eq!(
        said(&desk, &us).await,
        first,
        "one is not kept as the other"
    );

    // The job turned to SI: its own words are now the others, to the letter.
    let edit = json!({ "id": id(10), "base_revision": 1, "who": "Ada",
        "at": "2026-11-25T10:00:00-05:00", "edits": [{ "path": "job.units", "value": "si" }] });
    let (status, kept) = desk.post(&format!("/api/jobs/{job}/changes"), &edit).await;
    assert_eq!(status, StatusCode::OK, "{kept}");
    assert_eq!(said(&desk, &si).await, other);
    assert_eq!(said(&desk, &us).await, first);
}

/// What is said in the other units is of the job as it stands, not as it stood.
#[tokio::test(flavor = "multi_thread")]
async fn an_edit_is_in_both() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let (us, si) = (
        format!("/api/jobs/{job}/plan"),
        format!("/api/jobs/{job}/plan?si=true"),
    );
    let (first, other) = (said(&desk, &us).await, said(&desk, &si).await);
    let edit = json!({ "id": id(10), "base_revision": 1, "who": "Ada",
        "at": "2026-11-25T10:00:00-05:00",
        "edits": [{ "path": "room.living.heated_to", "value": "75 F" }] });
    let (status, kept) = desk.post(&format!("/api/jobs/{job}/changes"), &edit).await;
    assert_eq!(status, StatusCode::OK, "{kept}");
    let (now, now_other) = (said(&desk, &us).await, said(&desk, &si).await);
    assert!(now != first && now_other != other);
    let fresh = Desk::new().await;
    let same = fresh.job(1).await;
    fresh
        .post(&format!("/api/jobs/{same}/changes"), &edit)
        .await;
    assert_eq!(
        said(&fresh, &format!("/api/jobs/{same}/plan?si=true")).await,
        now_other
    );
}
