//! What heats beside the heat pump, or did before.

use reckon::Known;

use super::Carrier;

/// A heater that is not a heat pump.
#[derive(Debug, Clone, PartialEq)]
pub struct Heater {
    /// Name in this job.
    pub name: String,
    /// Kind.
    pub kind: HeaterKind,
    /// What it burns or draws.
    pub carrier: Carrier,
    /// Heat given per energy bought (higher heating value), above 0 to 1.
    pub efficiency: f64,
    /// Most heat it gives, W; `None`: enough for everything.
    pub capacity_w: Option<f64>,
    /// Whether it stays when the heat pump is in.
    pub stays: bool,
    /// Rooms it serves; empty: all heated rooms.
    pub serves: Vec<String>,
    /// How far its thermostat is set below the rooms' own setting, K.
    pub set_below_k: f64,
    /// Outdoor temperature above which it is locked out, C.
    pub locked_out_above_c: Option<f64>,
    /// Whether it also makes the hot water.
    pub hot_water: bool,
    /// How its figures are known.
    pub known: Known,
}

/// Kinds of heater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HeaterKind {
    /// Boiler with radiators.
    Boiler,
    /// Furnace with ducts.
    Furnace,
    /// Electric or other baseboards, room by room.
    Baseboard,
    /// Stove or panel heater in one room.
    Stove,
}

impl HeaterKind {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Boiler, Self::Furnace, Self::Baseboard, Self::Stove];

    /// The word as it stands in the job file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Boiler => "boiler",
            Self::Furnace => "furnace",
            Self::Baseboard => "baseboard",
            Self::Stove => "stove",
        }
    }

    /// Name of the year in which it heats the house alone: it stands beside the options' names.
    pub fn alone(self) -> String {
        format!("{} alone", self.word())
    }
}
