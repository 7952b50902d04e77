//! Files of bills read, kept as entries of the job, and fitted; hostile ones refused.

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Answer, Desk, id};

/// Heat loss by the bills and its band, W/K; of the survey; and whether they agree.
const LOSS: [f64; 3] = [168.12825448277988, 203.58965253119848, 235.19915795586923];
const SURVEY: f64 = 243.5114416694623;
const AGREE: &str = "cannot tell";

fn file(name: &str) -> Vec<u8> {
    let path = format!(
        "{}/../../jobs/lake-street/bills/{name}",
        env!("CARGO_MANIFEST_DIR")
    );
    std::fs::read(path).expect("a file of the demo")
}

async fn with_job(desk: &Desk) -> String {
    let job = id(1);
    let new = json!({ "id": job, "template": "example", "who": "Ada" });
    assert_eq!(desk.post("/api/jobs", &new).await.0, StatusCode::CREATED);
    job
}

async fn read(desk: &Desk, job: &str, bytes: Vec<u8>, said: &str) -> Answer {
    let to = format!("/api/jobs/{job}/bills/read{said}");
    desk.raw_kind("POST", &to, Some(bytes), "application/octet-stream")
        .await
}

fn body(answer: &Answer) -> Value {
    serde_json::from_str(&answer.text()).expect("JSON")
}

#[tokio::test(flavor = "multi_thread")]
async fn bills_read_in_and_kept_tell_what_the_command_tells() {
    let desk = Desk::new().await;
    let job = with_job(&desk).await;
    let mut edits = Vec::new();
    for (name, of) in [("oil-slips.csv", "oil"), ("electricity.csv", "electricity")] {
        let answer = read(&desk, &job, file(name), "").await;
        assert_eq!(answer.status, StatusCode::OK, "{}", answer.text());
        let all = body(&answer);
        assert_eq!(all.as_array().map(Vec::len), Some(1));
        assert_eq!(all[0]["carrier"], of);
        for row in all[0]["bills"].as_array().expect("rows") {
            edits.push(json!({ "path": "bill", "value": row }));
        }
    }
    let (_, before) = desk.get(&format!("/api/jobs/{job}")).await;
    assert_eq!(before["revision"], 1, "reading keeps nothing");
    let change = json!({ "id": id(2), "base_revision": 1, "edits": edits });
    let (status, kept) = desk
        .post(&format!("/api/jobs/{job}/changes"), &change)
        .await;
    assert_eq!(status, StatusCode::OK, "{kept}");
    let (status, told) = desk.get(&format!("/api/jobs/{job}/bills")).await;
    assert_eq!(status, StatusCode::OK, "{told}");
    // Regression: `northwall bills` on the demo's own files, without the file of temperatures.
    // Amounts are kept to three decimals of a gallon or kWh, hence a thousandth.
    let near = |got: &Value, want: f64| {
        let got = got.as_f64().expect("a number");
        assert!((got / want - 1.0).abs() < 1e-3, "{got} against {want}");
    };
    assert_eq!(told["typical"], true);
    near(&told["loss_w_per_k"]["low"], LOSS[0]);
    near(&told["loss_w_per_k"]["mid"], LOSS[1]);
    near(&told["loss_w_per_k"]["high"], LOSS[2]);
    near(&told["survey_w_per_k"], SURVEY);
    assert_eq!(told["agree"], AGREE);
    assert_eq!(told["carriers"].as_array().map(Vec::len), Some(2));
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_no_file_of_bills_is_refused_and_the_server_stands() {
    let desk = Desk::new().await;
    let job = with_job(&desk).await;
    let bomb = {
        let mut text = "<?xml version=\"1.0\"?><!DOCTYPE feed [<!ENTITY a0 \"ha\">".to_owned();
        for n in 1..30 {
            let of = format!("&a{};", n - 1).repeat(8);
            text.push_str("<!ENTITY a");
            text.push_str(&n.to_string());
            text.push_str(" \"");
            text.push_str(&of);
            text.push_str("\">");
        }
        text + "]><feed xmlns=\"http://www.w3.org/2005/Atom\"><title>&a29;</title></feed>"
    };
    let script = "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>alert(1)</script></svg>";
    let wide = "a,".repeat(100_000) + "\n" + &"1,".repeat(100_000);
    let hostile: Vec<(&str, Vec<u8>)> = vec![
        ("nothing", Vec::new()),
        ("a zip", [b"PK\x03\x04".as_slice(), &[0; 400]].concat()),
        ("a gzip", [b"\x1f\x8b\x08".as_slice(), &[7; 400]].concat()),
        ("a picture", [b"\x89PNG\r\n\x1a\n".as_slice(), &[0; 400]].concat()),
        ("nulls", vec![0; 100_000]),
        ("broken text", vec![0xff, 0xfe, 0xfd, b',', 0xff]),
        ("entities within entities", bomb.into_bytes()),
        ("a drawing with a script", script.as_bytes().to_vec()),
        ("a hundred thousand columns", wide.into_bytes()),
        ("a formula", b"=cmd|' /C calc'!A0,2\n=1,=2\n".to_vec()),
        ("an endless quote", [b"Start Date,End Date,Usage (kWh)\n\"".as_slice(), &vec![b'x'; 200_000]].concat()),
        ("amounts beyond reason", b"Start Date,End Date,Usage (kWh)\n2024-01-01,2024-02-01,1e308\n2024-02-01,2024-03-01,1e308\n".to_vec()),
    ];
    for (what, bytes) in hostile {
        let answer = read(&desk, &job, bytes, "").await;
        assert_eq!(
            answer.status,
            StatusCode::BAD_REQUEST,
            "{what}: {}",
            answer.text()
        );
        let refused = body(&answer);
        assert_eq!(refused["kind"], "bad-input", "{what}");
        assert!(
            !refused["says"].as_str().expect("words").is_empty(),
            "{what}"
        );
        assert!(
            answer.text().len() < 4_000,
            "{what}: the refusal is endless"
        );
    }
    let answer = read(&desk, &job, vec![b'1'; 25 * 1024 * 1024], "").await;
    assert_eq!(answer.status, StatusCode::PAYLOAD_TOO_LARGE);
    let answer = read(&desk, &job, file("electricity.csv"), "?of=coal").await;
    assert_eq!(answer.status, StatusCode::BAD_REQUEST);
    assert!(
        answer
            .text()
            .contains("electricity, oil, propane, gas, wood"),
        "{}",
        answer.text()
    );
    let (_, view) = desk.get(&format!("/api/jobs/{job}")).await;
    assert_eq!(view["revision"], 1, "nothing was kept");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_job_without_bills_says_that_none_was_given() {
    let desk = Desk::new().await;
    let job = id(1);
    let new = json!({ "id": job, "template": "first", "who": "Ada" });
    assert_eq!(desk.post("/api/jobs", &new).await.0, StatusCode::CREATED);
    let (status, told) = desk.get(&format!("/api/jobs/{job}/bills")).await;
    assert_eq!(status, StatusCode::OK, "{told}");
    assert_eq!(told["carriers"], json!([]));
    assert_eq!(told["loss_w_per_k"], Value::Null);
    assert!(
        told["cannot_tell"]
            .as_str()
            .is_some_and(|t| t.contains("no bill was given")),
        "{told}"
    );
}
