//! Findings and what is waited for.

use plan::Plan;
use reckon::Level;
use serde::Serialize;
use utoipa::ToSchema;

/// Number of findings by level.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct Counts {
    /// Cannot be installed so.
    pub stop: usize,
    /// Should be changed.
    pub fix: usize,
    /// Cannot tell: something is missing.
    pub ask: usize,
    /// Worth knowing.
    pub note: usize,
}

impl Counts {
    /// Counts the findings of a plan.
    pub fn of(plan: &Plan) -> Self {
        Self {
            stop: plan.count(Level::Stop),
            fix: plan.count(Level::Fix),
            ask: plan.count(Level::Ask),
            note: plan.count(Level::Note),
        }
    }
}

/// A finding.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FindingView {
    /// Number in this plan, from 1, loudest first.
    pub number: usize,
    /// stop, fix, ask or note.
    pub level: String,
    /// Stable name of the rule.
    pub rule: String,
    /// Where in the job: a dotted path, or words.
    pub place: String,
    /// Line of the job file, where it is written there.
    pub line: Option<usize>,
    /// What is so.
    pub says: String,
    /// What was found, with unit.
    pub found: String,
    /// What is required or usual, with unit.
    pub required: String,
    /// What to do.
    pub mend: String,
    /// What would tell, for ask.
    pub would_tell: String,
    /// Keys of the figures it rests on, for `why`.
    pub figures: Vec<String>,
    /// Where the rule comes from.
    pub source: String,
}

/// All findings of a plan.
pub fn findings(plan: &Plan) -> Vec<FindingView> {
    plan.findings
        .iter()
        .map(|f| {
            let of = f.finding.clone();
            let (place, line) = plan.place_in_job(&of.place);
            FindingView {
                number: f.number,
                level: of.level.word().to_owned(),
                rule: of.rule,
                place,
                line,
                says: of.says,
                found: of.found,
                required: of.required,
                mend: of.mend,
                would_tell: of.would_tell,
                figures: of.figures,
                source: format!("{}, {}", of.source.key, of.source.place),
            }
        })
        .collect()
}

/// Something the plan waits for.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WaitView {
    /// What is missing.
    pub what: String,
    /// Place in the job file.
    pub place: String,
    /// How to come by it.
    pub how: String,
}

/// Everything a plan waits for.
pub fn waits(plan: &Plan) -> Vec<WaitView> {
    plan.waits()
        .into_iter()
        .map(|w| WaitView {
            what: w.what.clone(),
            place: w.place.clone(),
            how: w.how.clone(),
        })
        .collect()
}
