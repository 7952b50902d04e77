//! The committed schema is the one the reader's field tables make.
//! To write it anew: `NORTHWALL_WRITE_SCHEMA=1 cargo test -p jobfile --test schema`.

use std::path::Path;

#[test]
fn the_committed_schema_is_the_one_the_reader_uses() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../schema/job.schema.json");
    if std::env::var_os("NORTHWALL_WRITE_SCHEMA").is_some() {
        std::fs::write(&path, jobfile::schema::text()).expect("written");
    }
    let committed = std::fs::read_to_string(&path).expect("schema/job.schema.json is there");
    assert!(
        committed == jobfile::schema::text(),
        "schema/job.schema.json is not what the field tables make; write it anew as told above"
    );
}

#[test]
fn every_table_and_key_says_what_it_is() {
    fn look(value: &serde_json::Value, path: &str, bare: &mut Vec<String>) {
        let Some(object) = value.as_object() else {
            return;
        };
        if let Some(properties) = object.get("properties").and_then(|p| p.as_object()) {
            for (key, inner) in properties {
                let said = inner
                    .get("description")
                    .and_then(|d| d.as_str())
                    .unwrap_or("");
                if said.len() < 2 {
                    bare.push(format!("{path}.{key}"));
                }
                look(inner, &format!("{path}.{key}"), bare);
            }
        }
        for key in ["items", "additionalProperties"] {
            if let Some(inner) = object.get(key) {
                look(inner, path, bare);
            }
        }
    }
    let mut bare = Vec::new();
    look(&jobfile::schema::json_schema(), "", &mut bare);
    assert_eq!(bare, Vec::<String>::new());
}

/// `checks/values/job_schema.csv`: verdicts of jsonschema 4.26 (Python), an independent validator.
#[test]
fn an_outside_validator_takes_every_example_and_refuses_many_bad_files() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../checks/values/job_schema.csv");
    let kept = std::fs::read_to_string(&path).expect("kept verdicts");
    let rows = kept
        .lines()
        .filter(|l| !l.starts_with('#'))
        .filter_map(|l| l.rsplit_once(','));
    let (mut examples, mut refused) = (0, 0);
    for (file, verdict) in rows {
        if file.starts_with("jobs/") {
            assert_eq!(verdict, "valid", "{file}");
            examples += 1;
        } else if verdict == "refused" {
            refused += 1;
        }
    }
    assert!(
        examples >= 18 && refused >= 40,
        "{examples} examples, {refused} refused"
    );
}
