//! Step by step: each reading is on the disk before it is acknowledged, and a program begun anew
//! goes on where the record ends.

use std::io::{BufRead, IsTerminal, Write};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use startup::Wrong;
use startup::clock::{Placed, Tick, Timeline, place, timeline};
use startup::stamp::span;
use units::Dim;

use super::Day;
use super::page::{item, para, width};
use super::record::Book;
use super::test::{How, clock_words};
use crate::refusal::{Fault, Refusal};
use crate::say::wrapped_to;

/// What the readings so far say.
pub struct Judged {
    /// In words.
    pub says: String,
    /// How long the whole test should be, s, where that is known.
    pub whole_s: Option<f64>,
    /// The newest reading cannot be; it is asked for again.
    pub odd: bool,
}

impl Judged {
    /// Words alone.
    pub fn says(says: impl Into<String>) -> Self {
        Self {
            says: says.into(),
            whole_s: None,
            odd: false,
        }
    }

    /// What the engine refuses; odd where it is the newest of so many readings.
    pub fn refused(e: &Wrong, many: usize) -> Self {
        let newest = e.what.ends_with(&format!(" of reading {many}"));
        Self {
            says: if newest {
                format!("{e}.")
            } else {
                format!(
                    "{e}. If it was misread, `fix` it; if not, `end`, and begin anew with --name."
                )
            },
            whole_s: None,
            odd: newest && many > 1,
        }
    }
}

/// Readings of a test and what the clocks did.
pub struct Taken {
    /// What stands in the record.
    pub kept: Vec<Value>,
    /// Times.
    pub line: Timeline,
}

/// What comes from the keyboard.
pub enum Next {
    /// A line.
    Line(String),
    /// A second went by.
    Waited,
    /// No more lines.
    Ended,
}

/// Keyboard, clocks and page, so that a test can hand in its own.
pub struct Desk<'a> {
    /// Both clocks now.
    pub tick: &'a mut dyn FnMut() -> Result<Tick, Refusal>,
    /// The next line.
    pub next: &'a mut dyn FnMut() -> Next,
    /// Where it is said.
    pub out: &'a mut dyn Write,
    /// A person looks on: the running clock is shown.
    pub watched: bool,
}

impl Desk<'_> {
    fn say(&mut self, text: &str) {
        // a closed pipe is not our affair; the reading is on the disk
        let _ = self.out.write_all(text.as_bytes());
        let _ = self.out.flush();
    }
}

/// A test taken step by step.
pub struct Guide<'a> {
    /// `pressure` or `vacuum`.
    pub what: &'a str,
    /// A reading as it is written.
    pub example: &'a str,
    /// Cautions and plan, said before the first reading.
    pub opening: String,
    /// Steps before readings begin; the last one is the reading itself.
    pub steps: Vec<String>,
    /// Readings begin at this pressure, Pa.
    pub least_pa: Option<f64>,
    /// How long the test should be, s.
    pub wanted_s: Option<f64>,
}

fn of(book: &Book, kind: &str, name: &str) -> Vec<Value> {
    book.standing(kind)
        .into_iter()
        .map(|r| r.says.clone())
        .filter(|s| s.get("test").and_then(Value::as_str) == Some(name))
        .collect()
}

fn placed(kept: &[Value]) -> Vec<Placed> {
    kept.iter()
        .filter_map(|v| serde_json::from_value(v.clone()).ok())
        .collect()
}

/// `550.2 psi, 70.1 F` or `480 micron` to values.
fn parsed(text: &str, what: &str, example: &str) -> Result<Value, String> {
    let mut parts = text.split(',');
    let pressure = parts.next().unwrap_or("").trim();
    let pa = units::parse(pressure, Dim::Pressure)
        .map_err(|e| format!("{e}. Write `{example}`, or `help`."))?;
    let more = parts.next();
    if what == "vacuum" {
        return match more {
            None => Ok(json!({ "pa": pa })),
            Some(_) => Err(format!("one pressure, like `{example}`")),
        };
    }
    let Some(temperature) = more else {
        return Err(format!(
            "the temperature of the lines is missing: `{example}`"
        ));
    };
    let line_c = units::parse(temperature, Dim::Temperature).map_err(|e| e.to_string())?;
    Ok(json!({ "pa": pa, "line_c": line_c }))
}

/// A line as it was meant.
struct Meant<'a> {
    reading: &'a str,
    corrects: Option<(u64, &'a str)>,
    sure: bool,
}

