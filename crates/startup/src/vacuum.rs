//! The rise after the pump is shut off: dry, wet, leaking, or not to be told.
//!
//! A vacuum hold is a test of dryness. A leak small enough to lose the charge in a year does not
//! show in a quarter of an hour; what rises is mostly water. And where the coldest tube is far
//! below freezing, ice lies quietly under the limit.

mod either;
mod ice;
mod judge;
mod rise;
mod steps;

pub use either::judge_either;
pub use ice::{BLIND_BELOW_C, Ice, ice};
pub use judge::{VacuumAnswer, judge};
pub use rise::{Cause, Fit, Rise, rise};
pub use steps::{Criterion, triple};

use physics::refrigerant::Refrigerant;

use crate::instrument::Instrument;
use crate::volume::Volume;

/// One micron of mercury, Pa.
pub const MICRON_PA: f64 = 0.133_322_387_415;

/// Where the gauge sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum GaugePlace {
    /// On the system, valved off from the pump and its hoses.
    System,
    /// At the pump or on a hose: reads lower than the lines are.
    Pump,
    /// Not said.
    NotSaid,
}

/// What a vacuum test rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct VacuumTest {
    /// What the sheet asks.
    pub criterion: Criterion,
    /// Vacuum gauge; limits in Pa.
    pub gauge: Instrument,
    /// Limit of error besides, share of the reading.
    pub gauge_share: f64,
    /// Where it sits.
    pub place: GaugePlace,
    /// Coldest tube, C; `None` when nobody measured it.
    pub coldest_c: Option<f64>,
    /// Limit of error of that temperature, K.
    pub coldest_k: f64,
    /// What is under vacuum.
    pub volume: Volume,
    /// Air pressure, Pa.
    pub air_pa: f64,
    /// What will be in the lines.
    pub refrigerant: Refrigerant,
    /// As for the pressure test, C.
    pub service_c: f64,
    /// The smallest leak that the pressure test could have seen, g a year, where it held.
    pub pressure_test_g_per_year: Option<f64>,
    /// Day of the test, days since 1970.
    pub day: i64,
}

/// One reading after the pump was shut off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VacuumReading {
    /// Seconds.
    pub at_s: f64,
    /// Pressure, Pa absolute.
    pub pa: f64,
}
