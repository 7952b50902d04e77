//! How each value is known, and where each value stands.

use std::collections::BTreeMap;

use reckon::Known;

use crate::Span;

/// One assumption of the job.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// Dotted path: `construction.wall`, `window.living south`.
    pub path: String,
    /// How it is known.
    pub known: Known,
    /// How it was seen, in the person's words: `borescope`. Empty when not said.
    pub how: String,
    /// What it is, in words.
    pub what: String,
}

/// Place in the file of every table and value, by dotted path.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Places {
    pub(crate) by_path: BTreeMap<String, Span>,
}

impl Places {
    /// Where a path stands; where its nearest parent stands if it was not written.
    pub fn of(&self, path: &str) -> Option<Span> {
        let mut path = path;
        loop {
            if let Some(span) = self.by_path.get(path) {
                return Some(*span);
            }
            path = path.rsplit_once('.')?.0;
        }
    }

    /// All paths in order.
    pub fn paths(&self) -> impl Iterator<Item = &str> {
        self.by_path.keys().map(String::as_str)
    }
}
