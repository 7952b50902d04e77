//! Files of temperatures beside the bills: kept, named by the job, fitted with, taken away; hostile
//! and wrong ones refused.

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Answer, Desk, id};

/// Regression: the heat loss of `northwall bills` on the demo's own files, its temperatures among
/// them, and what the same bills give with the typical year, W/K.
const LOSS: [f64; 3] = [193.53343585748328, 219.75364814037215, 238.68837506234226];
const TYPICAL: [f64; 3] = [168.12825448277988, 203.58965253119848, 235.19915795586923];

fn file(name: &str) -> Vec<u8> {
    let path = format!(
        "{}/../../jobs/lake-street/bills/{name}",
        env!("CARGO_MANIFEST_DIR")
    );
    std::fs::read(path).expect("a file of the demo")
}

fn body(answer: &Answer) -> Value {
    serde_json::from_str(&answer.text()).expect("JSON")
}

async fn keep(desk: &Desk, n: u64, name: &str, bytes: Vec<u8>) -> Answer {
    let to = format!("/api/jobs/{}/temperatures?id={}&name={name}", id(1), id(n));
    desk.raw_kind("POST", &to, Some(bytes), "application/octet-stream")
        .await
}

async fn edit(desk: &Desk, n: u64, base: i64, edits: &Value) {
    let change = json!({ "id": id(n), "base_revision": base, "edits": edits });
    let to = format!("/api/jobs/{}/changes", id(1));
    let (status, kept) = desk.post(&to, &change).await;
    assert_eq!(status, StatusCode::OK, "{kept}");
}

fn names(all: &[&str]) -> Value {
    json!([{ "path": "winters.temperatures", "value": all }])
}

/// The demo with its bills read in; revision 2.
async fn with_bills(desk: &Desk) {
    let job = id(1);
    let new = json!({ "id": job, "template": "example", "who": "Ada" });
    assert_eq!(desk.post("/api/jobs", &new).await.0, StatusCode::CREATED);
    let mut edits = Vec::new();
    for name in ["oil-slips.csv", "electricity.csv"] {
        let to = format!("/api/jobs/{job}/bills/read");
        let answer = desk
            .raw_kind("POST", &to, Some(file(name)), "application/octet-stream")
            .await;
        for row in body(&answer)[0]["bills"].as_array().expect("rows") {
            edits.push(json!({ "path": "bill", "value": row }));
        }
    }
    edit(desk, 2, 1, &json!(edits)).await;
}

async fn told(desk: &Desk) -> Value {
    let (status, told) = desk.get(&format!("/api/jobs/{}/bills", id(1))).await;
    assert_eq!(status, StatusCode::OK, "{told}");
    told
}

