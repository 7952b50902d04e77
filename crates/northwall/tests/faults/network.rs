//! A network that is slow, stands still or is cut: between people and server, and between server
//! and database.

use std::io::{Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use serde_json::json;

use crate::database;
use crate::served::{self, Served};

/// A wire between server and database that can be held still and cut.
struct Wire {
    port: u16,
    still: Arc<AtomicBool>,
    ends: Arc<Mutex<Vec<TcpStream>>>,
}

impl Wire {
    fn to(socket: std::path::PathBuf) -> Self {
        let door = TcpListener::bind("127.0.0.1:0").expect("a port");
        let port = door.local_addr().expect("its address").port();
        let still = Arc::new(AtomicBool::new(false));
        let ends = Arc::new(Mutex::new(Vec::new()));
        let (held, kept) = (Arc::clone(&still), Arc::clone(&ends));
        std::thread::spawn(move || {
            for near in door.incoming() {
                let Ok(near) = near else { return };
                let Ok(far) = std::os::unix::net::UnixStream::connect(&socket) else {
                    continue;
                };
                kept.lock()
                    .expect("whole")
                    .push(near.try_clone().expect("one more"));
                let (near2, far2) = (near.try_clone().expect("2"), far.try_clone().expect("2"));
                let (one, two) = (Arc::clone(&held), Arc::clone(&held));
                std::thread::spawn(move || carry(near, far, &one));
                std::thread::spawn(move || carry(far2, near2, &two));
            }
        });
        Self { port, still, ends }
    }

    fn hold(&self, still: bool) {
        self.still.store(still, Ordering::SeqCst);
    }

    fn cut(&self) {
        for end in self.ends.lock().expect("whole").drain(..) {
            let _ = end.shutdown(Shutdown::Both);
        }
    }
}

fn carry(mut from: impl Read, mut to: impl Write, still: &AtomicBool) {
    let mut some = [0; 4096];
    while let Ok(n @ 1..) = from.read(&mut some) {
        while still.load(Ordering::SeqCst) {
            std::thread::sleep(Duration::from_millis(20));
        }
        if to.write_all(&some[..n]).is_err() {
            return;
        }
    }
}

#[test]
fn a_database_out_of_reach_is_said_and_found_again() {
    let Some(cluster) = database::Cluster::start() else {
        return;
    };
    let address = cluster.database("wire");
    let wire = Wire::to(cluster.socket());
    let through = format!(
        "postgres://northwall@127.0.0.1:{}/wire?sslmode=disable",
        wire.port
    );
    let folder = tempfile::tempdir().expect("folder");
    let far = Served::start(folder.path(), Some(&through));
    // Another server of the same firm, on a wire of its own.
    let near = Served::start(folder.path(), Some(&address));
    let job = database::id(1);
    let new = json!({ "id": job, "template": "first", "who": "Ada" });
    let made = served::ask(far.port, "POST", "/api/jobs", Some(&new)).expect("answers");
    assert_eq!(made.0, 201, "{}", made.1);
    let ids: Vec<String> = (0..6).map(database::id).collect();
    let rename = |port: u16, n: usize, base: u64, name: &str| {
        let body = json!({
            "id": ids[n], "base_revision": base, "who": "Ada",
            "edits": [{ "path": "job.name", "value": name }],
        });
        served::ask(
            port,
            "POST",
            &format!("/api/jobs/{job}/changes"),
            Some(&body),
        )
        .expect("answers")
    };
    assert_eq!(rename(far.port, 2, 1, "one").0, 200);

    // Cut in the middle: the wire is new the next time.
    wire.cut();
    let (code, says) = rename(far.port, 3, 2, "two");
    assert!(
        code == 200 || (code == 503 && says["kind"] == "database-away"),
        "{code} {says}"
    );
    // The same again, with the same id, is kept once whichever way it went.
    assert_eq!(rename(far.port, 3, 2, "two").0, 200);

    // Held still: an answer comes all the same, and says that the database is away.
    wire.hold(true);
    let begun = Instant::now();
    let (code, says) = rename(far.port, 4, 3, "three");
    assert_eq!(
        (code, &says["kind"]),
        (503, &json!("database-away")),
        "{says}"
    );
    assert!(begun.elapsed() < Duration::from_mins(1));
    // Nobody else waits for it.
    assert_eq!(rename(near.port, 5, 3, "from the other").0, 200);
    wire.hold(false);
    let (code, says) = rename(far.port, 4, 3, "three");
    assert!(matches!(code, 200 | 409), "{says}");
    let (_, past) = served::ask(
        far.port,
        "GET",
        &format!("/api/jobs/{job}/changes?before=1000"),
        None,
    )
    .expect("answers");
    let there: Vec<_> = past["revisions"]
        .as_array()
        .expect("list")
        .iter()
        .filter_map(|r| r["id"].as_str())
        .collect();
    for n in [2, 3, 5] {
        let times = there.iter().filter(|id| **id == ids[n]).count();
        assert_eq!(times, 1, "change {n} in {there:?}");
    }
}

/// Two hundred that send half a question and wait: who asks whole ones is answered.
#[test]
fn half_questions_keep_nobody_waiting() {
    let folder = tempfile::tempdir().expect("folder");
    let served = Served::start(folder.path(), None);
    let halves: Vec<TcpStream> = (0..200)
        .map(|n| {
            let mut s = TcpStream::connect(("127.0.0.1", served.port)).expect("connects");
            let half = if n % 2 == 0 {
                "POST /api/jobs HTTP/1.1\r\nhost: localh".to_owned()
            } else {
                format!(
                    "POST /api/jobs HTTP/1.1\r\nhost: localhost:{}\r\ncontent-type: application/json\r\n\
                     content-length: 900\r\n\r\n{{\"id\":",
                    served.port
                )
            };
            s.write_all(half.as_bytes()).expect("sent");
            s
        })
        .collect();
    let (code, _) = served::ask(served.port, "GET", "/api/jobs", None).expect("answers");
    assert_eq!(code, 200);
    drop(halves);
    // Cut halves leave nothing behind.
    let (code, jobs) = served::ask(served.port, "GET", "/api/jobs", None).expect("answers");
    assert_eq!(code, 200);
    assert!(
        jobs.to_string().len() < 40,
        "no job was made of them: {jobs}"
    );
}
