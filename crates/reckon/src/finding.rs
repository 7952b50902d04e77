//! A finding: what a rule has to say about this job.

use serde::{Deserialize, Serialize};

use crate::Source;

/// How loud a finding is. Order: loudest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    /// Cannot be installed so; only a named person may override, with a reason that prints.
    Stop,
    /// Should be changed.
    Fix,
    /// Cannot tell: a reading or a sheet is missing.
    Ask,
    /// Worth knowing.
    Note,
}

impl Level {
    /// The word that is printed.
    pub fn word(self) -> &'static str {
        match self {
            Level::Stop => "stop",
            Level::Fix => "fix",
            Level::Ask => "ask",
            Level::Note => "note",
        }
    }
}

/// What a rule found. All text is for the person; `rule` and `place` are for programs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// Stable name of the rule, as in `bedroom-too-cold`.
    pub rule: String,
    /// How loud.
    pub level: Level,
    /// Where in the job: `room.bed-2`, `system.main`, `leakage`.
    pub place: String,
    /// One line: what is so.
    pub says: String,
    /// What was found, with unit, in words.
    pub found: String,
    /// What is required or usual, with unit, in words.
    pub required: String,
    /// What to do about it.
    pub mend: String,
    /// For [`Level::Ask`]: the reading, wait or sheet that would tell. Empty otherwise.
    pub would_tell: String,
    /// Keys of the figures this rests on, for `northwall why`.
    pub figures: Vec<String>,
    /// Where the rule comes from.
    pub source: Source,
}
