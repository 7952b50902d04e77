//! What a test rests on, as it is sent: texts with their unit.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// A line as built.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct LineIn {
    /// Tube by its outside: `1/4 in`.
    pub tube: String,
    /// Length: `24 ft`.
    pub length: String,
}

/// A coil, a receiver, hoses.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct VolumeIn {
    /// What.
    pub what: String,
    /// `0.7 L`.
    pub volume: String,
    /// Limit of error, `30 %`.
    #[serde(default)]
    pub within: Option<String>,
}

/// An instrument.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct InstrumentIn {
    /// Its name.
    pub id: String,
    /// Limit of error: `2 psi`.
    pub accuracy: String,
    /// Smallest step: `0.1 psi`.
    pub step: String,
    /// Limit of error as a share of the reading besides, vacuum gauge: `5 %`.
    #[serde(default)]
    pub share: Option<String>,
    /// Day of calibration: `2026-05-04`.
    #[serde(default)]
    pub calibrated: Option<String>,
}

/// What a test rests on; values are texts with their unit.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct RestsOn {
    /// `pressure` or `vacuum`.
    pub kind: String,
    /// `R-32`, `R-410A`, `R-454B`, `R-290`.
    pub refrigerant: String,
    /// Height above the sea.
    #[serde(default)]
    pub elevation: Option<String>,
    /// Lines as built.
    pub lines: Vec<LineIn>,
    /// Other volumes.
    #[serde(default)]
    pub volumes: Vec<VolumeIn>,
    /// Pressure or vacuum gauge.
    pub gauge: InstrumentIn,
    /// Thermometer on the lines; a pressure test needs one.
    #[serde(default)]
    pub thermometer: Option<InstrumentIn>,
    /// Pressure: the lowest of all plates, `600 psi`.
    #[serde(default)]
    pub plate: Option<String>,
    /// Pressure: where the test is held, `550 psi`.
    #[serde(default)]
    pub target: Option<String>,
    /// Pressure: leak worth a call-back in a year, `200 g`.
    #[serde(default)]
    pub worth: Option<String>,
    /// Pressure: how far the thermometer may stray from the gas, `1 K`.
    #[serde(default)]
    pub wander: Option<String>,
    /// Vacuum: pressure to reach before the pump is shut off, `500 micron`.
    #[serde(default)]
    pub reach: Option<String>,
    /// Vacuum: most within the hold, `700 micron`.
    #[serde(default)]
    pub limit: Option<String>,
    /// Vacuum: how long, `15 min`.
    #[serde(default)]
    pub hold: Option<String>,
    /// Vacuum: the sheet that asks for it.
    #[serde(default)]
    pub source: Option<String>,
    /// Vacuum: where the gauge sits, `system` or `pump`.
    #[serde(default)]
    pub gauge_at: Option<String>,
    /// Vacuum: coldest tube, `41 F`.
    #[serde(default)]
    pub coldest: Option<String>,
    /// Vacuum: smallest leak the pressure test could have seen, `200 g`.
    #[serde(default)]
    pub pressure_test_saw: Option<String>,
}
