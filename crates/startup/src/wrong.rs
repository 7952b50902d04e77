//! Input that cannot be used.

use serde::Serialize;

/// What is wrong, what came, what is usable.
#[derive(Debug, Clone, PartialEq, Serialize, thiserror::Error)]
#[error("{what} is {got}; usable: {usable}")]
pub struct Wrong {
    /// The quantity or the reading, in words.
    pub what: String,
    /// What came.
    pub got: String,
    /// What is usable, or how to mend it.
    pub usable: String,
}

impl Wrong {
    pub(crate) fn new(
        what: impl Into<String>,
        got: impl Into<String>,
        usable: impl Into<String>,
    ) -> Self {
        Self {
            what: what.into(),
            got: got.into(),
            usable: usable.into(),
        }
    }
}

impl From<physics::OutOfRange> for Wrong {
    fn from(e: physics::OutOfRange) -> Self {
        Self::new(
            e.what,
            format!("{} {}", e.got, e.unit),
            format!("{} to {} {}", e.low, e.high, e.unit),
        )
    }
}

/// A limit or a setting within bounds.
pub(crate) fn within(what: &str, unit: &str, got: f64, low: f64, high: f64) -> Result<f64, Wrong> {
    if got >= low && got <= high {
        Ok(got)
    } else {
        Err(Wrong::new(
            what,
            format!("{got} {unit}"),
            format!("{low} to {high} {unit}"),
        ))
    }
}

/// A pressure above the air in both systems, as gauges have either.
pub(crate) fn pressure(pa: f64) -> String {
    let psi = format!("{:.1}", pa / units::constants::PSI_PA);
    let psi = psi.strip_suffix(".0").unwrap_or(&psi);
    format!("{psi} psi ({:.0} kPa)", pa / 1000.0)
}
