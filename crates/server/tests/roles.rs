//! Every answer asked for by every role, by another firm, by a homeowner and by a stranger.
//! Long because: the table of all operations stands beside what asks them.

mod support;

use axum::http::{Method, StatusCode};
use serde_json::{Value, json};
use server::Role;
use support::{Answer, Desk, JOB, id};

/// Who asks, and with which cookie.
struct Person {
    who: &'static str,
    cookie: String,
}

async fn ask(desk: &Desk, of: Option<&Person>, method: &str, to: &str, body: &Value) -> Answer {
    let cookie = of.map_or("", |p| p.cookie.as_str());
    desk.with(method, to, body.to_string().into_bytes(), "cookie", cookie)
        .await
}

/// Invited by the command, accepted through the interface.
async fn person(desk: &Desk, firm: &str, role: Role, who: &'static str) -> Person {
    desk.store.make_firm(firm, firm).await.expect("firm");
    let email = format!("{}@{firm}.example", who.replace(' ', "-"));
    let invited = server::invited(&desk.store, firm, (who, &email, role), "test")
        .await
        .expect("invited");
    let token = invited.path.rsplit('/').next().expect("token").to_owned();
    let accepted = json!({ "token": token, "password": "four walls and a roof" });
    let answer = ask(desk, None, "POST", "/api/invited", &accepted).await;
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text());
    let again = ask(desk, None, "POST", "/api/invited", &accepted).await;
    assert_eq!(
        again.status,
        StatusCode::NOT_FOUND,
        "an invitation opens once"
    );
    let set = answer.header("set-cookie");
    for part in ["HttpOnly", "Secure", "SameSite=Strict"] {
        assert!(set.contains(part), "{set}");
    }
    Person {
        who,
        cookie: set.split(';').next().expect("cookie").to_owned(),
    }
}

/// What is needed for an answer. `Nobody`: also without signing in.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Needs {
    Nobody,
    See,
    Measure,
    Change,
    Manage,
}

impl Needs {
    fn has(self, who: &str) -> bool {
        match self {
            Self::Nobody => true,
            Self::See => matches!(who, "owner" | "designer" | "installer" | "reader"),
            Self::Measure => matches!(who, "owner" | "designer" | "installer"),
            Self::Change => matches!(who, "owner" | "designer"),
            Self::Manage => who == "owner",
        }
    }
}

