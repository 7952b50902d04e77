//! How much the usual error of a quantity is off because bills scatter unevenly: winter bills,
//! being large, scatter more.

use super::candidates::Grid;
use super::{Kind, Observation};

/// Parameters at most: base, two slopes, two balance points.
const MOST: usize = 5;
type Square = [[f64; MOST]; MOST];

/// Usual and heteroscedasticity-consistent covariances of the parameters.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Uneven {
    kind: Kind,
    usual: Square,
    robust: Square,
}

/// Share of days beyond a balance point: how fast degree days grow with it.
fn share(days_c: &[f64], balance_c: f64, sign: f64) -> f64 {
    let beyond = days_c
        .iter()
        .filter(|t| sign * (balance_c - **t) > 0.0)
        .count();
    beyond as f64 / days_c.len() as f64
}

fn row(o: &Observation, g: &Grid) -> [f64; MOST] {
    let mut x = [1.0, 0.0, 0.0, 0.0, 0.0];
    if let Some(t) = g.heating_c {
        x[1] = super::solve::degree_days(&o.days_c, t, 1.0);
        x[3] = g.slopes[0] * share(&o.days_c, t, 1.0);
    }
    if let Some(t) = g.cooling_c {
        x[2] = super::solve::degree_days(&o.days_c, t, -1.0);
        x[4] = -g.slopes[1] * share(&o.days_c, t, -1.0);
    }
    x
}

impl Uneven {
    /// Covariances at the best fit; `None` where the parameters do not tell apart there.
    ///
    /// **Equation** usual: `s2 (J' W J)^-1`; uneven: `A (sum w2 r2 / (1 - h)2 J J') A`,
    /// A = (J' W J)^-1
    ///
    /// **Symbols**
    /// - J: derivatives of the fitted use by the parameters; W: days; r: residuals
    /// - h: leverage of a bill; s2: mean square of residuals, parameters counted
    ///
    /// **Range** more bills than parameters; a leverage past 0.9 counts as 0.9
    ///
    /// **Source** `mackinnon-white-1985`, HC3
    ///
    /// **Example** even scatter gives both alike
    pub fn new(bills: &[Observation], g: &Grid, kind: Kind) -> Option<Self> {
        let p = kind.parameters();
        let uses: [bool; MOST] = [true, kind.heats(), kind.cools(), kind.heats(), kind.cools()];
        let mut normal = Square::default();
        let rows: Vec<[f64; MOST]> = bills.iter().map(|o| row(o, g)).collect();
        for (o, x) in bills.iter().zip(&rows) {
            add(&mut normal, x, o.days());
        }
        // what the model has not is pinned
        for i in 0..MOST {
            if !uses[i] {
                normal[i] = [0.0; MOST];
                normal[i][i] = 1.0;
            }
        }
        let a = inverse(normal)?;
        let freedom = bills.len().checked_sub(p).filter(|f| *f > 0)? as f64;
        let mut meat = Square::default();
        let mut ssr = 0.0;
        for (o, x) in bills.iter().zip(&rows) {
            let fitted = g.base() + g.slopes[0] * x[1] + g.slopes[1] * x[2];
            let r = o.power_w - fitted;
            ssr += o.days() * r * r;
            let h = (o.days() * form(&a, x, x)).min(MOST_LEVERAGE);
            let e = o.days() * r / (1.0 - h);
            add(&mut meat, x, e * e);
        }
        let mut usual = a;
        for v in usual.iter_mut().flatten() {
            *v *= ssr / freedom;
        }
        Some(Self {
            kind,
            usual,
            robust: times(&times(&a, &meat), &a),
        })
    }

    /// Uneven over usual standard error of a quantity with these derivatives by base, heating
    /// slope, cooling slope, heating balance point, cooling balance point.
    pub fn stretch(&self, by: [f64; MOST]) -> f64 {
        let mut by = by;
        if !self.kind.heats() {
            (by[1], by[3]) = (0.0, 0.0);
        }
        if !self.kind.cools() {
            (by[2], by[4]) = (0.0, 0.0);
        }
        let (usual, uneven) = (form(&self.usual, &by, &by), form(&self.robust, &by, &by));
        if usual > 0.0 && uneven.is_finite() {
            (uneven / usual).sqrt()
        } else {
            1.0
        }
    }
}

const MOST_LEVERAGE: f64 = 0.9;

fn add(to: &mut Square, x: &[f64; MOST], weight: f64) {
    for i in 0..MOST {
        for j in 0..MOST {
            to[i][j] += weight * x[i] * x[j];
        }
    }
}

fn form(m: &Square, a: &[f64; MOST], b: &[f64; MOST]) -> f64 {
    let mut sum = 0.0;
    for i in 0..MOST {
        for j in 0..MOST {
            sum += a[i] * m[i][j] * b[j];
        }
    }
    sum
}

fn times(a: &Square, b: &Square) -> Square {
    let mut out = Square::default();
    for i in 0..MOST {
        for j in 0..MOST {
            for k in 0..MOST {
                out[i][j] += a[i][k] * b[k][j];
            }
        }
    }
    out
}

/// Inverse by elimination with the largest pivot; `None` where a pivot is nothing beside the
/// diagonal it came from.
fn inverse(m: Square) -> Option<Square> {
    let mut a = m;
    let mut out = Square::default();
    for (i, row) in out.iter_mut().enumerate() {
        row[i] = 1.0;
    }
    let size: Vec<f64> = (0..MOST).map(|i| m[i][i].abs()).collect();
    for c in 0..MOST {
        let pivot = (c..MOST).max_by(|x, y| a[*x][c].abs().total_cmp(&a[*y][c].abs()))?;
        if a[pivot][c].is_nan() || a[pivot][c].abs() <= 1e-10 * size[c] {
            return None;
        }
        a.swap(c, pivot);
        out.swap(c, pivot);
        let d = a[c][c];
        for j in 0..MOST {
            a[c][j] /= d;
            out[c][j] /= d;
        }
        for r in 0..MOST {
            if r == c {
                continue;
            }
            let f = a[r][c];
            for j in 0..MOST {
                a[r][j] -= f * a[c][j];
                out[r][j] -= f * out[c][j];
            }
        }
    }
    Some(out)
}
