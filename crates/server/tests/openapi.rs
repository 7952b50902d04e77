//! The published description is that of the program.

#[test]
fn the_published_description_is_that_of_the_program() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../schema/openapi.json");
    let there = std::fs::read_to_string(path).unwrap_or_default();
    let now = server::openapi();
    if there != now {
        let beside = concat!(env!("CARGO_TARGET_TMPDIR"), "/openapi.json");
        let _ = std::fs::write(beside, now);
        panic!("northwall schema openapi.json > schema/openapi.json, or take {beside}");
    }
}

#[test]
fn every_answer_has_a_refusal_and_every_operation_a_summary() {
    let api: serde_json::Value = serde_json::from_str(&server::openapi()).expect("JSON");
    let paths = api["paths"].as_object().expect("paths");
    assert!(paths.len() > 20);
    for (path, operations) in paths {
        for (method, operation) in operations.as_object().expect("operations") {
            let at = format!("{method} {path}");
            assert!(operation["summary"].is_string(), "{at} has no summary");
            // Each status is named: `default` would allow any.
            let statuses = operation["responses"].as_object().expect("responses");
            assert!(statuses.keys().all(|s| s.parse::<u16>().is_ok()), "{at}");
            for refusal in ["403", "421", "500", "503"] {
                assert!(
                    statuses.contains_key(refusal),
                    "{at} does not name {refusal}"
                );
            }
            let of_job = path.contains('{');
            assert_eq!(
                statuses.contains_key("404"),
                of_job || path == "/api/invited",
                "{at}"
            );
        }
    }
}
