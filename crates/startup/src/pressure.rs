//! The pressure test: nitrogen shut in, and what its readings can tell.
//!
//! What is followed is the amount of gas: density of the real gas at the absolute pressure and
//! the temperature of each reading. A gauge that reads 5 psi too high reads so at both ends and
//! hardly matters. What matters is its step, and whether the thermometer has the temperature of
//! the gas.

mod checked;
mod either;
mod judge;
mod known;
mod stages;

pub use either::judge_either;
pub(crate) use judge::digits;
pub use judge::{Bend, PressureAnswer, judge, too_soon};
pub use known::{Doubts, expected_doubts, expected_wait_s, visible_after};
pub use stages::{Stage, stages};

use physics::refrigerant::Refrigerant;

use crate::instrument::Instrument;
use crate::volume::Volume;

/// Standard deviations from no leak at which a leak is taken as proven.
pub const PROVEN: f64 = 3.0;
/// A leak of this many standard deviations would have been proven 998 times of 1,000; it is the
/// smallest the test could have seen.
pub const VISIBLE: f64 = 6.0;

/// What a test rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct PressureTest {
    /// What holds the gas.
    pub volume: Volume,
    /// The least of what the plates allow, Pa above the air.
    pub plate_pa: f64,
    /// Air pressure at the place, Pa.
    pub air_pa: f64,
    /// Pressure gauge; limits in Pa.
    pub gauge: Instrument,
    /// Thermometer on the lines; limits in K.
    pub thermometer: Instrument,
    /// How far the thermometer may wander from the mean temperature of the gas, limit, K: sun,
    /// a draught, lines half indoors.
    pub wander_k: f64,
    /// What will be in the lines.
    pub refrigerant: Refrigerant,
    /// Temperature of the refrigerant at which the leak is stated, C (20: a system at rest).
    pub service_c: f64,
    /// The leak worth a call-back, g a year.
    pub worth_g_per_year: f64,
    /// Readings this soon after the first are left out: compressed gas is warm, s.
    pub settle_s: f64,
    /// Day of the test, days since 1970, for the calibrations.
    pub day: i64,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PressureReading {
    /// Seconds since 1970, or since any other beginning.
    pub at_s: f64,
    /// Pressure above the air, Pa.
    pub gauge_pa: f64,
    /// Temperature of the lines, C.
    pub line_c: Option<f64>,
}
