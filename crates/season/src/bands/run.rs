//! Runs the houses that could be, and sums them up.

use jobfile::Choice;
use reckon::Verdict;

use super::sequence::{Sequence, normal_score};
use super::told::{FEWEST, Told, effective, line_of_days, weight};
use super::uncertain::{Could, Uncertain, uncertain};
use crate::compare::{baseline, year};
use crate::error::SeasonError;
use crate::hands::each;
use crate::input::{Catalogue, Design, Input};
use crate::year::Year;

/// Hours a head's room may be short in a year and still count as carried: 0.4 % of the hours, which
/// is what a 99.6 % design temperature leaves.
const SHORT_H: u32 = 35;
/// Share of the heat of the heads' rooms that a heater may give.
const BY_HEATERS: f64 = 0.02;

/// How to ask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// Houses run.
    pub samples: usize,
    /// Seed of the points.
    pub seed: u64,
    /// What bills tell, if they do.
    pub told: Option<Told>,
    /// Threads; what comes out does not depend on them.
    pub threads: usize,
}

impl Default for Asked {
    fn default() -> Self {
        Self {
            samples: 100,
            seed: 1,
            told: None,
            threads: 1,
        }
    }
}

/// A result and its band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// With every input as the job has it.
    pub as_entered: f64,
    /// One house in ten lies below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// One in ten lies above.
    pub high: f64,
}

/// How the houses agree with the bills.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreed {
    /// Houses that count in full.
    pub effective: f64,
    /// Holds where enough do; cannot tell where survey and bills lie too far apart.
    pub verdict: Verdict,
    /// Heat loss of the houses as the survey alone has them, W/K.
    pub survey_w_per_k: Band,
}

/// The house, whatever heats it.
#[derive(Debug, Clone, PartialEq)]
pub struct HouseBands {
    /// Heat loss over a winter as bills would show it, W/K.
    pub loss_w_per_k: Band,
    /// What the house asks on the design night by its line, W; None without a design temperature.
    pub load_w: Option<Band>,
    /// What the band of the load comes of, the most first.
    pub matters: Vec<Matters>,
}

/// What an uncertain input does to a result.
#[derive(Debug, Clone, PartialEq)]
pub struct Matters {
    /// Input, in words.
    pub name: String,
    /// Share of the variance that goes with it, 0 to 1.
    pub share: f64,
}

/// A choice.
#[derive(Debug, Clone, PartialEq)]
pub struct ChoiceBands {
    /// Name.
    pub name: String,
    /// Share of the houses it carries: no room with a head more than 1 K short in more than 35
    /// hours, and no more than 2 % of those rooms' heat from a heater.
    pub carries: f64,
    /// Whether it carries the house as entered.
    pub carries_as_entered: bool,
    /// Hours in which the worst room with a head is more than 1 K short.
    pub short_h: Band,
    /// Unit hours cycling.
    pub cycling_h: Band,
    /// Seasonal COP, waiting included; None where heads give no heat.
    pub cop: Option<Band>,
    /// Money a year; None where a price is missing.
    pub cost: Option<Band>,
    /// Share of the heat that comes from heads.
    pub heads_share: Option<Band>,
    /// Least air of the coldest heated room, C.
    pub least_c: Band,
    /// What the band of the cost comes of, the most first.
    pub cost_matters: Vec<Matters>,
}

/// Bands of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Bands {
    /// Houses run.
    pub samples: usize,
    /// Seed.
    pub seed: u64,
    /// What is uncertain.
    pub inputs: Vec<Uncertain>,
    /// The house.
    pub house: HouseBands,
    /// By choice, or why it has no year.
    pub choices: Vec<(String, Result<ChoiceBands, SeasonError>)>,
    /// Agreement with the bills, where they were given.
    pub agreed: Option<Agreed>,
}

/// One house with one choice.
#[derive(Debug, Clone, Copy, Default)]
struct Came {
    carries: bool,
    short_h: f64,
    cycling_h: f64,
    cop: Option<f64>,
    cost: Option<f64>,
    heads_share: Option<f64>,
    least_c: f64,
}

