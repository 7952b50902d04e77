//! Runs the houses that could be, and sums them up.

use jobfile::Choice;
use reckon::Verdict;

use super::sequence::{Sequence, normal_score};
use super::sums::{Sums, band_of};
use super::told::{FEWEST, Told, effective, line_of_days, weight};
use super::uncertain::{Could, Uncertain, uncertain};
use crate::compare::{baseline, year_to_weigh};
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
pub(super) struct Came {
    pub carries: bool,
    pub short_h: f64,
    pub cycling_h: f64,
    pub cop: Option<f64>,
    pub cost: Option<f64>,
    pub heads_share: Option<f64>,
    pub least_c: f64,
}

/// One house with all choices.
pub(super) struct House {
    pub loss_w_per_k: f64,
    pub balance_c: Option<f64>,
    pub load_w: Option<f64>,
    pub came: Vec<Result<Came, SeasonError>>,
}

/// Bands of the choices; `input.choice` is not looked at.
///
/// # Errors
/// A house that cannot be set up.
pub fn bands(input: &Input<'_>, choices: &[Choice], asked: &Asked) -> Result<Bands, SeasonError> {
    bands_while(input, choices, asked, &|| true)
}

/// As [`bands`], asking before each house whether somebody still waits for the answer.
///
/// # Errors
/// A house that cannot be set up; given up on the way.
pub fn bands_while(
    input: &Input<'_>,
    choices: &[Choice],
    asked: &Asked,
    go_on: &(dyn Fn() -> bool + Sync),
) -> Result<Bands, SeasonError> {
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
        if !go_on() {
            return Err(SeasonError::GivenUp);
        }
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
    let years = choices.iter().map(|c| year_to_weigh(&with(c)));
    let years: Vec<Result<Year, SeasonError>> = years.collect();
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
