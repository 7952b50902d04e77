//! The published points of one duty as curves over outdoor temperature.

use crate::cannot_tell::{CannotTell, Reason};
use crate::capability::Duty;
use crate::frost::{FROST_COLD_C, FROST_WARM_C};
use crate::shape::{carnot_cop, indoor_factor};
use crate::sheet::{Running, Sheet, TestPoint};

/// A point this near an end of the frost band is on the end: 17 F tells nothing about 35 F.
const EDGE_K: f64 = 0.1;

/// One level (min, rated or max) at one published temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Node {
    capacity_w: f64,
    /// COP over the ideal COP at the tested temperatures.
    fraction: f64,
}

/// All levels at one published temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Knot {
    outdoor_c: f64,
    indoor_c: f64,
    levels: [Node; 3],
    sensible_share: Option<f64>,
}

/// The curves of a sheet for one duty, coldest knot first.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Curve {
    duty: Duty,
    knots: Vec<Knot>,
    /// Whether the sheet gives a rated state.
    pub has_rated: bool,
    /// Whether the frost loss has still to be taken off.
    pub frost_to_take: bool,
}

/// State of the three levels at one outdoor temperature: min, rated, max.
pub(crate) type Levels = [Running; 3];

fn level(point: &TestPoint, which: usize) -> Option<Running> {
    match which {
        0 => point.min,
        1 => point.rated,
        // A sheet that only rates a temperature vouches for no more than the rated output there.
        _ => point.max.or(point.rated),
    }
}

impl Curve {
    pub(crate) fn new(sheet: &Sheet, duty: Duty) -> Result<Self, CannotTell> {
        let points = match duty {
            Duty::Heating => &sheet.heating,
            Duty::Cooling => &sheet.cooling,
        };
        let mut points: Vec<&TestPoint> = points.iter().filter(|p| level(p, 2).is_some()).collect();
        points.sort_by(|a, b| a.outdoor_c.total_cmp(&b.outdoor_c));
        if points.len() < 2 {
            return Err(CannotTell::new(
                Reason::TooFewPoints { got: points.len() },
                sheet,
                duty,
            ));
        }
        let max = filled(&points, 2, None, duty);
        let min = filled(&points, 0, max.as_deref(), duty);
        let rated = filled(&points, 1, max.as_deref(), duty);
        let (Some(max), Some(min)) = (max, min) else {
            return Err(CannotTell::new(Reason::NoMinimum, sheet, duty));
        };
        let has_rated = rated.is_some();
        let mut knots = Vec::with_capacity(points.len());
        for (i, p) in points.iter().enumerate() {
            let (Some(&low), Some(&high)) = (min.get(i), max.get(i)) else {
                continue;
            };
            // Without a rated state the middle node lies on the line of COP from min to max.
            let middle = rated
                .as_ref()
                .and_then(|r| r.get(i).copied())
                .unwrap_or(Node {
                    capacity_w: 0.5 * (low.capacity_w + high.capacity_w),
                    fraction: 0.5 * (low.fraction + high.fraction),
                });
            let ordered =
                low.capacity_w <= middle.capacity_w && middle.capacity_w <= high.capacity_w;
            if !ordered {
                let reason = Reason::OutOfOrder {
                    outdoor_c: p.outdoor_c,
                };
                return Err(CannotTell::new(reason, sheet, duty));
            }
            knots.push(Knot {
                outdoor_c: p.outdoor_c,
                indoor_c: p.indoor_c,
                levels: [low, middle, high],
                sensible_share: p.sensible_share,
            });
        }
        let frost_to_take = duty == Duty::Heating
            && !points.iter().any(|p| {
                p.outdoor_c > FROST_COLD_C + EDGE_K
                    && p.outdoor_c < FROST_WARM_C - EDGE_K
                    && p.defrost_included == Some(true)
            });
        Ok(Self {
            duty,
            knots,
            has_rated,
            frost_to_take,
        })
    }

    /// Multiplies rated and max by a combination factor and the maximum's power by another.
    pub(crate) fn combine(&mut self, capacity: f64, electric: f64) {
        for knot in &mut self.knots {
            let [low, middle, high] = &mut knot.levels;
            high.capacity_w = (high.capacity_w * capacity).max(low.capacity_w);
            high.fraction *= capacity / electric;
            middle.capacity_w =
                (middle.capacity_w * capacity).clamp(low.capacity_w, high.capacity_w);
        }
    }