/// One house with all choices.
struct House {
    loss_w_per_k: f64,
    balance_c: Option<f64>,
    load_w: Option<f64>,
    came: Vec<Result<Came, SeasonError>>,
}

/// Bands of the choices; `input.choice` is not looked at.
///
/// # Errors
/// A house that cannot be set up.
pub fn bands(input: &Input<'_>, choices: &[Choice], asked: &Asked) -> Result<Bands, SeasonError> {
    let inputs = uncertain(input.job, input.model);
    let points = Sequence::new(inputs.len(), asked.seed);
    let start = Could {
        job: input.job.clone(),
        model: input.model.clone(),
        glasses: input.glasses.to_vec(),
        catalogue: only_used(input.catalogue, choices),
    };
    let entered = one(input, &start, choices)?;
    let score = |i: usize, d: usize| normal_score(points.at(i, d));
    let run = each(asked.threads, asked.samples, |i| {
        let mut could = start.clone();
        for (d, of) in inputs.iter().enumerate() {
            could.set(&of.what, of.at(score(i, d)));
        }
        one(input, &could, choices)
    });
    let run: Vec<House> = run.into_iter().collect::<Result<_, _>>()?;
    let (weights, agreed) = weighed(&run, &entered, asked.told.as_ref());
    let scores: Vec<Vec<f64>> = (0..inputs.len())
        .map(|d| (0..run.len()).map(|i| score(i, d)).collect())
        .collect();
    let sums = Sums {
        inputs: &inputs,
        scores: &scores,
        weights: &weights,
    };
    let losses: Vec<f64> = run.iter().map(|h| h.loss_w_per_k).collect();
    let loads: Option<Vec<f64>> = run.iter().map(|h| h.load_w).collect();
    let house = HouseBands {
        loss_w_per_k: sums.band(entered.loss_w_per_k, &losses),
        matters: sums.matters(loads.as_ref().unwrap_or(&losses)),
        load_w: loads
            .zip(entered.load_w)
            .map(|(all, as_entered)| sums.band(as_entered, &all)),
    };
    let choices = choices
        .iter()
        .enumerate()
        .map(|(c, choice)| {
            (
                choice.name.clone(),
                sums.choice(&choice.name, c, &entered, &run),
            )
        })
        .collect();
    Ok(Bands {
        samples: asked.samples,
        seed: asked.seed,
        inputs,
        house,
        choices,
        agreed,
    })
}

/// Only the sheets that the choices use, so that little is copied for each house.
fn only_used(all: &Catalogue, choices: &[Choice]) -> Catalogue {
    let mut used = Catalogue::new();
    for e in choices.iter().map(|c| &c.equipment) {
        for name in e
            .outdoors
            .iter()
            .map(|o| &o.unit)
            .chain(e.heads.iter().map(|h| &h.unit))
        {
            if let Some(sheet) = all.get(name) {
                used.insert(name.clone(), sheet.clone());
            }
        }
    }
    used
}

fn one(input: &Input<'_>, could: &Could, choices: &[Choice]) -> Result<House, SeasonError> {
    let nothing = Choice {
        name: String::new(),
        equipment: jobfile::Equipment::default(),
    };
    let with = |choice| Input {
        job: &could.job,
        model: &could.model,
        glasses: &could.glasses,
        catalogue: &could.catalogue,
        choice,
        ..*input
    };
    // What heats now shows the house's own line; without a heater the first choice that runs.
    let now = baseline(&with(&nothing))?;
    let years: Vec<Result<Year, SeasonError>> = choices.iter().map(|c| year(&with(c))).collect();
    let shows = now
        .as_ref()
        .or_else(|| years.iter().find_map(|y| y.as_ref().ok()));
    let design = Design::of(input.job, input.weather);
    let line = shows.and_then(|y| {
        let heat: Vec<f64> = y
            .heads_w
            .iter()
            .zip(&y.heaters_w)
            .map(|(a, b)| a + b)
            .collect();
        line_of_days(&y.outdoor_c, &heat)
    });
    Ok(House {
        loss_w_per_k: line.map_or(f64::NAN, |(loss, _)| loss),
        balance_c: line.map(|(_, c)| c),
        load_w: shows.and_then(|y| Some(y.need?.at(design?.outdoor_c))),
        came: years.into_iter().map(|y| y.map(|y| Came::of(&y))).collect(),
    })
}

