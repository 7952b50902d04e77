//! Edits change one thing and leave the rest of the text as it was.

use jobfile::edit::{add, remove, set};

fn lake_street() -> String {
    let path =
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/lake-street/job.toml");
    std::fs::read_to_string(path).expect("example job")
}

/// Lines that differ between two texts of as many lines.
fn changed(before: &str, after: &str) -> Vec<(String, String)> {
    assert_eq!(before.lines().count(), after.lines().count());
    let pairs = before.lines().zip(after.lines()).filter(|(a, b)| a != b);
    pairs.map(|(a, b)| (a.to_owned(), b.to_owned())).collect()
}

#[test]
fn a_value_changes_and_its_comment_stays() {
    let before = lake_street();
    let after = set(&before, "place.snow_depth", "\"30 in\"").expect("set");
    assert_eq!(
        changed(&before, &after),
        [(
            "snow_depth = \"20 in\"               # the number you would bet the unit on"
                .to_owned(),
            "snow_depth = \"30 in\"               # the number you would bet the unit on"
                .to_owned()
        )]
    );
}

#[test]
fn rooms_windows_and_doors_are_found_by_name_or_number() {
    let before = lake_street();
    let after = set(&before, "room.bed 1.heated_to", "66 F").expect("set");
    let job = jobfile::read(&after).expect("reads");
    let bed = job
        .room("bed 1")
        .and_then(|r| r.heated.clone())
        .expect("heated");
    assert!((bed.by_hour_c[0].unwrap_or(0.0) - 170.0 / 9.0).abs() < 1e-9);
    let after = set(&before, "window.1.glazing", "\"double low-e\"").expect("set");
    assert_eq!(changed(&before, &after).len(), 1);
    let after = set(&before, "room.bed 1.door_to.1.usually", "\"open\"").expect("set");
    assert_eq!(changed(&before, &after).len(), 1);
    let after = set(&before, "room.living.outline.1", "\"0 ft, 1 in\"").expect("set");
    assert_eq!(changed(&before, &after).len(), 1);
}

#[test]
fn a_value_that_was_not_there_is_added() {
    let before = lake_street();
    let after = set(&before, "room.hall.ceiling", "\"7 ft 6 in\"").expect("set");
    assert_eq!(after.lines().count(), before.lines().count() + 1);
    assert!(after.contains("ceiling = \"7 ft 6 in\""));
    let after = set(
        &before,
        "construction.partition.like",
        "\"partition of plaster\"",
    )
    .expect("set");
    assert!(
        after.contains("[construction.partition]\nlike = \"partition of plaster\""),
        "{after}"
    );
    let bare = before.replace(
        "[habits]\nbedroom_doors = \"closed\"\nwinter_humidity = \"35 %\"\n",
        "",
    );
    let after = set(&bare, "habits.bedroom_doors", "ajar").expect("set");
    assert!(
        after.contains("[habits]\nbedroom_doors = \"ajar\"\n"),
        "{after}"
    );
}

#[test]
fn entries_are_added_and_taken_out() {
    let before = lake_street();
    let body = "room = \"bed 3\"\nwall = \"east\"\nwidth = \"2 ft\"\nheight = \"3 ft\"\nglazing = \"double clear\"\n";
    let after = add(&before, "window", body).expect("added");
    let job = jobfile::read(&after).expect("reads");
    assert_eq!(
        job.house.windows.last().map(|w| w.name.as_str()),
        Some("bed 3 east")
    );
    let again = remove(&after, "window.bed 3 east").expect("removed");
    assert_eq!(again, before);
    let after = add(
        &before,
        "construction.partition",
        "like = \"partition of plaster\"\n",
    )
    .expect("added");
    assert!(
        jobfile::read(&after)
            .expect("reads")
            .house
            .constructions
            .iter()
            .any(|c| c.name == "partition")
    );
    let after = add(
        &before,
        "backup",
        "name = \"panel\"\nkind = \"stove\"\nfuel = \"electricity\"\nserves = [\"bed 1\"]\n",
    )
    .expect("added");
    assert_eq!(jobfile::read(&after).expect("reads").backup.len(), 1);
    let after = remove(&before, "place.snow_depth").expect("removed");
    assert_eq!(after.lines().count() + 1, before.lines().count());
}

fn refused(result: Result<String, jobfile::Problem>) -> String {
    match result {
        Ok(_) => panic!("the edit went through"),
        Err(problem) => problem.to_string(),
    }
}

#[test]
fn what_would_not_read_is_refused() {
    let text = lake_street();
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!("edit-bare-number", refused(set(&text, "room.living.heated_to", "68")));
        insta::assert_snapshot!("edit-no-such-room", refused(set(&text, "room.livng.heated_to", "\"68 F\"")));
        insta::assert_snapshot!("edit-no-such-key", refused(set(&text, "room.living.heatd_to", "\"68 F\"")));
        insta::assert_snapshot!("edit-too-deep", refused(set(&text, "room.living.heated_to.x", "\"68 F\"")));
        insta::assert_snapshot!("edit-not-a-value", refused(set(&text, "room.living.heated_to", "[\"68 F\"")));
        insta::assert_snapshot!("edit-room-in-use", refused(remove(&text, "room.bed 1")));
        insta::assert_snapshot!("edit-nothing-there", refused(remove(&text, "room.living.ceiling")));
        insta::assert_snapshot!("edit-body-does-not-read", refused(add(&text, "window", "room = ")));
        insta::assert_snapshot!("edit-empty-path", refused(set(&text, "", "1")));
    });
}

#[test]
fn a_broken_job_can_be_mended_step_by_step() {
    let broken = lake_street().replace(
        "wall = \"west\"\nwidth = \"8 ft\"",
        "wall = \"wset\"\nwidth = 8",
    );
    let first = set(&broken, "window.picture window.wall", "\"west\"").expect("one slip mended");
    assert!(jobfile::read(&first).is_err());
    let second = set(&first, "window.picture window.width", "\"8 ft\"").expect("the other mended");
    assert_eq!(second, lake_street());
}
