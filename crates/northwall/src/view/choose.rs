//! `northwall choose --json`.

use schemars::JsonSchema;
use serde::Serialize;

/// What a search found.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChooseView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Station of the weather.
    pub station: String,
    /// Sheets of the catalogue.
    pub sheets: usize,
    /// Sets of units looked at.
    pub looked_at: usize,
    /// Sets of rooms with heads that the house was run for.
    pub layouts: usize,
    /// Systems run over the hours of their rooms.
    pub systems: usize,
    /// Sets of units run whole.
    pub run_whole: usize,
    /// What was weighed: comfort, cycling, cost, carbon, equipment, holes.
    pub weighed: Vec<&'static str>,
    /// Units without a price, where some have one.
    pub without_price: Vec<String>,
    /// What survives, the one that gives up least first.
    pub survivors: Vec<SurvivorView>,
}

/// A set of units that no other beats.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SurvivorView {
    /// Outdoor units with their heads.
    pub units: Vec<SystemOfView>,
    /// Its measures.
    pub measure: MeasureView,
    /// Share of the heat that comes from heads, 0 to 1.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours at full output.
    pub full_hours: u32,
    /// Unit hours colder than the sheets tell, counted as no heat.
    pub cannot_tell_hours: u32,
    /// Coldest heated room.
    pub coldest_room: Option<String>,
    /// Its least temperature, C.
    pub coldest_c: Option<f64>,
    /// What no other survivor is better in.
    pub best_in: Vec<&'static str>,
    /// The nearest other survivor.
    pub beside: Option<AgainstView>,
    /// The nearest set that it beats.
    pub runner_up: Option<AgainstView>,
}

/// An outdoor unit with its heads.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SystemOfView {
    /// Sheet of the outdoor unit.
    pub outdoor: String,
    /// Heads.
    pub heads: Vec<HeadOfView>,
}

/// A head.
#[derive(Debug, Serialize, JsonSchema)]
pub struct HeadOfView {
    /// Room.
    pub room: String,
    /// Sheet.
    pub unit: String,
}

/// What a set of units is measured by; less is better in each.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MeasureView {
    /// Kelvin below the setting times hours, all heated rooms.
    pub comfort_k_h: f64,
    /// Unit hours cycling.
    pub cycling_hours: f64,
    /// Money a year, in the job's currency; null where a price is missing.
    pub cost: Option<f64>,
    /// Carbon a year, kg; null where an intensity is missing.
    pub carbon_kg: Option<f64>,
    /// Money for units; null where one has no price.
    pub equipment: Option<f64>,
    /// Holes in the outside wall.
    pub holes: f64,
}

/// Another set of units beside this one.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AgainstView {
    /// Its units.
    pub units: Vec<SystemOfView>,
    /// Its measures.
    pub measure: MeasureView,
    /// How it differs, the other less this one; what nobody would notice is left out.
    pub differs: Vec<DifferenceView>,
}

/// A difference.
#[derive(Debug, Serialize, JsonSchema)]
pub struct DifferenceView {
    /// In what.
    pub aim: &'static str,
    /// By how much, in the unit of the measure.
    pub by: f64,
}
