//! What can be wrong with the description of a house.

use units::{Dim, System};

/// One thing wrong: where, what, what was found, what is allowed, how to mend it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{place}: {what}: got {got}; allowed: {allowed}; {mend}")]
pub struct GeometryError {
    /// Where in the job: `room.living.outline`, `window.3`, `storey.ground`.
    pub place: String,
    /// What is wrong, in a few words.
    pub what: String,
    /// What was found.
    pub got: String,
    /// What may stand there.
    pub allowed: String,
    /// How to mend it.
    pub mend: String,
}

impl GeometryError {
    /// Puts one together.
    pub(crate) fn new(
        place: impl Into<String>,
        what: impl Into<String>,
        got: impl Into<String>,
        allowed: impl Into<String>,
        mend: impl Into<String>,
    ) -> Self {
        Self {
            place: place.into(),
            what: what.into(),
            got: got.into(),
            allowed: allowed.into(),
            mend: mend.into(),
        }
    }
}

/// A length in both systems, for messages.
pub(super) fn length(m: f64) -> String {
    if m.is_finite() {
        format!("{m:.2} m ({})", units::show(m, Dim::Length, System::Us))
    } else {
        m.to_string()
    }
}

/// An area in both systems, for messages.
pub(super) fn area(m2: f64) -> String {
    if m2.is_finite() {
        format!("{m2:.2} m2 ({})", units::show(m2, Dim::Area, System::Us))
    } else {
        m2.to_string()
    }
}
