//! The server ended with kill -9 in the middle of writing, again and again: nothing that was
//! acknowledged is lost. 12 kills on each database; NORTHWALL_KILLS asks for more.

#[path = "../../store/tests/support/mod.rs"]
mod database;
mod served;

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use serde_json::{Value, json};
use served::Served;

/// Three write at once: each its own path, and one the readings.
const PATHS: [&str; 3] = ["place.snow_depth", "job.name", "readings"];

fn kills() -> usize {
    let asked = std::env::var("NORTHWALL_KILLS").ok();
    asked.and_then(|n| n.parse().ok()).unwrap_or(12)
}

/// Ids of what was acknowledged: changes, and readings with their number.
#[derive(Default)]
struct Acknowledged {
    changes: Vec<String>,
    readings: Vec<(String, u64)>,
}

fn write_on(
    port: u16,
    job: &str,
    writer: usize,
    first: u64,
    end: &AtomicBool,
    kept: &Mutex<Acknowledged>,
) {
    let path = PATHS[writer];
    for n in first.. {
        if end.load(Ordering::Relaxed) {
            return;
        }
        let id = database::id((writer as u64 + 1) * 1_000_000_000 + n);
        if path == "readings" {
            let second = n % 60;
            let reading = json!({ "id": id, "at": format!("2026-11-25T10:{:02}:{second:02}Z", n / 60 % 60), "pressure": "550 psi", "line": "70 F" });
            let body = json!({ "test": "t", "who": "w", "readings": [reading] });
            if let Some((200, answer)) = served::ask(
                port,
                "POST",
                &format!("/api/jobs/{job}/readings"),
                Some(&body),
            ) {
                let number = answer["kept"][0]["n"].as_u64().expect("a number");
                kept.lock().expect("whole").readings.push((id, number));
            }
            continue;
        }
        let Some((200, now)) = served::ask(port, "GET", &format!("/api/jobs/{job}"), None) else {
            continue;
        };
        let value = if path == "job.name" {
            format!("name {n}")
        } else {
            format!("{} in", n % 90 + 1)
        };
        let body = json!({ "id": id, "base_revision": now["revision"], "who": path, "edits": [{ "path": path, "value": value }] });
        match served::ask(
            port,
            "POST",
            &format!("/api/jobs/{job}/changes"),
            Some(&body),
        ) {
            Some((200 | 409, _)) => kept.lock().expect("whole").changes.push(id),
            Some((code, answer)) => panic!("{code} {answer}"),
            None => {}
        }
    }
}

fn all_there(port: u16, job: &str, kept: &Acknowledged) {
    let seen = |to: &str| -> Value {
        let (code, answer) = served::ask(port, "GET", to, None).expect("answers");
        assert_eq!(code, 200, "{to}: {answer}");
        answer
    };
    let mut ids: Vec<String> = Vec::new();
    let mut before = i64::MAX;
    loop {
        let past = seen(&format!("/api/jobs/{job}/changes?before={before}"));
        let rows = past["revisions"].as_array().expect("list").clone();
        // Newest first, a thousand at a time: the oldest of a full page says where to go on from.
        let numbers: Vec<i64> = rows.iter().filter_map(|r| r["revision"].as_i64()).collect();
        assert!(
            numbers.windows(2).all(|w| w[0] == w[1] + 1),
            "no revision is missing"
        );
        ids.extend(
            rows.iter()
                .filter_map(|r| r["id"].as_str().map(str::to_owned)),
        );
        if let Some(newest) = numbers.first().filter(|_| before < i64::MAX) {
            assert_eq!(
                *newest,
                before - 1,
                "no revision is missing between two answers"
            );
        }
        match numbers.last() {
            Some(1) => break,
            Some(least) => before = *least,
            None => panic!("the history does not go down to the beginning"),
        }
    }
    let held = seen(&format!("/api/jobs/{job}/conflicts"));
    ids.extend(
        held.as_array()
            .expect("list")
            .iter()
            .filter_map(|h| h["id"].as_str().map(str::to_owned)),
    );
    for id in &kept.changes {
        assert!(ids.contains(id), "{id} was acknowledged and is lost");
    }
    // Asking for a test proves the whole chain of records.
    let test = seen(&format!("/api/jobs/{job}/tests/t"));
    let last = kept.readings.iter().map(|r| r.1).max().unwrap_or(1);
    let there = test["readings"].as_array().expect("list");
    assert!(
        there
            .iter()
            .filter_map(|r| r["n"].as_u64())
            .max()
            .unwrap_or(1)
            >= last
    );
    for (id, n) in &kept.readings {
        assert!(
            there.iter().any(|r| r["n"].as_u64() == Some(*n)),
            "{id} was acknowledged and is lost"
        );
    }
}

