//! The interface as a browser meets it.

mod support;

use axum::http::StatusCode;
use serde_json::{Value, json};
use support::{Desk, id};

#[tokio::test(flavor = "multi_thread")]
async fn from_a_new_job_to_its_plan_and_why() {
    let desk = Desk::new().await;
    let job = id(1);
    let new = json!({ "id": job, "template": "example", "name": "Cold house", "who": "Ada" });
    let (status, made) = desk.post("/api/jobs", &new).await;
    assert_eq!(status, StatusCode::CREATED);
    assert_eq!(made["name"], "Cold house");
    assert_eq!(made["values"]["place"]["snow_depth"], "20 in");
    assert!(made["lines"]["room.living"].as_u64().is_some_and(|n| n > 1));
    assert_eq!(desk.post("/api/jobs", &new).await.0, StatusCode::OK);

    let (status, plan) = desk.get(&format!("/api/jobs/{job}/plan")).await;
    assert_eq!(status, StatusCode::OK, "{plan}");
    assert_eq!(plan["revision"], 1);
    let loss = plan["headline"]["heating_load_w"].as_f64().expect("load");
    let rooms = plan["rooms"].as_array().expect("rooms");
    let sum: f64 = rooms.iter().filter_map(|r| r["loss_w"].as_f64()).sum();
    assert!(
        (sum - loss).abs() < 1.0,
        "the house is the sum of its rooms: {sum} and {loss}"
    );
    for line in plan["headline"]["lines"].as_array().expect("lines") {
        let shown = line["shown"].as_str().expect("text");
        assert!(!shown.is_empty() && !shown.contains("NaN"), "{line}");
    }
    for door in plan["doors"].as_array().expect("doors") {
        assert_eq!(door["rooms"].as_array().map(Vec::len), Some(2));
    }
    let spans = plan["windows"][0]["spans_m"].as_array().expect("spans");
    assert!(!spans.is_empty());
    let chart = &plan["charts"]["capacity"];
    assert_eq!(
        chart["outdoor_c"].as_array().map(Vec::len),
        chart["most_w"].as_array().map(Vec::len)
    );
    let (_, options) = desk.get(&format!("/api/jobs/{job}/options")).await;
    assert_eq!(options["options"].as_array().map(Vec::len), Some(4));
    for finding in plan["findings"].as_array().expect("findings") {
        for figure in finding["figures"].as_array().expect("figures") {
            let key = figure.as_str().expect("key").replace(' ', "%20");
            let (status, why) = desk.get(&format!("/api/jobs/{job}/why/{key}")).await;
            assert_eq!(status, StatusCode::OK, "{key}: {why}");
        }
    }
    // Every figure a line points to is there.
    for line in plan["headline"]["lines"].as_array().expect("lines") {
        let key = line["figure"].as_str().expect("key");
        if !key.is_empty() {
            let (status, why) = desk
                .get(&format!("/api/jobs/{job}/why/{key}?si=true"))
                .await;
            assert_eq!((status, why["key"].as_str()), (StatusCode::OK, Some(key)));
        }
    }
    let (status, year) = desk.get(&format!("/api/jobs/{job}/year")).await;
    assert_eq!(status, StatusCode::OK);
    assert_eq!(year["state"].as_array().map(Vec::len), Some(8760));
    for name in plan["drawings"].as_array().expect("names") {
        let name = name.as_str().expect("name");
        let answer = desk
            .raw("GET", &format!("/api/jobs/{job}/drawing/{name}.svg"), None)
            .await;
        assert_eq!(answer.status, StatusCode::OK, "{name}");
        assert!(answer.text().contains("<svg"), "{name}");
        assert_eq!(answer.header("content-type"), "image/svg+xml");
        let narrow = format!("/api/jobs/{job}/drawing/{name}.svg?narrow=true");
        let narrow = desk.raw("GET", &narrow, None).await.text();
        let column = narrow.contains("viewBox=\"0 0 360 ");
        assert_eq!(column, name != "losses", "{name}");
        assert_eq!(narrow == answer.text(), !column, "{name}");
    }
    let (status, none) = desk.get(&format!("/api/jobs/{job}/why/loads.hous")).await;
    assert_eq!(status, StatusCode::NOT_FOUND);
    assert!(
        none["mend"]
            .as_str()
            .is_some_and(|m| m.contains("loads.house")),
        "{none}"
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn edits_of_two_people_a_conflict_and_undo() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let to = format!("/api/jobs/{job}/changes");
    let edit = |n: u64, base: i64, who: &str, path: &str, value: Value| {
        json!({ "id": id(n), "base_revision": base, "who": who, "at": "2026-11-25T10:00:00-05:00",
            "edits": [{ "path": path, "value": value }] })
    };
    let (status, kept) = desk
        .post(&to, &edit(10, 1, "Ada", "place.snow_depth", json!("30 in")))
        .await;
    assert_eq!(
        (status, kept["revision"].as_i64()),
        (StatusCode::OK, Some(2))
    );
    assert!(kept["headline"]["heating_load_w"].as_f64().is_some());
    let (status, both) = desk
        .post(&to, &edit(11, 1, "Ben", "place.snow_depth", json!("24 in")))
        .await;
    assert_eq!(status, StatusCode::CONFLICT);
    assert_eq!(both["both"][0]["theirs"], "30 in");
    assert_eq!(both["both"][0]["theirs_by"], "Ada");
    let (_, kept) = desk
        .post(
            &to,
            &edit(12, 1, "Ben", "room.living.heated_to", json!("69 F")),
        )
        .await;
    assert_eq!(kept["revision"], 3);
    let (_, seen) = desk.get(&format!("/api/jobs/{job}")).await;
    assert_eq!(seen["conflicts"][0]["id"], id(11));
    let settle = format!("/api/jobs/{job}/conflicts/{}/settle", id(11));
    let decision = json!({ "id": id(13), "who": "Ada", "keep": "theirs" });
    assert_eq!(desk.post(&settle, &decision).await.0, StatusCode::OK);
    let (_, none) = desk.get(&format!("/api/jobs/{job}/conflicts")).await;
    assert_eq!(none, json!([]));
    let undo = format!("{to}/{}/undo", id(12));
    let (status, undone) = desk
        .post(&undo, &json!({ "id": id(14), "who": "Ben" }))
        .await;
    assert_eq!(
        (status, undone["revision"].as_i64()),
        (StatusCode::OK, Some(4))
    );
    let (_, bad) = desk
        .post(
            &to,
            &edit(15, 4, "Ben", "room.living.heated_to", json!("69")),
        )
        .await;
    assert_eq!(bad["kind"], "does-not-read");
    let problem = &bad["problems"][0];
    assert!(problem["line"].as_u64().is_some_and(|n| n > 1) && problem["mend"] != "");
    let (status, tried) = desk
        .post(
            &format!("/api/jobs/{job}/trial"),
            &json!({ "edits": [{ "path": "room.living.heated_to", "value": "72 F" }] }),
        )
        .await;
    assert_eq!(status, StatusCode::OK);
    let (_, plan) = desk.get(&format!("/api/jobs/{job}/plan")).await;
    assert_eq!(tried["problems"], json!([]));
    assert!(
        tried["headline"]["heating_load_w"].as_f64() > plan["headline"]["heating_load_w"].as_f64()
    );
    assert_eq!(plan["revision"], 4, "a trial keeps nothing");
    let (_, past) = desk.get(&format!("{to}?after=2")).await;
    let kinds: Vec<&str> = past["revisions"]
        .as_array()
        .expect("list")
        .iter()
        .filter_map(|r| r["kind"].as_str())
        .collect();
    assert_eq!(kinds, ["undo", "edits"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_pressure_test_as_its_readings_come() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let rests_on = json!({
        "kind": "pressure", "refrigerant": "R-32", "elevation": "205 m",
        "lines": [{ "tube": "1/4 in", "length": "24 ft" }, { "tube": "3/8 in", "length": "24 ft" }],
        "volumes": [{ "what": "coil", "volume": "0.7 L", "within": "30 %" }],
        "gauge": { "id": "g", "accuracy": "2 psi", "step": "0.1 psi", "calibrated": "2026-05-04" },
        "thermometer": { "id": "t", "accuracy": "1 K", "step": "0.1 K", "calibrated": "2026-05-04" },
        "plate": "600 psi", "target": "550 psi", "worth": "200 g", "wander": "0.5 K"
    });
    let begin = json!({ "id": id(20), "test": "pressure 1", "who": "Ada", "at": "2026-11-25T10:00:00-05:00", "rests_on": rests_on });
    let (status, test) = desk.post(&format!("/api/jobs/{job}/tests"), &begin).await;
    assert_eq!(status, StatusCode::OK, "{test}");
    assert_eq!(test["verdict"], "cannot tell");
    assert!(test["wait_s"].as_f64().is_some_and(|s| s > 600.0));
    assert!(!test["cautions"].as_array().expect("cautions").is_empty());
    let readings: Vec<Value> = (0..13)
        .map(|n| {
            json!({ "id": id(30 + n), "at": format!("2026-11-25T{:02}:{:02}:00-05:00", 10 + n / 6, n % 6 * 10),
                "pressure": format!("{:.1} psi", 550.0 - 4.0 * n as f64), "line": "70.0 F" })
        })
        .collect();
    let to = format!("/api/jobs/{job}/readings");
    let (status, kept) = desk
        .post(
            &to,
            &json!({ "test": "pressure 1", "who": "Ada", "readings": readings }),
        )
        .await;
    assert_eq!(status, StatusCode::OK, "{kept}");
    assert_eq!(kept["kept"][12]["n"], 14);
    assert_eq!(kept["test"]["verdict"], "fails", "4 psi in ten minutes");
    let again = desk
        .post(
            &to,
            &json!({ "test": "pressure 1", "readings": [readings[3]] }),
        )
        .await
        .1;
    assert_eq!(
        (
            again["kept"][0]["n"].as_u64(),
            again["test"]["readings"].as_array().map(Vec::len)
        ),
        (Some(5), Some(13))
    );
    // the verdict is in the record, once, in the form of the command
    let records = desk.store.records("local", &job).await.expect("whole");
    let verdicts = records.iter().filter(|r| r.kind == "pressure-verdict");
    let verdicts: Vec<_> = verdicts.collect();
    assert_eq!(verdicts.len(), 1, "{records:?}");
    assert_eq!((verdicts[0].n, verdicts[0].who.as_str()), (15, "Ada"));
    assert_eq!(verdicts[0].says["test"], "pressure 1");
    assert_eq!(verdicts[0].says["answer"]["verdict"], "fails");
    let (status, odd) = desk.post(&to, &json!({ "test": "pressure 1", "readings": [{ "id": id(60), "at": "2026-11-25T12:30:00-05:00", "pressure": "550" }] })).await;
    assert_eq!(status, StatusCode::BAD_REQUEST);
    assert!(
        odd["says"]
            .as_str()
            .is_some_and(|s| s.starts_with("pressure: ")),
        "{odd}"
    );
    let (_, list) = desk.get(&format!("/api/jobs/{job}/tests")).await;
    assert_eq!(list[0]["test"], "pressure 1");
    let (_, same) = desk
        .get(&format!("/api/jobs/{job}/tests/pressure%201"))
        .await;
    assert_eq!(same["last_hash"], kept["test"]["last_hash"]);
}

#[tokio::test(flavor = "multi_thread")]
async fn the_plain_file_leaves_as_it_came() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let answer = desk
        .raw("GET", &format!("/api/jobs/{job}/text"), None)
        .await;
    assert_eq!(answer.text(), support::JOB);
    assert!(
        answer
            .header("content-disposition")
            .starts_with("attachment; filename=\"lake-street-12")
    );
    let text = support::JOB.replace("20 in", "21 in");
    let to = format!("/api/jobs/{job}/text");
    let put = json!({ "id": id(40), "base_revision": 1, "text": text });
    assert_eq!(desk.send("PUT", &to, &put).await.0, StatusCode::OK);
    let late = json!({ "id": id(41), "base_revision": 1, "text": text });
    let (status, refused) = desk.send("PUT", &to, &late).await;
    assert_eq!(
        (status, refused["kind"].as_str()),
        (StatusCode::CONFLICT, Some("changed-since"))
    );
    let gone = desk.raw("DELETE", &format!("/api/jobs/{job}"), None).await;
    assert_eq!(gone.status, StatusCode::NO_CONTENT);
    assert_eq!(
        desk.get(&format!("/api/jobs/{job}")).await.0,
        StatusCode::NOT_FOUND
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn what_cannot_be_used_is_refused_in_one_form() {
    let desk = Desk::new().await;
    let job = desk.job(1).await;
    let bodies = [
        (
            "/api/jobs".to_owned(),
            json!({ "id": "7", "template": "first" }),
        ),
        (
            "/api/jobs".to_owned(),
            json!({ "id": id(2), "template": "castle" }),
        ),
        ("/api/jobs".to_owned(), json!({ "id": id(2) })),
        ("/api/jobs".to_owned(), json!([])),
        (
            "/api/jobs".to_owned(),
            json!({ "id": id(2), "text": "not a job" }),
        ),
        (
            format!("/api/jobs/{job}/changes"),
            json!({ "id": id(3), "base_revision": 1, "edits": [] }),
        ),
        (
            format!("/api/jobs/{job}/changes"),
            json!({ "id": id(3), "base_revision": 99, "edits": [{ "path": "job.name", "value": "x" }] }),
        ),
        (
            format!("/api/jobs/{job}/changes"),
            json!({ "id": id(3), "base_revision": 1, "edits": [{ "path": "", "value": "x" }] }),
        ),
        (
            format!("/api/jobs/{job}/changes"),
            json!({ "id": id(3), "base_revision": 1, "edits": [{ "path": "room.living.outline", "value": [null] }] }),
        ),
        (
            format!("/api/jobs/{job}/changes"),
            json!({ "id": id(3), "base_revision": 1, "at": "yesterday", "edits": [{ "path": "job.name", "value": "x" }] }),
        ),
    ];
    for (to, body) in bodies {
        let (status, refused) = desk.post(&to, &body).await;
        assert!(status.is_client_error(), "{to} {body}: {status}");
        let words = refused["says"].as_str().unwrap_or("");
        assert!(!words.is_empty(), "{to} {body}: {refused}");
    }
    let form = desk
        .raw_kind(
            "POST",
            "/api/jobs",
            Some(b"id=1".to_vec()),
            "application/x-www-form-urlencoded",
        )
        .await;
    assert_eq!(form.status, StatusCode::UNSUPPORTED_MEDIA_TYPE);
    let huge = vec![b'['; 10 * 1024 * 1024];
    let huge = desk.raw("POST", "/api/jobs", Some(huge)).await;
    assert_eq!(huge.status, StatusCode::PAYLOAD_TOO_LARGE);
    // No weather of that name: the job is kept, the plan waits.
    let to = format!("/api/jobs/{job}/changes");
    let odd = json!({ "id": id(4), "base_revision": 1, "edits": [{ "path": "place.weather", "value": "../../etc/passwd" }] });
    let (status, _) = desk.post(&to, &odd).await;
    assert_eq!(status, StatusCode::OK);
    let (status, refused) = desk.get(&format!("/api/jobs/{job}/plan")).await;
    assert_eq!(
        (status, refused["kind"].as_str()),
        (StatusCode::UNPROCESSABLE_ENTITY, Some("waits"))
    );
    assert!(
        refused["allowed"]
            .as_str()
            .is_some_and(|a| a.contains("chicago-725300"))
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn another_site_and_another_name_are_turned_away() {
    let desk = Desk::new().await;
    let body = serde_json::to_vec(&json!({ "id": id(1), "template": "first" })).expect("JSON");
    for (name, value, expected) in [
        ("sec-fetch-site", "cross-site", StatusCode::FORBIDDEN),
        ("sec-fetch-site", "same-site", StatusCode::FORBIDDEN),
        ("origin", "https://elsewhere.example", StatusCode::FORBIDDEN),
        ("host", "elsewhere.example", StatusCode::MISDIRECTED_REQUEST),
        ("sec-fetch-site", "same-origin", StatusCode::CREATED),
    ] {
        let answer = desk
            .with("POST", "/api/jobs", body.clone(), name, value)
            .await;
        assert_eq!(answer.status, expected, "{name}: {value}");
    }
    let page = desk.raw("GET", "/", None).await;
    assert_eq!(page.status, StatusCode::OK);
    assert!(
        page.header("content-security-policy")
            .contains("default-src 'self'")
    );
    assert_eq!(page.header("x-content-type-options"), "nosniff");
    assert_eq!(
        desk.raw("GET", "/rooms/living", None).await.status,
        StatusCode::OK
    );
    assert_eq!(
        desk.raw("GET", "/no-such.js", None).await.status,
        StatusCode::NOT_FOUND
    );
    assert_eq!(
        desk.raw("GET", "/../Cargo.toml", None).await.status,
        StatusCode::NOT_FOUND
    );
    let (status, none) = desk.get("/api/nothing").await;
    assert_eq!(
        (status, none["kind"].as_str()),
        (StatusCode::NOT_FOUND, Some("not-there"))
    );
    let (_, health) = desk.get("/api/health").await;
    assert_eq!(health["database"], "sqlite");
    assert_eq!(
        desk.raw("GET", "/api/health", None)
            .await
            .header("cache-control"),
        "no-store"
    );
    let (_, sheets) = desk.get("/api/catalogue").await;
    assert!(sheets.as_array().is_some_and(|s| s.len() > 20));
    let (_, weather) = desk.get("/api/weather").await;
    assert_eq!(weather.as_array().map(Vec::len), Some(6));
}
