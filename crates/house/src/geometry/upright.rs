//! Plans turned until their walls lie along the axes, for the clipping of polygons.
//!
//! Where a house stands at an angle, a corner on a neighbour's wall lies beside it by a last digit,
//! and clipping such plans has been seen to fail. Turned, and on a grid, both are the same number.

use geo::{Area, BooleanOps, Coord, MapCoords, MultiPolygon};

/// Lines of the grid, per metre: a millionth of a metre, exact in binary.
const GRID_PER_M: f64 = 1_048_576.0;
/// A wall that leaves its axis by no more than this share of its length lies along it.
const ALONG: f64 = 1e-12;

/// How plans are turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Upright {
    /// Direction of the longest wall; None where it lies along an axis, and all stays as it is.
    along: Option<[f64; 2]>,
}

impl Upright {
    /// For the plans of a house: by its longest wall.
    pub fn of<'p>(plans: impl Iterator<Item = &'p MultiPolygon<f64>>) -> Self {
        let mut longest = (0.0, [1.0, 0.0]);
        for wall in plans
            .flat_map(|plan| plan.0.iter())
            .flat_map(|p| p.exterior().lines())
        {
            let d = wall.delta();
            let length = libm::hypot(d.x, d.y);
            if length > longest.0 {
                longest = (length, [d.x / length, d.y / length]);
            }
        }
        let [x, y] = longest.1;
        let lies = x.abs() < ALONG || y.abs() < ALONG;
        Self {
            along: (!lies).then_some([x, y]),
        }
    }

    /// A plan turned.
    pub fn set(self, plan: &MultiPolygon<f64>) -> MultiPolygon<f64> {
        let Some([x, y]) = self.along else {
            return plan.clone();
        };
        let on_grid = |m: f64| libm::round(m * GRID_PER_M) / GRID_PER_M;
        plan.map_coords(|c| Coord {
            x: on_grid(c.x * x + c.y * y),
            y: on_grid(c.y * x - c.x * y),
        })
    }

    /// A plan turned back.
    pub fn back(self, plan: &MultiPolygon<f64>) -> MultiPolygon<f64> {
        let Some([x, y]) = self.along else {
            return plan.clone();
        };
        plan.map_coords(|c| Coord {
            x: c.x * x - c.y * y,
            y: c.y * x + c.x * y,
        })
    }
}

/// Area two plans have in common, m2.
pub(super) fn common_m2(a: &MultiPolygon<f64>, b: &MultiPolygon<f64>) -> f64 {
    let upright = Upright::of([a, b].into_iter());
    upright.set(a).intersection(&upright.set(b)).unsigned_area()
}
