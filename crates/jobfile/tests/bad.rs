//! Every bad file of `tests/bad` gives its message, word for word, and no panic.
//!
//! One snapshot a file, beside the tests. A file is one slip in an otherwise good job, so each
//! must have at least one problem, with a line of the file, words, and a way to mend it.

use std::fmt::Write as _;
use std::path::Path;

use jobfile::Problem;

fn said(problems: &[Problem]) -> String {
    let mut out = String::new();
    for problem in problems {
        let _ = writeln!(out, "{problem}");
    }
    out
}

#[test]
fn bad_files_say_what_is_wrong() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("tests/bad")
        .flatten()
        .map(|e| e.path())
        .collect();
    files.sort();
    assert!(files.len() >= 60, "only {} bad files", files.len());
    for path in files {
        let name = path
            .file_stem()
            .and_then(|s| s.to_str())
            .unwrap_or_default()
            .to_owned();
        let bytes = std::fs::read(&path).expect("readable");
        let Err(problems) = jobfile::read_bytes(&bytes) else {
            panic!("{name} was read as a good job")
        };
        let lines = bytes.split(|b| *b == b'\n').count();
        for problem in &problems {
            assert!(
                (1..=lines).contains(&problem.line()),
                "{name}: line {}",
                problem.line()
            );
            assert!(!problem.says.is_empty(), "{name}: says nothing");
            assert!(
                !problem.mend.is_empty(),
                "{name}: no way to mend it: {problem}"
            );
        }
        insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name, said(&problems));
        });
    }
}

/// 4 MB is the limit; a larger file is refused before it is looked at.
#[test]
fn a_huge_file_is_refused() {
    let huge = "# much too long a job\n".repeat(300_000);
    let problems = jobfile::read(&huge).err().unwrap_or_default();
    assert_eq!(
        said(&problems),
        "line 1, column 1: the file is too large to be a job\n  got: 6600000 bytes\n  \
         allowed: up to 4194304 bytes (4 MB)\n  \
         mend: check that this is the job file and not a photo or a weather file\n"
    );
}
