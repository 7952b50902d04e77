//! Which of the houses that could be agree with the bills, and how much each counts.

use reckon::Verdict;

use super::run::{Asked, Band, House, Shows};
use super::sums::band_of;
use super::told::{FEWEST, effective, weight};
use crate::error::SeasonError;
use crate::hands::each;

/// So many times the houses asked for are looked at where too few agree with the bills.
const MOST_TIMES: usize = 4;
/// A house that weighs less than this part of the best does not count: a thousand such together
/// are one.
const COUNTS: f64 = 1e-3;

/// How the houses agree with the bills.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreed {
    /// Houses looked at.
    pub looked_at: usize,
    /// Houses that count in full.
    pub effective: f64,
    /// Holds where enough do; cannot tell where survey and bills lie too far apart.
    pub verdict: Verdict,
    /// Heat loss of the houses as the survey alone has them, W/K.
    pub survey_w_per_k: Band,
}

/// The houses that count.
pub(super) struct Agreeing {
    /// Houses behind the bands.
    pub samples: usize,
    /// Which count, how much, and what they showed.
    pub count: Vec<(usize, f64, House)>,
    pub agreed: Option<Agreed>,
}

/// Looks for houses that agree with the bills. It takes only what heats now, a year each, to see
/// whether a house does; where too few do, up to [`MOST_TIMES`] as many are looked at as were asked
/// for. The choices are then run in those that count. Without bills, or with none that enough
/// houses agree with, all that were asked for count the same.
pub(super) fn agreeing(
    entered: &Shows,
    asked: &Asked,
    begun: &(dyn Fn(usize) -> Result<House, SeasonError> + Sync),
) -> Result<Agreeing, SeasonError> {
    let mut seen: Vec<House> = Vec::new();
    let mut weights: Vec<f64> = Vec::new();
    let mut most = asked.samples;
    loop {
        let from = seen.len();
        for house in each(asked.threads, most - from, |k| begun(from + k)) {
            let house = house?;
            let shows = &house.shows;
            let told = asked.told.as_ref();
            weights.push(told.map_or(1.0, |t| weight(t, shows.loss_w_per_k, shows.balance_c)));
            seen.push(house);
        }
        let enough = asked.told.is_none() || effective(&weights) >= FEWEST;
        if enough || most >= MOST_TIMES * asked.samples {
            break;
        }
        most *= 2;
    }
    let agreed = asked.told.map(|_| Agreed::of(entered, &seen, &weights));
    let alone = |a: &Agreed| a.verdict == Verdict::CannotTell;
    if agreed.as_ref().is_some_and(alone) {
        seen.truncate(asked.samples);
        weights = vec![1.0; seen.len()];
    }
    let samples = seen.len();
    let least = COUNTS * weights.iter().copied().fold(0.0, f64::max);
    let all = weights.into_iter().zip(seen).enumerate();
    let count = all
        .filter(|(_, (w, _))| *w >= least)
        .map(|(i, (w, house))| (i, w, house));
    Ok(Agreeing {
        samples,
        count: count.collect(),
        agreed,
    })
}

impl Agreed {
    fn of(entered: &Shows, seen: &[House], weights: &[f64]) -> Self {
        let losses: Vec<f64> = seen.iter().map(|h| h.shows.loss_w_per_k).collect();
        let flat = vec![1.0; losses.len()];
        let effective = effective(weights);
        Self {
            looked_at: seen.len(),
            effective,
            verdict: if effective >= FEWEST {
                Verdict::Holds
            } else {
                Verdict::CannotTell
            },
            survey_w_per_k: band_of(entered.loss_w_per_k, &losses, &flat),
        }
    }
}