fn killed_again_and_again(start: impl Fn() -> Served) {
    let job = database::id(1);
    let served = start();
    // A station that is not here: the job is kept all the same, and no plan takes time.
    let text = database::JOB.lines().map(|l| {
        if l.starts_with("weather = ") {
            "weather = \"none.epw\"".to_owned()
        } else {
            l.to_owned()
        }
    });
    let text: String = text.map(|l| l + "\n").collect();
    let new = json!({ "id": job, "text": text, "who": "Ada" });
    let made = served::ask(served.port, "POST", "/api/jobs", Some(&new)).expect("answers");
    assert_eq!(made.0, 201, "{}", made.1);
    let rests_on = json!({
        "kind": "pressure", "refrigerant": "R-32",
        "lines": [{ "tube": "1/4 in", "length": "24 ft" }], "volumes": [],
        "gauge": { "id": "g", "accuracy": "2 psi", "step": "0.1 psi" },
        "thermometer": { "id": "t", "accuracy": "1 K", "step": "0.1 K" },
        "plate": "600 psi", "target": "550 psi", "worth": "200 g"
    });
    let begin = json!({ "id": database::id(2), "test": "t", "who": "Ada", "rests_on": rests_on });
    let begun = served::ask(
        served.port,
        "POST",
        &format!("/api/jobs/{job}/tests"),
        Some(&begin),
    )
    .expect("answers");
    assert_eq!(begun.0, 200, "{}", begun.1);
    let kept = Arc::new(Mutex::new(Acknowledged::default()));
    let mut now = served;
    for round in 0..kills() as u64 {
        let end = Arc::new(AtomicBool::new(false));
        let writers: Vec<_> = (0..PATHS.len())
            .map(|w| {
                let (end, kept, job, port) =
                    (Arc::clone(&end), Arc::clone(&kept), job.clone(), now.port);
                std::thread::spawn(move || write_on(port, &job, w, round * 10_000, &end, &kept))
            })
            .collect();
        // After some were acknowledged, and not at the same moment of a write each time.
        let many = || {
            let kept = kept.lock().expect("whole");
            kept.changes.len() + kept.readings.len()
        };
        let wanted = many() + 3 + round as usize % 5;
        for _ in 0..2_000 {
            if many() >= wanted {
                break;
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        std::thread::sleep(Duration::from_micros(round * 3_700 % 16_000));
        now.kill();
        end.store(true, Ordering::Relaxed);
        for w in writers {
            w.join().expect("a writer");
        }
        now = start();
        all_there(now.port, &job, &kept.lock().expect("whole"));
    }
    let kept = kept.lock().expect("whole");
    let many = kept.changes.len() + kept.readings.len();
    assert!(
        many >= kills() * 2,
        "only {many} acknowledged: nothing was under way"
    );
}

#[test]
fn nothing_acknowledged_is_lost_in_a_folder() {
    let folder = tempfile::tempdir().expect("folder");
    killed_again_and_again(|| Served::start(folder.path(), None));
}

#[test]
fn nothing_acknowledged_is_lost_on_postgresql() {
    let Some(cluster) = database::Cluster::start() else {
        return;
    };
    let address = cluster.database("killed");
    let folder = tempfile::tempdir().expect("folder");
    killed_again_and_again(|| Served::start(folder.path(), Some(&address)));
    // And the database itself, ended as by a power cut.
    let job = database::id(3);
    let now = Served::start(folder.path(), Some(&address));
    let new = json!({ "id": job, "template": "first", "who": "Ada" });
    assert_eq!(
        served::ask(now.port, "POST", "/api/jobs", Some(&new))
            .expect("answers")
            .0,
        201
    );
    cluster.cut_and_start();
    let (code, _) =
        served::ask(now.port, "GET", &format!("/api/jobs/{job}"), None).expect("answers");
    assert_eq!(code, 200, "the server finds its database again");
}
