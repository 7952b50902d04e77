//! Refrigerants as compact fits of the reference library: saturation, states away from it, and
//! pressure with enthalpy back to temperature.
//!
//! A blend boils over a range of temperature: at one pressure the bubble point and the dew point
//! differ by up to 1.5 K for R-454B. So temperatures and pressures of saturation carry in their
//! type which of the two they are, and superheat can only be taken from a dew point, subcooling
//! only from a bubble point. Pressures are absolute.
//!
//! The fits are made by `checks/tables/physics_refrigerants.py`; each table says how far it is
//! from the library. All stay within 0.05 % of it.

mod facts;
mod fit;
mod points;
mod saturation;
mod state;
mod tables;

pub use facts::{Refrigerant, SafetyClass};
pub use points::{BubbleC, BubblePa, DewC, DewPa, subcooling_k, superheat_k};
pub use saturation::{SaturatedLiquid, SaturatedVapour};
pub use state::{Phase, SinglePhase, State};
