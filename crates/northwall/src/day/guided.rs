//! Step by step: each reading is on the disk before it is acknowledged, and a program begun anew
//! goes on where the record ends.

mod desk;
mod running;
mod typed;

#[cfg(test)]
mod tests;

use std::io::{BufRead, IsTerminal, Write};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use startup::clock::{Placed, Tick, place, timeline};
use startup::stamp::span;

use super::Day;
use super::page::{item, para, width};
use super::record::Book;
use super::test::{How, clock_words};
use crate::refusal::{Fault, Refusal};
use crate::say::wrapped_to;
use typed::{meant, parsed};

pub use desk::{Desk, Judged, Next, Taken};

/// A step of a test.
pub struct Held {
    /// What to do.
    pub says: String,
    /// Not done before this has gone by, s.
    pub hold_s: f64,
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
    pub steps: Vec<Held>,
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
                watched: std::io::stdin().is_terminal()
                    && if how.json {
                        std::io::stderr().is_terminal()
                    } else {
                        std::io::stdout().is_terminal()
                    },
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
            para(&format!("Step {} of {many}: {}. {then}", done + 1, s.says))
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
        let mut since_s = (desk.tick)()?.running_s;
        let clock = self.clock(book, name, whole_s, since_s, desk)?;
        desk.ask(&clock);
        loop {
            let line = match (desk.next)() {
                Next::Line(line) => line,
                Next::Ended => return Ok(()),
                Next::Waited => {
                    let clock = self.clock(book, name, whole_s, since_s, desk)?;
                    desk.clock(&clock);
                    continue;
                }
            };
            match line.trim() {
                "end" => return Ok(()),
                "" => {}
                "help" => desk.say(&self.help()),
                said @ ("next" | "next!" | "next !") => {
                    let sure = said.ends_with('!');
                    if self.next_step(day, name, book, desk, sure, since_s)? {
                        since_s = (desk.tick)()?.running_s;
                    }
                }
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
            let clock = self.clock(book, name, whole_s, since_s, desk)?;
            desk.ask(&clock);
        }
    }

    /// Whether a step was done and the next begins.
    fn next_step(
        &self,
        day: &Day,
        name: &str,
        book: &mut Book,
        desk: &mut Desk<'_>,
        sure: bool,
        since_s: f64,
    ) -> Result<bool, Refusal> {
        let done = self.done(book, name);
        let Some(step) = self.steps.get(done).filter(|_| done + 1 < self.steps.len()) else {
            desk.say(&para(&format!(
                "The readings are left: like `{}`.",
                self.example
            )));
            return Ok(false);
        };
        let held_s = (desk.tick)()?.running_s - since_s;
        if held_s < step.hold_s && !sure {
            desk.say(&para(&format!(
                "{} are left of this hold. `next !` goes on without it, and the record says so.",
                span(step.hold_s - held_s)
            )));
            return Ok(false);
        }
        let says = json!({ "test": name, "step": step.says, "held_s": held_s.round() });
        book.add(
            day.now()?,
            &day.file.who,
            &format!("{}-step", self.what),
            says,
            None,
        )?;
        desk.say(&self.step_words(done + 1));
        Ok(true)
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
}
