//! Positions suggested: many are tried, each is judged by the same rules as the person's own, the
//! best few are kept with what speaks for them and what the next lacks.

mod heads;
mod units;

use ::units::{Dim, System};
use reckon::{Level, Verdict};
use serde::Serialize;

use crate::desk::{Desk, Judged};
use crate::{Input, Rules};

/// How many are kept.
const KEPT: usize = 3;

/// A position and how it was judged.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Position {
    /// Where, in words.
    pub says: String,
    /// On the plan, east and north, m.
    pub at_m: [f64; 2],
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
    /// About how long its line or lines become, m, where both ends stand on the plan.
    pub line_m: Option<f64>,
    /// What does not hold there.
    pub against: Vec<String>,
    /// What holds there and not everywhere.
    pub for_it: Vec<String>,
    /// What it lacks that the best has; empty for the best.
    pub lacks: Vec<String>,
}

/// What is suggested for a head or an outdoor unit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Suggested {
    /// Head or outdoor unit: `head.living`.
    pub of: String,
    /// How many positions were tried.
    pub tried: usize,
    /// The best, best first, at least 3 ft apart.
    pub best: Vec<Position>,
    /// The person's own, where it stands on the plan.
    pub yours: Option<Position>,
    /// Where the person's own would stand among all: 1 is the best.
    pub your_rank: Option<usize>,
    /// What the plan cannot tell.
    pub open: Vec<String>,
}

/// Suggests positions for every head and outdoor unit. Pure; the same job gives the same answer.
///
/// # Errors
/// Rule files or formulas of the program that do not read: defects, in words.
pub fn suggest(input: &Input<'_>) -> Result<Vec<Suggested>, String> {
    let rules = Rules::shipped().map_err(|e| format!("rule file: {e}"))?;
    let mut out = Vec::new();
    for head in &input.job.equipment.heads {
        out.push(heads::suggest(input, &rules, head)?);
    }
    for (outdoor, unit) in input.outdoors() {
        out.push(units::suggest(input, &rules, outdoor, unit)?);
    }
    Ok(out)
}

/// A position that was tried, with all that was judged of it.
struct Tried {
    position: Position,
    judged: Vec<Judged>,
    /// Rooms apart: positions nearer than this count as one.
    at_m: [f64; 2],
}

/// Counts what a scratch desk found by the rules that hang on the position.
fn counted(
    desk: Desk,
    rules: &[&str],
    says: String,
    at_m: [f64; 2],
    blows_deg: f64,
    line_m: Option<f64>,
) -> Result<Tried, String> {
    if let Some(defect) = desk.defects.first() {
        return Err(defect.to_string());
    }
    let mine = |rule: &str| rules.contains(&rule);
    let count = |level: Level| {
        let all = desk.findings.iter().filter(|f| mine(&f.rule));
        all.filter(|f| f.level == level).count()
    };
    let position = Position {
        says,
        at_m,
        blows_deg,
        stops: count(Level::Stop),
        fixes: count(Level::Fix),
        notes: count(Level::Note),
        asks: count(Level::Ask),
        line_m,
        against: Vec::new(),
        for_it: Vec::new(),
        lacks: Vec::new(),
    };
    let judged = desk.judged.into_iter().filter(|j| mine(j.rule)).collect();
    Ok(Tried {
        position,
        judged,
        at_m,
    })
}

/// Best first: fewest stops, fixes, notes, open questions; then the shortest line; then the order
/// in which they were tried.
fn order(all: &mut [Tried]) {
    all.sort_by(|a, b| {
        let key = |t: &Tried| {
            let p = &t.position;
            (p.stops, p.fixes, p.notes, p.asks)
        };
        let line = |t: &Tried| t.position.line_m.unwrap_or(f64::INFINITY);
        key(a).cmp(&key(b)).then(line(a).total_cmp(&line(b)))
    });
}

/// Keeps the best few that stand apart, with words; and sets the person's own beside them.
fn chosen(
    (of, open): (String, Vec<String>),
    mut all: Vec<Tried>,
    yours: Option<&Tried>,
    system: System,
) -> Suggested {
    order(&mut all);
    let tried = all.len();
    let failing = |j: &Judged| j.verdict == Verdict::Fails;
    let fails_somewhere = |rule: &Judged| {
        let same = |j: &&Judged| j.rule == rule.rule && j.what == rule.what;
        all.iter()
            .any(|t| t.judged.iter().filter(same).any(failing))
    };
    let words = |t: &Tried| {
        let mut p = t.position.clone();
        for j in &t.judged {
            let says = format!("{}: {}", j.what, j.found);
            if failing(j) {
                p.against.push(format!("{says} (wanted {})", j.required));
            } else if j.verdict == Verdict::Holds && j.rule != "head-space" && fails_somewhere(j) {
                p.for_it.push(says);
            }
        }
        p
    };
    let mut kept: Vec<&Tried> = Vec::new();
    for t in &all {
        let near = |k: &&Tried| libm::hypot(k.at_m[0] - t.at_m[0], k.at_m[1] - t.at_m[1]) < 0.9;
        if kept.len() < KEPT && !kept.iter().any(near) {
            kept.push(t);
        }
    }
    let first = kept.first().copied();
    let set_beside = |t: &Tried| {
        let mut p = words(t);
        if let Some(first) = first {
            p.lacks = lacks(t, first, system);
        }
        p
    };
    let best = kept.iter().map(|t| set_beside(t)).collect();
    let key = |t: &Tried| {
        let p = &t.position;
        (p.stops, p.fixes, p.notes, p.asks)
    };
    let your_rank = yours.map(|y| 1 + all.iter().filter(|t| key(t) < key(y)).count());
    let yours = yours.map(set_beside);
    Suggested {
        of,
        tried,
        best,
        yours,
        your_rank,
        open,
    }
}

/// What a position lacks that the best one has: rules that fail here and hold there, and line.
fn lacks(t: &Tried, best: &Tried, system: System) -> Vec<String> {
    let mut out = Vec::new();
    // the same rules in the same order, a seat after a seat
    for (j, there) in t.judged.iter().zip(&best.judged) {
        let same = j.rule == there.rule && j.what == there.what;
        if same && j.verdict == Verdict::Fails && there.verdict == Verdict::Holds {
            out.push(format!("{}: {}", j.what, j.found));
        }
    }
    if let (Some(here), Some(there)) = (t.position.line_m, best.position.line_m)
        && here > there + 0.5
    {
        let step = if system == System::Us { 0.3048 } else { 0.1 };
        let more = libm::round((here - there) / step) * step;
        let more = crate::desk::both(more, Dim::Length, system);
        out.push(format!("{more} more line"));
    }
    out
}
