//! `northwall backup --json`.

use schemars::JsonSchema;
use serde::Serialize;

/// Backup of a choice.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BackupView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Choice of equipment.
    pub choice: String,
    /// Who carries what.
    pub carried: Vec<CarriedView>,
    /// Electricity for heating and cooling by the tariff; null without one.
    pub tariff: Option<TariffView>,
    /// What backup must give; null where it cannot be told.
    pub needed: Option<NeededView>,
    /// When the unit is the cheaper heat, against prices.
    pub switchover: Vec<SwitchView>,
    /// What to set.
    pub settings: Vec<SettingView>,
    /// Outdoors in the three cold days, C.
    pub cold_c: Option<f64>,
    /// Heat by heads in them, J.
    pub cold_heads_j: Option<f64>,
    /// Heat by heaters in them, J.
    pub cold_heaters_j: Option<f64>,
    /// Largest hour of heaters in them, W.
    pub cold_heaters_most_w: Option<f64>,
    /// Rooms in the cold.
    pub rooms: Vec<InColdView>,
    /// The heater that made the hot water goes; null where none did.
    pub hot_water_lost: Option<bool>,
    /// Heat in the hot water of a year, J.
    pub hot_water_j: Option<f64>,
}

/// Who carries what.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CarriedView {
    /// `heads`, or the heater.
    pub by: String,
    /// What is bought.
    pub carrier: &'static str,
    /// Hours in which it gives heat.
    pub hours: usize,
    /// Heat, J.
    pub heat_j: f64,
    /// Bought, J.
    pub bought_j: f64,
    /// Money; null without a price.
    pub cost: Option<f64>,
}

/// A bill by a tariff, less that of the rest of the house.
#[derive(Debug, Serialize, JsonSchema)]
pub struct TariffView {
    /// For use.
    pub energy: f64,
    /// For the largest hours.
    pub demand: f64,
    /// Fixed.
    pub fixed: f64,
}

/// What backup must give.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NeededView {
    /// Outdoors, C.
    pub design_c: f64,
    /// What the house asks, W.
    pub asks_w: f64,
    /// What the units give; null where a sheet cannot tell.
    pub units_w: Option<f64>,
    /// What backup must add, W.
    pub adds_w: f64,
    /// What holds the house at 10 C without any unit, W.
    pub holds_w: f64,
    /// What the heaters that stay give, W; null where the job does not say.
    pub there_is_w: Option<f64>,
}

/// A unit against a heater by price.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SwitchView {
    /// Heater.
    pub heater: String,
    /// Unit.
    pub unit: String,
    /// Prices and where the costs cross.
    pub cases: Vec<CaseView>,
}

/// Prices over those of the job.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CaseView {
    /// Electricity over the job's price.
    pub electricity: f64,
    /// Fuel over the job's price.
    pub fuel: f64,
    /// COP at which both cost the same.
    pub cop: f64,
    /// Outdoor temperature above which the unit is cheaper, C; null where it does not cross.
    pub above_c: Option<f64>,
    /// at, everywhere-down-to-the-coldest-hours, nowhere, cannot-tell.
    pub says: &'static str,
}

/// A line of the settings.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SettingView {
    /// Control.
    pub control: String,
    /// Set to, SI.
    pub set: String,
    /// As the job has it.
    pub job_has: Option<String>,
    /// Why.
    pub why: String,
}

/// A room in the cold.
#[derive(Debug, Serialize, JsonSchema)]
pub struct InColdView {
    /// Room.
    pub room: String,
    /// Has a heating setting.
    pub heated: bool,
    /// Least air in the three days, C.
    pub least_c: f64,
    /// The same with the heads alone, C.
    pub heads_alone_c: f64,
    /// Hours without power until it is at 10 C; null within two weeks.
    pub at_10c_hours: Option<usize>,
    /// Hours without power until it freezes; null within two weeks.
    pub freezes_hours: Option<usize>,
}
