//! The tables of a start-up file.

use serde::Deserialize;

/// A text that knows where it stands.
pub type Text = toml::Spanned<String>;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DayFile {
    pub northwall_startup: u32,
    pub who: String,
    pub job: Option<String>,
    pub on: Option<String>,
    #[serde(default)]
    pub tested: Vec<Text>,
    pub refrigerant: Option<Text>,
    pub elevation: Option<Text>,
    pub offset: Option<Text>,
    pub outdoor: Option<Text>,
    #[serde(default)]
    pub heads: Vec<Text>,
    #[serde(default)]
    pub line: Vec<LineIn>,
    #[serde(default)]
    pub volume: Vec<VolumeIn>,
    pub gauge: Option<InstrumentIn>,
    pub vacuum_gauge: Option<InstrumentIn>,
    pub thermometer: Option<InstrumentIn>,
    pub pressure: Option<PressureIn>,
    pub vacuum: Option<VacuumIn>,
    pub logger: Option<LoggerIn>,
    pub vacuum_logger: Option<LoggerIn>,
    pub wrench: Option<WrenchIn>,
    #[serde(default)]
    pub flare: Vec<FlareIn>,
    #[serde(default)]
    pub brazed: Vec<BrazedIn>,
    pub charge: Option<ChargeIn>,
    #[serde(default)]
    pub movement: Vec<MovementIn>,
    pub run: Option<RunIn>,
    pub visit: Option<RunIn>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineIn {
    pub tube: Text,
    pub length: Text,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VolumeIn {
    #[serde(rename = "what")]
    _what: String,
    pub volume: Text,
    pub within: Option<Text>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InstrumentIn {
    pub id: String,
    pub accuracy: Text,
    pub step: Text,
    pub stability: Option<Text>,
    pub calibrated: Option<Text>,
    pub share: Option<Text>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PressureIn {
    pub plate: Option<Text>,
    pub target: Option<Text>,
    pub worth: Text,
    pub wander: Option<Text>,
    pub service: Option<Text>,
    pub settle: Option<Text>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VacuumIn {
    pub reach: Option<Text>,
    pub limit: Option<Text>,
    pub hold: Option<Text>,
    pub source: Option<Text>,
    pub gauge_at: Option<Text>,
    pub coldest: Option<Text>,
    pub coldest_within: Option<Text>,
    pub pressure_test_saw: Option<Text>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoggerIn {
    pub time: Option<String>,
    pub date: Option<String>,
    pub clock: Option<String>,
    pub seconds: Option<String>,
    pub minutes: Option<String>,
    pub pressure: String,
    #[serde(default)]
    pub pressure_unit: String,
    pub temperature: Option<String>,
    #[serde(default)]
    pub temperature_unit: String,
    pub separator: Option<String>,
    #[serde(default)]
    pub decimal_comma: bool,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrenchIn {
    pub length: Text,
    pub crowfoot: Text,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FlareIn {
    pub place: Text,
    pub tube: Option<Text>,
    pub sheet: Option<(Text, Text)>,
    pub torque: Option<Text>,
    pub initials: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BrazedIn {
    pub place: Text,
    pub nitrogen: Text,
    pub initials: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChargeIn {
    pub factory: Option<Text>,
    pub trim: Option<Text>,
    pub most: Option<Text>,
    pub cylinder: String,
    pub before: Text,
    pub after: Text,
    pub scale_within: Text,
    pub opened: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MovementIn {
    pub cylinder: String,
    pub before: Text,
    pub after: Text,
    pub system: Text,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunIn {
    pub mode: Text,
    pub head: Option<Text>,
    pub minutes: f64,
    #[serde(default)]
    pub defrost: bool,
    #[serde(default)]
    pub test_mode: bool,
    pub outdoor: Text,
    #[serde(rename = "return")]
    pub back: Text,
    pub supply: Text,
    pub thermometers_within: Option<Text>,
    pub flow: Option<Text>,
    pub flow_within: Option<Text>,
    pub speed: Option<usize>,
    pub power: Option<Text>,
    pub volts: Option<Text>,
    pub amps: Option<Text>,
    pub suction_pressure: Option<Text>,
    pub suction_line: Option<Text>,
    pub liquid_pressure: Option<Text>,
    pub liquid_line: Option<Text>,
    pub superheat: Option<(f64, f64)>,
    pub subcooling: Option<(f64, f64)>,
    pub drain_water: Option<Text>,
    pub drain_time: Option<Text>,
    pub sound: Option<Text>,
    pub sound_at: Option<Text>,
    #[serde(default)]
    pub sound_faces: Option<f64>,
    pub defrosts: Option<f64>,
    pub backup_hours: Option<f64>,
    pub water: Option<bool>,
}
