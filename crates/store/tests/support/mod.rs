//! A PostgreSQL of the test's own: started in a temporary folder, ended with the test.
#![allow(dead_code)]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use store::{Made, NewJob, Store};

/// Whose jobs they are.
pub const FIRM: &str = "local";

/// Makes the invented job; made once more it is there already.
pub async fn made(store: &Store, job: &str) {
    let new = NewJob {
        id: job,
        text: JOB,
        who: "Ada",
        at: "2026-11-25T10:00:00-05:00",
    };
    assert_eq!(store.new_job(FIRM, &new).await.expect("made"), Made::New);
    assert_eq!(
        store.new_job(FIRM, &new).await.expect("again"),
        Made::Already
    );
}

/// A running cluster, reached through a socket in its folder.
pub struct Cluster {
    folder: tempfile::TempDir,
    tools: PathBuf,
}

impl Cluster {
    /// Starts one; none, said loudly, where PostgreSQL is not installed.
    pub fn start() -> Option<Self> {
        let Some(tools) = tools() else {
            let _ = writeln!(
                std::io::stderr(),
                "NOT CHECKED ON POSTGRESQL: there is no initdb here; apt-get install postgresql"
            );
            assert!(
                std::env::var_os("NORTHWALL_POSTGRES").is_none(),
                "NORTHWALL_POSTGRES asks for PostgreSQL and there is none"
            );
            return None;
        };
        let folder = tempfile::tempdir().expect("a folder");
        if is_root() {
            // PostgreSQL refuses to run as root.
            run(Command::new("chown").arg("postgres").arg(folder.path()));
        }
        let cluster = Self { folder, tools };
        let data = cluster.data();
        cluster.tool(
            "initdb",
            &[
                "-D",
                &data,
                "-A",
                "trust",
                "-U",
                "northwall",
                "-E",
                "UTF8",
                "--no-sync",
            ],
        );
        let socket = cluster.folder.path().display().to_string();
        let options = format!("-c listen_addresses='' -c unix_socket_directories='{socket}'");
        let log = cluster.folder.path().join("log").display().to_string();
        cluster.tool(
            "pg_ctl",
            &[
                "-D", &data, "-w", "-t", "60", "-l", &log, "-o", &options, "start",
            ],
        );
        Some(cluster)
    }

    fn data(&self) -> String {
        self.folder.path().join("data").display().to_string()
    }

    /// Address of a fresh database.
    pub fn database(&self, name: &str) -> String {
        let socket = self.folder.path().display().to_string();
        self.tool("createdb", &["-h", &socket, "-U", "northwall", name]);
        format!("postgres:///{name}?host={socket}&user=northwall")
    }

    /// The socket it listens at.
    pub fn socket(&self) -> PathBuf {
        self.folder.path().join(".s.PGSQL.5432")
    }

    /// Runs SQL in a database of it.
    pub fn sql(&self, database: &str, sql: &str) {
        let socket = self.folder.path().display().to_string();
        self.tool(
            "psql",
            &[
                "-h",
                &socket,
                "-U",
                "northwall",
                "-d",
                database,
                "-v",
                "ON_ERROR_STOP=1",
                "-c",
                sql,
            ],
        );
    }

    /// Ends every process of it at once, as a power cut would, and starts it again.
    pub fn cut_and_start(&self) {
        let data = self.data();
        self.tool("pg_ctl", &["-D", &data, "-w", "-m", "immediate", "stop"]);
        let socket = self.folder.path().display().to_string();
        let options = format!("-c listen_addresses='' -c unix_socket_directories='{socket}'");
        let log = self.folder.path().join("log").display().to_string();
        self.tool(
            "pg_ctl",
            &[
                "-D", &data, "-w", "-t", "60", "-l", &log, "-o", &options, "start",
            ],
        );
    }

    fn tool(&self, name: &str, arguments: &[&str]) {
        let path = self.tools.join(name);
        let mut command = if is_root() {
            let mut c = Command::new("setpriv");
            c.args(["--reuid=postgres", "--regid=postgres", "--clear-groups"]);
            c.arg(path);
            c
        } else {
            Command::new(path)
        };
        command.args(arguments).current_dir(self.folder.path());
        run(&mut command);
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        let data = self.data();
        self.tool("pg_ctl", &["-D", &data, "-w", "-m", "immediate", "stop"]);
    }
}

fn run(command: &mut Command) {
    // What it starts in the background must not hold our pipes.
    let done = command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status();
    assert!(
        done.as_ref().is_ok_and(std::process::ExitStatus::success),
        "{command:?}: {done:?}"
    );
}

fn is_root() -> bool {
    let id = Command::new("id").arg("-u").output();
    id.is_ok_and(|o| o.stdout.starts_with(b"0\n"))
}

fn tools() -> Option<PathBuf> {
    let mut folders: Vec<PathBuf> = std::fs::read_dir("/usr/lib/postgresql")
        .into_iter()
        .flatten()
        .flatten()
        .map(|e| e.path().join("bin"))
        .collect();
    folders.sort();
    folders.extend(std::env::split_paths(&std::env::var_os("PATH")?));
    let has = |p: &PathBuf| {
        let all = ["initdb", "pg_ctl", "createdb"];
        all.iter().all(|t| Path::new(p).join(t).is_file())
    };
    folders
        .into_iter()
        .rev()
        .find(|p| has(p) && p.starts_with("/usr/lib"))
        .or_else(|| {
            let path = std::env::var_os("PATH")?;
            std::env::split_paths(&path).find(has)
        })
}

/// The invented example job.
pub const JOB: &str = include_str!("../../../../jobs/lake-street/job.toml");

/// An id that is new each time, in the form of a UUID.
pub fn id(number: u64) -> String {
    let time = store::now_ms();
    format!(
        "{:08x}-{:04x}-7000-8000-{:012x}",
        (time >> 16) & 0xffff_ffff,
        time & 0xffff,
        number
    )
}
