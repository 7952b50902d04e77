//! A disk that is full or may only be read. It is a small memory disk that only the tried program
//! sees; NORTHWALL_FAULTS makes its absence a failure.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use assert_cmd::cargo::cargo_bin;
use serde_json::{Value, json};

use crate::database;
use crate::served::{self, Served};

/// Runs a script of the shell on a disk of so many kilobytes at `$D`; `$N` is the program and `$J`
/// the invented job. None, said loudly, where no such disk can be made.
fn on_a_small_disk(kilobytes: usize, script: &str) -> Option<Command> {
    let folder = tempfile::tempdir().expect("folder").keep();
    let mut command = Command::new("unshare");
    let mount = format!("mount -t tmpfs -o size={kilobytes}k none \"$D\" || exit 77\n{script}");
    command
        .args(["--user", "--map-root-user", "--mount", "sh", "-c", &mount])
        .env("D", &folder)
        .env("N", cargo_bin("northwall"))
        .env("J", top().join("jobs/lake-street"))
        .current_dir(top());
    let mut trial = Command::new("unshare");
    let mount = "mount -t tmpfs none /mnt";
    trial.args(["--user", "--map-root-user", "--mount", "sh", "-c", mount]);
    if !trial.status().is_ok_and(|s| s.success()) {
        let _ = writeln!(
            std::io::stderr(),
            "NOT CHECKED: no disk of one's own here (unshare)"
        );
        assert!(
            std::env::var_os("NORTHWALL_FAULTS").is_none(),
            "NORTHWALL_FAULTS asks for it"
        );
        return None;
    }
    Some(command)
}

fn top() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// What a script said, and its exit.
fn said(mut command: Command) -> (i32, String) {
    let out = command.output().expect("it runs");
    let text = [out.stdout, out.stderr].concat();
    (
        out.status.code().unwrap_or(-1),
        String::from_utf8_lossy(&text).into_owned(),
    )
}

#[test]
fn an_answer_that_cannot_be_written_out_is_said() {
    for form in [&["loads"][..], &["loads", "--json"]] {
        let full = std::fs::OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .expect("the device that is always full");
        let out = Command::new(cargo_bin("northwall"))
            .args(form)
            .arg(top().join("jobs/lake-street/job.toml"))
            .stdout(full)
            .stderr(Stdio::piped())
            .output()
            .expect("it runs");
        let err = String::from_utf8_lossy(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{err}");
        assert!(err.contains("could not be written out"), "{err}");
    }
}

#[test]
fn what_stood_there_stays_when_the_disk_is_full() {
    let script = r#"
        echo "<svg>old" > "$D/chart.svg"
        dd if=/dev/zero of="$D/rest" 2>/dev/null
        "$N" loads "$J/job.toml" --svg "$D/chart.svg" >/dev/null; echo "exit $?"
        cat "$D/chart.svg"; ls -A "$D"
        rm "$D/rest"
        "$N" loads "$J/job.toml" --svg "$D/chart.svg" >/dev/null; echo "exit $?"
        head -c 4 "$D/chart.svg""#;
    let Some(command) = on_a_small_disk(200, script) else {
        return;
    };
    let (_, text) = said(command);
    assert!(
        text.contains("exit 2\n<svg>old\nchart.svg\nrest\n"),
        "{text}"
    );
    assert!(text.contains("exit 0\n<svg"), "{text}");
    assert!(text.contains("No space left"), "{text}");
}

/// The demo's charge is kept and says 1, since no pressure test stands in the record before it. A
/// record that finds no room leaves no half line, so that the next one is whole.
#[test]
fn a_record_on_a_full_disk_stays_whole() {
    let script = r#"
        again() { "$N" charge "$J/startup.toml" --record "$D/record.jsonl" >/dev/null; said=$?; }
        again; echo "first $said"
        # until what is left is less than the next line
        dd if=/dev/zero of="$D/rest" bs=4096 2>/dev/null
        for i in 1 2 3 4 5 6 7 8 9; do again; [ $said = 1 ] || break; done; echo "then $said"
        "$N" record verify "$D/record.jsonl" >/dev/null; echo "verify $?"
        tail -c 1 "$D/record.jsonl" | od -An -c
        rm "$D/rest"
        again; echo "after $said"
        "$N" record verify "$D/record.jsonl" >/dev/null; echo "verify $?""#;
    let Some(command) = on_a_small_disk(200, script) else {
        return;
    };
    let (_, text) = said(command);
    let marks: Vec<&str> = [
        "first 1", "then 2", "verify 0", "\\n", "after 1", "verify 0",
    ]
    .into();
    let mut rest = text.as_str();
    for mark in marks {
        let at = rest.find(mark).unwrap_or_else(|| panic!("{mark}: {text}"));
        rest = &rest[at + mark.len()..];
    }
    assert!(text.contains("could not be kept"), "{text}");
}

fn change(port: u16, job: &str, n: u64, text: &str) -> (u16, Value) {
    let now = served::ask(port, "GET", &format!("/api/jobs/{job}"), None).expect("answers");
    let body = json!({
        "id": database::id(n), "base_revision": now.1["revision"], "who": "Ada",
        "edits": [{ "path": "job.name", "value": text }],
    });
    let to = format!("/api/jobs/{job}/changes");
    served::ask(port, "POST", &to, Some(&body)).expect("answers")
}

/// Noise that does not pack small.
fn noise(n: u64, letters: usize) -> String {
    let mut state = n.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let letter = |_| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        char::from(b'a' + (state % 26) as u8)
    };
    (0..letters).map(letter).collect()
}

