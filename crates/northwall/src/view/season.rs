//! `northwall season --json`.

use schemars::JsonSchema;
use serde::Serialize;

use super::WaitView;

/// The year.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SeasonView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Station of the weather.
    pub station: String,
    /// `ideal`: heating and cooling always suffice; `equipment`: with the units chosen.
    pub run: &'static str,
    /// Choice of equipment that was run; empty for `ideal`.
    pub choice: String,
    /// The house: heat it got (`equipment`) or needs (`ideal`), and its air: mean by volume of
    /// all drawn rooms, least and greatest of any room.
    pub house: RoomView,
    /// The rooms, in the order of the job.
    pub rooms: Vec<RoomView>,
    /// What house and rooms need, with ideal heating and cooling; always there when the house is.
    pub need: NeedView,
    /// Units, heaters, energy and cost; null for `ideal`.
    pub year: Option<YearView>,
    /// All choices side by side, what heats now first.
    pub choices: Vec<ChoiceView>,
    /// What it waits for.
    pub waiting: Vec<WaitView>,
}

/// Need of house and rooms.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct NeedView {
    /// The house.
    pub house: Option<RoomView>,
    /// The rooms.
    pub rooms: Vec<RoomView>,
    /// Made attics and crawl spaces.
    pub spaces: Vec<RoomView>,
    /// Heat in less out less stored, over heat through.
    pub closure: Option<f64>,
}

/// A room's or a house's year.
#[derive(Debug, Clone, Default, Serialize, JsonSchema)]
pub struct RoomView {
    /// Room; `house` for the house.
    pub name: String,
    /// Has a heating setting.
    pub heated: bool,
    /// Heating of the year, kWh.
    pub heating_kwh: f64,
    /// Cooling of the year, sensible, kWh.
    pub cooling_kwh: f64,
    /// Largest hour of heating, W.
    pub heating_peak_w: f64,
    /// Hour of the year it is in, 0 first; null where there is none.
    pub heating_peak_hour: Option<usize>,
    /// The same as month, day and hour it begins.
    pub heating_peak_at: Option<String>,
    /// Largest hour of cooling, W.
    pub cooling_peak_w: f64,
    /// Hour of the year it is in, 0 first; null where there is none.
    pub cooling_peak_hour: Option<usize>,
    /// The same as month, day and hour it begins.
    pub cooling_peak_at: Option<String>,
    /// Least air temperature, C.
    pub least_c: f64,
    /// Hour of the year it is in.
    pub least_hour: usize,
    /// Mean air temperature, C.
    pub mean_c: f64,
    /// Greatest air temperature, C.
    pub greatest_c: f64,
    /// Hour of the year it is in.
    pub greatest_hour: usize,
    /// Hours more than 1 K under the setting, of the house those of all rooms added; null for `ideal`.
    pub short_1k_hours: Option<u32>,
    /// Hours more than 2 K under the setting, of the house those of all rooms added; null for `ideal`.
    pub short_2k_hours: Option<u32>,
    /// Kelvin under the setting times hours; null for `ideal`.
    pub short_k_h: Option<f64>,
    /// Heat from heads, kWh; null for `ideal`.
    pub by_heads_kwh: Option<f64>,
    /// Heat from heaters, kWh; null for `ideal`.
    pub by_heaters_kwh: Option<f64>,
}

/// A year with equipment.
#[derive(Debug, Serialize, JsonSchema)]
pub struct YearView {
    /// Share of the heat that comes from heads, 0 to 1.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Outdoor temperature at which all units together give what the house asks.
    pub balance: CrossingView,
    /// Largest electric hour, W.
    pub electric_peak_w: f64,
    /// When.
    pub electric_peak_at: String,
    /// Cost, in the job's currency; null where a price is missing.
    pub cost: Option<f64>,
    /// Carbon, kg; null where an intensity is missing.
    pub carbon_kg: Option<f64>,
    /// Outdoor units.
    pub units: Vec<UnitView>,
    /// Heaters beside them.
    pub heaters: Vec<HeaterView>,
    /// What is bought.
    pub bought: Vec<BoughtView>,
    /// Heat in less out less stored, over heat through.
    pub closure: f64,
}

