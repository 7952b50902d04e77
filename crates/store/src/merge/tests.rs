use serde_json::{Value, json};

use super::{Edit, Merged, follow, inverse, merge, trial};

fn job() -> String {
    include_str!("../../../../jobs/lake-street/job.toml").to_owned()
}

fn edit(path: &str, value: Value) -> Edit {
    Edit {
        path: path.to_owned(),
        value,
        was: None,
    }
}

fn kept(base: &str, now: &str, edits: &[Edit]) -> String {
    match merge(base, now, edits) {
        Merged::Clean(ready) => trial(now, &ready).expect("reads"),
        Merged::Both(both) => panic!("{both:?}"),
    }
}

#[test]
fn different_paths_of_two_people_are_both_kept() {
    let base = job();
    let first = kept(&base, &base, &[edit("place.snow_depth", json!("30 in"))]);
    let both = kept(
        &base,
        &first,
        &[edit("room.living.heated_to", json!("68 F"))],
    );
    assert!(both.contains("snow_depth = \"30 in\"               # the number you would bet"));
    assert_eq!(
        both.matches("heated_to = \"68 F\"").count(),
        1 + base.matches("heated_to = \"68 F\"").count()
    );
}

#[test]
fn the_same_path_is_shown_with_both_values() {
    let base = job();
    let first = kept(&base, &base, &[edit("place.snow_depth", json!("30 in"))]);
    let Merged::Both(both) = merge(&base, &first, &[edit("place.snow_depth", json!("24 in"))])
    else {
        panic!("decided silently");
    };
    assert_eq!(both.len(), 1);
    assert_eq!(both[0].was, json!("20 in"));
    assert_eq!(both[0].mine, json!("24 in"));
    assert_eq!(both[0].theirs, json!("30 in"));
    // Both wanted the same: nothing to decide, nothing to change.
    let same = [edit("place.snow_depth", json!("30 in"))];
    assert!(matches!(merge(&base, &first, &same), Merged::Clean(c) if c.is_empty()));
}

#[test]
fn a_row_is_found_again_when_rows_before_it_went() {
    let base = job();
    let first = kept(&base, &base, &[edit("window.1", Value::Null)]);
    assert_eq!(
        follow(&base, &first, "window.3.width").as_deref(),
        Some("window.2.width")
    );
    // The row itself is gone: a person decides.
    assert_eq!(follow(&base, &first, "window.1.width"), None);
    let both = merge(&base, &first, &[edit("window.1.width", json!("3 ft"))]);
    assert!(matches!(both, Merged::Both(_)));
    // By name nothing moves.
    assert_eq!(
        follow(&base, &first, "room.living.outline").as_deref(),
        Some("room.living.outline")
    );
}

#[test]
fn a_room_is_renamed_where_it_is_named() {
    let base = job();
    assert!(trial(&base, &[edit("room.bed 3.name", json!("study"))]).is_err());
    let named: Vec<Edit> = base_paths_naming(&base, "bed 3")
        .into_iter()
        .map(|p| edit(&p, json!("study")))
        .chain([edit("room.bed 3.name", json!("study"))])
        .collect();
    let text = trial(&base, &named).expect("reads when all are renamed");
    assert!(jobfile::read(&text).expect("job").room("study").is_some());
}

/// Paths whose value is the name of a room.
fn base_paths_naming(text: &str, room: &str) -> Vec<String> {
    fn walk(v: &Value, path: &str, room: &str, out: &mut Vec<String>) {
        match v {
            Value::String(s) if s == room && path.rsplit('.').next() != Some("name") => {
                out.push(path.to_owned());
            }
            Value::Object(all) => {
                for (k, v) in all {
                    let p = if path.is_empty() {
                        k.clone()
                    } else {
                        format!("{path}.{k}")
                    };
                    walk(v, &p, room, out);
                }
            }
            Value::Array(all) => {
                for (i, v) in all.iter().enumerate() {
                    walk(v, &format!("{path}.{}", i + 1), room, out);
                }
            }
            _ => {}
        }
    }
    let mut out = Vec::new();
    walk(&crate::values(text), "", room, &mut out);
    out
}

#[test]
fn the_inverse_takes_a_change_back() {
    let base = job();
    let row = json!({ "room": "bed 3", "wall": "east", "width": "2 ft", "height": "3 ft", "glazing": "double clear" });
    for change in [
        edit("place.snow_depth", json!("30 in")),
        edit("place.snow_depth", Value::Null),
        edit("window", row),
    ] {
        let Merged::Clean(ready) = merge(&base, &base, &[change]) else {
            panic!("nothing is in the way");
        };
        let after = trial(&base, &ready).expect("reads");
        assert_ne!(crate::values(&after), crate::values(&base));
        let back = trial(&after, &inverse(&ready, &after)).expect("reads");
        assert_eq!(crate::values(&back), crate::values(&base));
    }
}
