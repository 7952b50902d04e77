//! What can be wrong with a written quantity, said so that it can be mended.

use crate::Dim;
use crate::table::quantity_of;

/// Why a text does not read as a quantity. Each message names the text, what is allowed, and
/// how to write it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum UnitError {
    /// Nothing was written.
    #[error("nothing is written where {} belongs; {}", quantity_of(*dim).what, allowed(*dim))]
    Empty {
        /// What was wanted.
        dim: Dim,
    },
    /// The text does not begin with a number.
    #[error("`{text}` does not begin with a number; {}", allowed(*dim))]
    NoNumber {
        /// What was written.
        text: String,
        /// What was wanted.
        dim: Dim,
    },
    /// A number without unit where one is needed.
    #[error("`{text}` has no unit; {}", allowed(*dim))]
    NoUnit {
        /// What was written.
        text: String,
        /// What was wanted.
        dim: Dim,
    },
    /// A unit nobody here knows.
    #[error("`{text}`: `{unit}` is not a unit of {}{}; {}",
        bare_what(*dim), hint(*near), allowed(*dim))]
    UnknownUnit {
        /// What was written.
        text: String,
        /// The part taken as the unit.
        unit: String,
        /// A unit that looks alike.
        near: Option<&'static str>,
        /// What was wanted.
        dim: Dim,
    },
    /// A unit of something else.
    #[error("`{text}`: `{unit}` is a unit of {}, and this is {}; {}",
        bare_what(*other), quantity_of(*dim).what, allowed(*dim))]
    WrongKind {
        /// What was written.
        text: String,
        /// The part taken as the unit.
        unit: String,
        /// What the unit belongs to.
        other: Dim,
        /// What was wanted.
        dim: Dim,
    },
    /// A number too large to hold.
    #[error("`{text}` is too large to be {}; {}", quantity_of(*dim).what, allowed(*dim))]
    TooLarge {
        /// What was written.
        text: String,
        /// What was wanted.
        dim: Dim,
    },
    /// Colder than anything can be.
    #[error("`{text}` is below absolute zero (-459.67 F, -273.15 C)")]
    BelowAbsoluteZero {
        /// What was written.
        text: String,
    },
    /// A later part is as large as the one before it, as in "5 ft 14 in".
    #[error("`{text}`: the part after the first must be smaller than one unit of the part before it; write it like `{}`",
        quantity_of(*dim).example)]
    PartTooLarge {
        /// What was written.
        text: String,
        /// What was wanted.
        dim: Dim,
    },
    /// A share of one above one, without a percent sign.
    #[error(
        "`{text}` is more than the whole; write `{text} %` if percent is meant, or a number from 0 to 1"
    )]
    ShareAboveOne {
        /// What was written.
        text: String,
    },
    /// A count with a fraction.
    #[error("`{text}` is not a whole number; write it like `3`")]
    NotWhole {
        /// What was written.
        text: String,
    },
}

/// "write a length with one of: ft, in, m; for example `12 ft 6 in`".
fn allowed(dim: Dim) -> String {
    let q = quantity_of(dim);
    let names: Vec<&str> = q.units.iter().map(|u| u.name).collect();
    let list = names.join(", ");
    match (q.bare, names.is_empty()) {
        (true, true) => format!("write a number, for example `{}`", q.example),
        (true, false) => format!(
            "write a number, alone or with {list}, for example `{}`",
            q.example
        ),
        (false, _) => format!("allowed units: {list}; for example `{}`", q.example),
    }
}

fn bare_what(dim: Dim) -> &'static str {
    let what = quantity_of(dim).what;
    what.strip_prefix("a ")
        .or_else(|| what.strip_prefix("an "))
        .unwrap_or(what)
}

fn hint(near: Option<&'static str>) -> String {
    near.map(|n| format!(" (did you mean `{n}`?)"))
        .unwrap_or_default()
}

/// The text as it may be quoted in a message: not longer than a line.
pub(crate) fn quoted(text: &str) -> String {
    const LONGEST: usize = 60;
    crate::cut(text.trim(), LONGEST)
}
