//! A value that a formula cannot take.

/// A value outside what the formula holds for. Never clamped: the caller must say so.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{what} is {got} {unit}, usable from {low} to {high} {unit}")]
pub struct OutOfRange {
    /// The quantity, in words.
    pub what: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// What came.
    pub got: f64,
    /// Least usable value.
    pub low: f64,
    /// Greatest usable value.
    pub high: f64,
}

/// The value if it is within bounds; not a number is outside.
#[inline]
pub(crate) fn within(
    what: &'static str,
    unit: &'static str,
    got: f64,
    low: f64,
    high: f64,
) -> Result<f64, OutOfRange> {
    if got >= low && got <= high {
        Ok(got)
    } else {
        Err(OutOfRange {
            what,
            unit,
            got,
            low,
            high,
        })
    }
}