/// Every operation of the interface with what it needs.
const ALL: &[(&str, &str, Needs)] = &[
    ("get", "/api/jobs", Needs::See),
    ("post", "/api/jobs", Needs::Change),
    ("get", "/api/jobs/{id}", Needs::See),
    ("delete", "/api/jobs/{id}", Needs::Manage),
    ("get", "/api/jobs/{id}/text", Needs::See),
    ("put", "/api/jobs/{id}/text", Needs::Change),
    ("get", "/api/jobs/{id}/archive", Needs::Change),
    ("get", "/api/jobs/{id}/changes", Needs::See),
    ("post", "/api/jobs/{id}/changes", Needs::Change),
    (
        "post",
        "/api/jobs/{id}/changes/{change}/undo",
        Needs::Change,
    ),
    ("get", "/api/jobs/{id}/conflicts", Needs::See),
    (
        "post",
        "/api/jobs/{id}/conflicts/{change}/settle",
        Needs::Change,
    ),
    ("post", "/api/jobs/{id}/trial", Needs::See),
    ("get", "/api/jobs/{id}/plan", Needs::See),
    ("get", "/api/jobs/{id}/year", Needs::See),
    ("get", "/api/jobs/{id}/options", Needs::See),
    ("post", "/api/jobs/{id}/options/taken", Needs::Change),
    ("get", "/api/jobs/{id}/bands", Needs::See),
    ("get", "/api/jobs/{id}/bands/why/{key}", Needs::See),
    ("get", "/api/jobs/{id}/bills", Needs::See),
    ("post", "/api/jobs/{id}/bills/read", Needs::Change),
    ("post", "/api/jobs/{id}/temperatures", Needs::Change),
    (
        "delete",
        "/api/jobs/{id}/temperatures/{file}",
        Needs::Change,
    ),
    ("get", "/api/jobs/{id}/why/{key}", Needs::See),
    ("get", "/api/jobs/{id}/figures", Needs::See),
    ("get", "/api/jobs/{id}/drawing/{name}", Needs::See),
    ("get", "/api/jobs/{id}/tests", Needs::See),
    ("post", "/api/jobs/{id}/tests", Needs::Measure),
    ("get", "/api/jobs/{id}/tests/{test}", Needs::See),
    ("post", "/api/jobs/{id}/readings", Needs::Measure),
    ("get", "/api/jobs/{id}/opening", Needs::See),
    ("post", "/api/jobs/{id}/charges", Needs::Measure),
    ("post", "/api/jobs/{id}/runs", Needs::Measure),
    ("get", "/api/jobs/{id}/photos", Needs::See),
    ("post", "/api/jobs/{id}/photos", Needs::Measure),
    ("get", "/api/jobs/{id}/photos/{photo}", Needs::See),
    ("delete", "/api/jobs/{id}/photos/{photo}", Needs::Change),
    ("get", "/api/jobs/{id}/papers", Needs::See),
    ("get", "/api/jobs/{id}/papers/{reader}", Needs::See),
    ("get", "/api/jobs/{id}/links", Needs::Change),
    ("post", "/api/jobs/{id}/links", Needs::Change),
    ("delete", "/api/jobs/{id}/links/{link}", Needs::Change),
    ("get", "/api/weather", Needs::See),
    ("get", "/api/catalogue", Needs::See),
    ("get", "/api/health", Needs::Nobody),
    ("get", "/api/me", Needs::See),
    ("post", "/api/sign-in", Needs::Nobody),
    ("post", "/api/sign-out", Needs::See),
    ("post", "/api/invited", Needs::Nobody),
    ("get", "/api/people", Needs::Manage),
    ("post", "/api/people/invitations", Needs::Manage),
    ("put", "/api/people/{id}", Needs::Manage),
    ("delete", "/api/people/{id}", Needs::Manage),
    ("get", "/api/trail", Needs::Manage),
    ("get", "/api/export", Needs::Manage),
    ("delete", "/api/firm", Needs::Manage),
    ("get", "/api/shared/{token}", Needs::Nobody),
    ("get", "/api/shared/{token}/drawing/{name}", Needs::Nobody),
];

#[test]
fn the_matrix_has_every_operation() {
    let api: Value = serde_json::from_str(&server::openapi()).expect("JSON");
    let mut there: Vec<(String, String)> = Vec::new();
    for (path, operations) in api["paths"].as_object().expect("paths") {
        there.extend(
            operations
                .as_object()
                .expect("operations")
                .keys()
                .map(|m| (m.clone(), path.clone())),
        );
    }
    let mut here: Vec<(String, String)> = ALL
        .iter()
        .map(|(m, p, _)| ((*m).to_owned(), (*p).to_owned()))
        .collect();
    there.sort();
    here.sort();
    assert_eq!(here, there);
}

