//! What bills tell of the house, and how much each house that could be counts beside it.

/// Heat loss and balance point as the bills have them: mean and standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told {
    /// Heat loss, W/K.
    pub loss_w_per_k: f64,
    /// Its standard deviation, W/K.
    pub loss_sd_w_per_k: f64,
    /// Outdoor temperature under which the house is heated, and its standard deviation, C and K;
    /// None where the bills do not fix it.
    pub balance_c: Option<(f64, f64)>,
}

/// Standard deviations between the ends of a 90 % band of a normal distribution.
const NINE_IN_TEN_WIDE: f64 = 2.0 * 1.644_853_6;

impl Told {
    /// From the ends of a 90 % band of the heat loss, W/K, the lesser first.
    pub fn of_band(low_w_per_k: f64, high_w_per_k: f64) -> Self {
        Self {
            loss_w_per_k: 0.5 * (low_w_per_k + high_w_per_k),
            loss_sd_w_per_k: (high_w_per_k - low_w_per_k) / NINE_IN_TEN_WIDE,
            balance_c: None,
        }
    }
}

/// Fewest houses that must count in full for a band to be said: each end then rests on three. (With
/// 20 one heavy house moved an end of the demo's COP by a third.)
pub const FEWEST: f64 = 30.0;

/// Weight of a house that could be.
///
/// **Equation** w = exp(-((L - l) / s)^2 / 2), times the same of the balance point
///
/// **Symbols**
/// - L: heat loss of that house, W/K, read from its year as a bill would
/// - l, s: what the bills say and its standard deviation, W/K
///
/// **Range** s above 0
///
/// **Source** `common-practice`: Bayes' rule with a normal likelihood
///
/// **Example** one standard deviation apart: 0.607
pub(crate) fn weight(told: &Told, loss_w_per_k: f64, balance_c: Option<f64>) -> f64 {
    let part = |x: f64, mean: f64, sd: f64| {
        let z = (x - mean) / sd.max(1e-9);
        libm::exp(-0.5 * z * z)
    };
    let loss = part(loss_w_per_k, told.loss_w_per_k, told.loss_sd_w_per_k);
    match (told.balance_c, balance_c) {
        (Some((mean, sd)), Some(c)) => loss * part(c, mean, sd),
        _ => loss,
    }
}

/// How many houses count in full.
///
/// **Equation** n = (sum w)^2 / sum w^2
///
/// **Symbols** w: weights
///
/// **Range** weights from 0 up
///
/// **Source** `common-practice`: effective sample size of weighted samples
///
/// **Example** ten equal weights: 10
pub(crate) fn effective(weights: &[f64]) -> f64 {
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|w| w * w).sum();
    if squares > 0.0 {
        sum * sum / squares
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::{Told, effective, weight};

    #[test]
    fn weights() {
        let told = Told {
            loss_w_per_k: 200.0,
            loss_sd_w_per_k: 10.0,
            balance_c: None,
        };
        // exp(-1/2), exact but for rounding.
        assert!((weight(&told, 210.0, None) - libm::exp(-0.5)).abs() < 1e-15);
        // The ends of a 90 % band lie 1.645 standard deviations from the middle (normal tables).
        let band = Told::of_band(180.0, 220.0);
        assert_eq!(band.loss_w_per_k, 200.0);
        assert!((band.loss_sd_w_per_k - 20.0 / 1.645).abs() < 0.01);
        assert!((effective(&[0.3; 10]) - 10.0).abs() < 1e-12);
        assert!((effective(&[1.0, 0.0, 0.0]) - 1.0).abs() < 1e-12);
        assert_eq!(effective(&[]), 0.0);
    }
}
