//! Bills as they must be before anything is fitted to them.
//!
//! [`Bills`] are periods of whole days with energy in J (higher heating value), in order, without
//! overlap, each ending with a true reading. What cannot be used is [`Refused`], with what came,
//! what is usable and what would do. Reading files and fitting are not here yet.

mod bills;
pub mod calendar;
mod refused;
mod sold;

pub use bills::{Bills, Note, Period};
pub use refused::Refused;
pub use sold::{amount_j, unit_j};
