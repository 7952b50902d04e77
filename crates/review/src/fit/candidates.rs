//! The grid of balance points: candidates, the best of a kind, and the region of a band.

use super::solve::{Column, Set};
use super::{Kind, Observation};

/// Ends of the grid, F.
const GRID_F: (i32, i32) = (30, 90);
/// Least degree days in all, F d: with fewer a slope says nothing.
const LEAST_F_D: f64 = 20.0;
/// Parts of a degree F of the fine grid.
const FINE: i32 = 4;

/// One point of the grid with its least squares.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Grid {
    pub heating_c: Option<f64>,
    pub cooling_c: Option<f64>,
    pub means: [f64; 2],
    pub mean_w: f64,
    pub weight: f64,
    /// Inverse of the centred sums of squares: 11, 12, 22.
    pub inverse: [f64; 3],
    pub slopes: [f64; 2],
    pub ssr: f64,
}

impl Grid {
    pub fn base(&self) -> f64 {
        self.mean_w - self.slopes[0] * self.means[0] - self.slopes[1] * self.means[1]
    }

    /// Value of a linear expression here, and how far it may move within the limit.
    pub fn reach(&self, terms: [f64; 3], limit: f64) -> (f64, f64) {
        let d1 = if self.heating_c.is_some() {
            terms[1] - terms[0] * self.means[0]
        } else {
            0.0
        };
        let d2 = if self.cooling_c.is_some() {
            terms[2] - terms[0] * self.means[1]
        } else {
            0.0
        };
        let centre = terms[0] * self.mean_w + d1 * self.slopes[0] + d2 * self.slopes[1];
        let [i11, i12, i22] = self.inverse;
        let variance =
            terms[0] * terms[0] / self.weight + d1 * d1 * i11 + 2.0 * d1 * d2 * i12 + d2 * d2 * i22;
        (centre, (variance * (limit - self.ssr).max(0.0)).sqrt())
    }
}

/// A candidate of the reference method: the best balance points of one kind on the grid of 1 F.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Branches.
    pub kind: Kind,
    /// Balance points, C.
    pub heating_c: Option<f64>,
    /// As above.
    pub cooling_c: Option<f64>,
    /// Base, W.
    pub base_w: f64,
    /// Slopes, W/K.
    pub slopes_w_per_k: [f64; 2],
    /// Adjusted R2.
    pub adjusted_r2: f64,
    /// Weighted sum of squares, d W2.
    pub ssr: f64,
    /// Base and slopes are not below 0.
    pub qualifies: bool,
}

fn celsius(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

/// Ends of the grid, C.
pub(super) fn ends_c() -> (f64, f64) {
    (celsius(f64::from(GRID_F.0)), celsius(f64::from(GRID_F.1)))
}

fn columns(set: &Set, sign: f64, parts: i32) -> Vec<Column> {
    (GRID_F.0 * parts..=GRID_F.1 * parts)
        .map(|f| set.column(celsius(f64::from(f) / f64::from(parts)), sign))
        .filter(|c| c.sum_k_d >= LEAST_F_D / 1.8)
        .collect()
}

/// Calls `each` with every solvable point of a kind.
fn walk(set: &Set, kind: Kind, parts: i32, mut each: impl FnMut(Grid)) {
    let heating = if kind.heats() {
        columns(set, 1.0, parts)
    } else {
        Vec::new()
    };
    let cooling = if kind.cools() {
        columns(set, -1.0, parts)
    } else {
        Vec::new()
    };
    match kind {
        Kind::Base => set.solve(None, None).into_iter().for_each(each),
        Kind::Heating => heating
            .iter()
            .filter_map(|h| set.solve(Some(h), None))
            .for_each(each),
        Kind::Cooling => cooling
            .iter()
            .filter_map(|c| set.solve(None, Some(c)))
            .for_each(each),
        Kind::Both => {
            for h in &heating {
                // heat and cold do not overlap
                for c in cooling.iter().filter(|c| c.balance_c >= h.balance_c - 1e-9) {
                    set.solve(Some(h), Some(c)).into_iter().for_each(&mut each);
                }
            }
        }
    }
}

fn qualifies(g: &Grid) -> bool {
    g.base() >= 0.0
        && (g.heating_c.is_none() || g.slopes[0] >= 0.0)
        && (g.cooling_c.is_none() || g.slopes[1] >= 0.0)
}

fn better(best: &mut Option<Grid>, g: Grid) {
    let wins = best.as_ref().is_none_or(|b| {
        let (new, old) = (qualifies(&g), qualifies(b));
        if new == old { g.ssr < b.ssr } else { new }
    });
    if wins {
        *best = Some(g);
    }
}

/// The best candidate of each kind that can be solved, on the grid of 1 F.
///
/// **Equation** weighted least squares of use a day on degree days a day, weights: days
///
/// **Symbols** as [`super::Fit`]
///
/// **Range** balance points 30 to 90 F, cooling not below heating; at least 20 F d in all
///
/// **Source** `caltrack-2`, 3.3.4 and 3.4.3; the numbers as the reference library states them
///
/// **Example** `checks/values/review_fits.csv`
pub fn candidates(observations: &[Observation], cooling: bool) -> Vec<Candidate> {
    let set = Set::new(observations);
    let kinds: &[Kind] = if cooling {
        &[Kind::Base, Kind::Heating, Kind::Cooling, Kind::Both]
    } else {
        &[Kind::Base, Kind::Heating]
    };
    let mut out = Vec::new();
    for kind in kinds {
        let mut best = None;
        walk(&set, *kind, 1, |g| better(&mut best, g));
        let Some(g) = best else { continue };
        out.push(Candidate {
            kind: *kind,
            heating_c: g.heating_c,
            cooling_c: g.cooling_c,
            base_w: g.base(),
            slopes_w_per_k: g.slopes,
            adjusted_r2: set.adjusted_r2(g.ssr, *kind),
            ssr: g.ssr,
            qualifies: qualifies(&g),
        });
    }
    out
}

/// The best point of a kind on the fine grid.
pub(super) fn best_of_kind(set: &Set, kind: Kind) -> Option<Grid> {
    let mut best = None;
    walk(set, kind, FINE, |g| better(&mut best, g));
    best
}

/// Points of the fine grid within the limit.
pub(super) fn region(set: &Set, kind: Kind, limit: f64) -> Vec<Grid> {
    let mut out = Vec::new();
    walk(set, kind, FINE, |g| {
        if g.ssr <= limit {
            out.push(g);
        }
    });
    out
}
