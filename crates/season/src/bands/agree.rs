//! Which of the houses that could be agree with the bills, and how much each counts.

use reckon::Verdict;

use super::run::{Asked, Band, Shows};
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
    /// Houses that count in full.
    pub effective: f64,
    /// Holds where enough do; cannot tell where survey and bills lie too far apart.
    pub verdict: Verdict,
    /// Heat loss of the houses as the survey alone has them, W/K.
    pub survey_w_per_k: Band,
}

/// The houses that count.
pub(super) struct Agreeing {
    pub looked_at: usize,
    /// Which, and how much each counts.
    pub count: Vec<(usize, f64)>,
    pub agreed: Option<Agreed>,
}

/// Looks for houses that agree with the bills. It takes only what heats now, a year each, to see
/// whether a house does; where too few do, up to [`MOST_TIMES`] as many are looked at as were asked
/// for. The choices are then run in those that count. Without bills, or with none that enough
/// houses agree with, all that were asked for count the same.
pub(super) fn agreeing(
    entered: &Shows,
    asked: &Asked,
    alone: &(dyn Fn(usize) -> Result<Shows, SeasonError> + Sync),
) -> Result<Agreeing, SeasonError> {
    let even = |n: usize| (0..n).map(|i| (i, 1.0)).collect();
    let Some(told) = &asked.told else {
        return Ok(Agreeing {
            looked_at: asked.samples,
            count: even(asked.samples),
            agreed: None,
        });
    };
    let mut seen: Vec<Shows> = Vec::new();
    let mut weights: Vec<f64> = Vec::new();
    let mut most = asked.samples;
    loop {
        let from = seen.len();
        let more = each(asked.threads, most - from, |k| alone(from + k));
        for shows in more {
            let shows = shows?;
            weights.push(weight(told, shows.loss_w_per_k, shows.balance_c));
            seen.push(shows);
        }
        if effective(&weights) >= FEWEST || most >= MOST_TIMES * asked.samples {
            break;
        }
        most *= 2;
    }
    let effective = effective(&weights);
    let enough = effective >= FEWEST;
    let losses: Vec<f64> = seen.iter().map(|s| s.loss_w_per_k).collect();
    let flat = vec![1.0; losses.len()];
    let agreed = Agreed {
        effective,
        verdict: if enough {
            Verdict::Holds
        } else {
            Verdict::CannotTell
        },
        survey_w_per_k: band_of(entered.loss_w_per_k, &losses, &flat),
    };
    let greatest = weights.iter().copied().fold(0.0, f64::max);
    let count = if enough {
        let all = weights.into_iter().enumerate();
        all.filter(|(_, w)| *w >= COUNTS * greatest).collect()
    } else {
        even(asked.samples)
    };
    Ok(Agreeing {
        looked_at: seen.len(),
        count,
        agreed: Some(agreed),
    })
}
