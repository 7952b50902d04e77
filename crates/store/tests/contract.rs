//! What a store promises, asked of both databases.

mod support;

use serde_json::{Value, json};
use store::{Change, Edit, NewJob, NewPhoto, NewRecord, NotKept, Outcome, Store};
use support::{Cluster, FIRM, JOB, id, made};

fn edit(path: &str, value: Value) -> Edit {
    Edit {
        path: path.to_owned(),
        value,
        was: None,
    }
}

fn change<'a>(id: &'a str, who: &'a str, base: i64, edits: &'a [Edit]) -> Change<'a> {
    Change {
        id,
        base,
        at: "2026-11-25T10:30:00-05:00",
        who,
        edits,
    }
}

fn revision(outcome: &Outcome) -> i64 {
    match outcome {
        Outcome::Kept { revision } => *revision,
        other => panic!("{other:?}"),
    }
}

async fn contract(store: &Store) {
    jobs(store, &id(1)).await;
    both_people_are_kept(store, &id(2)).await;
    a_true_conflict_waits_for_a_person(store, &id(3)).await;
    undo(store, &id(4)).await;
    many_at_once(store, &id(5)).await;
    records_only_grow(store, &id(6)).await;
    photos(store, &id(7)).await;
    store.answers().await.expect("answers");
}

async fn jobs(store: &Store, job: &str) {
    made(store, job).await;
    let row = store.job(FIRM, job).await.expect("there");
    assert_eq!((row.revision, row.text.as_str()), (1, JOB));
    assert!(
        store
            .jobs(FIRM)
            .await
            .expect("list")
            .iter()
            .any(|j| j.id == job)
    );
    // Another firm sees nothing and takes nothing away.
    let stranger = store.job("another", job).await;
    assert!(matches!(stranger, Err(NotKept::NotThere("job"))));
    assert!(store.jobs("another").await.expect("list").is_empty());
    assert!(store.delete_job("another", job).await.is_err());
    let bad = NewJob {
        id: &id(900),
        text: "northwall = 1\n[jobb]\n",
        who: "Ada",
        at: "",
    };
    let bad = store.new_job(FIRM, &bad).await;
    assert!(matches!(bad, Err(NotKept::DoesNotRead(p)) if p.iter().any(|p| p.path == "jobb")));
    store.delete_job(FIRM, job).await.expect("gone");
    assert!(store.job(FIRM, job).await.is_err());
}

async fn both_people_are_kept(store: &Store, job: &str) {
    made(store, job).await;
    let (first, second) = (id(20), id(21));
    let snow = [edit("place.snow_depth", json!("30 in"))];
    let warm = [edit("room.living.heated_to", json!("69 F"))];
    let one = store
        .change(FIRM, job, &change(&first, "Ada", 1, &snow))
        .await;
    assert_eq!(revision(&one.expect("kept")), 2);
    // Ben was in the cellar and still has revision 1.
    let two = store
        .change(FIRM, job, &change(&second, "Ben", 1, &warm))
        .await;
    assert_eq!(revision(&two.expect("kept")), 3);
    // The same again, as after a lost answer.
    let again = store
        .change(FIRM, job, &change(&first, "Ada", 1, &snow))
        .await;
    assert_eq!(revision(&again.expect("kept")), 2);
    let row = store.job(FIRM, job).await.expect("there");
    assert_eq!((row.revision, row.updated_by.as_str()), (3, "Ben"));
    assert!(
        row.text
            .contains("snow_depth = \"30 in\"               # the number")
    );
    assert!(row.text.contains("\"69 F\""));
    let past = store
        .history(FIRM, job, (0, i64::MAX))
        .await
        .expect("history");
    assert_eq!(past.len(), 3);
    assert_eq!(past[1].edits[0].was, Some(json!("20 in")));
    // What would not read changes nothing.
    let bad = [edit("room.living.heated_to", json!(68))];
    let third = id(22);
    let refused = store
        .change(FIRM, job, &change(&third, "Ben", 3, &bad))
        .await;
    assert!(matches!(refused, Ok(Outcome::Refused(p)) if p[0].path == "room.living.heated_to"));
    assert_eq!(store.job(FIRM, job).await.expect("there").revision, 3);
    // A base that never was.
    let odd = store
        .change(FIRM, job, &change(&third, "Ben", 9, &snow))
        .await;
    assert!(matches!(odd, Err(NotKept::Bad(_))));
    // A whole text only on top of what stands.
    let text = row.text.replace("30 in", "31 in");
    let fourth = id(23);
    let stale = store
        .replace(FIRM, job, &change(&fourth, "Ben", 2, &[]), &text)
        .await;
    assert!(matches!(stale, Ok(Outcome::ChangedSince { now: 3 })));
    let kept = store
        .replace(FIRM, job, &change(&fourth, "Ben", 3, &[]), &text)
        .await;
    assert_eq!(revision(&kept.expect("kept")), 4);
}