    pub(crate) fn coldest_c(&self) -> f64 {
        self.knots.first().map_or(f64::NAN, |k| k.outdoor_c)
    }

    pub(crate) fn warmest_c(&self) -> f64 {
        self.knots.last().map_or(f64::NAN, |k| k.outdoor_c)
    }

    /// Levels at an outdoor temperature, before frost and altitude. Past the ends capacity and
    /// share of the ideal are held and the lift goes on; who may go past is the caller's to say.
    pub(crate) fn at(&self, outdoor_c: f64, indoor_c: f64) -> Option<Levels> {
        let first = self.knots.first()?;
        let next = self.knots.iter().position(|k| k.outdoor_c >= outdoor_c);
        let (a, b, w) = match next {
            None => {
                let last = self.knots.last()?;
                (last, last, 0.0)
            }
            Some(0) => (first, first, 0.0),
            Some(i) => {
                let (a, b) = (self.knots.get(i - 1)?, self.knots.get(i)?);
                (
                    a,
                    b,
                    (outdoor_c - a.outdoor_c) / (b.outdoor_c - a.outdoor_c),
                )
            }
        };
        let tested_c = a.indoor_c + w * (b.indoor_c - a.indoor_c);
        let indoor = indoor_factor(self.duty, indoor_c, tested_c)?;
        let carnot = carnot_cop(self.duty, outdoor_c, indoor_c)?;
        let mut out = [Running {
            capacity_w: 0.0,
            electric_w: 0.0,
        }; 3];
        for ((run, low), high) in out.iter_mut().zip(&a.levels).zip(&b.levels) {
            let capacity_w = low.capacity_w + w * (high.capacity_w - low.capacity_w);
            let fraction = low.fraction + w * (high.fraction - low.fraction);
            run.capacity_w = capacity_w * indoor;
            run.electric_w = run.capacity_w / (fraction * carnot);
        }
        Some(out)
    }

    pub(crate) fn sensible_share(&self, outdoor_c: f64) -> Option<f64> {
        let next = self.knots.iter().position(|k| k.outdoor_c >= outdoor_c);
        match next {
            None => self.knots.last()?.sensible_share,
            Some(0) => self.knots.first()?.sensible_share,
            Some(i) => {
                let (a, b) = (self.knots.get(i - 1)?, self.knots.get(i)?);
                let w = (outdoor_c - a.outdoor_c) / (b.outdoor_c - a.outdoor_c);
                Some(a.sensible_share? + w * (b.sensible_share? - a.sensible_share?))
            }
        }
    }
}

fn node(point: &TestPoint, which: usize, duty: Duty) -> Option<Node> {
    let run = level(point, which)?;
    let carnot = carnot_cop(duty, point.outdoor_c, point.indoor_c)?;
    Some(Node {
        capacity_w: run.capacity_w,
        fraction: run.cop() / carnot,
    })
}

/// One level at every temperature. A gap between two stated points is bridged in a straight line;
/// past the stated ones the ratio to the maximum and the share of the ideal are held.
fn filled(
    points: &[&TestPoint],
    which: usize,
    max: Option<&[Node]>,
    duty: Duty,
) -> Option<Vec<Node>> {
    let stated: Vec<(usize, Node)> = points
        .iter()
        .enumerate()
        .filter_map(|(i, p)| Some((i, node(p, which, duty)?)))
        .collect();
    let (first, last) = (*stated.first()?, *stated.last()?);
    let mut out = Vec::with_capacity(points.len());
    for (i, point) in points.iter().enumerate() {
        let before = stated.iter().rev().find(|(k, _)| *k <= i).copied();
        let after = stated.iter().find(|(k, _)| *k >= i).copied();
        let made = match (before, after) {
            (Some((a, low)), Some((b, _))) if a == b => low,
            (Some((a, low)), Some((b, high))) => {
                let (ta, tb) = (points.get(a)?.outdoor_c, points.get(b)?.outdoor_c);
                let w = (point.outdoor_c - ta) / (tb - ta);
                Node {
                    capacity_w: low.capacity_w + w * (high.capacity_w - low.capacity_w),
                    fraction: low.fraction + w * (high.fraction - low.fraction),
                }
            }
            (before, _) => {
                let (k, end) = if before.is_some() { last } else { first };
                let (here, there) = (max?.get(i)?, max?.get(k)?);
                Node {
                    capacity_w: end.capacity_w * here.capacity_w / there.capacity_w,
                    fraction: end.fraction,
                }
            }
        };
        out.push(made);
    }
    Some(out)
}
