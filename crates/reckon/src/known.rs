//! How a value is known, and what a verdict may be.

use serde::{Deserialize, Serialize};

/// How a value came into the job. Carried from the survey into the band of every result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Known {
    /// Somebody looked or measured: tape, borescope, blower door, data sheet in hand.
    Seen,
    /// Read from a label or a name plate.
    Label,
    /// Nobody looked; a usual value stands in.
    Assumed,
}

impl Known {
    /// The word as it stands in the job file.
    pub fn word(self) -> &'static str {
        match self {
            Known::Seen => "seen",
            Known::Label => "label",
            Known::Assumed => "assumed",
        }
    }
}

/// Every verdict has three ends; the third is as calm as the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// The requirement is met.
    Holds,
    /// The requirement is not met.
    Fails,
    /// What is known does not decide it; the finding says what would.
    CannotTell,
}

impl Verdict {
    /// The verdict in words.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Holds => "holds",
            Verdict::Fails => "fails",
            Verdict::CannotTell => "cannot tell",
        }
    }
}
