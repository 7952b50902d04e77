//! Whatever stands in a file, reading and editing it never panics.

use proptest::prelude::*;

fn lake_street() -> String {
    let path =
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/lake-street/job.toml");
    std::fs::read_to_string(path).expect("example job")
}

fn lines_are_right(
    text_lines: usize,
    result: &Result<jobfile::Job, Vec<jobfile::Problem>>,
) -> bool {
    match result {
        Ok(_) => true,
        Err(problems) => {
            !problems.is_empty()
                && problems
                    .iter()
                    .all(|p| (1..=text_lines).contains(&p.line()))
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let lines = bytes.split(|b| *b == b'\n').count();
        prop_assert!(lines_are_right(lines, &jobfile::read_bytes(&bytes)));
    }

    #[test]
    fn any_tables(keys in proptest::collection::vec("(northwall|job|room|window|place|storey|construction|as_built)", 0..8),
                  values in proptest::collection::vec("[-0-9a-z\"\\[\\]{}=., ]{0,16}", 8)) {
        let mut text = String::from("northwall = 1\n");
        for (key, value) in keys.iter().zip(&values) {
            text += &["[[", key, "]]\nname = ", value, "\n"].concat();
        }
        let lines = text.lines().count() + 1;
        prop_assert!(lines_are_right(lines, &jobfile::read(&text)));
    }

    /// A good job with one value replaced by anything.
    #[test]
    fn any_value(at in 0usize..120, value in prop_oneof![
        "[-0-9a-zA-Z.%/() ]{0,14}".prop_map(|t| format!("\"{t}\"")),
        any::<f64>().prop_map(|n| format!("{n:e}")),
        any::<i64>().prop_map(|n| n.to_string()),
        Just("[]".to_owned()), Just("{}".to_owned()), Just("[[1], [2]]".to_owned()),
        Just("true".to_owned()), Just("2026-01-01".to_owned()), Just("\"\"".to_owned()),
    ]) {
        let text = lake_street();
        let valued: Vec<usize> = text.lines().enumerate()
            .filter(|(_, l)| l.contains(" = \"")).map(|(i, _)| i).collect();
        let line = valued[at % valued.len()];
        let changed: Vec<String> = text.lines().enumerate().map(|(i, l)| match l.split_once(" = ") {
            Some((key, _)) if i == line => format!("{key} = {value}"),
            _ => l.to_owned(),
        }).collect();
        let changed = changed.join("\n");
        prop_assert!(lines_are_right(changed.lines().count() + 1, &jobfile::read(&changed)));
    }

    /// A good job cut anywhere.
    #[test]
    fn any_cut(at in 0.0..1.0f64) {
        let text = lake_street();
        let cut = &text.as_bytes()[..(text.len() as f64 * at) as usize];
        let lines = cut.split(|b| *b == b'\n').count();
        prop_assert!(lines_are_right(lines, &jobfile::read_bytes(cut)));
    }

    #[test]
    fn any_edit(path in "[a-z0-9. ]{0,30}", value in "\\PC{0,20}") {
        let text = lake_street();
        let edits = [
            jobfile::edit::set(&text, &path, &value),
            jobfile::edit::add(&text, &path, &value),
            jobfile::edit::remove(&text, &path),
        ];
        for changed in edits.iter().flatten() {
            prop_assert!(jobfile::read(changed).is_ok());
        }
    }
}
