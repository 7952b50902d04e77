//! What is said of one house: a row that goes out.

use jobfile::Carrier;

/// How far a house came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum State {
    /// Loads and year are there.
    Done,
    /// Something is missing that somebody has; what could be worked out is there.
    Waits,
    /// The row cannot be used.
    Refused,
    /// The program failed on it: a defect of the program, not of the house.
    Defect,
}

impl State {
    /// All, in the order they are counted.
    pub const ALL: [Self; 4] = [Self::Done, Self::Waits, Self::Refused, Self::Defect];

    /// The word that stands in the column `state`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Waits => "waits",
            Self::Refused => "refused",
            Self::Defect => "defect",
        }
    }
}

/// A house of a programme. What is not known is None, never nought.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Row of the file that came in, 0 first.
    pub row: u64,
    /// Id, as it came in.
    pub id: String,
    /// How far it came.
    pub state: State,
    /// What is missing or wrong, in words; None where the house is done.
    pub says: Option<String>,
    /// Name of the job.
    pub name: Option<String>,
    /// Station of the weather.
    pub station: Option<String>,
    /// Outdoor temperature of the heating load, C.
    pub design_outdoor_c: Option<f64>,
    /// Heating load at it, W.
    pub heating_load_w: Option<f64>,
    /// Sensible cooling load, W.
    pub cooling_load_w: Option<f64>,
    /// Year with the equipment.
    pub year: Option<Numbers>,
    /// Year with what heats now and nothing else.
    pub now: Option<Numbers>,
    /// Money that prices are in.
    pub currency: Option<String>,
}

/// Numbers of a year.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbers {
    /// Heat of all sources, J.
    pub heat_j: f64,
    /// Sensible cooling, J.
    pub cooling_j: f64,
    /// Heat from heads over all heat, 0 to 1.
    pub heads_share: Option<f64>,
    /// Heat of all units over their electricity, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Room hours more than 2 K under the setting.
    pub short_2k_h: u32,
    /// Kelvin under the setting times hours, all rooms.
    pub short_k_h: f64,
    /// Least air temperature of a heated room, C.
    pub coldest_c: Option<f64>,
    /// Unit hours going on and off.
    pub cycling_h: u32,
    /// Unit hours at full output.
    pub full_h: u32,
    /// Unit hours beyond the sheets.
    pub cannot_tell_h: u32,
    /// Largest electric hour, W.
    pub electric_peak_w: f64,
    /// Bought of each carrier, in the order of [`Carrier::ALL`], J (higher heating value).
    pub bought_j: [f64; 5],
    /// Money; None where a price is missing.
    pub cost: Option<f64>,
    /// Carbon, kg; None where an intensity is missing.
    pub carbon_kg: Option<f64>,
}

impl Numbers {
    /// Of a year.
    pub fn of(year: &season::Year) -> Self {
        let row = season::Row::of(year);
        Self {
            heat_j: year.heat_j,
            cooling_j: year.cooling_j,
            heads_share: row.heads_share,
            seasonal_cop: row.seasonal_cop,
            short_2k_h: row.short_2k_h,
            short_k_h: year.rooms.iter().map(|r| r.short_k_h).sum(),
            coldest_c: row.coldest_room.map(|(_, c)| c),
            cycling_h: row.cycling_h,
            full_h: row.full_h,
            cannot_tell_h: row.cannot_tell_h,
            electric_peak_w: row.electric_peak_w,
            bought_j: Carrier::ALL.map(|c| year.bought_j(c)),
            cost: row.cost,
            carbon_kg: row.carbon_kg,
        }
    }
}
