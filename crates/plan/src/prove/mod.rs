//! Outside checks: what others have published or computed, beside what this program gives.
//!
//! Each check is data: what, source, expected, got, verdict. A check outside its range is shown
//! as outside, by how much and why; nothing is tuned to it.

mod air;
mod carriers;
mod houses;
mod install_job;
mod install_lines;
mod install_places;
mod outside;
mod profile;
mod ratings;
mod review;
mod startup;
mod sun;
mod trade;
mod vdi;
mod walls;

use reckon::Verdict;
use serde::Serialize;

pub use profile::{DayProfile, HourSpread, day_profiles};

/// One outside check with its result.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Check {
    /// Stable name: `std140-600-heating`.
    pub id: String,
    /// What is compared.
    pub what: String,
    /// Where the expected value is from, with the exact place.
    pub source: String,
    /// What is expected, with unit.
    pub expected: String,
    /// What this program gives, with unit.
    pub got: String,
    /// Holds, fails or cannot tell.
    pub verdict: Verdict,
    /// It fails, and `outside.rs` says why: known, shown, and no reason to stop.
    pub known: bool,
    /// Remark: how far outside, by which of two limits, and why. Empty where there is none.
    pub remark: String,
}

impl Check {
    pub(crate) fn new(id: impl Into<String>, what: impl Into<String>, source: &str) -> Self {
        Self {
            id: id.into(),
            what: what.into(),
            source: source.to_owned(),
            expected: String::new(),
            got: String::new(),
            verdict: Verdict::CannotTell,
            known: false,
            remark: String::new(),
        }
    }

    /// Within a tolerance of a value.
    pub(crate) fn near(mut self, want: f64, by: f64, got: f64, digits: usize, unit: &str) -> Self {
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        self.expected = format!("{want:.digits$}{unit}, to {}", tolerance(by));
        self.got = format!("{got:.digits$}{unit}");
        self.verdict = verdict((got - want).abs() <= by);
        self
    }

    /// Within a share of a value.
    pub(crate) fn share(mut self, want: f64, by: f64, got: f64, digits: usize, unit: &str) -> Self {
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        self.expected = format!("{want:.digits$}{unit}, to {} %", tolerance(by * 100.0));
        self.got = format!("{got:.digits$}{unit}");
        self.verdict = verdict((got / want - 1.0).abs() <= by);
        self
    }

    /// Between two values.
    pub(crate) fn within(mut self, lo: f64, hi: f64, got: f64, digits: usize, unit: &str) -> Self {
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        self.expected = format!("{lo:.digits$} to {hi:.digits$}{unit}");
        self.got = format!("{got:.digits$}{unit}");
        self.verdict = verdict(got >= lo && got <= hi);
        if self.verdict == Verdict::Fails {
            let by = if got < lo { got - lo } else { got - hi };
            self.remark = format!("outside by {by:+.digits$}{unit}");
        }
        self
    }

    /// The worst of many, at most so far off.
    pub(crate) fn worst(mut self, most: f64, worst: f64, of: usize, unit: &str) -> Self {
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        self.expected = format!("at most {} off{unit}", tolerance(most));
        self.got = format!("worst of {of}: {}{unit}", small(worst));
        self.verdict = if of == 0 || !worst.is_finite() {
            Verdict::CannotTell
        } else {
            verdict(worst <= most)
        };
        self
    }

    pub(crate) fn remark(mut self, words: impl Into<String>) -> Self {
        let words = words.into();
        self.remark = if self.remark.is_empty() {
            words
        } else {
            format!("{}; {words}", self.remark)
        };
        self
    }

    /// What could not be worked out, and why.
    pub(crate) fn cannot_tell(mut self, expected: &str, why: impl Into<String>) -> Self {
        expected.clone_into(&mut self.expected);
        "nothing".clone_into(&mut self.got);
        self.verdict = Verdict::CannotTell;
        self.remark = why.into();
        self
    }
}

fn verdict(holds: bool) -> Verdict {
    if holds {
        Verdict::Holds
    } else {
        Verdict::Fails
    }
}

fn tolerance(x: f64) -> String {
    let text = format!("{x:.6}");
    let text = text.trim_end_matches('0').trim_end_matches('.').to_owned();
    if x > 0.0 && text == "0" {
        format!("{x:.0e}")
    } else {
        text
    }
}

fn small(x: f64) -> String {
    if x != 0.0 && x.abs() < 1e-3 {
        format!("{x:.1e}")
    } else {
        format!("{x:.4}")
    }
}

/// Rows of a kept file: comments and head left out, fields split at commas.
pub(crate) fn rows(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines()
        .filter(|l| !l.starts_with('#') && !l.trim().is_empty())
        .skip(1)
        .map(|l| l.split(',').map(str::trim).collect())
}

/// A field as a number.
pub(crate) fn number(row: &[&str], at: usize) -> f64 {
    row.get(at).and_then(|f| f.parse().ok()).unwrap_or(f64::NAN)
}

type Part = (&'static str, fn() -> Vec<Check>);

/// All parts, in the order they are shown.
const PARTS: [Part; 13] = [
    ("houses of Standard 140", houses::checks),
    ("rooms of VDI 6007", vdi::checks),
    ("sun", sun::checks),
    ("walls, ground and glass", walls::checks),
    ("air, leaks and doors", air::checks),
    ("seasonal ratings", ratings::checks),
    ("start-up day", startup::checks),
    ("trade facts", trade::checks),
    ("prices and carbon", carriers::checks),
    ("bills", review::checks),
    ("lines and refrigerants", install_lines::checks),
    ("places", install_places::checks),
    ("the installation of a small job", install_job::checks),
];

/// Runs every check. `step` is told before each part: how many are done, of how many, and what
/// comes.
pub fn prove(step: &mut dyn FnMut(usize, usize, &str)) -> Vec<Check> {
    let mut all = Vec::new();
    for (i, (what, part)) in PARTS.iter().enumerate() {
        step(i, PARTS.len(), what);
        all.extend(part());
    }
    for check in all.iter_mut().filter(|c| c.verdict == Verdict::Fails) {
        if let Some(why) = outside::why(&check.id) {
            check.known = true;
            check.remark = format!("{}; {why}", check.remark);
        }
    }
    step(PARTS.len(), PARTS.len(), "");
    all
}
