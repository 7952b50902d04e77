//! `northwall bills --json` and `northwall review --json`.

use schemars::JsonSchema;
use serde::Serialize;

/// A value with the ends of its band, 9 times in 10.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
pub struct BandView {
    /// Lower end.
    pub low: f64,
    /// Best value.
    pub mid: f64,
    /// Upper end.
    pub high: f64,
}

impl From<review::Band> for BandView {
    fn from(b: review::Band) -> Self {
        Self {
            low: b.low,
            mid: b.mid,
            high: b.high,
        }
    }
}

/// What the bills say.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BillsView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Where the temperatures are from.
    pub temperatures: String,
    /// They are those of a typical year, not of the dates of the bills.
    pub typical: bool,
    /// What was bought.
    pub carriers: Vec<CarrierView>,
    /// Heat loss, where it can be told.
    pub loss: Option<LossView>,
    /// Why it cannot be told.
    pub cannot_tell: Option<CannotView>,
    /// The survey beside it.
    pub survey: Option<SurveyView>,
    /// Remarks.
    pub notes: Vec<String>,
}

/// Why something cannot be told.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CannotView {
    /// What is so.
    pub says: String,
    /// What came.
    pub got: String,
    /// What is usable.
    pub usable: String,
    /// What would do.
    pub mend: String,
}

impl From<&review::Refused> for CannotView {
    fn from(r: &review::Refused) -> Self {
        Self {
            says: r.says.clone(),
            got: r.got.clone(),
            usable: r.usable.clone(),
            mend: r.mend.clone(),
        }
    }
}

/// Bills of one carrier.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CarrierView {
    /// electricity, oil, propane, gas, wood.
    pub carrier: &'static str,
    /// How each file was read.
    pub read: Vec<String>,
    /// Bills, in order.
    pub bills: Vec<BillView>,
    /// The line, where it speaks of heat.
    pub line: Option<LineView>,
    /// Why it does not.
    pub cannot_tell: Option<CannotView>,
    /// Rules that the fit does not meet.
    pub short_of: Vec<ShortView>,
    /// Remarks.
    pub notes: Vec<String>,
}

/// One bill.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BillView {
    /// First day.
    pub from: String,
    /// Day after the last.
    pub to: String,
    /// Energy, J (higher heating value).
    pub energy_j: f64,
    /// Mean outdoor temperature of its days, C, where it was fitted.
    pub outdoor_c: Option<f64>,
    /// What the line gives, W, where it was fitted.
    pub fitted_w: Option<f64>,
}

/// A line.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LineView {
    /// fit, or fill to fill.
    pub by: &'static str,
    /// More when colder, W of what is bought per K.
    pub slope_w_per_k: BandView,
    /// The same all year, W of what is bought.
    pub base_w: BandView,
    /// Balance point, C.
    pub balance_c: BandView,
    /// Share of the variance explained.
    pub r2: Option<f64>,
    /// Scatter over the mean.
    pub cv_rmse: Option<f64>,
    /// Bias over the mean.
    pub nmbe: Option<f64>,
}

/// A rule that is not met.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ShortView {
    /// Stable name.
    pub rule: &'static str,
    /// What is so.
    pub says: String,
    /// What would do.
    pub mend: String,
}

/// Heat loss by the bills.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LossView {
    /// W/K.
    pub loss_w_per_k: BandView,
    /// Load on the design night without free heat, W.
    pub load_w: BandView,
    /// Load on the design night with the free heat of an average day, W.
    pub with_free_heat_w: BandView,
    /// Outdoors on the design night, C.
    pub design_c: f64,
    /// What the bills do not say, with its range.
    pub unknowns: Vec<UnknownView>,
    /// Key for `why`.
    pub key: &'static str,
}

/// Something the bills do not say.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UnknownView {
    /// Stable name.
    pub name: &'static str,
    /// In words.
    pub what: String,
    /// Range.
    pub range: BandView,
    /// seen, label, assumed.
    pub known: &'static str,
}

/// The survey beside the bills.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SurveyView {
    /// Loss by the same line through the plan's own year, W/K.
    pub loss_w_per_k: f64,
    /// Balance point of that line, C.
    pub balance_c: Option<f64>,
    /// Load of the survey on the design night, W.
    pub load_w: Option<f64>,
    /// Bills over survey.
    pub ratio: Option<BandView>,
    /// holds: they agree within 15 %; fails; cannot tell.
    pub agree: Option<&'static str>,
    /// What would close the gap by itself, least strained first.
    pub closers: Vec<CloserView>,
}

/// What would close the gap.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CloserView {
    /// survey or bills.
    pub side: &'static str,
    /// What.
    pub what: String,
    /// Place in the job.
    pub place: String,
    /// Factor on it.
    pub factor: f64,
    /// seen, label, assumed.
    pub known: &'static str,
    /// How far it must move over how well it is known.
    pub strain: f64,
    /// What would tell.
    pub would_tell: String,
}

/// The second winter.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReviewView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Day the heat pump began to heat.
    pub installed: String,
    /// Where the temperatures are from.
    pub temperatures: String,
    /// Carriers in the same typical year.
    pub typical_year: Vec<NormalView>,
    /// Heat that fuel gave before and the heat pump gives now, J a typical year.
    pub moved_heat_j: BandView,
    /// Electricity that follows the cold, more than before, J a typical year.
    pub more_electricity_j: BandView,
    /// Effective COP, where it can be told.
    pub cop: Option<BandView>,
    /// Share of the heat that fuel still gives, where it can be told.
    pub fuel_share: Option<BandView>,
    /// Seasonal COP of the plan.
    pub promised_cop: Option<f64>,
    /// holds, fails or cannot tell.
    pub promise: Option<&'static str>,
    /// What cannot be told.
    pub untold: Vec<UntoldView>,
    /// Bills that could not be fitted, and why.
    pub not_fitted: Vec<String>,
}

/// A carrier in the typical year.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NormalView {
    /// What.
    pub carrier: &'static str,
    /// All of it before, J.
    pub before_j: BandView,
    /// All of it after, J.
    pub after_j: BandView,
    /// What follows the cold, before, J.
    pub heating_before_j: BandView,
    /// What follows the cold, after, J.
    pub heating_after_j: BandView,
}

/// Something that cannot be told.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UntoldView {
    /// What.
    pub what: String,
    /// Why.
    pub why: String,
    /// What would tell.
    pub would_tell: String,
}
