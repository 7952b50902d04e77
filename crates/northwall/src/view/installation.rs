//! `northwall place|lines|wires|list --json`, and `place --suggest --json`.

use install::{Item, Judged, List, Position, Suggested};
use reckon::Verdict;
use schemars::JsonSchema;
use serde::Serialize;

use super::WaitView;

/// A part of the installation.
#[derive(Debug, Serialize, JsonSchema)]
pub struct InstallationView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// What it waits for; then all else is empty.
    pub waiting: Vec<WaitView>,
    /// Requirements judged, in order.
    pub judged: Vec<JudgedView>,
    /// Text of the refrigerant label, by outdoor unit (`lines`).
    pub labels: Vec<String>,
    /// As-built values and what they changed (`lines`).
    pub changed: Vec<String>,
    /// What to bring (`list`).
    pub list: Option<ListView>,
}

/// One requirement judged.
#[derive(Debug, Serialize, JsonSchema)]
pub struct JudgedView {
    /// Stable name of the rule.
    pub rule: &'static str,
    /// Where in the job.
    pub place: String,
    /// What is judged.
    pub what: String,
    /// Found, in words.
    pub found: String,
    /// Required, in words.
    pub required: String,
    /// `holds`, `fails`, `cannot tell`.
    pub verdict: &'static str,
    /// Keys of its figures, for `northwall why`.
    pub figures: Vec<String>,
    /// Key and place of the requirement's source.
    pub source: String,
    /// How to mend it, where it fails.
    pub mend: &'static str,
    /// What would tell, where it cannot be told.
    pub would_tell: &'static str,
}

/// What to bring.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ListView {
    /// Material.
    pub cut: Vec<ItemView>,
    /// Tools.
    pub tools: Vec<ItemView>,
    /// Things to lift.
    pub lifts: Vec<ItemView>,
    /// Cautions of the day.
    pub cautions: Vec<&'static str>,
}

/// One thing to bring.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ItemView {
    /// What.
    pub what: String,
    /// How much, in words.
    pub amount: String,
    /// For which head or unit; empty for all.
    pub of: String,
}

/// Positions suggested.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SuggestView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// By head and outdoor unit.
    pub suggested: Vec<SuggestedView>,
}

/// Positions of one head or outdoor unit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SuggestedView {
    /// `head.living`.
    pub of: String,
    /// How many positions were tried.
    pub tried: usize,
    /// The best, best first.
    pub best: Vec<PositionView>,
    /// The person's own, where it stands on the plan.
    pub yours: Option<PositionView>,
    /// Its rank among all; 1 is the best.
    pub your_rank: Option<usize>,
    /// What the plan cannot tell.
    pub open: Vec<String>,
}

/// A position.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PositionView {
    /// Where, in words.
    pub says: String,
    /// On the plan: east, then north, m.
    pub at_m: Vec<f64>,
    /// Plan direction it blows, degrees.
    pub blows_deg: f64,
    /// Rules that stop it.
    pub stops: usize,
    /// Rules that want it changed.
    pub fixes: usize,
    /// Rules worth knowing.
    pub notes: usize,
    /// Rules that cannot tell.
    pub asks: usize,
    /// About how much line, m.
    pub line_m: Option<f64>,
    /// What does not hold there.
    pub against: Vec<String>,
    /// What holds there and not everywhere.
    pub for_it: Vec<String>,
    /// What it lacks that the best has.
    pub lacks: Vec<String>,
}

impl From<&Judged> for JudgedView {
    fn from(j: &Judged) -> Self {
        Self {
            rule: j.rule,
            place: j.place.clone(),
            what: j.what.clone(),
            found: j.found.clone(),
            required: j.required.clone(),
            verdict: match j.verdict {
                Verdict::Holds => "holds",
                Verdict::Fails => "fails",
                Verdict::CannotTell => "cannot tell",
            },
            figures: j.figures.clone(),
            source: format!("{} {}", j.source.key, j.source.place),
            mend: j.mend,
            would_tell: j.would_tell,
        }
    }
}

impl From<&Item> for ItemView {
    fn from(i: &Item) -> Self {
        Self {
            what: i.what.clone(),
            amount: i.amount.clone(),
            of: i.of.clone(),
        }
    }
}

impl From<&List> for ListView {
    fn from(l: &List) -> Self {
        let all = |items: &[Item]| items.iter().map(ItemView::from).collect();
        Self {
            cut: all(&l.cut),
            tools: all(&l.tools),
            lifts: all(&l.lifts),
            cautions: l.cautions.clone(),
        }
    }
}

impl From<&Position> for PositionView {
    fn from(p: &Position) -> Self {
        Self {
            says: p.says.clone(),
            at_m: p.at_m.to_vec(),
            blows_deg: p.blows_deg,
            stops: p.stops,
            fixes: p.fixes,
            notes: p.notes,
            asks: p.asks,
            line_m: p.line_m,
            against: p.against.clone(),
            for_it: p.for_it.clone(),
            lacks: p.lacks.clone(),
        }
    }
}

impl From<&Suggested> for SuggestedView {
    fn from(s: &Suggested) -> Self {
        Self {
            of: s.of.clone(),
            tried: s.tried,
            best: s.best.iter().map(PositionView::from).collect(),
            yours: s.yours.as_ref().map(PositionView::from),
            your_rank: s.your_rank,
            open: s.open.clone(),
        }
    }
}