#[test]
fn a_server_on_a_full_disk_says_so_and_loses_nothing() {
    let serve = r#"dd if=/dev/zero of="$D/rest" bs=1024 count=200 2>/dev/null
        exec "$N" serve --port 0 --folder "$D""#;
    let Some(command) = on_a_small_disk(900, serve) else {
        return;
    };
    let folder = command
        .get_envs()
        .find(|(k, _)| *k == "D")
        .and_then(|(_, v)| v.map(std::path::PathBuf::from))
        .expect("its disk");
    let server = Served::started(command);
    let (port, job) = (server.port, database::id(1));
    let text = database::JOB.replace("../../weather/chicago-725300.epw.gz", "none.epw");
    let new = json!({ "id": job, "text": text, "who": "Ada" });
    let made = served::ask(port, "POST", "/api/jobs", Some(&new)).expect("answers");
    assert_eq!(made.0, 201, "{}", made.1);
    let mut last = String::new();
    let mut refused = None;
    for n in 2..400 {
        let name = noise(n, 120);
        match change(port, &job, n, &name) {
            (200, _) => last = name,
            (code, says) => {
                refused = Some((n, name, code, says));
                break;
            }
        }
    }
    let (n, name, code, says) = refused.expect("the disk fills up");
    assert_eq!((code, &says["kind"]), (507, &json!("no-room")), "{says}");
    let now = |port| {
        let to = format!("/api/jobs/{job}");
        let (code, job) = served::ask(port, "GET", &to, None).expect("answers");
        assert_eq!(code, 200, "{job}");
        job["values"]["job"]["name"].as_str().map(str::to_owned)
    };
    assert_eq!(now(port), Some(last), "the last that was acknowledged");
    // Somebody makes room; the disk is seen through the server's own eyes.
    let rest = format!("/proc/{}{}/rest", server.id_with_root(), folder.display());
    std::fs::remove_file(&rest).unwrap_or_else(|e| panic!("{rest}: {e}"));
    let (code, says) = change(port, &job, n, &name);
    assert_eq!(code, 200, "the same again is kept: {says}");
    assert_eq!(now(port), Some(name));
}

#[test]
fn a_folder_that_may_only_be_read_is_named() {
    let script = r#"mkdir "$D/jobs"; mount -o remount,ro "$D"
        "$N" serve --port 0 --folder "$D/jobs"; echo "exit $?"
        "$N" new "$D/job.toml" --rooms 1 2>&1; echo "exit $?"
        "$N" test joints "$J/startup.toml" --record "$D/record.jsonl"; echo "exit $?""#;
    let Some(command) = on_a_small_disk(900, script) else {
        return;
    };
    let (_, text) = said(command);
    assert_eq!(text.matches("exit 2").count(), 3, "{text}");
    assert!(!text.contains("defect"), "{text}");
    assert!(text.contains("jobs cannot be kept here"), "{text}");
    assert!(text.contains("--folder"), "{text}");
}
