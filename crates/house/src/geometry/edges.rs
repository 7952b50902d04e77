//! What is behind each stretch of each edge: another room of the storey, or outside.

use super::TOUCH_M;
use super::draft::{Draft, Placed, Run};
use super::shape::Edge;

/// Cosine of the angle up to which two edges count as parallel (3 degrees).
const PARALLEL_COS: f64 = 0.9986;

/// Fills `runs` of the draft.
pub(super) fn find_runs(draft: &mut Draft<'_>) {
    draft.runs = draft
        .placed
        .iter()
        .enumerate()
        .map(|(i, p)| {
            p.edges
                .iter()
                .map(|e| runs_of(&draft.placed, i, p, e))
                .collect()
        })
        .collect();
}

fn runs_of(placed: &[Placed], i: usize, room: &Placed, edge: &Edge) -> Vec<Run> {
    let mut shared: Vec<Run> = Vec::new();
    for (j, other) in placed.iter().enumerate() {
        if j == i || other.storey != room.storey {
            continue;
        }
        for (k, e) in other.edges.iter().enumerate() {
            if let Some((from_m, to_m)) = shared_stretch(edge, e) {
                shared.push(Run {
                    from_m,
                    to_m,
                    other: Some((j, k)),
                });
            }
        }
    }
    shared.sort_by(|a, b| a.from_m.total_cmp(&b.from_m));
    // fill what is left with outside; gaps too short to be a wall go to the neighbour
    let mut out: Vec<Run> = Vec::new();
    let mut at = 0.0;
    for mut s in shared {
        s.from_m = s.from_m.max(at);
        if s.to_m - s.from_m <= TOUCH_M {
            continue;
        }
        if s.from_m - at > TOUCH_M {
            out.push(Run {
                from_m: at,
                to_m: s.from_m,
                other: None,
            });
        } else {
            s.from_m = at;
        }
        at = s.to_m;
        out.push(s);
    }
    if edge.length_m - at > TOUCH_M || out.is_empty() {
        out.push(Run {
            from_m: at,
            to_m: edge.length_m,
            other: None,
        });
    } else if let Some(last) = out.last_mut() {
        last.to_m = edge.length_m;
    }
    out
}

/// The stretch of `e` along which `other` runs back to back within [`TOUCH_M`], as distances
/// along `e`.
fn shared_stretch(e: &Edge, other: &Edge) -> Option<(f64, f64)> {
    let along = |p: [f64; 2]| (p[0] - e.a[0]) * e.dir[0] + (p[1] - e.a[1]) * e.dir[1];
    let aside = |p: [f64; 2]| (p[0] - e.a[0]) * e.dir[1] - (p[1] - e.a[1]) * e.dir[0];
    if e.dir[0] * other.dir[0] + e.dir[1] * other.dir[1] > -PARALLEL_COS {
        return None;
    }
    let (s, t) = (along(other.b), along(other.a));
    if t <= s {
        return None;
    }
    let from = s.max(0.0);
    let to = t.min(e.length_m);
    if to - from <= TOUCH_M {
        return None;
    }
    // how far apart they are where they lie side by side
    let (out_b, out_a) = (aside(other.b), aside(other.a));
    let gap = |x: f64| out_b + (out_a - out_b) * (x - s) / (t - s);
    (gap(from).abs() <= TOUCH_M && gap(to).abs() <= TOUCH_M).then_some((from, to))
}
