//! A later visit against the accepted first run: causes ranked, and what to measure next.

use reckon::Verdict;
use serde::{Deserialize, Serialize};

/// How a symptom stands against the baseline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// Clearly less.
    Down,
    /// The same within its error.
    Same,
    /// Clearly more.
    Up,
}

/// What can be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Symptom {
    /// Supply less return.
    Difference,
    /// Electric power.
    Power,
    /// Air flow.
    Flow,
    /// Defrosts in a day.
    Defrosts,
    /// Water indoors.
    Water,
    /// Hours of the backup.
    Backup,
}

/// A cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// Charge lost.
    LowCharge,
    /// Filter or fan wheel dirty.
    DirtyIndoors,
    /// Outdoor coil blocked: lint, leaves, snow, ice.
    BlockedOutdoors,
    /// Drain.
    Drain,
    /// Settings: set-back, auto, backup thermostat too high.
    Settings,
    /// Compressor, valve, sensor or board.
    Parts,
}

impl Cause {
    /// All.
    pub const ALL: [Self; 6] = [
        Self::LowCharge,
        Self::DirtyIndoors,
        Self::BlockedOutdoors,
        Self::Drain,
        Self::Settings,
        Self::Parts,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::LowCharge => "charge lost",
            Self::DirtyIndoors => "filter or fan wheel dirty",
            Self::BlockedOutdoors => "outdoor coil blocked",
            Self::Drain => "drain blocked or uphill",
            Self::Settings => "settings or habits",
            Self::Parts => "a part: valve, sensor, compressor, board",
        }
    }

    /// Of 20 call-backs, before the firm has its own: set-up and charge lead in the trade press.
    /// Source: `common-practice`; a modelling choice.
    fn prior(self) -> f64 {
        match self {
            Self::LowCharge | Self::Settings => 5.0,
            Self::DirtyIndoors | Self::BlockedOutdoors => 3.0,
            Self::Drain | Self::Parts => 2.0,
        }
    }

    /// Chances of down, same, up. Source: `common-practice` (trade card F27); a modelling choice.
    fn chances(self, s: Symptom) -> [f64; 3] {
        use Cause::{BlockedOutdoors, DirtyIndoors, Drain, LowCharge, Parts, Settings};
        use Symptom::{Backup, Defrosts, Difference, Flow, Power, Water};
        match (self, s) {
            (LowCharge, Difference) => [0.85, 0.13, 0.02],
            (LowCharge, Power) => [0.60, 0.33, 0.07],
            (LowCharge, Defrosts | Backup) | (BlockedOutdoors | Parts, Backup) => {
                [0.05, 0.45, 0.50]
            }
            (DirtyIndoors, Difference) => [0.05, 0.25, 0.70],
            (DirtyIndoors, Flow) => [0.90, 0.09, 0.01],
            (DirtyIndoors, Power) => [0.10, 0.50, 0.40],
            (BlockedOutdoors, Difference) => [0.60, 0.37, 0.03],
            (BlockedOutdoors, Power) => [0.15, 0.40, 0.45],
            (BlockedOutdoors, Defrosts) => [0.02, 0.13, 0.85],
            (Drain, Water) => [0.01, 0.09, 0.90],
            (DirtyIndoors, Water) => [0.02, 0.83, 0.15],
            (_, Water) => [0.02, 0.95, 0.03],
            (Settings, Backup) => [0.03, 0.27, 0.70],
            (Parts, Difference) => [0.60, 0.30, 0.10],
            (Parts, Power) => [0.45, 0.25, 0.30],
            (Parts, Defrosts) => [0.15, 0.60, 0.25],
            _ => [0.04, 0.92, 0.04],
        }
    }
}

