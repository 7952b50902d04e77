//! Which curve the rise follows: level, straight, flattening, or both.

use serde::Serialize;

/// Cause of a rise by its shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// Level within the doubt of the gauge.
    Neither,
    /// Straight.
    Straight,
    /// Flattening toward a level.
    Moisture,
    /// Flattening onto a straight rise.
    Both,
}

/// One shape fitted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Fit {
    /// Which.
    pub cause: Cause,
    /// Pressure at the first reading, Pa.
    pub start_pa: f64,
    /// Straight part, Pa/s.
    pub slope_pa_per_s: f64,
    /// Height of the flattening part, Pa.
    pub flatten_pa: f64,
    /// Its time constant, s.
    pub time_s: f64,
    /// Sum of squared weighted residuals.
    pub chi2: f64,
    /// Weight among the four shapes, 0 to 1.
    pub weight: f64,
}

impl Fit {
    /// Pressure at a time after the first reading, Pa.
    pub fn at(&self, t_s: f64) -> f64 {
        self.start_pa + self.slope_pa_per_s * t_s + self.flatten_pa * flattening(t_s, self.time_s)
    }
}

/// All shapes of a rise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Rise {
    /// The fits: neither, straight, moisture, both.
    pub fits: [Fit; 4],
    /// The shape, where the readings tell one.
    pub cause: Option<Cause>,
}

impl Rise {
    /// The fit of the shape that is told, or the one with the most weight.
    pub fn best(&self) -> &Fit {
        let [a, b, c, d] = &self.fits;
        if let Some(told) = self.fits.iter().find(|f| Some(f.cause) == self.cause) {
            return told;
        }
        [b, c, d]
            .into_iter()
            .fold(a, |best, f| if f.weight > best.weight { f } else { best })
    }
}

fn flattening(t: f64, tau: f64) -> f64 {
    if tau > 0.0 {
        1.0 - libm::exp(-t / tau)
    } else {
        0.0
    }
}

/// Weighted least squares of up to three columns; `None` where they are not independent.
fn solve(rows: &[([f64; 3], f64, f64)], cols: &[usize]) -> Option<([f64; 3], f64)> {
    let n = cols.len();
    let mut a = [[0.0_f64; 4]; 3];
    for (x, y, w) in rows {
        for (i, ci) in cols.iter().enumerate() {
            let xi = x.get(*ci).copied()?;
            let row = a.get_mut(i)?;
            for (j, cj) in cols.iter().enumerate() {
                *row.get_mut(j)? += w * xi * x.get(*cj).copied()?;
            }
            *row.get_mut(3)? += w * xi * y;
        }
    }
    // elimination with pivots on the diagonal: the matrix is symmetric and positive
    for k in 0..n {
        let pivot_row = *a.get(k)?;
        let pivot = *pivot_row.get(k)?;
        if pivot <= 1e-12 {
            return None;
        }
        for i in 0..n {
            if i != k {
                let row = a.get_mut(i)?;
                let f = row.get(k)? / pivot;
                for (r, p) in row.iter_mut().zip(&pivot_row) {
                    *r -= f * p;
                }
            }
        }
    }
    let mut out = [0.0; 3];
    for (k, c) in cols.iter().enumerate() {
        let row = a.get(k)?;
        *out.get_mut(*c)? = row.get(3)? / row.get(k)?;
    }
    let chi2 = rows
        .iter()
        .map(|(x, y, w)| {
            let [x0, x1, x2] = x;
            let [b0, b1, b2] = out;
            let e = y - b0 * x0 - b1 * x1 - b2 * x2;
            w * e * e
        })
        .sum();
    Some((out, chi2))
}