fn meant<'a>(line: &'a str, example: &str) -> Result<Meant<'a>, String> {
    let (line, sure) = match line.strip_suffix('!') {
        Some(rest) => (rest.trim(), true),
        None => (line, false),
    };
    let Some(rest) = line.strip_prefix("fix ") else {
        return Ok(Meant {
            reading: line,
            corrects: None,
            sure,
        });
    };
    let mut parts = rest.splitn(3, ':').map(str::trim);
    let number = parts.next().and_then(|n| n.parse::<u64>().ok());
    match (number, parts.next(), parts.next()) {
        (Some(n), Some(reading), Some(why)) if !why.is_empty() => Ok(Meant {
            reading,
            corrects: Some((n, why)),
            sure,
        }),
        _ => Err(format!(
            "a correction is written `fix 3: {example}: misread`"
        )),
    }
}

fn refused(why: &str) -> String {
    wrapped_to(width(), "not kept: ", "  ", why)
}

impl Guide<'_> {
    fn kind(&self) -> String {
        format!("{}-reading", self.what)
    }

    /// The readings of a test in a record; with `--live` more are taken first.
    pub fn readings(
        &self,
        day: &Day,
        how: &How<'_>,
        judge: &dyn Fn(&[Value]) -> Judged,
    ) -> Result<Taken, Refusal> {
        let path = how.record.ok_or_else(|| {
            Fault::flag("--live", "readings need a file to be kept in").mend("--record FILE")
        })?;
        let mut book = Book::open(path, day.now()?, &day.file.who)?;
        if how.live {
            let begun = Instant::now();
            let session = day.now()?.epoch_s;
            let mut tick = || {
                Ok(Tick {
                    wall_s: day.now()?.epoch_s,
                    running_s: begun.elapsed().as_secs_f64(),
                    session,
                })
            };
            let (send, lines) = channel();
            std::thread::spawn(move || {
                for line in std::io::stdin().lock().lines() {
                    let Ok(line) = line else { break };
                    if send.send(line).is_err() {
                        break;
                    }
                }
            });
            let mut next = || match lines.recv_timeout(Duration::from_secs(1)) {
                Ok(line) => Next::Line(line),
                Err(RecvTimeoutError::Timeout) => Next::Waited,
                Err(RecvTimeoutError::Disconnected) => Next::Ended,
            };
            let mut stdout = anstream::stdout();
            let mut stderr = anstream::stderr();
            let out: &mut dyn Write = if how.json { &mut stderr } else { &mut stdout };
            let mut desk = Desk {
                tick: &mut tick,
                next: &mut next,
                out,
                watched: std::io::stdin().is_terminal(),
            };
            self.take(day, how.name, &mut book, &mut desk, judge)?;
        }
        let kept = of(&book, &self.kind(), how.name);
        let offset_min = day.offset_min()?;
        let line = timeline(&placed(&kept), &|s| clock_words(s, offset_min));
        Ok(Taken { kept, line })
    }

    /// Steps that are done, by the record.
    fn done(&self, book: &Book, name: &str) -> usize {
        of(book, &format!("{}-step", self.what), name).len()
    }

    fn step_words(&self, done: usize) -> String {
        let many = self.steps.len();
        self.steps.get(done).map_or(String::new(), |s| {
            let then = if done + 1 < many {
                "`next` when it is done."
            } else {
                "Then the readings."
            };
            para(&format!("Step {} of {many}: {s}. {then}", done + 1))
        })
    }

    fn help(&self) -> String {
        let e = self.example;
        item("- ", &format!("`{e}`: a reading"))
            + &item(
                "- ",
                &format!("`fix 3: {e}: misread`: corrects record 3; both stay"),
            )
            + &item("- ", "`next`: the step is done; `where`: how it stands")
            + &item(
                "- ",
                "`end`: ends; all that was kept stays, and it goes on from here",
            )
    }

    /// Takes readings until `end`.
    pub fn take(
        &self,
        day: &Day,
        name: &str,
        book: &mut Book,
        desk: &mut Desk<'_>,
        judge: &dyn Fn(&[Value]) -> Judged,
    ) -> Result<(), Refusal> {
        let kind = self.kind();
        let kept = of(book, &kind, name);
        desk.say(&self.opening);
        if kept.is_empty() {
            desk.say(&self.step_words(self.done(book, name)));
            desk.say(&para(&format!(
                "Write a reading like `{}`; `help` says the rest.",
                self.example
            )));
        } else {
            desk.say(&para(&format!(
                "{} readings are kept; going on. `help` says how.",
                kept.len()
            )));
        }
        let mut whole_s = self.wanted_s;
        loop {
            let line = match (desk.next)() {
                Next::Line(line) => line,
                Next::Ended => return Ok(()),
                Next::Waited => {
                    self.clock(book, name, whole_s, desk)?;
                    continue;
                }
            };
            match line.trim() {
                "end" => return Ok(()),
                "" => {}
                "help" => desk.say(&self.help()),
                "next" => self.next_step(day, name, book, desk)?,
                "where" => {
                    let kept = of(book, &kind, name);
                    let words = if kept.is_empty() {
                        self.step_words(self.done(book, name))
                    } else {
                        para(&format!("{} readings. {}", kept.len(), judge(&kept).says))
                    };
                    desk.say(&words);
                }
                line => {
                    if let Some(w) = self.reading(line, day, name, book, desk, judge)? {
                        whole_s = Some(w);
                    }
                }
            }
        }
    }

    fn next_step(
        &self,
        day: &Day,
        name: &str,
        book: &mut Book,
        desk: &mut Desk<'_>,
    ) -> Result<(), Refusal> {
        let done = self.done(book, name);
        if done + 1 >= self.steps.len() {
            desk.say(&para(&format!(
                "The readings are left: like `{}`.",
                self.example
            )));
            return Ok(());
        }
        let says = json!({ "test": name, "step": self.steps.get(done) });
        book.add(
            day.now()?,
            &day.file.who,
            &format!("{}-step", self.what),
            says,
            None,
        )?;
        desk.say(&self.step_words(done + 1));
        Ok(())
    }

    /// Keeps one reading; gives how long the test should be, where that is newly known.
    fn reading(
        &self,
        line: &str,
        day: &Day,
        name: &str,
        book: &mut Book,
        desk: &mut Desk<'_>,
        judge: &dyn Fn(&[Value]) -> Judged,
    ) -> Result<Option<f64>, Refusal> {
        let kind = self.kind();
        let kept = of(book, &kind, name);
        let read = meant(line, self.example)
            .and_then(|m| Ok((parsed(m.reading, self.what, self.example)?, m)));
        let (mut says, m) = match read {
            Ok(r) => r,
            Err(e) => {
                desk.say(&refused(&e));
                return Ok(None);
            }
        };
        let pa = says.get("pa").and_then(Value::as_f64).unwrap_or(0.0);
        if kept.is_empty() && self.least_pa.is_some_and(|least| pa < least) && !m.sure {
            desk.say(&refused(
                "This is under the test pressure. `next` after each step; readings begin at the last. Write it with ! after it if the test is at this pressure.",
            ));
            return Ok(None);
        }
        let now = (desk.tick)()?;
        let last = placed(&kept).last().copied();
        let spot = match m.corrects {
            // a correction keeps the time of what it corrects
            Some((n, _)) => {
                let old = (book.standing(&kind).into_iter())
                    .find(|r| r.n == n || r.corrects == Some(n))
                    .and_then(|r| serde_json::from_value::<Placed>(r.says.clone()).ok());
                match old {
                    Some(old) => Ok((old, startup::clock::Moved::No)),
                    None => Err(format!("record {n} is no reading of this test")),
                }
            }
            None => place(last.as_ref(), now).map_err(|e| e.to_string()),
        };
        let (spot, moved) = match spot {
            Ok(s) => s,
            Err(e) => {
                desk.say(&refused(&e));
                return Ok(None);
            }
        };
        let at = startup::Stamp {
            epoch_s: spot.at_s,
            offset_min: day.offset_min()?,
        };
        if let (Some(map), Ok(Value::Object(clocks))) =
            (says.as_object_mut(), serde_json::to_value(spot))
        {
            map.insert("test".into(), json!(name));
            map.insert("at".into(), json!(at.written()));
            map.extend(clocks);
        }
        if m.corrects.is_none() && !m.sure {
            let mut tried = kept;
            tried.push(says.clone());
            let judged = judge(&tried);
            if judged.odd {
                desk.say(&refused(&format!(
                    "{} Write it with ! after it if it is so.",
                    judged.says
                )));
                return Ok(None);
            }
        }
        match book.add(day.now()?, &day.file.who, &kind, says, m.corrects) {
            Ok(n) => {
                let clock = at.written().get(11..19).unwrap_or("").to_owned();
                desk.say(&item(
                    &format!("kept {n}: "),
                    &format!("{} at {clock}", m.reading),
                ));
            }
            Err(e) => {
                desk.say(&format!("not kept: {}\n", e.text()));
                return Ok(None);
            }
        }
        if let Some(words) = moved.words(&clock_words(spot.at_s, at.offset_min)) {
            desk.say(&item("  ", &words));
        }
        let judged = judge(&of(book, &kind, name));
        desk.say(&item("  ", &judged.says));
        Ok(judged.whole_s)
    }

    fn clock(
        &self,
        book: &Book,
        name: &str,
        whole_s: Option<f64>,
        desk: &mut Desk<'_>,
    ) -> Result<(), Refusal> {
        if !desk.watched {
            return Ok(());
        }
        let kept = placed(&of(book, &self.kind(), name));
        let (Some(first), Some(last)) = (kept.first(), kept.last()) else {
            return Ok(());
        };
        let now = (desk.tick)()?;
        let run =
            last.at_s - first.at_s + place(Some(last), now).map_or(0.0, |p| p.0.at_s - last.at_s);
        let left = whole_s.map_or(String::new(), |w| {
            if w > run {
                format!(", {} to go", span(w - run))
            } else {
                ", long enough".to_owned()
            }
        });
        desk.say(&format!("\r\x1b[K{}{left} > ", span(run)));
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    //! A clock and a keyboard handed in as data.

    use super::*;

    const DAY: &str = "northwall_startup = 1\nwho = \"A. Fitter\"\noffset = \"-05:00\"\n";

    /// A line, and how far the wall and the running clock have gone since the line before, s.
    type Typed = (&'static str, f64, f64);

    fn took(lines: &[Typed]) -> (String, Vec<Placed>) {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("day.toml");
        std::fs::write(&file, DAY).expect("written");
        let day = Day::alone(&file).expect("reads");
        let record = folder.path().join("record.jsonl");
        let start = day.now().expect("now");
        let mut book = Book::open(&record, start, "A. Fitter").expect("opens");
        let guide = Guide {
            what: "vacuum",
            example: "480 micron",
            opening: String::new(),
            steps: vec!["Pull".into(), "Hold".into()],
            least_pa: None,
            wanted_s: Some(900.0),
        };
        let mut at = 0;
        let clocks = std::cell::RefCell::new((1.7956e9, 0.0));
        let mut next = || {
            let Some((line, wall, running)) = lines.get(at) else {
                return Next::Ended;
            };
            at += 1;
            let mut c = clocks.borrow_mut();
            c.0 += wall;
            c.1 += running;
            if line.is_empty() {
                Next::Waited
            } else {
                Next::Line((*line).to_owned())
            }
        };
        let mut tick = || {
            let c = clocks.borrow();
            Ok(Tick {
                wall_s: c.0,
                running_s: c.1,
                session: 1.0,
            })
        };
        let mut out = Vec::new();
        let mut desk = Desk {
            tick: &mut tick,
            next: &mut next,
            out: &mut out,
            watched: true,
        };
        guide
            .take(&day, "1", &mut book, &mut desk, &|k| {
                Judged::says(format!("{} so far", k.len()))
            })
            .expect("takes");
        let kept = placed(&of(&book, "vacuum-reading", "1"));
        (String::from_utf8(out).expect("text"), kept)
    }

    fn flat(text: &str) -> String {
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn a_closed_lid_and_a_clock_set_back() {
        let (out, kept) = took(&[
            ("480 micron", 0.0, 0.0),
            ("482 micron", 60.0, 60.0),
            // the lid was closed for an hour
            ("490 micron", 3660.0, 60.0),
            // and the clock set back an hour
            ("491 micron", -3540.0, 60.0),
            ("fix 2: 481 micron: misread", 60.0, 60.0),
        ]);
        let times: Vec<f64> = kept
            .iter()
            .map(|k| (k.at_s - kept[0].at_s).round())
            .collect();
        assert_eq!(times, [0.0, 60.0, 3720.0, 3780.0]);
        let out = flat(&out);
        assert!(
            out.contains(
                "gained 60 min: an hour, as when summer time begins or ends: a closed lid"
            ),
            "{out}"
        );
        assert!(out.contains("was set back 60 min"), "{out}");
        assert!(out.contains("kept 5: 481 micron"), "{out}");
        // a correction leaves the clocks as they were
        assert!(timeline(&kept, &|_| String::new()).notes.len() == 2);
    }

    #[test]
    fn the_running_clock_is_shown_and_the_same_moment_refused() {
        let (out, kept) = took(&[
            ("next", 0.0, 0.0),
            ("480 micron", 5.0, 5.0),
            ("", 60.0, 60.0),
            ("481 micron", 0.0, 0.0),
            ("482 micron", 0.0, 0.0),
            ("where", 10.0, 10.0),
        ]);
        let out = flat(&out);
        assert_eq!(kept.len(), 2);
        assert!(
            out.contains("Step 2 of 2: Hold. Then the readings."),
            "{out}"
        );
        assert!(out.contains("60 s, 14 min to go >"), "{out}");
        assert!(
            out.contains("not kept: there is a reading of this very moment"),
            "{out}"
        );
        assert!(out.contains("2 readings. 2 so far"), "{out}");
    }
}
