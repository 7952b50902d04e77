//! What lies on people's disks from before: tables of every version are brought up with all that
//! is in them. A file of a new version of the tables is added here when there is one, and none is
//! ever changed.

use serde_json::json;
use store::{Change, Edit, NotKept, Outcome, Store};

const JOB: &str = "01a2189f-0001-7000-8000-000000000001";

async fn laid_down(folder: &std::path::Path, sql: &'static str) -> sqlx::SqlitePool {
    let at = format!(
        "sqlite://{}?mode=rwc",
        folder.join("northwall.sqlite").display()
    );
    let pool = sqlx::SqlitePool::connect(&at).await.expect("opens");
    sqlx::raw_sql(sql).execute(&pool).await.expect("laid down");
    pool
}

async fn versions(pool: &sqlx::SqlitePool) -> Vec<i64> {
    let rows: Vec<(i64,)> = sqlx::query_as("select version from northwall_tables order by version")
        .fetch_all(pool)
        .await
        .expect("there");
    rows.into_iter().map(|r| r.0).collect()
}

#[tokio::test]
async fn tables_of_version_1() {
    let folder = tempfile::tempdir().expect("folder");
    let pool = laid_down(folder.path(), include_str!("older/tables-1.sql")).await;
    assert_eq!(versions(&pool).await, [1]);
    pool.close().await;

    let store = Store::in_folder(folder.path()).await.expect("brought up");
    let job = store.job("local", JOB).await.expect("there");
    assert_eq!((job.revision, job.name.as_str()), (2, "kept from before"));
    let read = jobfile::read(&job.text).expect("its text reads");
    assert_eq!(read.name, "kept from before");
    let past = store.history("local", JOB, (0, 99)).await.expect("history");
    let who: Vec<_> = past.iter().map(|r| (r.revision, r.who.as_str())).collect();
    assert_eq!(who, [(2, "Ada"), (1, "Ada")]);
    // The chain of records still proves itself.
    let records = store.records("local", JOB).await.expect("proved");
    assert_eq!(records.len(), 2);

    // What is there goes on: an undo of the old change, against the text packed then.
    let edits = [Edit {
        path: "place.snow_depth".to_owned(),
        value: json!("30 in"),
        was: None,
    }];
    let next = Change {
        id: "01a2189f-0001-7000-8000-000000000009",
        base: 1,
        at: "2026-11-25T10:30:00-05:00",
        who: "Ben",
        edits: &edits,
    };
    let outcome = store.change("local", JOB, &next).await.expect("kept");
    assert!(
        matches!(outcome, Outcome::Kept { revision: 3 }),
        "{outcome:?}"
    );
    // What came with version 2 is there.
    store.make_firm("north", "North").await.expect("a firm");
    // And with version 3.
    let tried = store.tried("a hash", 1_000, 60_000).await.expect("counted");
    assert_eq!((tried.tries, tried.ends), (1, 61_000));
    // And with version 4.
    let all = store.temperatures("local", JOB).await.expect("a table");
    assert!(all.is_empty());
    store.close().await;
    let again = Store::in_folder(folder.path())
        .await
        .expect("opens once more");
    assert_eq!(again.job("local", JOB).await.expect("there").revision, 3);
    again.close().await;
}

/// A file whose version cannot be known is left as it is.
#[tokio::test]
async fn tables_of_a_newer_version_are_left_alone() {
    let folder = tempfile::tempdir().expect("folder");
    let pool = laid_down(folder.path(), include_str!("older/tables-1.sql")).await;
    sqlx::raw_sql("insert into northwall_tables (version) values (7)")
        .execute(&pool)
        .await
        .expect("kept");
    pool.close().await;
    match Store::in_folder(folder.path()).await {
        Err(NotKept::Newer(7)) => {}
        other => panic!("{other:?}"),
    }
    let file = folder.path().join("northwall.sqlite");
    let pool = sqlx::SqlitePool::connect(&format!("sqlite://{}", file.display()))
        .await
        .expect("opens");
    assert_eq!(versions(&pool).await, [1, 7]);
}
