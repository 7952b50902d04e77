//! Keyboard, clocks and page of the guided mode, and what goes between.

use std::io::Write;

use serde_json::Value;
use startup::Wrong;
use startup::clock::{Tick, Timeline};

use crate::refusal::Refusal;

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
    /// A line for the clock, and the prompt below it.
    pub(super) fn ask(&mut self, clock: &str) {
        if self.watched {
            self.say(&format!("{clock}\n> "));
        }
    }

    /// Writes the clock anew in its line; what is half typed below stays as it is.
    pub(super) fn clock(&mut self, clock: &str) {
        if self.watched {
            self.say(&format!("\x1b7\x1b[1A\r\x1b[K{clock}\x1b8"));
        }
    }

    pub(super) fn say(&mut self, text: &str) {
        // a closed pipe is not our affair; the reading is on the disk
        let _ = self.out.write_all(text.as_bytes());
        let _ = self.out.flush();
    }
}
