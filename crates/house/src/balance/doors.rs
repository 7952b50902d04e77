//! How doors stand in a run.

use crate::describe::Stands;

/// How the doors stand in a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doors {
    /// As each door usually stands.
    AsUsual,
    /// All doors open.
    Open,
    /// All doors shut.
    Closed,
}

impl Doors {
    /// How a door that usually stands like this stands in the run.
    pub fn of(self, usual: Stands) -> Stands {
        match self {
            Doors::AsUsual => usual,
            Doors::Open => Stands::Open,
            Doors::Closed => Stands::Closed,
        }
    }
}
