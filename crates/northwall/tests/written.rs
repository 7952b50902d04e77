//! What the command writes, and what it never writes over.

mod support;

use support::{BOX, project, refused, run};

/// A slip of the hand (`--svg job.toml`) must not cost a survey.
#[test]
fn a_chart_is_written_over_nothing_but_a_chart() {
    let dir = tempfile::tempdir().expect("a folder");
    let at = |name: &str| dir.path().join(name).display().to_string();
    let job = at("job.toml");
    let text = std::fs::read_to_string(project().join(BOX)).expect("reads");
    let text = text.replace("../../weather/denver-725650.epw.gz", "denver-725650");
    std::fs::write(&job, &text).expect("writes");
    let told = ["the file is there already, and it is no chart", "mend"];
    refused(&["loads", &job, "--svg", &job], &told);
    assert_eq!(std::fs::read_to_string(&job).expect("is there"), text);
    let chart = at("chart.svg");
    for _ in 0..2 {
        assert_eq!(run(&["loads", &job, "--svg", &chart]).0, 0);
        let svg = std::fs::read_to_string(&chart).expect("written");
        assert!(svg.starts_with("<svg"));
    }
}

/// A link stays a link, a pipe a pipe.
#[cfg(unix)]
#[test]
fn what_is_no_file_is_written_into_and_stays() {
    use std::os::unix::fs::FileTypeExt;
    let dir = tempfile::tempdir().expect("a folder");
    let (link, real) = (dir.path().join("link.svg"), dir.path().join("real.svg"));
    std::fs::write(&real, "").expect("writes");
    std::os::unix::fs::symlink(&real, &link).expect("a link");
    let (code, _, err) = run(&["loads", BOX, "--svg", &link.display().to_string()]);
    assert_eq!(code, 0, "{err}");
    assert!(link.is_symlink());
    let svg = std::fs::read_to_string(&real).expect("written");
    assert!(svg.starts_with("<svg"));

    let pipe = dir.path().join("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.is_ok_and(|s| s.success()), "a pipe");
    let reader = std::thread::spawn({
        let pipe = pipe.clone();
        move || std::fs::read_to_string(pipe)
    });
    let (code, _, err) = run(&["loads", BOX, "--svg", &pipe.display().to_string()]);
    assert_eq!(code, 0, "{err}");
    assert!(
        std::fs::metadata(&pipe)
            .expect("is there")
            .file_type()
            .is_fifo()
    );
    let read = reader.join().expect("joins").expect("reads");
    assert_eq!(read, svg);
}
