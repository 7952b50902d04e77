//! The wall clock, and instants as they are written.

use std::time::{SystemTime, UNIX_EPOCH};

/// Milliseconds since 1970, UTC.
pub fn now_ms() -> i64 {
    SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |d| i64::try_from(d.as_millis()).unwrap_or(i64::MAX))
}

/// An instant as RFC 3339 in UTC.
pub fn written(ms: i64) -> String {
    startup::Stamp {
        epoch_s: ms.div_euclid(1000) as f64,
        offset_min: 0,
    }
    .written()
}
