//! From the houses that were run to bands.

use super::run::{Band, Came, ChoiceBands, House, Matters};
use super::uncertain::Uncertain;
use crate::error::SeasonError;

/// What the houses are summed with.
pub(super) struct Sums<'s> {
    pub inputs: &'s [Uncertain],
    pub scores: &'s [Vec<f64>],
    pub weights: &'s [f64],
}

impl Sums<'_> {
    pub fn band(&self, as_entered: f64, all: &[f64]) -> Band {
        band_of(as_entered, all, self.weights)
    }

    pub fn choice(
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
    pub fn matters(&self, result: &[f64]) -> Vec<Matters> {
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
pub(super) fn band_of(as_entered: f64, values: &[f64], weights: &[f64]) -> Band {
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
