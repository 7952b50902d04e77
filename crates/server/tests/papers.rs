//! Papers through the interface: from what is kept, in the size and units asked for, refused in
//! words.

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Desk, JOB, id};

async fn asked(desk: &Desk, to: &str) -> (StatusCode, String, String) {
    let answer = desk.raw("GET", to, None).await;
    let kind = answer.header("content-type");
    (answer.status, kind, answer.text())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_paper_is_of_the_job_its_records_and_its_photos() {
    let desk = Desk::with_papers().await;
    let job = desk.job(1).await;
    let to = format!("/api/jobs/{job}/papers");
    let (status, list) = desk.get(&to).await;
    assert_eq!(status, StatusCode::OK, "{list}");
    assert_eq!(list["code"], JOB.len().to_string());
    assert_eq!(list["papers"][0]["against"][0]["mend"], "write it");
    assert_eq!(list["papers"][1]["against"], json!([]));

    desk.photo(&job, "panel").await;
    desk.joint(&job).await;

    let answer = desk
        .raw("GET", &format!("{to}/inspector?a4=true&si=true"), None)
        .await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text());
    assert_eq!(answer.header("content-type"), "application/pdf");
    let file = answer.header("content-disposition");
    assert!(
        file.starts_with("attachment; filename=\"lake-street-12-")
            && file.ends_with("-inspector.pdf\""),
        "{file}"
    );
    let text = answer.text();
    for says in [
        "inspector a4 true si true",
        "photos [\"panel\"]",
        "\"torque\":16.25",
    ] {
        assert!(text.contains(says), "{says}: {text}");
    }
    // the records as the command takes them: whole and proved
    let lines = text.split_once(" bills ").expect("bills").1;
    let lines = lines.split_once(' ').expect("records").1;
    let chain = startup::record::verify(lines).expect("whole");
    assert_eq!(chain.records.len(), 1);
    let (_, _, text) = asked(&desk, &format!("{to}/owner")).await;
    assert!(text.contains("owner a4 false si false"), "{text}");
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cannot_be_printed_is_refused_in_words() {
    let desk = Desk::with_papers().await;
    let job = desk.job(1).await;
    let to = format!("/api/jobs/{job}/papers");
    let json = |text: &str| -> Value { serde_json::from_str(text).expect("JSON") };
    let (status, _, text) = asked(&desk, &format!("{to}/mayor")).await;
    assert_eq!(status, StatusCode::NOT_FOUND);
    let refused = json(&text);
    assert_eq!(refused["kind"], "not-there");
    assert_eq!(refused["got"], "mayor");
    assert_eq!(refused["allowed"], "owner, inspector, rebate, crew");
    // to be issued, nothing may stand against it
    let (status, _, text) = asked(&desk, &format!("{to}/owner?issue=true")).await;
    assert_eq!(status, StatusCode::CONFLICT);
    let refused = json(&text);
    assert_eq!(refused["kind"], "waits");
    assert_eq!(refused["mend"], "write it");
    let (status, kind, _) = asked(&desk, &format!("{to}/crew?issue=true")).await;
    assert_eq!((status, kind.as_str()), (StatusCode::OK, "application/pdf"));
    let (status, _, text) = asked(&desk, &format!("/api/jobs/{}/papers/crew", id(9))).await;
    assert_eq!(status, StatusCode::NOT_FOUND, "{text}");
    let (status, _, _) = asked(&desk, &format!("{to}/crew?a4=perhaps")).await;
    assert_eq!(status, StatusCode::BAD_REQUEST);
}

/// Without the document engine both answers say what to do instead.
#[tokio::test(flavor = "multi_thread")]
async fn a_program_without_papers_says_so() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    for to in ["papers", "papers/owner"] {
        let (status, said) = desk.get(&format!("/api/jobs/{job}/{to}")).await;
        assert_eq!(status, StatusCode::NOT_FOUND, "{said}");
        assert_eq!(said["kind"], "not-built");
        let mend = said["mend"].as_str().expect("words");
        assert!(mend.contains("--features papers"), "{mend}");
    }
}

/// The homeowner's link opens no paper, neither as a session nor beneath its own address.
#[tokio::test(flavor = "multi_thread")]
async fn a_link_opens_no_paper() {
    let desk = Desk::with_papers().await;
    let job = desk.job(1).await;
    let links = format!("/api/jobs/{job}/links");
    let (_, made) = desk.post(&links, &json!({ "days": 5 })).await;
    let token = made["path"].as_str().and_then(|p| p.rsplit('/').next());
    let token = token.expect("a token");
    for reader in ["", "/owner", "/rebate"] {
        let (status, kind, text) =
            asked(&desk, &format!("/api/shared/{token}/papers{reader}")).await;
        assert_eq!(status, StatusCode::NOT_FOUND, "{text}");
        assert_ne!(kind, "application/pdf");
    }
}
