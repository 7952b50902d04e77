//! The server as a process of its own, asked through a socket.
#![allow(dead_code)]

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::Value;

/// A running server.
pub struct Served {
    child: Child,
    pub port: u16,
}

impl Served {
    /// Starts one on any free port.
    pub fn start(folder: &Path, database: Option<&str>) -> Self {
        let mut command = Command::new(assert_cmd::cargo::cargo_bin!("northwall"));
        command
            .args(["serve", "--port", "0", "--folder"])
            .arg(folder);
        if let Some(address) = database {
            command.args(["--database", address]);
        }
        Self::started(command)
    }

    /// Starts it by a command of the test's own, which ends as the server.
    pub fn started(mut command: Command) -> Self {
        let mut child = command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()
            .expect("starts");
        let out = child.stdout.take().expect("its words");
        let mut first = String::new();
        BufReader::new(out).read_line(&mut first).expect("a line");
        let port = first.trim().trim_end_matches('/').rsplit(':').next();
        let port = port.and_then(|p| p.parse().ok());
        let port = port.unwrap_or_else(|| panic!("no port in {first:?}"));
        Self { child, port }
    }

    /// Its number with the system, and its own view of the disk.
    pub fn id_with_root(&self) -> String {
        format!("{}/root", self.child.id())
    }

    /// kill -9.
    pub fn kill(&mut self) {
        self.child.kill().expect("ends");
        self.child.wait().expect("ended");
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Status and JSON of an answer; none where the server went away meanwhile.
pub fn ask(port: u16, method: &str, to: &str, body: Option<&Value>) -> Option<(u16, Value)> {
    let mut stream = TcpStream::connect(("127.0.0.1", port)).ok()?;
    stream.set_read_timeout(Some(Duration::from_mins(1))).ok()?;
    let body = body.map_or(String::new(), Value::to_string);
    let request = format!(
        "{method} {to} HTTP/1.1\r\nhost: localhost:{port}\r\ncontent-type: application/json\r\n\
         content-length: {}\r\nconnection: close\r\n\r\n{body}",
        body.len()
    );
    stream.write_all(request.as_bytes()).ok()?;
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).ok()?;
    let text = String::from_utf8(answer).ok()?;
    let (head, rest) = text.split_once("\r\n\r\n")?;
    let status = head.split(' ').nth(1)?.parse().ok()?;
    let length = head
        .lines()
        .find_map(|l| l.strip_prefix("content-length: "));
    // Half an answer is none.
    if length.is_some_and(|n| n.trim().parse() != Ok(rest.len())) {
        return None;
    }
    Some((status, serde_json::from_str(rest).unwrap_or(Value::Null)))
}