/// Amounts are kept to three decimals of a gallon or kWh, hence a thousandth.
fn near(told: &Value, want: [f64; 3]) {
    for (end, want) in ["low", "mid", "high"].into_iter().zip(want) {
        let got = told["loss_w_per_k"][end].as_f64().expect("a number");
        assert!((got / want - 1.0).abs() < 1e-3, "{end}: {got} for {want}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_file_that_the_job_names_stands_for_the_typical_year_until_it_goes() {
    let desk = Desk::new().await;
    with_bills(&desk).await;
    let before = told(&desk).await;
    near(&before, TYPICAL);
    assert_eq!(before["typical"], true);
    let from = before["temperatures_from"].as_str().expect("words");
    assert!(from.starts_with("a typical year of"), "{from}");
    // The example names a file that lies beside it where the command runs.
    let missing = &before["temperatures"][0];
    assert_eq!(
        (&missing["id"], &missing["file"], &missing["named"]),
        (&Value::Null, &json!("bills/days.csv"), &json!(true))
    );

    let answer = keep(&desk, 10, "days.csv", file("days.csv")).await;
    assert_eq!(answer.status, StatusCode::CREATED, "{}", answer.text());
    let kept = body(&answer);
    assert_eq!(
        (&kept["file"], &kept["from"], &kept["to"], &kept["named"]),
        (
            &json!("temperatures/days.csv"),
            &json!("2023-04-01"),
            &json!("2026-11-15"),
            &json!(false)
        )
    );
    // Kept alone it does not count yet: the job says what does.
    assert_eq!(told(&desk).await["typical"], true);
    edit(&desk, 3, 2, &names(&["temperatures/days.csv"])).await;
    let with = told(&desk).await;
    near(&with, LOSS);
    assert_eq!(
        (&with["typical"], &with["agree"]),
        (&json!(false), &json!("holds"))
    );
    assert_eq!(
        with["temperatures_from"],
        "temperatures/days.csv, 1325 days"
    );
    assert_eq!(with["temperatures"].as_array().map(Vec::len), Some(1));

    // Taken away, the typical year is back, though the job still names it; and it is said.
    let gone = format!("/api/jobs/{}/temperatures/{}", id(1), id(10));
    assert_eq!(
        desk.raw("DELETE", &gone, None).await.status,
        StatusCode::NO_CONTENT
    );
    assert_eq!(
        desk.raw("DELETE", &gone, None).await.status,
        StatusCode::NOT_FOUND
    );
    let after = told(&desk).await;
    near(&after, TYPICAL);
    let notes = after["notes"].to_string();
    assert!(
        notes.contains("temperatures/days.csv, which is not here"),
        "{notes}"
    );
}

/// Days of a constant temperature.
fn days(year: i32, c: f64) -> Vec<u8> {
    let mut text = "date,temperature_C\n".to_owned();
    text.extend((1..=28).map(|day| format!("{year}-01-{day:02},{c}\n")));
    text.into_bytes()
}

#[tokio::test(flavor = "multi_thread")]
async fn names_are_the_jobs_own_the_same_again_changes_nothing_and_two_must_agree() {
    let desk = Desk::new().await;
    with_bills(&desk).await;
    let first = body(
        &keep(
            &desk,
            10,
            "..%2F..%2FA%20winter%20(1).csv",
            days(2024, -5.0),
        )
        .await,
    );
    assert_eq!(first["file"], "temperatures/a-winter-1.csv");
    let again = keep(&desk, 10, "another.csv", days(2024, 9.0)).await;
    assert_eq!((again.status, body(&again)), (StatusCode::CREATED, first));
    // Another file of that name has its own; without a name, or with signs alone, there is one too.
    let second = body(&keep(&desk, 11, "a-winter-1.csv", days(2025, -5.0)).await);
    assert_eq!(second["file"], "temperatures/a-winter-1-2.csv");
    let bare = body(&keep(&desk, 12, "", days(2023, -5.0)).await);
    assert_eq!(bare["file"], "temperatures/days.csv");

    // Those that count may not contradict each other; a file that does not count may.
    let other = keep(&desk, 13, "other.csv", days(2024, 9.0)).await;
    assert_eq!(other.status, StatusCode::CREATED);
    edit(&desk, 3, 2, &names(&["temperatures/a-winter-1.csv"])).await;
    let apart = keep(&desk, 14, "third.csv", days(2024, 9.0)).await;
    assert_eq!(apart.status, StatusCode::BAD_REQUEST, "{}", apart.text());
    let refused = body(&apart);
    let says = refused["says"].as_str().expect("words");
    assert!(says.contains("disagree on 2024-01-01"), "{says}");
    let mend = refused["mend"].as_str().expect("words");
    assert!(mend.contains("temperatures/a-winter-1.csv"), "{mend}");
    // Named all the same, the later is left out and it is said.
    let both = ["temperatures/a-winter-1.csv", "temperatures/other.csv"];
    edit(&desk, 4, 3, &names(&both)).await;
    let notes = told(&desk).await["notes"].to_string();
    assert!(
        notes.contains("temperatures/other.csv is left out"),
        "{notes}"
    );

    for n in 0..20 {
        let more = keep(&desk, 100 + n, "more.csv", days(2000, 1.0)).await;
        assert_eq!(more.status, StatusCode::CREATED, "{n}: {}", more.text());
    }
    let many = keep(&desk, 200, "more.csv", days(2000, 1.0)).await;
    assert_eq!(many.status, StatusCode::CONFLICT, "{}", many.text());
    assert!(many.text().contains("24 files"), "{}", many.text());
}

#[tokio::test(flavor = "multi_thread")]
async fn hours_are_means_of_days_and_fahrenheit_is_kept_as_it_was_meant() {
    let desk = Desk::new().await;
    with_bills(&desk).await;
    let mut text = "Time,Temp (F)\n".to_owned();
    text.extend((0..48).map(|hour| {
        let (day, of_day) = (1 + hour / 24, hour % 24);
        let t = if of_day < 12 { 14 } else { 32 };
        format!("2024-01-{day:02} {of_day:02}:00,{t}\n")
    }));
    let answer = keep(&desk, 10, "hours.csv", text.into_bytes()).await;
    assert_eq!(answer.status, StatusCode::CREATED, "{}", answer.text());
    assert_eq!(body(&answer)["days"], 2);
    let kept = desk
        .store
        .temperatures("local", &id(1))
        .await
        .expect("there");
    // Half at 14 F and half at 32 F: -5 C.
    let days = review::Days::read_csv(kept[0].days.as_bytes()).expect("reads");
    for mean in &days.mean_c {
        assert!((mean.expect("measured") + 5.0).abs() < 1e-12, "{days:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn what_is_no_file_of_temperatures_is_refused_and_nothing_is_kept() {
    let desk = Desk::new().await;
    with_bills(&desk).await;
    let script = "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>alert(1)</script></svg>";
    let wide = "a,".repeat(100_000) + "\n" + &"1,".repeat(100_000);
    let table = |rows: &str| format!("date,temperature_C\n{rows}").into_bytes();
    let wrong: Vec<(&str, Vec<u8>, &str)> = vec![
        ("nothing", Vec::new(), ""),
        ("a zip", [b"PK\x03\x04".as_slice(), &[0; 400]].concat(), ""),
        (
            "a gzip",
            [b"\x1f\x8b\x08".as_slice(), &[7; 400]].concat(),
            "",
        ),
        (
            "a picture",
            [b"\x89PNG\r\n\x1a\n".as_slice(), &[0; 400]].concat(),
            "",
        ),
        ("nulls", vec![0; 100_000], ""),
        ("broken text", vec![0xff, 0xfe, 0xfd, b',', 0xff], ""),
        ("a drawing with a script", script.as_bytes().to_vec(), ""),
        ("a hundred thousand columns", wide.into_bytes(), ""),
        (
            "an endless quote",
            [b"date,temperature_C\n\"".as_slice(), &vec![b'x'; 200_000]].concat(),
            "",
        ),
        ("a formula", table("2024-01-01,=1+1\n"), "not a temperature"),
        ("no number", table("2024-01-01,inf\n"), "not a temperature"),
        (
            "colder than Earth",
            table("2024-01-01,-90\n"),
            "no outdoor temperature",
        ),
        ("a date that is none", table("2024-02-30,5\n"), ""),
        (
            "more than a hundred years",
            table("1901-01-01,5\n2024-01-01,5\n"),
            "",
        ),
        ("no row", table(""), ""),
        ("bills", file("electricity.csv"), "temperatures"),
        ("no unit", b"date,temperature\n2024-01-01,5\n".to_vec(), ""),
    ];
    for (what, bytes, words) in wrong {
        let answer = keep(&desk, 10, "x.csv", bytes).await;
        assert_eq!(
            answer.status,
            StatusCode::BAD_REQUEST,
            "{what}: {}",
            answer.text()
        );
        let refused = body(&answer);
        assert_eq!(refused["kind"], "bad-input", "{what}");
        let says = refused["says"].as_str().expect("words");
        assert!(!says.is_empty() && says.contains(words), "{what}: {says}");
        assert!(
            answer.text().len() < 4_000,
            "{what}: the refusal is endless"
        );
    }
    let large = keep(&desk, 10, "x.csv", vec![b'1'; 25 * 1024 * 1024]).await;
    assert_eq!(large.status, StatusCode::PAYLOAD_TOO_LARGE);
    let to = format!("/api/jobs/{}/temperatures?id=7&name=x.csv", id(1));
    let no_id = desk.raw_kind(
        "POST",
        &to,
        Some(days(2024, 1.0)),
        "application/octet-stream",
    );
    assert_eq!(no_id.await.status, StatusCode::BAD_REQUEST);
    let kept = desk
        .store
        .temperatures("local", &id(1))
        .await
        .expect("there");
    assert!(kept.is_empty(), "{kept:?}");
}
