//! The year: house, heads, backup and control hour by hour, room by room.
//!
//! [`year`] runs one choice of equipment; [`baseline`] what heats the house now, alone;
//! [`compare`] all choices of a job under the same weather and prices. [`findings`] asks the
//! rules; [`explain()`] writes the figures into a book. Everything is a pure function.

pub mod backup;
pub mod bands;
mod bought;
mod charts;
pub mod choose;
mod compare;
mod error;
mod explain;
mod hands;
mod input;
mod keys;
mod line;
mod plant;
mod regime;
mod rules;
mod run;
mod switchover;
mod year;

pub use bought::{Bought, SoldUnit};
pub use charts::{AgainstNeed, BinWidth, YearBin};
pub use compare::{Comparison, Row, Running, baseline, compare, year};
pub use error::SeasonError;
pub use explain::explain;
pub use hands::{Parts, by_turns, cores, each};
pub use input::{Catalogue, Design, Input};
pub use keys::{of_house as key_of_house, of_span as key_of_span, of_unit as key_of_unit};
pub use line::{Crossing, NeedLine};
pub use regime::Regime;
pub use rules::{ROOM_TOO_COLD, findings};
pub use switchover::{Switchover, break_even_cop};
pub use year::{
    CopPoint, Gives, HeadYear, HeaterYear, Peak, Purposes, RoomYear, SpanOfUnit, UnitYear, Year,
};