async fn a_true_conflict_waits_for_a_person(store: &Store, job: &str) {
    made(store, job).await;
    let (first, second, decision) = (id(30), id(31), id(32));
    let ada = [edit("place.snow_depth", json!("30 in"))];
    let ben = [edit("place.snow_depth", json!("24 in"))];
    store
        .change(FIRM, job, &change(&first, "Ada", 1, &ada))
        .await
        .expect("kept");
    for _ in 0..2 {
        let both = store
            .change(FIRM, job, &change(&second, "Ben", 1, &ben))
            .await;
        let Ok(Outcome::Conflict(both)) = both else {
            panic!("decided silently: {both:?}");
        };
        assert_eq!(
            (&both[0].mine, &both[0].theirs),
            (&json!("24 in"), &json!("30 in"))
        );
    }
    let held = store.held(FIRM, job).await.expect("held");
    assert_eq!(held.len(), 1);
    assert_eq!(
        (held[0].who.as_str(), held[0].both[0].theirs_by.as_str()),
        ("Ben", "Ada")
    );
    let listed = store.jobs(FIRM).await.expect("list");
    assert!(listed.iter().any(|j| j.id == job && j.conflicts == 1));
    let by = change(&decision, "Ada", 0, &[]);
    let kept = store
        .settle(FIRM, job, &second, &by, true)
        .await
        .expect("settled");
    assert_eq!(revision(&kept), 3);
    let row = store.job(FIRM, job).await.expect("there");
    assert!(row.text.contains("snow_depth = \"24 in\""));
    assert!(store.held(FIRM, job).await.expect("held").is_empty());
    // Ben's phone sends it once more: it is settled, nothing moves.
    let late = store
        .change(FIRM, job, &change(&second, "Ben", 1, &ben))
        .await;
    assert_eq!(revision(&late.expect("settled")), 3);
}

async fn undo(store: &Store, job: &str) {
    made(store, job).await;
    let ids: Vec<String> = (40..46).map(id).collect();
    let gone = [edit("window.1", Value::Null)];
    let kept = store
        .change(FIRM, job, &change(&ids[0], "Ada", 1, &gone))
        .await;
    assert_eq!(revision(&kept.expect("kept")), 2);
    let back = store
        .undo(FIRM, job, &ids[0], &change(&ids[1], "Ada", 0, &[]))
        .await;
    assert_eq!(revision(&back.expect("undone")), 3);
    assert_eq!(
        store.job(FIRM, job).await.expect("there").text,
        JOB,
        "to the letter"
    );
    let snow = [edit("place.snow_depth", json!("30 in"))];
    let warm = [edit("room.living.heated_to", json!("69 F"))];
    store
        .change(FIRM, job, &change(&ids[2], "Ada", 3, &snow))
        .await
        .expect("kept");
    store
        .change(FIRM, job, &change(&ids[3], "Ben", 4, &warm))
        .await
        .expect("kept");
    let back = store
        .undo(FIRM, job, &ids[2], &change(&ids[4], "Ada", 0, &[]))
        .await;
    assert_eq!(revision(&back.expect("undone")), 6);
    let row = store.job(FIRM, job).await.expect("there");
    assert!(row.text.contains("snow_depth = \"20 in\"") && row.text.contains("\"69 F\""));
    let first = store
        .undo(FIRM, job, job, &change(&ids[5], "Ada", 0, &[]))
        .await;
    assert!(matches!(first, Err(NotKept::Bad(_))));
}

async fn many_at_once(store: &Store, job: &str) {
    made(store, job).await;
    let mut all = Vec::new();
    for n in 0..12_u64 {
        let (store, job) = (store.clone(), job.to_owned());
        all.push(tokio::spawn(async move {
            let id = id(5_000 + n);
            let path = ["place.snow_depth", "room.living.heated_to", "job.name"][n as usize % 3];
            let value = match path {
                "place.snow_depth" => json!(format!("{} in", 10 + n)),
                "job.name" => json!(format!("name {n}")),
                _ => json!(format!("{} F", 60 + n)),
            };
            let edits = [edit(path, value)];
            let now = store.job(FIRM, &job).await.expect("there");
            store
                .change(FIRM, &job, &change(&id, "many", now.revision, &edits))
                .await
        }));
    }
    let (mut kept, mut held) = (0, 0);
    for one in all {
        match one.await.expect("ran").expect("answered") {
            Outcome::Kept { .. } => kept += 1,
            Outcome::Conflict(_) => held += 1,
            other => panic!("{other:?}"),
        }
    }
    assert!(kept >= 3);
    let row = store.job(FIRM, job).await.expect("there");
    assert_eq!(row.revision, 1 + kept);
    assert_eq!(store.held(FIRM, job).await.expect("held").len(), held);
}