impl Came {
    fn of(year: &Year) -> Self {
        let served = || year.rooms.iter().filter(|r| r.heads > 0 && r.heated);
        let short = served().map(|r| r.short_1k_h).max().unwrap_or(0);
        let by_heaters: f64 = served().map(|r| r.by_heaters_j).sum();
        let by_heads: f64 = served().map(|r| r.by_heads_j).sum();
        let heated = year.rooms.iter().filter(|r| r.heated);
        Self {
            carries: short <= SHORT_H && by_heaters <= BY_HEATERS * (by_heaters + by_heads),
            short_h: f64::from(short),
            cycling_h: f64::from(year.hours_in(crate::Regime::Cycling)),
            cop: year.seasonal_cop(),
            cost: year.cost(),
            heads_share: year.heads_share(),
            least_c: heated.map(|r| r.least_c).fold(f64::INFINITY, f64::min),
        }
    }
}

fn weighed(run: &[House], entered: &House, told: Option<&Told>) -> (Vec<f64>, Option<Agreed>) {
    let even = vec![1.0; run.len()];
    let Some(told) = told else {
        return (even, None);
    };
    let weights: Vec<f64> = run
        .iter()
        .map(|h| weight(told, h.loss_w_per_k, h.balance_c))
        .collect();
    let effective = effective(&weights);
    let losses: Vec<f64> = run.iter().map(|h| h.loss_w_per_k).collect();
    let enough = effective >= FEWEST;
    let agreed = Agreed {
        effective,
        verdict: if enough {
            Verdict::Holds
        } else {
            Verdict::CannotTell
        },
        survey_w_per_k: band_of(entered.loss_w_per_k, &losses, &even),
    };
    (if enough { weights } else { even }, Some(agreed))
}

struct Sums<'s> {
    inputs: &'s [Uncertain],
    scores: &'s [Vec<f64>],
    weights: &'s [f64],
}

impl Sums<'_> {
    fn band(&self, as_entered: f64, all: &[f64]) -> Band {
        band_of(as_entered, all, self.weights)
    }

    fn choice(
        &self,
        name: &str,
        at: usize,
        entered: &House,
        run: &[House],
    ) -> Result<ChoiceBands, SeasonError> {
        let of = |h: &House| h.came.get(at).cloned().unwrap_or(Ok(Came::default()));
        let base = of(entered)?;
        let all: Vec<Came> = run.iter().map(of).collect::<Result<_, _>>()?;
        let band = |pick: fn(&Came) -> f64| {
            let values: Vec<f64> = all.iter().map(pick).collect();
            self.band(pick(&base), &values)
        };
        let maybe = |pick: fn(&Came) -> Option<f64>| {
            let values: Vec<f64> = all.iter().map(pick).collect::<Option<_>>()?;
            Some(self.band(pick(&base)?, &values))
        };
        let sum: f64 = self.weights.iter().sum();
        let carried: f64 = all
            .iter()
            .zip(self.weights)
            .filter(|(c, _)| c.carries)
            .map(|(_, w)| w)
            .sum();
        let costs: Option<Vec<f64>> = all.iter().map(|c| c.cost).collect();
        Ok(ChoiceBands {
            name: name.to_owned(),
            carries: if sum > 0.0 { carried / sum } else { 0.0 },
            carries_as_entered: base.carries,
            short_h: band(|c| c.short_h),
            cycling_h: band(|c| c.cycling_h),
            cop: maybe(|c| c.cop),
            cost: maybe(|c| c.cost),
            heads_share: maybe(|c| c.heads_share),
            least_c: band(|c| c.least_c),
            cost_matters: costs.map_or_else(Vec::new, |c| self.matters(&c)),
        })
    }

    /// Share of the variance of a result that goes with each input.
    ///
    /// **Equation** r^2 of the input's normal score and the result, weighted
    ///
    /// **Symbols** r: correlation
    ///
    /// **Range** at least three houses
    ///
    /// **Source** `common-practice`: squared correlation
    ///
    /// **Example** a result that follows one input alone: 1 for it, 0 for the rest
    fn matters(&self, result: &[f64]) -> Vec<Matters> {
        let mut all: Vec<Matters> = self
            .inputs
            .iter()
            .zip(self.scores)
            .map(|(input, z)| Matters {
                name: input.name.clone(),
                share: squared_correlation(z, result, self.weights),
            })
            .collect();
        all.sort_by(|a, b| b.share.total_cmp(&a.share));
        all
    }
}