impl Symptom {
    /// All.
    pub const ALL: [Self; 6] = [
        Self::Difference,
        Self::Power,
        Self::Flow,
        Self::Defrosts,
        Self::Water,
        Self::Backup,
    ];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Difference => "supply less return",
            Self::Power => "power",
            Self::Flow => "air flow",
            Self::Defrosts => "defrosts a day",
            Self::Water => "water indoors",
            Self::Backup => "hours of the backup",
        }
    }
}

/// One call-back of the firm: what it was and what it cost.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Logged {
    /// What it turned out to be.
    pub cause: Cause,
    /// Hours.
    pub hours: f64,
    /// Money.
    pub cost: f64,
}

/// A cause with its weight.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ranked {
    /// Which.
    pub cause: Cause,
    /// Weight, 0 to 1.
    pub weight: f64,
    /// What speaks for and against it.
    pub evidence: Vec<String>,
    /// Mean hours of the firm's own log for it.
    pub usual_hours: Option<f64>,
}

/// The answer to a visit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VisitAnswer {
    /// Holds: nothing differs. Fails: a cause stands out. Cannot tell.
    pub verdict: Verdict,
    /// In words.
    pub says: String,
    /// Causes, likeliest first.
    pub causes: Vec<Ranked>,
    /// The measurement that would tell most.
    pub next: String,
}

/// Outdoors of the two days, what ran, and at what speed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Day {
    /// Heating.
    pub heating: bool,
    /// Outdoors, C.
    pub outdoor_c: f64,
    /// Speed held by the test mode.
    pub test_mode: bool,
}

/// Days further apart outdoors are not compared, K: 5 F (trade card F27).
pub const COMPARABLE_K: f64 = 5.0 / 1.8;

/// Whether two days can be compared; if not, why.
pub fn comparable(base: Day, now: Day) -> Result<(), String> {
    let f = |c: f64| format!("{:.0} F ({c:.0} C)", c * 1.8 + 32.0);
    if base.heating != now.heating {
        return Err("The baseline is of the other mode.".to_owned());
    }
    let apart = (base.outdoor_c - now.outdoor_c).abs();
    if apart.is_nan() || apart > COMPARABLE_K {
        return Err(format!(
            "The baseline is of {} outdoors, today is {}: more than 5 F apart.",
            f(base.outdoor_c),
            f(now.outdoor_c)
        ));
    }
    if base.test_mode != now.test_mode {
        return Err("One of the two was in the test mode, the other not.".to_owned());
    }
    Ok(())
}

/// How a reading stands against the baseline.
///
/// # Equation
/// down `x - b < -max(2 u, s |b|)`, up likewise, else same; `u` the two errors in quadrature
/// # Symbols
/// `x` now, `b` baseline, with standard deviations half their limits; `s` least share that counts.
/// # Range
/// Any finite values.
/// # Source
/// `common-practice`: trade card F27 counts 20 % of the difference of temperature.
/// # Example
/// ```
/// use startup::call_back::{Change, change};
/// assert_eq!(change((18.0, 1.0), (12.0, 1.0), 0.2), Change::Down);
/// assert_eq!(change((18.0, 1.0), (17.0, 1.0), 0.2), Change::Same);
/// ```
pub fn change(base: (f64, f64), now: (f64, f64), share: f64) -> Change {
    let least = libm::hypot(base.1, now.1).max(share * base.0.abs());
    let d = now.0 - base.0;
    if d < -least {
        Change::Down
    } else if d > least {
        Change::Up
    } else {
        Change::Same
    }
}

fn entropy(weights: &[f64]) -> f64 {
    weights
        .iter()
        .filter(|w| **w > 0.0)
        .map(|w| -w * libm::log(*w))
        .sum()
}

fn normal(mut weights: Vec<f64>) -> Vec<f64> {
    let sum: f64 = weights.iter().sum();
    for w in &mut weights {
        *w /= sum;
    }
    weights
}

