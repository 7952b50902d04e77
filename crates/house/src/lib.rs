//! Heat through the house.
pub mod assembly;
pub mod describe;
pub mod ground;
pub mod model;
