//! `northwall bands --json`.

use schemars::JsonSchema;
use serde::Serialize;

/// Bands of a job.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BandsView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Station of the weather.
    pub station: String,
    /// Houses run.
    pub houses: usize,
    /// Seed of the points.
    pub seed: u64,
    /// What is not known for certain.
    pub inputs: Vec<UncertainView>,
    /// Heat loss as bills would show it, W/K.
    pub loss_w_per_k: RangeView,
    /// What the house asks on the design night, W; null without a design temperature.
    pub load_w: Option<RangeView>,
    /// What that band comes of, the most first.
    pub load_matters: Vec<MattersView>,
    /// What the job's bills tell, or why they tell nothing; null where the job names none, or they
    /// were left out.
    pub bills: Option<String>,
    /// How the houses agree with the bills; null where none were told.
    pub agreed: Option<AgreedView>,
    /// Choices, in the order of the job.
    pub choices: Vec<ChoiceBandsView>,
}

/// A result and its band.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RangeView {
    /// With every input as the job has it.
    pub as_entered: f64,
    /// One house in ten lies below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// One in ten lies above.
    pub high: f64,
}

/// An uncertain input.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UncertainView {
    /// What.
    pub name: String,
    /// seen, label, assumed.
    pub known: &'static str,
    /// One time in ten below: a factor, or a difference in K.
    pub low: f64,
    /// One time in ten above.
    pub high: f64,
    /// A difference in K instead of a factor.
    pub difference: bool,
}

/// What an input does to a result.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MattersView {
    /// Input.
    pub name: String,
    /// Share of the variance that goes with it, 0 to 1.
    pub share: f64,
}

/// Agreement with bills.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AgreedView {
    /// Houses that count in full.
    pub effective: f64,
    /// `holds`, or `cannot-tell` where too few agree.
    pub verdict: &'static str,
    /// Heat loss by the survey alone, W/K.
    pub survey_w_per_k: RangeView,
}

/// A choice; everything is null where it has no year.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChoiceBandsView {
    /// Name.
    pub name: String,
    /// Why it has no year.
    pub no_year: Option<String>,
    /// Share of the houses it carries, 0 to 1.
    pub carries: Option<f64>,
    /// Whether it carries the house as entered.
    pub carries_as_entered: Option<bool>,
    /// Hours in which the worst room with a head is more than 1 K short.
    pub short_hours: Option<RangeView>,
    /// Unit hours cycling.
    pub cycling_hours: Option<RangeView>,
    /// Seasonal COP, waiting included.
    pub cop: Option<RangeView>,
    /// Money a year; null where a price is missing.
    pub cost: Option<RangeView>,
    /// Share of the heat from heads.
    pub heads_share: Option<RangeView>,
    /// Least air of the coldest heated room, C.
    pub least_c: Option<RangeView>,
    /// What the band of the cost comes of.
    pub cost_matters: Vec<MattersView>,
}