/// Ranks the causes of a call-back.
///
/// # Equation
/// `w_i ~ (a_i + n_i) prod_s p(change_s | cause_i)`; next: the symptom not yet seen that leaves the
/// least expected entropy
/// # Symbols
/// `a` weight before any log, of 20; `n` call-backs of the firm's log with that cause; `p` chances
/// of down, same, up.
/// # Range
/// Each symptom once. Symptoms are taken as independent given the cause.
/// # Source
/// `common-practice`: Bayes' rule; the chances are a modelling choice after trade card F27.
/// # Example
/// `crates/startup/tests/call_back.rs`.
pub fn rank(seen: &[(Symptom, Change)], log: &[Logged]) -> VisitAnswer {
    let index = |c: Change| match c {
        Change::Down => 0,
        Change::Same => 1,
        Change::Up => 2,
    };
    let chance =
        |cause: Cause, s: Symptom, i: usize| cause.chances(s).get(i).copied().unwrap_or(0.0);
    let weights = normal(
        Cause::ALL
            .iter()
            .map(|cause| {
                let own = log.iter().filter(|l| l.cause == *cause).count() as f64;
                seen.iter().fold(cause.prior() + own, |w, (s, c)| {
                    w * chance(*cause, *s, index(*c))
                })
            })
            .collect(),
    );
    let next = Symptom::ALL
        .iter()
        .filter(|s| !seen.iter().any(|(k, _)| k == *s))
        .map(|s| {
            let left: f64 = (0..3)
                .map(|i| {
                    let joint: Vec<f64> = Cause::ALL
                        .iter()
                        .zip(&weights)
                        .map(|(c, w)| w * chance(*c, *s, i))
                        .collect();
                    let p: f64 = joint.iter().sum();
                    p * entropy(&normal(joint))
                })
                .sum();
            (*s, left)
        })
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let mut causes: Vec<Ranked> = Cause::ALL
        .iter()
        .zip(&weights)
        .map(|(cause, weight)| {
            let hours: Vec<f64> = log
                .iter()
                .filter(|l| l.cause == *cause)
                .map(|l| l.hours)
                .collect();
            Ranked {
                cause: *cause,
                weight: *weight,
                evidence: seen
                    .iter()
                    .map(|(s, change)| {
                        let p = chance(*cause, *s, index(*change));
                        let word = match change {
                            Change::Down => "down",
                            Change::Same => "as before",
                            Change::Up => "up",
                        };
                        let usual = Cause::ALL
                            .iter()
                            .map(|c| chance(*c, *s, index(*change)))
                            .sum::<f64>()
                            / Cause::ALL.len() as f64;
                        let side = if p > 1.25 * usual {
                            "speaks for it"
                        } else if p < 0.7 * usual {
                            "speaks against it"
                        } else {
                            "tells little"
                        };
                        format!("{} {word}: {side}", s.words())
                    })
                    .collect(),
                usual_hours: (!hours.is_empty())
                    .then(|| hours.iter().sum::<f64>() / hours.len() as f64),
            }
        })
        .collect();
    causes.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    let all_same = seen.len() >= 3 && seen.iter().all(|(_, c)| *c == Change::Same);
    let first = causes.first().map(|c| (c.cause.words(), c.weight));
    let (verdict, says) = match first {
        _ if seen.is_empty() => (Verdict::CannotTell, "Nothing was compared.".to_owned()),
        _ if all_same => (
            Verdict::Holds,
            "It runs as it did on the first day; look at settings and habits.".to_owned(),
        ),
        Some((words, w)) if w >= 0.7 => (Verdict::Fails, format!("Most likely {words}.")),
        Some((words, _)) => (
            Verdict::CannotTell,
            format!("{words} leads, but others are near."),
        ),
        None => (Verdict::CannotTell, String::new()),
    };
    VisitAnswer {
        verdict,
        says,
        causes,
        next: next.map_or("Nothing more to compare.".to_owned(), |(s, _)| {
            format!("Measure {}: it would tell most.", s.words())
        }),
    }
}
