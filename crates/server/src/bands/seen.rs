//! Bands as they go out.

use reckon::Verdict;
use season::bands::{Band, Bands, ChoiceBands, Matters};
use serde::Serialize;
use utoipa::ToSchema;

/// How far the work is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Others are before it.
    Waiting,
    /// It is being worked out.
    Working,
    /// It is there.
    Done,
    /// There are none, and why.
    Cannot,
}

/// A result and its band.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RangeOf {
    /// Beginning of the keys of its figures: with `.low`, `.middle` or `.high` each has a why.
    pub key: String,
    /// With every input as the job has it.
    pub as_entered: f64,
    /// One house in ten lies below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// One in ten lies above.
    pub high: f64,
}

/// What an uncertain input does to a band.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct MattersOf {
    /// Input, in words.
    pub name: String,
    /// Share of the variance that goes with it, 0 to 1.
    pub share: f64,
    /// Key of the figure of the share.
    pub key: String,
}

/// A choice; bands are null where it has no year.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ChoiceBandsOf {
    /// `chosen`, or the name of the option.
    pub choice: String,
    /// Why it has no year; empty where it has.
    pub no_year: String,
    /// Key of the figure of what it carries.
    pub carries_key: String,
    /// Share of the houses it carries, 0 to 1.
    pub carries: Option<f64>,
    /// Whether it carries the house as entered.
    pub carries_as_entered: Option<bool>,
    /// Hours a year in which the worst room with a head is more than 1 K short.
    pub short_h: Option<RangeOf>,
    /// Unit hours cycling.
    pub cycling_h: Option<RangeOf>,
    /// Seasonal COP.
    pub cop: Option<RangeOf>,
    /// Money a year; null where a price is missing.
    pub cost: Option<RangeOf>,
    /// Share of the heat from heads.
    pub heads_share: Option<RangeOf>,
    /// Least air of the coldest heated room, C.
    pub least_c: Option<RangeOf>,
    /// What the band of the cost comes of, the most first.
    pub cost_matters: Vec<MattersOf>,
}

/// How the houses agree with the bills.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AgreedOf {
    /// Houses that count in full.
    pub effective: f64,
    /// Whether enough agree; otherwise the bands are those of the survey alone.
    pub enough: bool,
    /// Heat loss by the survey alone, W/K; null where the year has no line.
    pub survey_w_per_k: Option<RangeOf>,
}

/// Bands of a job.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BandsOf {
    /// Seed of the points: the same seed gives the same numbers.
    pub seed: u64,
    /// Inputs that are not known for certain.
    pub inputs: usize,
    /// Heat loss as bills would show it, W/K; null where the year has no line.
    pub loss_w_per_k: Option<RangeOf>,
    /// What the house asks on the design night, W; null without a design temperature.
    pub load_w: Option<RangeOf>,
    /// What that band comes of, the most first.
    pub load_matters: Vec<MattersOf>,
    /// Why the job's bills tell nothing; empty where they do, or there are none.
    pub bills_cannot_tell: String,
    /// How the houses agree with the bills; null where none tell.
    pub agreed: Option<AgreedOf>,
    /// Choices, in the order of the job.
    pub choices: Vec<ChoiceBandsOf>,
}

/// How it stands with the bands of a job.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BandsView {
    /// Revision of the job they are worked out for.
    pub revision: i64,
    /// How far the work is.
    pub state: State,
    /// Houses run so far with what heats now.
    pub houses_looked_at: usize,
    /// Of these, houses run with every choice: all of them, or with bills those that agree.
    pub houses_done: usize,
    /// Houses asked for; once the bands are there, those behind them.
    pub houses: usize,
    /// Why there are none; empty otherwise.
    pub cannot_tell: String,
    /// The bands; null until they are there.
    pub bands: Option<BandsOf>,
}

impl BandsView {
    /// Without bands yet.
    pub fn of(revision: i64, state: State, houses: usize) -> Self {
        Self {
            revision,
            state,
            houses_looked_at: 0,
            houses_done: 0,
            houses,
            cannot_tell: String::new(),
            bands: None,
        }
    }
}

/// None where an end is not a number: then the band says nothing.
fn range(key: &str, b: &Band) -> Option<RangeOf> {
    let ends = [b.as_entered, b.low, b.middle, b.high];
    ends.into_iter().all(f64::is_finite).then_some(RangeOf {
        key: key.to_owned(),
        as_entered: b.as_entered,
        low: b.low,
        middle: b.middle,
        high: b.high,
    })
}

/// What a band, by its key, comes of.
fn matters(band: &str, all: &[Matters]) -> Vec<MattersOf> {
    let most = all.iter().enumerate();
    let most = most.filter(|(_, m)| m.share >= 0.05).take(3);
    most.map(|(i, m)| MattersOf {
        name: m.name.clone(),
        share: m.share,
        key: plan::comes_of(band, i),
    })
    .collect()
}

/// Puts bands as they go out.
pub fn bands_of(found: &Bands, bills_cannot_tell: String) -> BandsOf {
    BandsOf {
        seed: found.seed,
        inputs: found.inputs.len(),
        loss_w_per_k: range("bands.loss", &found.house.loss_w_per_k),
        load_w: (found.house.load_w.as_ref()).and_then(|b| range("bands.load", b)),
        load_matters: matters("bands.load", &found.house.matters),
        bills_cannot_tell,
        agreed: found.agreed.map(|a| AgreedOf {
            effective: a.effective,
            enough: a.verdict == Verdict::Holds,
            survey_w_per_k: range("bands.survey", &a.survey_w_per_k),
        }),
        choices: found
            .choices
            .iter()
            .map(|(name, of)| match of {
                Ok(of) => choice(name, of),
                Err(why) => none(name, why.to_string()),
            })
            .collect(),
    }
}

fn none(name: &str, no_year: String) -> ChoiceBandsOf {
    ChoiceBandsOf {
        choice: name.to_owned(),
        no_year,
        carries_key: String::new(),
        carries: None,
        carries_as_entered: None,
        short_h: None,
        cycling_h: None,
        cop: None,
        cost: None,
        heads_share: None,
        least_c: None,
        cost_matters: Vec::new(),
    }
}

fn choice(name: &str, of: &ChoiceBands) -> ChoiceBandsOf {
    let key = plan::bands_key(name);
    let end = |what: &str, b: &Band| range(&format!("{key}.{what}"), b);
    let maybe = |what: &str, b: &Option<Band>| b.as_ref().and_then(|b| end(what, b));
    ChoiceBandsOf {
        choice: name.to_owned(),
        no_year: String::new(),
        carries_key: format!("{key}.carries"),
        carries: Some(of.carries),
        carries_as_entered: Some(of.carries_as_entered),
        short_h: end("short", &of.short_h),
        cycling_h: end("cycling", &of.cycling_h),
        cop: maybe("cop", &of.cop),
        cost: maybe("cost", &of.cost),
        heads_share: maybe("heads-share", &of.heads_share),
        least_c: end("least", &of.least_c),
        cost_matters: matters(&format!("{key}.cost"), &of.cost_matters),
    }
}
