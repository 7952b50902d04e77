//! What comes over the wire, damaged: changes, readings, photos, archives. Every one is answered in
//! words, none as a defect, and what was kept before stands. `checks/damaged` runs as many as asked.

#[path = "../../plan/tests/mutated/damage.rs"]
mod damage;
mod support;

use std::io::Cursor;

use damage::{Damage, Tally, seeds};
use serde_json::{Value, json};
use server::archive::{back_up, bring_back};
use support::{Desk, id};

/// Sends damaged bodies to one place and looks at each answer.
async fn sent(desk: &Desk, kind: &str, to: &str, good: &[u8], form: &str) {
    let mut tally = Tally::new(kind, &seeds(1));
    for seed in seeds(1) {
        let bad = Damage::new(seed).done_to(good);
        tally.begin();
        let answer = desk.raw_kind("POST", to, Some(bad), form).await;
        tally.done(seed, answer.status.is_success());
        let code = answer.status.as_u16();
        assert!(
            code < 500 || (code == 503 && answer.text().contains("too-often")),
            "{kind}, seed {seed}: {code} {}",
            answer.text()
        );
        if !answer.status.is_success() && code != 409 {
            // A change that clashes is kept for a person; all else is refused in words.
            let says: Value = serde_json::from_str(&answer.text()).unwrap_or_default();
            let words = says["says"].as_str().unwrap_or_default();
            assert!(
                words.len() > 10 && answer.text().len() < 12_000,
                "{kind}, seed {seed}: {}",
                answer.text()
            );
        }
    }
    tally.row();
}

#[tokio::test(flavor = "multi_thread")]
async fn damaged_messages_are_answered() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let change = json!({
        "id": id(10), "base_revision": 1, "who": "Ada", "why": "measured again",
        "edits": [
            { "path": "place.snow_depth", "value": "30 in" },
            { "path": "room.living.heated_to", "value": "69 F" },
            { "path": "job.notes", "value": ["one", "two"] },
        ],
    });
    let to = format!("/api/jobs/{job}/changes");
    sent(
        &desk,
        "change of a job",
        &to,
        change.to_string().as_bytes(),
        "application/json",
    )
    .await;
    let begin = json!({ "id": id(20), "test": "t", "who": "Ada", "rests_on": {
        "kind": "pressure", "refrigerant": "R-32",
        "lines": [{ "tube": "1/4 in", "length": "24 ft" }], "volumes": [],
        "gauge": { "id": "g", "accuracy": "2 psi", "step": "0.1 psi" },
        "thermometer": { "id": "t", "accuracy": "1 K", "step": "0.1 K" },
        "plate": "600 psi", "target": "550 psi", "worth": "200 g",
    }});
    let begun = desk.post(&format!("/api/jobs/{job}/tests"), &begin).await;
    assert!(begun.0.is_success(), "{}", begun.1);
    let readings = json!({ "test": "t", "who": "Ada", "readings": [
        { "id": id(30), "at": "2026-11-25T10:00:00Z", "pressure": "550 psi", "line": "70 F" },
        { "id": id(31), "at": "2026-11-25T10:05:00Z", "pressure": "549.8 psi", "line": "69 F" },
    ]});
    let to = format!("/api/jobs/{job}/readings");
    sent(
        &desk,
        "readings",
        &to,
        readings.to_string().as_bytes(),
        "application/json",
    )
    .await;
    let (code, now) = desk.get(&format!("/api/jobs/{job}")).await;
    assert_eq!((code.as_u16(), &now["id"]), (200, &json!(job)));
    let (code, test) = desk.get(&format!("/api/jobs/{job}/tests/t")).await;
    assert_eq!(
        code.as_u16(),
        200,
        "the chain of records proves itself: {test}"
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn damaged_photos_are_answered() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let picture = image::DynamicImage::ImageRgb8(image::RgbImage::from_fn(90, 60, |x, y| {
        image::Rgb([x as u8 * 2, y as u8 * 3, 40])
    }));
    for (n, form, kind) in [
        (40, image::ImageFormat::Png, "image/png"),
        (41, image::ImageFormat::Jpeg, "image/jpeg"),
    ] {
        let mut good = Vec::new();
        picture
            .write_to(&mut Cursor::new(&mut good), form)
            .expect("written");
        let to = format!("/api/jobs/{job}/photos?id={}&shows=room.living", id(n));
        sent(&desk, &format!("photo, {kind}"), &to, &good, kind).await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn damaged_archives_are_answered() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let change = json!({ "id": id(10), "base_revision": 1, "who": "Ada", "edits": [{ "path": "place.snow_depth", "value": "30 in" }] });
    desk.post(&format!("/api/jobs/{job}/changes"), &change)
        .await;
    let (good, _) = back_up(&desk.store, Vec::new()).await.expect("backed up");
    let mut tally = Tally::new("archive", &seeds(1));
    let other = Desk::new().await;
    for seed in seeds(1) {
        let bad = Damage::new(seed).done_to(&good);
        tally.begin();
        let back = bring_back(&other.store, Cursor::new(bad), true).await;
        tally.done(seed, back.is_ok());
        if let Err(words) = back {
            assert!(
                words.len() > 10 && words.len() < 4_000,
                "seed {seed}: {words}"
            );
        }
    }
    tally.row();
    // Whatever came in can be looked at.
    let (code, jobs) = other.get("/api/jobs").await;
    assert_eq!(code.as_u16(), 200, "{jobs}");
    for job in jobs.as_array().into_iter().flatten() {
        let to = format!("/api/jobs/{}", job["id"].as_str().unwrap_or_default());
        assert_eq!(other.get(&to).await.0.as_u16(), 200, "{to}");
    }
}