async fn records_only_grow(store: &Store, job: &str) {
    made(store, job).await;
    let (a, b) = (id(60), id(61));
    let at = startup::Stamp::read("2026-11-25T10:30:00-05:00", None).expect("time");
    let new = |id, says: Value| NewRecord {
        id,
        at,
        who: "Ada",
        kind: "pressure-reading",
        says,
        corrects: None,
    };
    let first = [new(a.as_str(), json!({ "pa": 3_790_000.5 }))];
    let kept = store.record(FIRM, job, &first).await.expect("kept");
    assert_eq!(kept[0].n, 1);
    let both = [
        new(a.as_str(), json!({ "pa": 1 })),
        new(b.as_str(), json!({ "pa": 3_790_000.25 })),
    ];
    let kept = store.record(FIRM, job, &both).await.expect("kept");
    assert_eq!((kept[0].n, kept[1].n), (1, 2));
    let chain = store.records(FIRM, job).await.expect("proved");
    assert_eq!(chain.len(), 2);
    assert_eq!(chain[0].says["pa"], json!(3_790_000.5));
    assert_eq!(chain[1].before, chain[0].hash);
}

async fn photos(store: &Store, job: &str) {
    made(store, job).await;
    let photo = id(70);
    let new = NewPhoto {
        id: &photo,
        shows: "room.living",
        note: "",
        who: "Ada",
        at: "2026-11-25T10:30:00-05:00",
        kind: "image/jpeg",
        size: (4, 3),
        bytes: &[1, 2, 3, 0, 255],
        small: &[7],
    };
    for _ in 0..2 {
        let kept = store.keep_photo(FIRM, job, &new).await.expect("kept");
        assert_eq!((kept.bytes, kept.width), (5, 4));
    }
    let whole = store.photo(FIRM, job, &photo, false).await.expect("there");
    assert_eq!(whole.bytes, [1, 2, 3, 0, 255]);
    let small = store.photo(FIRM, job, &photo, true).await.expect("there");
    assert_eq!(small.bytes, [7]);
    assert!(store.photo("another", job, &photo, true).await.is_err());
    store.delete_photo(FIRM, job, &photo).await.expect("gone");
    assert!(store.photos(FIRM, job).await.expect("list").is_empty());
}

#[tokio::test(flavor = "multi_thread")]
async fn sqlite_keeps_the_contract() {
    let folder = tempfile::tempdir().expect("folder");
    let store = Store::in_folder(folder.path()).await.expect("opens");
    contract(&store).await;
    let jobs = store.jobs(FIRM).await.expect("list").len();
    store.close().await;
    let again = Store::in_folder(folder.path()).await.expect("opens again");
    assert_eq!(again.jobs(FIRM).await.expect("list").len(), jobs);
}

#[tokio::test(flavor = "multi_thread")]
async fn postgres_keeps_the_contract() {
    let Some(cluster) = Cluster::start() else {
        return;
    };
    let address = cluster.database("contract");
    let store = Store::at(&address).await.expect("connects");
    contract(&store).await;
    // A second instance on the same database sees the same.
    let other = Store::at(&address).await.expect("connects");
    let job = id(800);
    made(&other, &job).await;
    let mut all = Vec::new();
    for n in 0..10_u64 {
        let store = if n % 2 == 0 {
            store.clone()
        } else {
            other.clone()
        };
        let job = job.clone();
        all.push(tokio::spawn(async move {
            let edits = [Edit {
                path: "job.name".to_owned(),
                value: json!(format!("name {n}")),
                was: None,
            }];
            let id = id(8_000 + n);
            store
                .change(FIRM, &job, &change(&id, "two machines", 1, &edits))
                .await
        }));
    }
    let mut kept = 0;
    for one in all {
        kept += i64::from(matches!(one.await.expect("ran"), Ok(Outcome::Kept { .. })));
    }
    assert_eq!(
        kept, 1,
        "all saw revision 1: one is kept, nine are held back"
    );
    assert_eq!(store.job(FIRM, &job).await.expect("there").revision, 2);
    assert_eq!(other.held(FIRM, &job).await.expect("held").len(), 9);
    store.close().await;
    other.close().await;
}
