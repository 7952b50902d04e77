//! Air through the leaks of a house: from a blower-door test to the flow of an hour.
//!
//! The power law with the hour's own stack and wind is the method. The ASHRAE single-zone
//! models are kept for checks against published examples.

mod ashrae;
mod drive;
mod power_law;

pub use ashrae::{Flue, Shelter, Storeys, basic_m3_per_s, effective_area_m2, enhanced_m3_per_s};
pub use drive::{combined_m3_per_s, stack_pa, wind_pressure_pa};
pub use power_law::PowerLaw;
