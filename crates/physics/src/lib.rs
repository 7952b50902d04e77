//! Facts of nature that the house, the heat pump and the lines rest on. Nothing here knows what
//! a house or a heat pump is.
//!
//! Each function is a small reference page: equation, symbols with units, range, source,
//! example. A value outside the range is an [`OutOfRange`] with what came and what is usable.

pub mod downdraught;
pub mod draught;
pub mod electricity;
pub mod film;
pub mod jet;
pub mod leak;
pub mod moist_air;
pub mod nitrogen;
pub mod opening;
pub mod pipe;
mod range;
pub mod refrigerant;
pub mod sky;
pub mod snow;
pub mod sound;
pub mod standard_air;
pub mod tube;

pub use range::OutOfRange;
