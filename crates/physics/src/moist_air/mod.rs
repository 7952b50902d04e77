//! Moist air as a mixture of ideal gases, after ASHRAE Fundamentals 2017, chapter 1.
//!
//! The ideal mixture is chosen over a real-gas one because every rating and load method of the
//! trade uses it; the two differ by up to 0.44 % in humidity ratio near 20 C and 50 %.

mod saturation;
mod state;
mod wet_bulb;

pub use saturation::{TRIPLE_POINT_C, dew_point_of_pressure_c, saturation_pressure_pa};
pub use state::{MoistAir, saturation_humidity_ratio};
