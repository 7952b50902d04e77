//! Files of temperatures, asked of both databases.

mod support;

use store::{JobRow, NewTemperatures, NotKept, Store};
use support::{Cluster, FIRM, id, made};

fn file<'a>(id: &'a str, name: &'a str, days: &'a str) -> NewTemperatures<'a> {
    NewTemperatures {
        id,
        name,
        note: "read as F",
        who: "Ada",
        days,
    }
}

async fn stands(store: &Store, job: &str) -> (i64, i64, String) {
    let row: JobRow = store.job(FIRM, job).await.expect("there");
    (row.updated, row.revision, row.updated_by)
}

async fn contract(store: &Store) {
    let (job, other) = (id(1), id(2));
    made(store, &job).await;
    made(store, &other).await;
    let (one, two) = (id(80), id(81));
    let before = stands(store, &job).await;
    let winter = file(
        &one,
        "temperatures/winter.csv",
        "date,temperature_C\n2024-01-01,-5\n",
    );
    let kept = store.keep_temperatures(FIRM, &job, &winter).await;
    let kept = kept.expect("kept");
    assert_eq!(
        (kept.name.as_str(), kept.note.as_str(), kept.days.as_str()),
        ("temperatures/winter.csv", "read as F", winter.days)
    );
    // What was worked out before is known to be of before; the text is not changed.
    let after = stands(store, &job).await;
    assert!(after.0 > before.0, "{after:?} after {before:?}");
    assert_eq!((after.1, after.2.as_str()), (before.1, "Ada"));
    // The same again changes nothing, whatever comes with it.
    let same = file(&one, "temperatures/other.csv", "other");
    let again = store.keep_temperatures(FIRM, &job, &same).await;
    assert_eq!(again.expect("kept"), kept);
    assert_eq!(stands(store, &job).await, after);

    let spring = file(
        &two,
        "temperatures/spring.csv",
        "date,temperature_C\n2024-03-01,4\n",
    );
    let more = store.keep_temperatures(FIRM, &job, &spring).await;
    more.expect("kept");
    let all = store.temperatures(FIRM, &job).await.expect("list");
    let names: Vec<&str> = all.iter().map(|t| t.name.as_str()).collect();
    assert_eq!(
        names,
        ["temperatures/winter.csv", "temperatures/spring.csv"]
    );
    let none = store.temperatures(FIRM, &other).await.expect("list");
    assert!(none.is_empty(), "those of another job");

    // A name once, and none that leads elsewhere when the job is unpacked.
    let third = id(83);
    let twice = file(&third, "temperatures/spring.csv", "x");
    let twice = store.keep_temperatures(FIRM, &job, &twice).await;
    assert!(matches!(twice, Err(NotKept::Taken(_))), "{twice:?}");
    for bad in [
        "winter.csv",
        "temperatures/../x.csv",
        "temperatures/.csv",
        "temperatures/a b.csv",
        "/temperatures/x.csv",
        "temperatures/x.csv/../y",
    ] {
        let led = store
            .keep_temperatures(FIRM, &job, &file(&third, bad, "x"))
            .await;
        assert!(matches!(led, Err(NotKept::Broken(_))), "{bad}: {led:?}");
    }

    // Another firm sees none and takes none away; an id of another job is taken.
    assert!(store.temperatures("another", &job).await.is_err());
    let stolen = store.delete_temperatures("another", &job, &one, "Eve");
    assert!(stolen.await.is_err());
    let taken = store.keep_temperatures(FIRM, &other, &winter).await;
    assert!(matches!(taken, Err(NotKept::Taken(_))), "{taken:?}");

    let before = stands(store, &job).await;
    let gone = store.delete_temperatures(FIRM, &job, &one, "Ben").await;
    gone.expect("gone");
    let after = stands(store, &job).await;
    assert!(after.0 > before.0 && after.2 == "Ben", "{after:?}");
    let twice = store.delete_temperatures(FIRM, &job, &one, "Ben").await;
    assert!(matches!(twice, Err(NotKept::NotThere(_))), "{twice:?}");
    // With the job all of it goes.
    store.delete_job(FIRM, &job).await.expect("gone");
    made(store, &job).await;
    let left = store.temperatures(FIRM, &job).await.expect("list");
    assert!(left.is_empty(), "{left:?}");
}

#[tokio::test]
async fn sqlite_keeps_the_contract() {
    let folder = tempfile::tempdir().expect("folder");
    let store = Store::in_folder(folder.path()).await.expect("opens");
    contract(&store).await;
    store.close().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn postgres_keeps_the_contract() {
    let Some(cluster) = Cluster::start() else {
        return;
    };
    let store = Store::at(&cluster.database("temperatures")).await;
    let store = store.expect("connects");
    contract(&store).await;
    store.close().await;
}
