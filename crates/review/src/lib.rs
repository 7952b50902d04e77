//! What the bills say: reading them, the line they lie on, the heat loss they imply, and the second
//! winter.
//!
//! Readers take bytes and give [`Bills`]: periods of whole days with energy in J (higher heating
//! value), in order, without overlap. [`fit`] finds the balance points and slopes with a band.
//! What cannot be used is [`Refused`], with the line, what came, what is usable and what would do.

mod band;
mod bills;
pub mod calendar;
mod days;
mod espi;
mod fit;
mod read;
mod refused;
mod runs;
mod sold;
mod student;

pub use band::{Band, difference, product, quotient, sum};
pub use bills::{Bills, Note, Period};
pub use days::{Days, YearOfDays};
pub use espi::{EspiMeter, read_espi};
pub use fit::{
    Candidate, Fit, Kind, Observation, RATE, TYPICAL_SHARE, candidates, fit, observations,
};
pub use read::{
    Asked, DateOrder, FileKind, Mapping, ReadBills, kind_of, read_deliveries, read_meter,
};
pub use refused::Refused;
pub use sold::{amount_j, unit_j};
pub use student::{student_quantile, student_share};
