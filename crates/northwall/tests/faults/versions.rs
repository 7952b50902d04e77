//! Two versions of the program on one database, and a clock that jumps.

use std::path::Path;
use std::process::Command;

use assert_cmd::cargo::cargo_bin;
use serde_json::json;

use crate::database;
use crate::served::{self, Served};

fn refused(folder: &Path, database: Option<&str>) -> String {
    let mut command = Command::new(cargo_bin("northwall"));
    command
        .args(["serve", "--port", "0", "--folder"])
        .arg(folder);
    if let Some(address) = database {
        command.args(["--database", address]);
    }
    let out = command.output().expect("it runs");
    assert_eq!(out.status.code(), Some(2));
    let err = String::from_utf8_lossy(&out.stderr);
    let words: Vec<&str> = err.split_whitespace().collect();
    words.join(" ")
}

/// A newer program has been at the tables: one that runs goes on, since what is newer only adds;
/// one that would start is refused, since it cannot know.
#[test]
fn tables_of_a_newer_program_on_postgresql() {
    let Some(cluster) = database::Cluster::start() else {
        return;
    };
    let address = cluster.database("newer");
    let folder = tempfile::tempdir().expect("folder");
    let now = Served::start(folder.path(), Some(&address));
    let job = database::id(1);
    let new = json!({ "id": job, "template": "first", "who": "Ada" });
    let made = served::ask(now.port, "POST", "/api/jobs", Some(&new)).expect("answers");
    assert_eq!(made.0, 201, "{}", made.1);
    cluster.sql(
        "newer",
        "alter table job add column shade text; create table shade (n bigint); \
         insert into northwall_tables (version) values (99)",
    );
    let body = json!({
        "id": database::id(2), "base_revision": 1, "who": "Ada",
        "edits": [{ "path": "job.name", "value": "still kept" }],
    });
    let to = format!("/api/jobs/{job}/changes");
    let (code, says) = served::ask(now.port, "POST", &to, Some(&body)).expect("answers");
    assert_eq!(code, 200, "{says}");
    let says = refused(folder.path(), Some(&address));
    assert!(says.contains("newer northwall (version 99"), "{says}");
    assert!(says.contains("mend"), "{says}");
}

/// The same for a file, which is not touched by it.
#[test]
fn tables_of_a_newer_program_in_a_folder() {
    let folder = tempfile::tempdir().expect("folder");
    drop(Served::start(folder.path(), None));
    let file = folder.path().join("northwall.sqlite");
    let runtime = tokio::runtime::Runtime::new().expect("threads");
    let ask = |sql: &'static str| {
        runtime.block_on(async {
            let at = format!("sqlite://{}", file.display());
            let pool = sqlx::SqlitePool::connect(&at).await.expect("opens");
            let row: Option<(i64,)> = sqlx::query_as(sql)
                .fetch_optional(&pool)
                .await
                .expect("answers");
            pool.close().await;
            row.map(|r| r.0)
        })
    };
    let there = ask("select count(*) from northwall_tables").expect("a count");
    ask("insert into northwall_tables (version) values (99) returning version");
    let says = refused(folder.path(), None);
    assert!(says.contains("newer northwall (version 99"), "{says}");
    let left = ask("select count(*) from northwall_tables");
    assert_eq!(left, Some(there + 1));
}

/// The clock of the server's machine goes back eight years and forth again: the order of changes is
/// that of their revisions, and nothing is lost or refused.
#[test]
fn a_clock_that_jumps_changes_no_order() {
    let library = "/usr/lib/x86_64-linux-gnu/faketime/libfaketimeMT.so.1";
    if !Path::new(library).is_file() {
        assert!(
            std::env::var_os("NORTHWALL_FAULTS").is_none(),
            "NORTHWALL_FAULTS asks for a clock that can be set: apt-get install faketime"
        );
        return;
    }
    let folder = tempfile::tempdir().expect("folder");
    let job = database::id(1);
    for (n, date) in [(1, "2030-01-05"), (2, "2022-03-01"), (3, "2040-07-07")] {
        let mut command = Command::new(cargo_bin("northwall"));
        command
            .env("LD_PRELOAD", library)
            .env("FAKETIME", format!("@{date} 12:00:00"))
            .env("FAKETIME_DONT_FAKE_MONOTONIC", "1")
            .args(["serve", "--port", "0", "--folder"])
            .arg(folder.path());
        let now = Served::started(command);
        if n == 1 {
            let new = json!({ "id": job, "template": "first", "who": "Ada" });
            let made = served::ask(now.port, "POST", "/api/jobs", Some(&new)).expect("answers");
            assert_eq!(made.0, 201, "{}", made.1);
        }
        let body = json!({
            "id": database::id(n + 1), "base_revision": n, "who": "Ada",
            "edits": [{ "path": "job.name", "value": date }],
        });
        let to = format!("/api/jobs/{job}/changes");
        let (code, says) = served::ask(now.port, "POST", &to, Some(&body)).expect("answers");
        assert_eq!(code, 200, "{says}");
        let (_, past) =
            served::ask(now.port, "GET", &format!("{to}?before=1000"), None).expect("answers");
        let rows = past["revisions"].as_array().expect("list");
        let numbers: Vec<_> = rows.iter().filter_map(|r| r["revision"].as_u64()).collect();
        let want: Vec<u64> = (1..=n + 1).rev().collect();
        assert_eq!(numbers, want);
        // The clock is the one that was set, and is written as it stood.
        assert!(rows[0].to_string().contains(&date[..4]), "{}", rows[0]);
    }
}
