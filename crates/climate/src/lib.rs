//! Weather files, sun, sky, wind, design temperatures and bins.
//!
//! # The hour
//! Index `h` of every column is the hour from `h` to `h + 1`, local standard time, counted from
//! the first of January 00:00 (row "hour 1" of an EPW file is index 0). Temperatures, humidity,
//! pressure, wind and snow are the reading at the **end** of that hour; the sun's columns are
//! the **mean over** that hour. No daylight saving anywhere.

mod cells;
mod columns;
mod cursor;
mod epw;
mod epw_header;
mod error;
mod finish;
mod gaps;
mod read;
mod station;
mod tmy3;
mod weather;

pub mod altitude;
pub mod bins;
pub mod design;
pub mod humidity;
pub mod shade;
pub mod sky;
pub mod sun;
pub mod wind;

pub use epw::read_epw;
pub use error::{Note, NoteKind, Read, WeatherError};
pub use gaps::LONGEST_GAP_H;
pub use read::read_any;
pub use station::{DesignKind, HeaderDesign, HeaderValue, Station, Weekday};
pub use tmy3::read_tmy3;
pub use weather::{Columns, MONTHS, Weather};
