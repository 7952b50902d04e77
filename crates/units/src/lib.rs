//! Quantities at the edge: reading and printing values with their units.
mod dim;
pub use dim::Dim;
