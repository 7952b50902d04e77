//! `northwall check --json`.

use schemars::JsonSchema;
use serde::Serialize;

use super::bills::BandView;

/// The plan on one screen.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CheckView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// How far the job is: visit, estimate, ordered, installed, reviewed.
    pub stage: &'static str,
    /// Station of the weather.
    pub station: String,
    /// Headline numbers; null where they are not there yet.
    pub headline: HeadlineView,
    /// What the plan waits for.
    pub waiting: Vec<WaitView>,
    /// Number of findings by level.
    pub stops: usize,
    /// Number of findings of level fix.
    pub fixes: usize,
    /// Number of findings of level ask.
    pub asks: usize,
    /// Number of findings of level note.
    pub notes: usize,
    /// Findings, loudest first.
    pub findings: Vec<FindingView>,
    /// What the job's bills tell beside the survey; null where the job names none.
    pub bills: Option<CheckBillsView>,
    /// Remarks on the weather file.
    pub weather_notes: Vec<String>,
    /// What applies before this program.
    pub caution: &'static str,
}

/// What the job's bills tell.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct CheckBillsView {
    /// In words, or why they tell nothing.
    pub says: String,
    /// Load at the design temperature, W.
    pub load_w: Option<BandView>,
    /// Heat loss, W/K.
    pub loss_w_per_k: Option<BandView>,
    /// Heat loss by the bills over that by the survey.
    pub of_survey: Option<BandView>,
    /// Whether bills and survey agree.
    pub agree: Option<&'static str>,
}

/// Headline numbers.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct HeadlineView {
    /// Outdoor temperature of the heating load, C.
    pub design_outdoor_c: Option<f64>,
    /// Heating load of the house, W.
    pub heating_load_w: Option<f64>,
    /// Sensible cooling load of the house, W.
    pub cooling_load_w: Option<f64>,
    /// Heat the house needs in the year, kWh.
    pub heating_need_kwh: Option<f64>,
    /// Share of the year's heat that comes from heads, 0 to 1.
    pub heads_share: Option<f64>,
    /// Seasonal COP of all units, waiting included.
    pub seasonal_cop: Option<f64>,
    /// Unit hours cycling.
    pub cycling_hours: Option<u32>,
    /// Cost of the year, in the job's currency.
    pub cost: Option<f64>,
    /// Cost of the year with what heats now, alone.
    pub cost_now: Option<f64>,
    /// Rooms more than 2 K under their setting in more than 438 hours.
    pub rooms_cold: Option<usize>,
    /// The same with what heats now, alone.
    pub rooms_cold_now: Option<usize>,
    /// Carbon of the year, kg.
    pub carbon_kg: Option<f64>,
    /// Carbon of the year with what heats now, kg.
    pub carbon_now_kg: Option<f64>,
    /// Largest electric hour, W.
    pub electric_peak_w: Option<f64>,
}

/// Something the plan waits for.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WaitView {
    /// What is missing.
    pub what: String,
    /// Place in the job file.
    pub place: String,
    /// How to come by it.
    pub how: String,
}

/// A finding.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FindingView {
    /// Number in this plan, from 1.
    pub number: usize,
    /// stop, fix, ask or note.
    pub level: &'static str,
    /// Stable name of the rule.
    pub rule: String,
    /// Where in the job.
    pub place: String,
    /// Line of the job file, where it is written there.
    pub line: Option<usize>,
    /// What is so.
    pub says: String,
    /// What was found.
    pub found: String,
    /// What is required or usual.
    pub required: String,
    /// What to do.
    pub mend: String,
    /// What would tell, for ask.
    pub would_tell: String,
    /// Figures it rests on, for `why`.
    pub figures: Vec<String>,
    /// Where the rule comes from.
    pub source: String,
}

impl FindingView {
    /// From a finding with its number and line.
    pub fn new(number: usize, finding: &reckon::Finding, line: Option<usize>) -> Self {
        let f = finding.clone();
        Self {
            number,
            level: f.level.word(),
            rule: f.rule,
            place: f.place,
            line,
            says: f.says,
            found: f.found,
            required: f.required,
            mend: f.mend,
            would_tell: f.would_tell,
            figures: f.figures,
            source: format!("{}, {}", f.source.key, f.source.place),
        }
    }
}

impl From<plan::Headline> for HeadlineView {
    fn from(of: plan::Headline) -> Self {
        Self {
            design_outdoor_c: of.design_outdoor_c,
            heating_load_w: of.heating_load_w,
            cooling_load_w: of.cooling_load_w,
            heating_need_kwh: of.heating_need_kwh,
            heads_share: of.heads_share,
            seasonal_cop: of.seasonal_cop,
            cycling_hours: of.cycling_hours,
            cost: of.cost,
            cost_now: of.cost_now,
            rooms_cold: of.rooms_cold,
            rooms_cold_now: of.rooms_cold_now,
            carbon_kg: of.carbon_kg,
            carbon_now_kg: of.carbon_now_kg,
            electric_peak_w: of.electric_peak_w,
        }
    }
}
