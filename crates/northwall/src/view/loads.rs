//! `northwall loads --json`.

use schemars::JsonSchema;
use serde::Serialize;

use super::WaitView;

/// Design loads.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LoadsView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Outdoor temperature of the heating load, and its rivals.
    pub heating_design: DesignView,
    /// Outdoor temperature of the cooling load, and its rivals.
    pub cooling_design: DesignView,
    /// Wind at the leaks on the design night, m/s.
    pub design_wind_m_per_s: Option<f64>,
    /// Heating load of the house, W.
    pub heating_w: Option<f64>,
    /// Heating load over the design difference, W/K.
    pub loss_w_per_k: Option<f64>,
    /// Sensible cooling load of the house, W.
    pub cooling_sensible_w: Option<f64>,
    /// Latent cooling load of the house in the hour of its peak, W; null where nothing needs cooling.
    pub cooling_latent_w: Option<f64>,
    /// When the house's cooling peak is: month-day hour; null where nothing needs cooling.
    pub cooling_peak_at: Option<String>,
    /// Heated rooms.
    pub rooms: Vec<RoomLoadView>,
    /// Temperatures of rooms without a head.
    pub rooms_without_heads: Vec<FloatView>,
    /// Windows on the design night.
    pub glass: Vec<GlassView>,
    /// What it waits for.
    pub waiting: Vec<WaitView>,
}

/// A design temperature and its rivals.
#[derive(Debug, Serialize, JsonSchema)]
pub struct DesignView {
    /// The one used, C.
    pub used_c: Option<f64>,
    /// Where it is from, in words.
    pub from: String,
    /// Which percentile the rivals are.
    pub percentile: &'static str,
    /// Typed in the job, C.
    pub typed_c: Option<f64>,
    /// Header of the weather file, C.
    pub header_c: Option<f64>,
    /// Hours of the weather file, C.
    pub hours_c: Option<f64>,
}

/// A room's loads.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RoomLoadView {
    /// Room.
    pub room: String,
    /// Setting, C.
    pub inside_c: f64,
    /// Floor area, m2.
    pub floor_m2: f64,
    /// Heating load, W.
    pub heating_w: f64,
    /// Heating load per floor area, W/m2.
    pub heating_w_per_m2: f64,
    /// What it is lost through.
    pub parts: Vec<PartView>,
    /// Sensible cooling load, W.
    pub cooling_sensible_w: Option<f64>,
    /// When the room's cooling peak is; null where it needs none.
    pub cooling_peak_at: Option<String>,
    /// Key for `why`.
    pub key: String,
}

/// One way out for heat.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PartView {
    /// walls, windows, leaks …
    pub through: &'static str,
    /// W; below zero where the room is warmed.
    pub heat_w: f64,
}

/// A room without a head.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FloatView {
    /// Room.
    pub room: String,
    /// Outdoor temperature, C.
    pub outdoor_c: f64,
    /// open, closed or usual.
    pub doors: &'static str,
    /// Air of the room, C.
    pub air_c: f64,
    /// Key for `why`.
    pub key: String,
}

/// A window on the design night.
#[derive(Debug, Serialize, JsonSchema)]
pub struct GlassView {
    /// Window.
    pub window: String,
    /// Room.
    pub room: String,
    /// Inside face, C.
    pub face_c: f64,
    /// Room humidity at which it fogs, 0 to 1.
    pub fogs_at: f64,
    /// Air falling down it a metre away, m/s.
    pub draught_m_per_s: f64,
}