#[tokio::test(flavor = "multi_thread")]
async fn every_answer_by_every_role_and_a_stranger() {
    let desk = Desk::with_people().await;
    let mut people = Vec::new();
    for (role, who) in [
        (Role::Owner, "owner"),
        (Role::Designer, "designer"),
        (Role::Installer, "installer"),
        (Role::Reader, "reader"),
    ] {
        people.push(person(&desk, "ours", role, who).await);
    }
    let other = person(&desk, "theirs", Role::Owner, "another firm").await;
    let owner = &people[0];
    let job = id(1);
    let made = ask(
        &desk,
        Some(owner),
        "POST",
        "/api/jobs",
        &json!({ "id": job, "text": JOB }),
    )
    .await;
    assert_eq!(made.status, StatusCode::CREATED);
    // Bodies that are understood and then find nothing: the door is what is tried here.
    let body = |path: &str| match path {
        "/api/jobs" => json!({ "id": "none" }),
        p if p.ends_with("/changes") => {
            json!({ "id": id(5), "base_revision": 99, "edits": [{ "path": "job.name", "value": "x" }] })
        }
        p if p.ends_with("/text") => json!({ "id": id(6), "base_revision": 99, "text": "" }),
        p if p.ends_with("/undo") => json!({ "id": id(7) }),
        p if p.ends_with("/settle") => json!({ "id": id(8), "keep": "mine" }),
        p if p.ends_with("/trial") => json!({ "edits": [] }),
        p if p.ends_with("/tests") => json!({ "id": "none", "test": "x", "rests_on": {
            "kind": "x", "refrigerant": "R-32", "lines": [],
            "gauge": { "id": "g", "accuracy": "2 psi", "step": "1 psi" } } }),
        p if p.ends_with("/readings") => json!({ "test": "none", "readings": [] }),
        p if p.ends_with("/charges") => json!({ "id": "none", "outdoor": "none", "cylinder": "1",
            "before": "1 kg", "after": "1 kg", "scale_within": "5 g" }),
        p if p.ends_with("/runs") => {
            json!({ "id": "none", "outdoor_unit": "none", "mode": "heating",
            "minutes": 1, "outdoor": "44 F", "back": "68 F", "supply": "90 F" })
        }
        p if p.ends_with("/links") => json!({ "days": 0 }),
        "/api/jobs/{id}/options/taken" => {
            json!({ "id": id(77), "option": "a head in every bedroom" })
        }
        "/api/sign-in" => json!({ "email": "nobody@nowhere.example", "password": "x" }),
        "/api/invited" => json!({ "token": "x", "password": "short" }),
        "/api/people/invitations" => json!({ "name": "", "email": "x", "role": "reader" }),
        "/api/people/{id}" => json!({ "role": "reader" }),
        "/api/firm" => json!({ "firm": "not its name" }),
        _ => json!({}),
    };
    let api: Value = serde_json::from_str(&server::openapi()).expect("JSON");
    for (method, path, needs) in ALL {
        // Signing out and taking away would end the round for those who may.
        let last = *path == "/api/sign-out" || (*method == "delete" && *path == "/api/jobs/{id}");
        let to = path
            .replace(
                "{id}",
                if path.contains("/people/") {
                    "nobody"
                } else {
                    &job
                },
            )
            .replace("{change}", &id(9))
            .replace("{key}", "loads.house.heating")
            .replace("{name}", "storeys.svg")
            .replace("{test}", "none")
            .replace("{photo}", "none")
            .replace("{file}", "none")
            .replace("{link}", "none")
            .replace("{reader}", "rebate")
            .replace("{token}", "none");
        let to = if path.ends_with("/photos") && *method == "post" {
            format!("{to}?id=none&shows=x")
        } else if path.ends_with("/temperatures") {
            format!("{to}?id=none")
        } else {
            to
        };
        let method = Method::from_bytes(method.to_uppercase().as_bytes()).expect("method");
        let stranger = ask(&desk, None, method.as_str(), &to, &body(path)).await;
        if *needs != Needs::Nobody {
            assert_eq!(
                stranger.status,
                StatusCode::UNAUTHORIZED,
                "a stranger: {method} {path}"
            );
        }
        let forged = Person {
            who: "forged",
            cookie: format!("northwall={}", "0".repeat(64)),
        };
        let forged = ask(&desk, Some(&forged), method.as_str(), &to, &body(path)).await;
        if *needs != Needs::Nobody {
            assert_eq!(
                forged.status,
                StatusCode::UNAUTHORIZED,
                "forged: {method} {path}"
            );
        }
        for p in &people {
            if last && needs.has(p.who) {
                continue;
            }
            let answer = ask(&desk, Some(p), method.as_str(), &to, &body(path)).await;
            let named = &api["paths"][*path][method.as_str().to_lowercase()]["responses"];
            assert!(
                named[answer.status.as_str()].is_object(),
                "{method} {path} gives {}, which is not described",
                answer.status
            );
            let turned_away = answer.status == StatusCode::FORBIDDEN;
            assert_eq!(
                turned_away,
                !needs.has(p.who),
                "{}: {method} {path}: {} {}",
                p.who,
                answer.status,
                answer.text()
            );
            assert!(
                !answer.status.is_server_error(),
                "{}: {method} {path}: {}",
                p.who,
                answer.text()
            );
        }
        if path.contains("/jobs/{id}") {
            let answer = ask(&desk, Some(&other), method.as_str(), &to, &body(path)).await;
            assert!(
                answer.status.is_client_error(),
                "another firm: {method} {path}: {}",
                answer.status
            );
            assert!(
                !answer.text().contains("Lake Street"),
                "another firm sees: {method} {path}"
            );
        }
    }
    let seen = ask(&desk, Some(&other), "GET", "/api/jobs", &json!({})).await;
    assert_eq!(seen.text(), "{\"jobs\":[]}");
    let installer = &people[2];
    let built = json!({ "id": id(30), "base_revision": 1, "edits": [{ "path": "as_built",
        "value": { "path": "place.snow_depth", "value": "22 in", "who": "installer", "when": "2026-11-25" } }] });
    let answer = ask(
        &desk,
        Some(installer),
        "POST",
        &format!("/api/jobs/{job}/changes"),
        &built,
    )
    .await;
    assert_ne!(
        answer.status,
        StatusCode::FORBIDDEN,
        "what was built: {}",
        answer.text()
    );
    let trail = ask(&desk, Some(owner), "GET", "/api/trail", &json!({}))
        .await
        .text();
    for what in ["signed in", "invited as reader", "took everything out"] {
        assert!(trail.contains(what), "{what}: {trail}");
    }
    let out = ask(&desk, Some(&people[3]), "POST", "/api/sign-out", &json!({})).await;
    assert_eq!(out.status, StatusCode::NO_CONTENT);
    let after = ask(&desk, Some(&people[3]), "GET", "/api/jobs", &json!({})).await;
    assert_eq!(after.status, StatusCode::UNAUTHORIZED, "signed out is out");
    let gone = ask(
        &desk,
        Some(owner),
        "DELETE",
        "/api/firm",
        &json!({ "firm": "ours" }),
    )
    .await;
    assert_eq!(gone.status, StatusCode::NO_CONTENT);
    let after = ask(&desk, Some(owner), "GET", "/api/jobs", &json!({})).await;
    assert_eq!(after.status, StatusCode::UNAUTHORIZED, "everything is gone");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_homeowner_sees_the_house_until_the_link_is_withdrawn() {
    let desk = Desk::with_people().await;
    let owner = person(&desk, "ours", Role::Owner, "owner").await;
    let job = id(1);
    ask(
        &desk,
        Some(&owner),
        "POST",
        "/api/jobs",
        &json!({ "id": job, "text": JOB }),
    )
    .await;
    let made = ask(
        &desk,
        Some(&owner),
        "POST",
        &format!("/api/jobs/{job}/links"),
        &json!({ "days": 30 }),
    )
    .await;
    assert_eq!(made.status, StatusCode::CREATED, "{}", made.text());
    let made: Value = serde_json::from_slice(&made.bytes).expect("JSON");
    let token = made["path"]
        .as_str()
        .expect("path")
        .rsplit('/')
        .next()
        .expect("token")
        .to_owned();
    let to = format!("/api/shared/{token}");
    let seen = ask(&desk, None, "GET", &to, &json!({})).await;
    assert_eq!(seen.status, StatusCode::OK, "{}", seen.text());
    let seen: Value = serde_json::from_slice(&seen.bytes).expect("JSON");
    assert!(seen["rooms"].as_array().is_some_and(|r| r.len() > 5));
    for kept in ["text", "findings", "values", "updated_by"] {
        assert!(seen.get(kept).is_none(), "{kept} is the firm's own");
    }
    let drawn = ask(
        &desk,
        None,
        "GET",
        &format!("{to}/drawing/storeys.svg"),
        &json!({}),
    )
    .await;
    assert!(drawn.text().contains("<svg"));
    let not = ask(
        &desk,
        None,
        "GET",
        &format!("{to}/drawing/wall.svg"),
        &json!({}),
    )
    .await;
    assert_eq!(not.status, StatusCode::NOT_FOUND);
    let link = made["id"].as_str().expect("id");
    let gone = ask(
        &desk,
        Some(&owner),
        "DELETE",
        &format!("/api/jobs/{job}/links/{link}"),
        &json!({}),
    )
    .await;
    assert_eq!(gone.status, StatusCode::NO_CONTENT);
    let after = ask(&desk, None, "GET", &to, &json!({})).await;
    assert_eq!(after.status, StatusCode::NOT_FOUND);
    assert!(!after.text().contains("Lake"));
}

#[tokio::test(flavor = "multi_thread")]
async fn signing_in_takes_the_right_word_and_has_a_pace() {
    let desk = Desk::with_people().await;
    let owner = person(&desk, "ours", Role::Owner, "owner").await;
    let sign = |word: &str| json!({ "email": "Owner@ours.example", "password": word });
    let good = ask(
        &desk,
        None,
        "POST",
        "/api/sign-in",
        &sign("four walls and a roof"),
    )
    .await;
    assert_eq!(good.status, StatusCode::OK, "{}", good.text());
    let bad = ask(&desk, None, "POST", "/api/sign-in", &sign("four walls")).await;
    assert_eq!(bad.status, StatusCode::UNAUTHORIZED);
    let nobody = json!({ "email": "nobody@ours.example", "password": "four walls" });
    let nobody = ask(&desk, None, "POST", "/api/sign-in", &nobody).await;
    assert_eq!(nobody.text(), bad.text(), "who is there is not told");
    for _ in 0..8 {
        ask(&desk, None, "POST", "/api/sign-in", &sign("wrong")).await;
    }
    let late = ask(
        &desk,
        None,
        "POST",
        "/api/sign-in",
        &sign("four walls and a roof"),
    )
    .await;
    assert_eq!(late.status, StatusCode::TOO_MANY_REQUESTS);
    // The last owner stays.
    let people = ask(&desk, Some(&owner), "GET", "/api/people", &json!({})).await;
    let people: Value = serde_json::from_slice(&people.bytes).expect("JSON");
    assert!(!people.to_string().contains("argon2id"), "no hash goes out");
    let id = people[0]["id"].as_str().expect("id");
    let stays = ask(
        &desk,
        Some(&owner),
        "DELETE",
        &format!("/api/people/{id}"),
        &json!({}),
    )
    .await;
    assert_eq!(stays.status, StatusCode::BAD_REQUEST);
    // A role taken holds at once, in sessions that run.
    let second = person(&desk, "ours", Role::Owner, "second").await;
    let people = ask(&desk, Some(&owner), "GET", "/api/people", &json!({})).await;
    let people: Value = serde_json::from_slice(&people.bytes).expect("JSON");
    let two = people
        .as_array()
        .expect("list")
        .iter()
        .find(|p| p["name"] == "second")
        .expect("there");
    let to = format!("/api/people/{}", two["id"].as_str().expect("id"));
    let done = ask(
        &desk,
        Some(&owner),
        "PUT",
        &to,
        &json!({ "role": "reader" }),
    )
    .await;
    assert_eq!(done.status, StatusCode::NO_CONTENT);
    let now = ask(&desk, Some(&second), "GET", "/api/people", &json!({})).await;
    assert_eq!(now.status, StatusCode::FORBIDDEN);
    assert_eq!(second.who, "second");
}
