//! A job leaves with all that hangs on it, and comes back the same.

mod support;

use axum::http::StatusCode;
use serde_json::json;
use server::archive::{Back, back_up, bring_back};
use support::{Desk, JOB, id};

/// A job with everything that hangs on it.
async fn whole(desk: &Desk, job: &str) -> store::Whole {
    let kept = desk.store.whole_but_photos("local", job).await;
    let mut whole = kept.expect("whole");
    for photo in &mut whole.photos {
        let there = desk.store.with_bytes("local", job, photo).await;
        assert!(there.expect("the photo"));
    }
    whole
}

#[tokio::test(flavor = "multi_thread")]
async fn a_backup_comes_back_the_same_in_another_place() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let change = json!({ "id": id(10), "base_revision": 1, "who": "Ada", "edits": [{ "path": "place.snow_depth", "value": "30 in" }] });
    desk.post(&format!("/api/jobs/{job}/changes"), &change)
        .await;
    let clash = json!({ "id": id(11), "base_revision": 1, "who": "Ben", "edits": [{ "path": "place.snow_depth", "value": "24 in" }] });
    assert_eq!(
        desk.post(&format!("/api/jobs/{job}/changes"), &clash)
            .await
            .0,
        StatusCode::CONFLICT
    );
    desk.photo(&job, "room.living").await;
    desk.joint(&job).await;
    let table = b"date,temperature_F\n2024-01-01,14.3\n2024-01-03,15\n".to_vec();
    let to = format!("/api/jobs/{job}/temperatures?id={}&name=days.csv", id(15));
    let kept = desk
        .raw_kind("POST", &to, Some(table), "application/octet-stream")
        .await;
    assert_eq!(kept.status, StatusCode::CREATED, "{}", kept.text());
    let before = whole(&desk, &job).await;
    let days = &before.temperatures[0].days;
    assert!(days.contains("2024-01-01,-9.8"), "{days}");

    let (bytes, jobs) = back_up(&desk.store, Vec::new()).await.expect("backed up");
    assert_eq!(jobs, 1);
    let text = String::from_utf8_lossy(&bytes);
    assert!(
        text.contains(&JOB.replace("snow_depth = \"20 in\"", "snow_depth = \"30 in\"")),
        "the plain file is in it"
    );

    let other = Desk::new().await;
    let back = bring_back(&other.store, bytes.as_slice(), false)
        .await
        .expect("back");
    assert_eq!(back, Back { back: 1, stayed: 0 });
    let after = whole(&other, &job).await;
    assert_eq!(after, before);
    let again = bring_back(&other.store, bytes.as_slice(), false)
        .await
        .expect("nothing to do");
    assert_eq!(again, Back { back: 0, stayed: 1 });
    // What was changed since stays, unless it is to be replaced.
    let more = json!({ "id": id(14), "base_revision": 2, "edits": [{ "path": "job.name", "value": "New name" }] });
    assert_eq!(
        other
            .post(&format!("/api/jobs/{job}/changes"), &more)
            .await
            .0,
        StatusCode::OK
    );
    bring_back(&other.store, bytes.as_slice(), false)
        .await
        .expect("stays");
    assert_eq!(
        other.store.job("local", &job).await.expect("there").name,
        "New name"
    );
    bring_back(&other.store, bytes.as_slice(), true)
        .await
        .expect("over");
    assert_eq!(
        other
            .store
            .job("local", &job)
            .await
            .expect("there")
            .revision,
        2
    );
    let (_, plan) = other.get(&format!("/api/jobs/{job}/plan")).await;
    assert_ne!(plan["job"], "New name", "no plan of what stood before");

    // Cut off or altered, it is refused and changes nothing.
    let third = Desk::new().await;
    for broken in [
        &bytes[..bytes.len() / 2],
        &bytes[..bytes.len() - 1024],
        &bytes[1..],
        b"".as_slice(),
    ] {
        assert!(
            bring_back(&third.store, broken, false).await.is_err(),
            "{} bytes",
            broken.len()
        );
    }
    // A file of days that is missing, and one that would be unpacked elsewhere.
    let (name, none) = (b"temperatures/days.csv", b"temperatures/none.csv");
    let at = bytes.windows(name.len()).rposition(|w| w == name);
    let at = at.expect("its name in kept.json, which comes last");
    let mut without = bytes.clone();
    without[at..at + name.len()].copy_from_slice(none);
    let refused = bring_back(&third.store, without.as_slice(), false).await;
    let says = refused.expect_err("missing");
    assert!(says.contains("temperatures/none.csv is missing"), "{says}");
    let mut led = before.clone();
    led.temperatures[0].name = "temperatures/../x.csv".to_owned();
    let refused = third.store.bring_back(&led, false).await;
    let says = refused.expect_err("elsewhere").to_string();
    assert!(
        says.contains("no file is kept as temperatures/../x.csv"),
        "{says}"
    );
    let mut altered = bytes.clone();
    let at = text.find("16.25").expect("the record");
    assert_eq!(&altered[at..at + 5], b"16.25");
    altered[at..at + 5].copy_from_slice(b"99.25");
    let fourth = Desk::new().await;
    let refused = bring_back(&fourth.store, altered.as_slice(), false)
        .await
        .expect_err("altered");
    assert!(refused.contains("altered"), "{refused}");
    assert!(fourth.store.jobs("local").await.expect("list").is_empty());
}

#[tokio::test(flavor = "multi_thread")]
async fn one_job_leaves_as_an_archive_any_tar_reads() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let answer = desk
        .raw("GET", &format!("/api/jobs/{job}/archive"), None)
        .await;
    assert_eq!(answer.status, StatusCode::OK);
    assert_eq!(answer.header("content-type"), "application/x-tar");
    let folder = tempfile::tempdir().expect("folder");
    let file = folder.path().join("job.tar");
    std::fs::write(&file, &answer.bytes).expect("written");
    let done = std::process::Command::new("tar")
        .arg("-xf")
        .arg(&file)
        .arg("-C")
        .arg(folder.path())
        .status();
    assert!(done.expect("tar runs").success());
    let name = format!("lake-street-12-whole-house-wit-{job}");
    let text = std::fs::read_to_string(folder.path().join(name).join("job.toml")).expect("there");
    assert_eq!(text, JOB);
}

/// Archives of before files of temperatures were kept come back.
#[tokio::test(flavor = "multi_thread")]
async fn an_archive_of_before_comes_back() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let mut kept = serde_json::to_value(whole(&desk, &job).await).expect("JSON");
    let gone = kept.as_object_mut().and_then(|k| k.remove("temperatures"));
    assert_eq!(gone, Some(json!([])));
    let back: store::Whole = serde_json::from_value(kept).expect("reads");
    assert!(back.temperatures.is_empty() && back.id == job);
}
