//! Design loads and what follows from them: heat lost by each room on the coldest night, cooling
//! on the worst clear days, rooms that have no head, and the glass.
//!
//! Every number is made through a [`reckon::Book`], so it can be asked why.

mod areas;
mod build_up;
mod contact;
mod cooling;
mod cooling_told;
mod design;
mod doorway;
mod glass;
mod glazed;
mod heating;
mod latent;
mod leaks;
mod pen;
mod rooms;
mod rooms_told;
mod spaces;
mod steady;

pub use cooling::{CoolingHour, CoolingLoads, RoomCooling, USUAL_COOLING_C, cooling};
pub use design::{AIR_CP_J_PER_KGK, Design};
pub use glass::{PaneComfort, glass};
pub use heating::{HeatingLoads, Part, RoomHeating, heating};
pub use rooms::{RoomFloat, room_temperature_c, rooms_without_heads};
pub use steady::{SteadyHouse, Through};

use crate::assembly::AssemblyError;

/// So that a zone that loses nothing still has a temperature, W/K: too little to be seen.
const NONE_W_PER_K: f64 = 1e-12;

/// What can go wrong while loads are worked out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LoadError {
    /// A construction.
    #[error(transparent)]
    Assembly(#[from] AssemblyError),
    /// The hourly run behind the cooling load.
    #[error(transparent)]
    Heat(#[from] crate::ideal::HeatError),
    /// A value outside what a formula can be used for.
    #[error(transparent)]
    Range(#[from] physics::OutOfRange),
    /// A formula that does not read: a defect of the program.
    #[error(transparent)]
    Formula(#[from] reckon::FormulaError),
}
