//! Pressure lost in refrigerant lines by friction.

mod friction;
mod two_phase;

pub use friction::{
    DRAWN_COPPER_ROUGHNESS_M, LAMINAR_UP_TO, bend_loss, friction_factor, gradient_pa_per_m,
    velocity_m_per_s,
};
pub use two_phase::{Wet, two_phase_gradient_pa_per_m};
