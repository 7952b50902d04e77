//! A stage of the plan: done, or waiting for something somebody has.

use serde::Serialize;

/// What a stage waits for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Wait {
    /// What is missing, in words.
    pub what: String,
    /// Where it goes in the job file: `leakage.blower_door`.
    pub place: String,
    /// How to come by it.
    pub how: String,
}

impl Wait {
    /// One thing that is waited for.
    pub fn new(what: impl Into<String>, place: impl Into<String>, how: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            place: place.into(),
            how: how.into(),
        }
    }
}

/// A stage.
#[derive(Debug, Clone, PartialEq)]
pub enum Stage<T> {
    /// Cannot be worked out yet.
    Waiting(Vec<Wait>),
    /// Worked out.
    Done(T),
}

impl<T> Stage<T> {
    /// The result, if it is there.
    pub fn done(&self) -> Option<&T> {
        match self {
            Self::Done(t) => Some(t),
            Self::Waiting(_) => None,
        }
    }

    /// What it waits for; nothing when done.
    pub fn waits(&self) -> &[Wait] {
        match self {
            Self::Waiting(w) => w,
            Self::Done(_) => &[],
        }
    }
}
