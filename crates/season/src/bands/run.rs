//! Runs the houses that could be, and sums them up.

use std::sync::atomic::{AtomicUsize, Ordering};

use jobfile::Choice;

use super::agree::{Agreed, agreeing};
use super::sequence::{Sequence, normal_score};
use super::sums::Sums;
use super::told::Told;
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
    /// Houses to look at.
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

/// Heat loss, W/K, and balance point, C, that bills would show of a year: from its outdoor air, C, and
/// its heat, W, by hour. It must be how the bills are read, or the two cannot be held together.
pub type LineOf = dyn Fn(&[f64], &[f64]) -> Option<(f64, f64)> + Sync;

/// How far it is.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Way {
    /// Houses run with what heats now.
    pub looked_at: usize,
    /// Of these, houses run with every choice.
    pub finished: usize,
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
    /// Houses behind the bands.
    pub samples: usize,
    /// Houses asked for: more are looked at where too few of these agree with the bills.
    pub asked: usize,
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

/// What a house shows of itself, whatever heats it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shows {
    pub loss_w_per_k: f64,
    pub balance_c: Option<f64>,
    pub load_w: Option<f64>,
}

/// One house.
#[derive(Clone)]
pub(super) struct House {
    pub shows: Shows,
    /// How each choice came out; empty while only what heats now was run.
    pub came: Vec<Result<Came, SeasonError>>,
}

/// Bands of the choices; `input.choice` is not looked at.
///
/// # Errors
/// A house that cannot be set up.
pub fn bands(
    input: &Input<'_>,
    choices: &[Choice],
    asked: &Asked,
    line: &LineOf,
) -> Result<Bands, SeasonError> {
    bands_while(input, choices, asked, line, &|_| true)
}

/// As [`bands`], asking before each house and at the end whether somebody still waits for the
/// answer, and telling how far it is.
///
/// # Errors
/// A house that cannot be set up; given up on the way.
pub fn bands_while(
    input: &Input<'_>,
    choices: &[Choice],
    asked: &Asked,
    line: &LineOf,
    go_on: &(dyn Fn(Way) -> bool + Sync),
) -> Result<Bands, SeasonError> {
    let inputs = uncertain(input.job, input.model);
    let points = Sequence::new(inputs.len(), asked.seed);
    let start = Could {
        job: input.job.clone(),
        model: input.model.clone(),
        glasses: input.glasses.to_vec(),
        catalogue: only_used(input.catalogue, choices),
    };
    let entered = House::begun(input, &start, choices, line)?.finished(input, &start, choices);
    let score = |i: usize, d: usize| normal_score(points.at(i, d));
    let house = |i: usize| {
        let mut could = start.clone();
        for (d, of) in inputs.iter().enumerate() {
            could.set(&of.what, of.at(score(i, d)));
        }
        could
    };
    let (looked_at, finished) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let waited_for = || {
        let way = Way {
            looked_at: looked_at.load(Ordering::Relaxed),
            finished: finished.load(Ordering::Relaxed),
        };
        if go_on(way) {
            Ok(())
        } else {
            Err(SeasonError::GivenUp)
        }
    };
    let found = agreeing(&entered.shows, asked, &|i| {
        waited_for()?;
        let begun = House::begun(input, &house(i), choices, line);
        looked_at.fetch_add(1, Ordering::Relaxed);
        begun
    })?;
    let run = each(
        asked.threads,
        found.count.len(),
        |k| -> Result<House, SeasonError> {
            waited_for()?;
            let (i, _, begun) = &found.count[k];
            let house = begun.clone().finished(input, &house(*i), choices);
            finished.fetch_add(1, Ordering::Relaxed);
            Ok(house)
        },
    );
    let run: Vec<House> = run.into_iter().collect::<Result<_, _>>()?;
    // told of the last house too
    waited_for()?;
    let weights: Vec<f64> = found.count.iter().map(|(_, weight, _)| *weight).collect();
    let scores: Vec<Vec<f64>> = (0..inputs.len())
        .map(|d| found.count.iter().map(|(i, ..)| score(*i, d)).collect())
        .collect();
    let sums = Sums {
        inputs: &inputs,
        scores: &scores,
        weights: &weights,
    };
    let losses: Vec<f64> = run.iter().map(|h| h.shows.loss_w_per_k).collect();
    let loads: Option<Vec<f64>> = run.iter().map(|h| h.shows.load_w).collect();
    let house = HouseBands {
        loss_w_per_k: sums.band(entered.shows.loss_w_per_k, &losses),
        matters: sums.matters(loads.as_ref().unwrap_or(&losses)),
        load_w: loads
            .zip(entered.shows.load_w)
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
        samples: found.samples,
        asked: asked.samples,
        seed: asked.seed,
        inputs,
        house,
        choices,
        agreed: found.agreed,
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

fn with<'a>(input: &'a Input<'_>, could: &'a Could, choice: &'a Choice) -> Input<'a> {
    Input {
        job: &could.job,
        model: &could.model,
        glasses: &could.glasses,
        catalogue: &could.catalogue,
        choice,
        ..*input
    }
}

impl House {
    /// What a house shows of itself, with what heats it now. Without a heater it takes the first
    /// choice that runs, so then all are run.
    fn begun(
        input: &Input<'_>,
        could: &Could,
        choices: &[Choice],
        line: &LineOf,
    ) -> Result<Self, SeasonError> {
        let nothing = Choice {
            name: String::new(),
            equipment: jobfile::Equipment::default(),
        };
        if let Some(now) = baseline(&with(input, could, &nothing))? {
            return Ok(Self {
                shows: Shows::of(&now, input, line),
                came: Vec::new(),
            });
        }
        let years = years(input, could, choices);
        let first = years.iter().find_map(|y| y.as_ref().ok());
        Ok(Self {
            shows: first.map_or(Shows::NOTHING, |year| Shows::of(year, input, line)),
            came: came(years),
        })
    }

    /// With every choice, run where they are not yet.
    fn finished(mut self, input: &Input<'_>, could: &Could, choices: &[Choice]) -> Self {
        if self.came.is_empty() {
            self.came = came(years(input, could, choices));
        }
        self
    }
}

fn years(input: &Input<'_>, could: &Could, choices: &[Choice]) -> Vec<Result<Year, SeasonError>> {
    let run = |c| year_to_weigh(&with(input, could, c));
    choices.iter().map(run).collect()
}

fn came(years: Vec<Result<Year, SeasonError>>) -> Vec<Result<Came, SeasonError>> {
    let of = |y: Result<Year, SeasonError>| y.map(|y| Came::of(&y));
    years.into_iter().map(of).collect()
}

impl Shows {
    const NOTHING: Self = Self {
        loss_w_per_k: f64::NAN,
        balance_c: None,
        load_w: None,
    };

    fn of(year: &Year, input: &Input<'_>, line: &LineOf) -> Self {
        let design = Design::of(input.job, input.weather);
        let line = line(&year.outdoor_c, &year.heat_w());
        Self {
            loss_w_per_k: line.map_or(f64::NAN, |(loss, _)| loss),
            balance_c: line.map(|(_, c)| c),
            load_w: design.and_then(|d| Some(year.need?.at(d.outdoor_c))),
        }
    }
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