fn squared_correlation(x: &[f64], y: &[f64], w: &[f64]) -> f64 {
    let sum: f64 = w.iter().sum();
    let mean = |v: &[f64]| v.iter().zip(w).map(|(v, w)| v * w).sum::<f64>() / sum;
    let (mx, my) = (mean(x), mean(y));
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for ((x, y), w) in x.iter().zip(y).zip(w) {
        xx += w * (x - mx) * (x - mx);
        xy += w * (x - mx) * (y - my);
        yy += w * (y - my) * (y - my);
    }
    if xx > 0.0 && yy > 0.0 {
        xy * xy / (xx * yy)
    } else {
        0.0
    }
}

/// Band of weighted values.
///
/// **Equation** the value at which the summed weight of the lesser ones, and half its own, reaches
/// 0.1, 0.5, 0.9 of all; straight between two
///
/// **Symbols** weights from 0 up
///
/// **Range** at least one value
///
/// **Source** `common-practice`: quantiles of weighted samples
///
/// **Example** 0 to 100 in steps of 1, even weights: 10, 50, 90 to within half a step
fn band_of(as_entered: f64, values: &[f64], weights: &[f64]) -> Band {
    let mut sorted: Vec<(f64, f64)> = values
        .iter()
        .copied()
        .zip(weights.iter().copied())
        .filter(|(v, _)| !v.is_nan())
        .collect();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let all: f64 = sorted.iter().map(|(_, w)| w).sum();
    let at = |part: f64| {
        let mut before: Option<(f64, f64)> = None;
        let mut sum = 0.0;
        for (v, w) in &sorted {
            let middle = (sum + 0.5 * w) / all;
            if middle >= part {
                return match before {
                    Some((p, b)) if middle > p => b + (part - p) / (middle - p) * (v - b),
                    _ => *v,
                };
            }
            before = Some((middle, *v));
            sum += w;
        }
        before.map_or(f64::NAN, |(_, v)| v)
    };
    Band {
        as_entered,
        low: at(0.1),
        middle: at(0.5),
        high: at(0.9),
    }
}

#[cfg(test)]
mod tests {
    use super::{band_of, squared_correlation};

    #[test]
    fn quantiles() {
        let values: Vec<f64> = (0..=100).rev().map(f64::from).collect();
        let band = band_of(0.0, &values, &[1.0; 101]);
        // Half a step of 1 either way, by where the weight of a value sits.
        assert!(
            (band.low - 10.0).abs() <= 0.5 && (band.high - 90.0).abs() <= 0.5,
            "{band:?}"
        );
        assert!((band.middle - 50.0).abs() < 1e-9);
        // All weight on one value.
        let band = band_of(0.0, &[1.0, 2.0, 3.0], &[0.0, 1.0, 0.0]);
        assert!((band.middle - 2.0).abs() < 1e-12, "{band:?}");
    }

    #[test]
    fn correlation() {
        let x: Vec<f64> = (0..50).map(f64::from).collect();
        let y: Vec<f64> = x.iter().map(|x| 3.0 - 2.0 * x).collect();
        assert!((squared_correlation(&x, &y, &[1.0; 50]) - 1.0).abs() < 1e-12);
        assert_eq!(squared_correlation(&x, &[7.0; 50], &[1.0; 50]), 0.0);
    }
}
