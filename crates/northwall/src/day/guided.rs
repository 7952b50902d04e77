//! Reading by reading: each is on the disk before it is acknowledged.

use std::io::{BufRead, IsTerminal, Write};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use startup::stamp::span;
use units::Dim;

use super::Day;
use super::record::Book;
use super::test::How;
use crate::refusal::{Fault, Refusal};

/// Wall and running clock may differ by so much between two readings before it is said, s.
const DRIFT_S: f64 = 3.0;

/// The readings of a test in a record; with `--live` more are taken from the keyboard first.
pub fn readings(
    day: &Day,
    how: &How<'_>,
    what: &str,
    notes: &mut Vec<String>,
    judge: impl Fn(&[Value]) -> String,
) -> Result<Vec<Value>, Refusal> {
    let path = how.record.ok_or_else(|| {
        Fault::flag("--live", "readings need a file to be kept in").mend("--record FILE")
    })?;
    let who = &day.file.who;
    let mut book = Book::open(path, day.now()?, who)?;
    let kind = format!("{what}-reading");
    if how.live {
        take(day, how, &mut book, &kind, what, &judge)?;
    }
    let kept = of(&book, &kind, how.name);
    notes.extend(drift(&kept));
    Ok(kept)
}

fn of(book: &Book, kind: &str, name: &str) -> Vec<Value> {
    book.standing(kind)
        .into_iter()
        .map(|r| r.says.clone())
        .filter(|s| s.get("test").and_then(Value::as_str) == Some(name))
        .collect()
}

/// Where the wall clock moved against the running one: a closed lid, or a clock that was set.
fn drift(kept: &[Value]) -> Vec<String> {
    let number = |v: &Value, key: &str| v.get(key).and_then(Value::as_f64);
    let mut notes = Vec::new();
    for pair in kept.windows(2) {
        let [a, b] = pair else { continue };
        if a.get("session") != b.get("session") {
            notes.push(format!(
                "the program was begun anew before reading at {}",
                b.get("at").and_then(Value::as_str).unwrap_or("?")
            ));
            continue;
        }
        let (Some(a0), Some(b0), Some(a1), Some(b1)) = (
            number(a, "at_s"),
            number(b, "at_s"),
            number(a, "running_s"),
            number(b, "running_s"),
        ) else {
            continue;
        };
        let moved = (b0 - a0) - (b1 - a1);
        if moved.abs() > DRIFT_S {
            notes.push(format!(
                "the clock on the wall went {} {} against the running one before {}: a closed lid, or a clock that was set",
                span(moved),
                if moved > 0.0 { "forward" } else { "back" },
                b.get("at").and_then(Value::as_str).unwrap_or("?")
            ));
        }
    }
    notes
}

/// `550.2 psi, 70.1 F` or `480 micron` to values.
fn parsed(text: &str, what: &str) -> Result<Value, String> {
    let mut parts = text.split(',');
    let pressure = parts.next().unwrap_or("").trim();
    let pa = units::parse(pressure, Dim::Pressure).map_err(|e| e.to_string())?;
    if what == "vacuum" {
        return if parts.next().is_some() {
            Err("one pressure, like `480 micron`".to_owned())
        } else {
            Ok(json!({ "pa": pa }))
        };
    }
    let Some(temperature) = parts.next() else {
        return Err(
            "the temperature of the lines is missing: write it like `550.2 psi, 70.1 F`".to_owned(),
        );
    };
    let line_c = units::parse(temperature, Dim::Temperature).map_err(|e| e.to_string())?;
    Ok(json!({ "pa": pa, "line_c": line_c }))
}

fn take(
    day: &Day,
    how: &How<'_>,
    book: &mut Book,
    kind: &str,
    what: &str,
    judge: &impl Fn(&[Value]) -> String,
) -> Result<(), Refusal> {
    let who = day.file.who.clone();
    let begun = Instant::now();
    let session = day.now()?.epoch_s;
    let clock = std::io::stdin().is_terminal();
    let mut out = std::io::stdout();
    let mut say = |text: String| {
        let _ = out.write_all(text.as_bytes());
        let _ = out.flush();
    };
    let example = if what == "vacuum" {
        "480 micron"
    } else {
        "550.2 psi, 70.1 F"
    };
    let before = of(book, kind, how.name).len();
    say(format!(
        "{before} readings kept so far. Write each like `{example}`; `fix NUMBER: {example}: why` corrects one; `end` ends.\n"
    ));
    let (send, lines) = channel();
    std::thread::spawn(move || {
        for line in std::io::stdin().lock().lines() {
            let Ok(line) = line else { break };
            if send.send(line).is_err() {
                break;
            }
        }
    });
    loop {
        let line = match lines.recv_timeout(Duration::from_secs(1)) {
            Ok(line) => line,
            Err(RecvTimeoutError::Timeout) => {
                if clock {
                    let first = of(book, kind, how.name)
                        .first()
                        .and_then(|v| v.get("at_s").and_then(Value::as_f64));
                    let run = first.map_or(0.0, |f| day.now().map_or(0.0, |n| n.epoch_s - f));
                    say(format!("\r{} since the first reading > ", span(run)));
                }
                continue;
            }
            Err(RecvTimeoutError::Disconnected) => break,
        };
        let line = line.trim();
        if line == "end" {
            break;
        }
        if line.is_empty() {
            continue;
        }
        let (text, corrects) = match line.strip_prefix("fix ") {
            None => (line, None),
            Some(rest) => {
                let mut parts = rest.splitn(3, ':').map(str::trim);
                let number = parts.next().and_then(|n| n.parse::<u64>().ok());
                let (Some(n), Some(text), Some(why)) = (number, parts.next(), parts.next()) else {
                    say(format!(
                        "not kept: write a correction like `fix 3: {example}: misread`\n"
                    ));
                    continue;
                };
                (text, Some((n, why)))
            }
        };
        let mut says = match parsed(text, what) {
            Ok(v) => v,
            Err(e) => {
                say(format!("not kept: {e}\n"));
                continue;
            }
        };
        let now = day.now()?;
        let kept = of(book, kind, how.name);
        let last = kept
            .last()
            .and_then(|v| v.get("at_s").and_then(Value::as_f64));
        let mut at = now;
        if let Some((n, _)) = corrects {
            // a correction keeps the time of what it corrects
            let old = book
                .standing(kind)
                .into_iter()
                .find(|r| r.n == n || r.corrects == Some(n));
            let Some(t) = old.and_then(|r| r.says.get("at_s").and_then(Value::as_f64)) else {
                say(format!("not kept: record {n} is no reading of this test\n"));
                continue;
            };
            at.epoch_s = t;
        } else if last.is_some_and(|l| now.epoch_s <= l) {
            say("not kept: the clock on the wall is earlier than at the last reading; set it right first\n".to_owned());
            continue;
        }
        if let Some(map) = says.as_object_mut() {
            map.insert("test".into(), json!(how.name));
            map.insert("at".into(), json!(at.written()));
            map.insert("at_s".into(), json!(at.epoch_s));
            map.insert("running_s".into(), json!(begun.elapsed().as_secs_f64()));
            map.insert("session".into(), json!(session));
        }
        match book.add(now, &who, kind, says, corrects) {
            Ok(n) => say(format!("kept {n} at {}: {text}\n", at.written())),
            Err(e) => {
                say(format!("not kept: {}\n", e.text()));
                continue;
            }
        }
        say(format!("  {}\n", judge(&of(book, kind, how.name))));
    }
    Ok(())
}