/// An outdoor temperature at which two curves cross.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CrossingView {
    /// C; null where there is no crossing that is known.
    pub at_c: Option<f64>,
    /// In words.
    pub words: String,
}

/// An outdoor unit's year.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UnitView {
    /// Name in the job.
    pub name: String,
    /// Name of its sheet.
    pub sheet: String,
    /// Rooms its heads are in.
    pub rooms: Vec<String>,
    /// Hours by regime; they add up to the year.
    pub hours: Vec<RegimeView>,
    /// Heat given, kWh.
    pub heat_kwh: f64,
    /// Sensible cooling given, kWh.
    pub cooling_kwh: f64,
    /// Electricity: compressor and fans for heating, kWh.
    pub compressor_kwh: f64,
    /// Electricity that makes up for frost, kWh.
    pub defrost_kwh: f64,
    /// Base-pan heater, kWh.
    pub base_pan_kwh: f64,
    /// Waiting, kWh.
    pub standby_kwh: f64,
    /// Electricity for cooling, kWh.
    pub cooling_electric_kwh: f64,
    /// Seasonal COP of heating without waiting.
    pub seasonal_cop: Option<f64>,
    /// Seasonal COP of heating with all waiting.
    pub seasonal_cop_with_standby: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: f64,
    /// Outdoor temperature at which its most equals the need.
    pub balance: CrossingView,
    /// Outdoor temperature above which it cycles.
    pub cycles_above: CrossingView,
    /// Most at the design temperature, W; null where the sheet cannot tell.
    pub max_at_design_w: Option<f64>,
    /// Need of its rooms at the design temperature, W.
    pub need_at_design_w: Option<f64>,
}

/// Hours and heat of a regime.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RegimeView {
    /// Regime.
    pub regime: &'static str,
    /// Hours.
    pub hours: u32,
    /// Heat given in it, kWh.
    pub heat_kwh: f64,
}

/// A heater's year.
#[derive(Debug, Serialize, JsonSchema)]
pub struct HeaterView {
    /// Name.
    pub name: String,
    /// What it draws.
    pub carrier: &'static str,
    /// Heat given, kWh.
    pub heat_kwh: f64,
    /// Energy bought for it, kWh.
    pub bought_kwh: f64,
    /// Hours in which it gave heat.
    pub hours: u32,
    /// Largest hour of heat, W.
    pub peak_w: f64,
}

/// A carrier bought.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BoughtView {
    /// Carrier.
    pub carrier: &'static str,
    /// Energy, kWh (higher heating value).
    pub energy_kwh: f64,
    /// Amount in the unit of sale.
    pub amount: f64,
    /// Unit of sale.
    pub sold_in: String,
    /// Cost; null where the job has no price.
    pub cost: Option<f64>,
    /// Carbon, kg; null where nothing is known.
    pub carbon_kg: Option<f64>,
}

/// A choice in the comparison.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChoiceView {
    /// Name.
    pub choice: String,
    /// Outdoor units.
    pub units: usize,
    /// Heads.
    pub heads: usize,
    /// Share of the heat from heads.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours cycling.
    pub cycling_hours: u32,
    /// Unit hours at full output.
    pub full_hours: u32,
    /// Unit hours beyond the sheets.
    pub cannot_tell_hours: u32,
    /// Electricity, kWh.
    pub electricity_kwh: f64,
    /// Fuel, kWh.
    pub fuel_kwh: f64,
    /// Cost.
    pub cost: Option<f64>,
    /// Carbon, kg.
    pub carbon_kg: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: f64,
    /// Coldest heated room.
    pub coldest_room: Option<String>,
    /// Its least temperature, C.
    pub coldest_c: Option<f64>,
    /// Room hours more than 2 K under the setting.
    pub short_2k_hours: u32,
    /// Why there is no year, where there is none.
    pub why_not: Option<String>,
}
