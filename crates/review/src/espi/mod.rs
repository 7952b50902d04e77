//! Green Button: an Atom feed of ESPI readings.
//!
//! The feed is walked event by event. A document type, an entity of its own, a processing
//! instruction, deep nesting and floods of entries are refused before anything is made of them.

mod codes;
mod demand;
mod feed;
mod lines;
mod meters;
mod spans;

pub use demand::Demand;
pub use meters::{EspiMeter, read_espi};
