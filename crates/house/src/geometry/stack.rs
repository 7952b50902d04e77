//! What lies over what between storeys.

use super::draft::{Draft, Stacked};
use super::upright::Upright;
use super::{STOREY_GAP_M, TOUCH_M};
use geo::{Area, BooleanOps, Euclidean, Length, MultiPolygon};

/// Fills `stacked`, `open_over` and `open_under` of the draft.
pub(super) fn find_overlaps(draft: &mut Draft<'_>) {
    let n = draft.placed.len();
    let upright = Upright::of(draft.placed.iter().map(|p| &p.plan));
    draft.open_over = draft.placed.iter().map(|p| upright.set(&p.plan)).collect();
    draft.open_under = draft.open_over.clone();
    for upper in 0..n {
        for lower in 0..n {
            let (Some(u), Some(l)) = (draft.placed.get(upper), draft.placed.get(lower)) else {
                continue;
            };
            let gap = u.floor_m - (l.floor_m + l.height_m);
            if u.storey == l.storey || u.floor_m <= l.floor_m || gap > STOREY_GAP_M {
                continue;
            }
            let (Some(floor), Some(ceiling)) =
                (draft.open_under.get(upper), draft.open_over.get(lower))
            else {
                continue;
            };
            // what is still open on both sides, so that no area is given away twice
            let common = floor.intersection(ceiling);
            if sliver(&common) {
                continue;
            }
            let (floor, ceiling) = (floor.difference(&common), ceiling.difference(&common));
            draft.stacked.push(Stacked {
                upper,
                lower,
                area_m2: common.unsigned_area(),
            });
            if let Some(o) = draft.open_under.get_mut(upper) {
                *o = floor;
            }
            if let Some(o) = draft.open_over.get_mut(lower) {
                *o = ceiling;
            }
        }
    }
    settle(draft);
    for plan in draft.open_over.iter_mut().chain(&mut draft.open_under) {
        *plan = upright.back(plan);
    }
}

/// Gives strips too narrow to be a part of a room to the largest neighbour, so that walls drawn a
/// few centimetres apart on two storeys do not make an attic of their own. Floor and ceiling of
/// one of the two rooms are then off by that strip.
fn settle(draft: &mut Draft<'_>) {
    for room in 0..draft.placed.len() {
        for over in [true, false] {
            let parts = if over {
                &mut draft.open_over
            } else {
                &mut draft.open_under
            };
            let Some(part) = parts.get_mut(room) else {
                continue;
            };
            let whole = part.unsigned_area();
            part.0
                .retain(|p| !sliver(&MultiPolygon::new(vec![p.clone()])));
            let lost = whole - part.unsigned_area();
            if lost <= 0.0 {
                continue;
            }
            let beside = draft
                .stacked
                .iter_mut()
                .filter(|s| {
                    if over {
                        s.lower == room
                    } else {
                        s.upper == room
                    }
                })
                .max_by(|a, b| a.area_m2.total_cmp(&b.area_m2));
            if let Some(s) = beside {
                s.area_m2 += lost;
            }
        }
    }
}

/// Narrower than walls touch: area over half the perimeter is about the width.
fn sliver(part: &MultiPolygon<f64>) -> bool {
    let area = part.unsigned_area();
    let around: f64 = part.0.iter().map(|p| Euclidean.length(p.exterior())).sum();
    area < 1e-4 || area < TOUCH_M * 0.5 * around
}
