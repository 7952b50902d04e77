//! Weather files, sun, sky, wind, design temperatures and bins.
//!
//! # The hour
//! Index `h` of every column is the hour from `h` to `h + 1`, local standard time, counted from
//! the first of January 00:00 (row "hour 1" of an EPW file is index 0). Temperatures, humidity,
//! pressure, wind and snow are the reading at the **end** of that hour; the sun's columns are
//! the **mean over** that hour. No daylight saving anywhere.

pub mod altitude;
mod error;
pub mod humidity;
mod station;
mod weather;

pub mod sun;

pub use error::{Note, NoteKind, Read, WeatherError};
pub use station::{DesignKind, HeaderDesign, HeaderValue, Station, Weekday};
pub use weather::{Columns, Weather};