/// Fits the four shapes to a rise and weighs them.
///
/// # Equation
/// `p = c + q t + A (1 - exp(-t / T))`, with `q`, `A` zero or not; weight
/// `exp(-B / 2)` over their sum, `B = chi2 + k ln n`
/// # Symbols
/// `t` seconds after the first reading; `p`, `c`, `A` Pa; `q` Pa/s, `A` and `q` not negative; `T`
/// s; `chi2` sum of squared residuals over the scatter of the gauge; `k` number of constants, `n`
/// of readings.
/// # Range
/// Five readings or more. `T` from 1/50 to 1.5 of the length: a slower flattening cannot be told
/// from a straight line.
/// # Source
/// `common-practice`: least squares and the Bayesian information criterion for the weights. A
/// shape is told when the simpler one is worse by 10 in chi2, and straight and flattening differ
/// by 6.
/// # Example
/// ```
/// use startup::vacuum::{Cause, rise};
/// let straight: Vec<_> = (0..20).map(|i| (f64::from(i) * 30.0, 40.0 + f64::from(i), 0.2)).collect();
/// assert_eq!(rise(&straight).unwrap().cause, Some(Cause::Straight));
/// ```
pub fn rise(points: &[(f64, f64, f64)]) -> Option<Rise> {
    if points.len() < 5 {
        return None;
    }
    let t0 = points.first()?.0;
    let length = points.last()?.0 - t0;
    if length <= 0.0 {
        return None;
    }
    let rows = |tau: f64| -> Vec<([f64; 3], f64, f64)> {
        points
            .iter()
            .map(|(t, p, s)| {
                (
                    [1.0, (t - t0) / length, flattening(t - t0, tau)],
                    *p,
                    1.0 / (s * s),
                )
            })
            .collect()
    };
    let fit = |cause: Cause, cols: &[usize], tau: f64| -> Option<Fit> {
        let ([c, q, a], chi2) = solve(&rows(tau), cols)?;
        (q >= 0.0 && a >= 0.0).then_some(Fit {
            cause,
            start_pa: c,
            slope_pa_per_s: q / length,
            flatten_pa: a,
            time_s: if cols.contains(&2) { tau } else { 0.0 },
            chi2,
            weight: 0.0,
        })
    };
    let level = fit(Cause::Neither, &[0], 1.0)?;
    let flat = |cause| Fit { cause, ..level };
    let search = |cause: Cause, cols: &[usize]| -> Option<Fit> {
        let mut best: Option<Fit> = None;
        let steps = 60;
        for i in 0..=steps {
            let tau = length / 50.0 * libm::pow(75.0, f64::from(i) / f64::from(steps));
            if let Some(f) = fit(cause, cols, tau)
                && best.is_none_or(|b| f.chi2 < b.chi2)
            {
                best = Some(f);
            }
        }
        best
    };
    let mut fits = [
        level,
        fit(Cause::Straight, &[0, 1], 1.0).unwrap_or(flat(Cause::Straight)),
        search(Cause::Moisture, &[0, 2]).unwrap_or(flat(Cause::Moisture)),
        search(Cause::Both, &[0, 1, 2]).unwrap_or(flat(Cause::Both)),
    ];
    let n = libm::log(points.len() as f64);
    let constants = [1.0, 2.0, 3.0, 4.0];
    let b = |f: &Fit, k: f64| f.chi2 + k * n;
    let least = fits
        .iter()
        .zip(constants)
        .map(|(f, k)| b(f, k))
        .fold(f64::INFINITY, f64::min);
    let mut sum = 0.0;
    for (f, k) in fits.iter_mut().zip(constants) {
        f.weight = libm::exp(-0.5 * (b(f, k) - least));
        sum += f.weight;
    }
    for f in &mut fits {
        f.weight /= sum;
    }
    let cause = told(&fits);
    Some(Rise { fits, cause })
}

/// A fall of chi2 that earns one more constant: three standard deviations.
const EARNS: f64 = 10.0;
/// Straight and flattening must differ by so much to be told apart.
const APART: f64 = 6.0;

/// The simplest shape that is not refused by the readings; `None` where two do equally well.
fn told(fits: &[Fit; 4]) -> Option<Cause> {
    let [level, straight, moisture, both] = fits;
    let one = straight.chi2.min(moisture.chi2);
    if level.chi2 - one.min(both.chi2) < EARNS {
        return Some(Cause::Neither);
    }
    if one - both.chi2 > EARNS {
        return Some(Cause::Both);
    }
    if straight.chi2 - moisture.chi2 >= APART {
        return Some(Cause::Moisture);
    }
    (moisture.chi2 - straight.chi2 >= APART).then_some(Cause::Straight)
}
