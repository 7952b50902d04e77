//! The equipment of one choice, wired to the zones of the house and tabled for the hours.

mod pan;
mod resolve;
mod schedule;

pub(crate) use pan::PanTable;
pub(crate) use resolve::{TESTED_INDOOR_C, resolve};
pub(crate) use schedule::Schedule;

use heatpump::{CannotTell, Conditions, Performance, System};
use jobfile::Carrier;

/// An outdoor unit ready for the hours.
#[derive(Debug, Clone)]
pub(crate) struct Unit {
    pub name: String,
    pub system: System,
    pub heating: Result<Performance, CannotTell>,
    pub cooling: Option<Performance>,
    pub pan: PanTable,
    /// Air it was tabled for, heating.
    pub warm: Conditions,
    /// Its heads in [`Plant::heads`].
    pub first_head: usize,
    pub end_head: usize,
}

/// A head: which unit, which zone.
#[derive(Debug, Clone)]
pub(crate) struct HeadAt {
    pub name: String,
    pub sheet: String,
    pub room: String,
    pub zone: usize,
    pub heat_most_w: f64,
    pub heat_min_w: f64,
    pub cool_most_w: f64,
}

/// A heater.
#[derive(Debug, Clone)]
pub(crate) struct HeaterAt {
    pub name: String,
    pub carrier: Carrier,
    pub efficiency: f64,
    pub capacity_w: f64,
    pub set_below_k: f64,
    pub locked_out_above_c: f64,
    /// Baseboard or stove: each room has its own thermostat.
    pub room_by_room: bool,
    /// Its taps in [`Plant::taps`].
    pub first_tap: usize,
    pub end_tap: usize,
}

/// What a heater gives into one zone.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Tap {
    pub heater: usize,
    pub zone: usize,
}

/// Equipment and zones.
#[derive(Debug, Clone)]
pub(crate) struct Plant {
    pub units: Vec<Unit>,
    pub heads: Vec<HeadAt>,
    pub heaters: Vec<HeaterAt>,
    pub taps: Vec<Tap>,
    /// By zone: its heads; its taps, the one set highest first.
    pub heads_of: Vec<Vec<usize>>,
    pub taps_of: Vec<Vec<usize>>,
    /// Outdoor temperature below which the owner switches the units off, C.
    pub off_below_c: f64,
}

impl Plant {
    /// By how much the first backup of a zone is set below the room, K.
    pub fn set_below_k(&self, zone: usize) -> Option<f64> {
        let tap = *self.taps_of.get(zone)?.first()?;
        let heater = self.taps.get(tap)?.heater;
        self.heaters.get(heater).map(|h| h.set_below_k)
    }
}
