//! Heat through the house.
pub mod describe;
pub mod ground;
pub mod model;
