//! Every example job of the repository reads.

use std::path::{Path, PathBuf};

fn jobs() -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("jobs is there").flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "toml")
                // The start-up day's own file is of another format.
                && !path.ends_with("startup.toml")
            {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

#[test]
fn every_example_job_reads() {
    let jobs = jobs();
    assert!(jobs.len() >= 17, "only {} jobs found", jobs.len());
    for path in jobs {
        let text = std::fs::read_to_string(&path).expect("readable");
        if let Err(problems) = jobfile::read(&text) {
            let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
            panic!("{}:\n{}", path.display(), all.join("\n"));
        }
    }
}
