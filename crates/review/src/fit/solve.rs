//! Weighted least squares of bills at given balance points, in closed form.

use super::candidates::Grid;
use super::{Kind, Observation};

/// Mean over days of how far they lie beyond a balance point; sign 1 below it, -1 above.
pub(crate) fn degree_days(days_c: &[f64], balance_c: f64, sign: f64) -> f64 {
    let sum: f64 = days_c
        .iter()
        .map(|t| (sign * (balance_c - t)).max(0.0))
        .sum();
    sum / days_c.len() as f64
}

/// Bills made ready: weights, use, and the sums that no balance point changes.
pub(crate) struct Set<'a> {
    bills: &'a [Observation],
    weight: f64,
    mean_w: f64,
    /// Weighted sum of squares about the mean.
    spread: f64,
}

/// A column of degree days.
pub(crate) struct Column {
    pub balance_c: f64,
    values: Vec<f64>,
    mean: f64,
    /// Degree days in all, K d.
    pub sum_k_d: f64,
}

impl<'a> Set<'a> {
    pub fn new(bills: &'a [Observation]) -> Self {
        let weight: f64 = bills.iter().map(Observation::days).sum();
        let mean_w = bills.iter().map(|o| o.days() * o.power_w).sum::<f64>() / weight;
        let spread = bills
            .iter()
            .map(|o| o.days() * (o.power_w - mean_w) * (o.power_w - mean_w))
            .sum();
        Self {
            bills,
            weight,
            mean_w,
            spread,
        }
    }

    pub fn mean_w(&self) -> f64 {
        self.mean_w
    }

    pub fn r2(&self, ssr: f64) -> f64 {
        if self.spread > 0.0 {
            1.0 - ssr / self.spread
        } else {
            0.0
        }
    }

    /// R2 less what more slopes would give by chance; balance points are not counted, as in the
    /// reference method.
    pub fn adjusted_r2(&self, ssr: f64, kind: Kind) -> f64 {
        let n = self.bills.len() as f64;
        let slopes = f64::from(u8::from(kind.heats()) + u8::from(kind.cools()));
        1.0 - (1.0 - self.r2(ssr)) * (n - 1.0) / (n - slopes - 1.0)
    }

    pub fn column(&self, balance_c: f64, sign: f64) -> Column {
        let values: Vec<f64> = self
            .bills
            .iter()
            .map(|o| degree_days(&o.days_c, balance_c, sign))
            .collect();
        let sum_k_d: f64 = values
            .iter()
            .zip(self.bills)
            .map(|(v, o)| v * o.days())
            .sum();
        Column {
            balance_c,
            values,
            mean: sum_k_d / self.weight,
            sum_k_d,
        }
    }

    /// Fits with one, two or no column; `None` where the columns do not tell apart.
    pub fn solve(&self, heating: Option<&Column>, cooling: Option<&Column>) -> Option<Grid> {
        let at = |c: Option<&Column>, i: usize| {
            c.map_or(0.0, |c| c.values.get(i).copied().unwrap_or(0.0) - c.mean)
        };
        let (mut s11, mut s12, mut s22, mut r1, mut r2) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (i, o) in self.bills.iter().enumerate() {
            let (x1, x2, w) = (at(heating, i), at(cooling, i), o.days());
            let y = o.power_w - self.mean_w;
            s11 += w * x1 * x1;
            s12 += w * x1 * x2;
            s22 += w * x2 * x2;
            r1 += w * x1 * y;
            r2 += w * x2 * y;
        }
        let (inverse, slopes) = match (heating.is_some(), cooling.is_some()) {
            (false, false) => ([0.0; 3], [0.0; 2]),
            (true, false) if s11 > 1e-9 => ([1.0 / s11, 0.0, 0.0], [r1 / s11, 0.0]),
            (false, true) if s22 > 1e-9 => ([0.0, 0.0, 1.0 / s22], [0.0, r2 / s22]),
            (true, true) => {
                let det = s11 * s22 - s12 * s12;
                if det.is_nan() || det <= 1e-9 * s11 * s22 {
                    return None;
                }
                (
                    [s22 / det, -s12 / det, s11 / det],
                    [(s22 * r1 - s12 * r2) / det, (s11 * r2 - s12 * r1) / det],
                )
            }
            _ => return None,
        };
        let mut ssr = 0.0;
        for (i, o) in self.bills.iter().enumerate() {
            let r =
                o.power_w - self.mean_w - slopes[0] * at(heating, i) - slopes[1] * at(cooling, i);
            ssr += o.days() * r * r;
        }
        Some(Grid {
            heating_c: heating.map(|c| c.balance_c),
            cooling_c: cooling.map(|c| c.balance_c),
            means: [
                heating.map_or(0.0, |c| c.mean),
                cooling.map_or(0.0, |c| c.mean),
            ],
            mean_w: self.mean_w,
            weight: self.weight,
            inverse,
            slopes,
            ssr,
        })
    }

    /// Sums over bills: energy, residual of energy, its square; days times W.
    pub fn energies(&self, g: &Grid) -> (f64, f64, f64) {
        let (mut e, mut r, mut r2) = (0.0, 0.0, 0.0);
        for o in self.bills {
            let of = |t: Option<f64>, slope: f64, sign: f64| {
                t.map_or(0.0, |t| slope * degree_days(&o.days_c, t, sign))
            };
            let fitted =
                g.base() + of(g.heating_c, g.slopes[0], 1.0) + of(g.cooling_c, g.slopes[1], -1.0);
            let left = (o.power_w - fitted) * o.days();
            e += o.power_w * o.days();
            r += left;
            r2 += left * left;
        }
        (e, r, r2)
    }
}
