//! Design temperatures: of the hours themselves, and of the header beside them.

mod cold_snap;
mod degree_days;
mod hot_days;
mod percentile;

pub use cold_snap::{ColdSnap, coldest_days};
pub use degree_days::{DegreeDays, cooling_degree_days, heating_degree_days};
pub use hot_days::{HotDay, clear_hot_days};
pub use percentile::{DesignTemperature, design_temperatures, percentile_c};
