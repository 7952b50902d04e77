//! Rooms: their outlines one by one, and that they do not lie over each other.

use super::TOUCH_M;
use super::check::{number, size};
use super::draft::Placed;
use super::names::{did_you_mean, listed};
use super::problem::{GeometryError, area, length};
use super::shape::{edges, polygon, self_crossing, signed_area};
use super::upright::common_m2;
use crate::describe::{Gain, House, Setting};

pub(super) fn rooms(h: &House, bad: &mut Vec<GeometryError>) -> Vec<Placed> {
    if h.rooms.is_empty() {
        bad.push(GeometryError::new(
            "room",
            "no room",
            "none",
            "at least one",
            "draw a room",
        ));
    }
    let mut placed = Vec::with_capacity(h.rooms.len());
    for r in &h.rooms {
        let place = format!("room.{}", r.name);
        let storey = h.storeys.iter().position(|s| s.name == r.storey);
        if storey.is_none() {
            let known = h.storeys.iter().map(|s| s.name.as_str());
            bad.push(GeometryError::new(
                format!("{place}.storey"),
                "no such storey",
                format!("\"{}\"", r.storey),
                listed(known.clone()),
                did_you_mean(&r.storey, known, "add the storey or correct the name"),
            ));
        }
        if let Some(c) = r.ceiling_m {
            size(bad, &place, "ceiling height", c, 0.3, 30.0);
        }
        if let Some(n) = r.own_air_changes_per_h {
            number(
                bad,
                &place,
                "outdoor air changes",
                n,
                (0.0, 100.0),
                "0 to 100 an hour",
            );
        }
        number(bad, &place, "people", r.people, (0.0, 1000.0), "0 to 1000");
        for (what, s) in [
            ("heating setting", &r.heated),
            ("cooling setting", &r.cooled),
        ] {
            setting(bad, &place, what, s.as_ref());
        }
        for g in &r.gains {
            gain(bad, &place, g);
        }
        let sound = outline(bad, &place, &r.outline);
        if let (Some(storey), true) = (storey, sound) {
            let Some(s) = h.storeys.get(storey) else {
                continue;
            };
            placed.push(Placed {
                storey,
                floor_m: s.floor_m,
                height_m: r.ceiling_m.unwrap_or(s.ceiling_m),
                edges: edges(&r.outline),
                plan: polygon(&r.outline),
                area_m2: signed_area(&r.outline).abs(),
            });
        }
    }
    placed
}

fn setting(bad: &mut Vec<GeometryError>, place: &str, what: &str, s: Option<&Setting>) {
    let Some(s) = s else { return };
    for v in s.by_hour_c.iter().flatten() {
        if !(-60.0..=80.0).contains(v) {
            number(bad, place, what, *v, (-60.0, 80.0), "-60 to 80 C");
            return;
        }
    }
}

fn gain(bad: &mut Vec<GeometryError>, place: &str, g: &Gain) {
    number(
        bad,
        place,
        "radiant share of a gain",
        g.radiant,
        (0.0, 1.0),
        "0 to 1",
    );
    for v in &g.by_hour_w {
        if !(-1e5..=1e6).contains(v) {
            number(
                bad,
                place,
                "gain, W",
                *v,
                (-1e5, 1e6),
                "-100000 to 1000000 W",
            );
            return;
        }
    }
}

fn outline(bad: &mut Vec<GeometryError>, place: &str, corners: &[[f64; 2]]) -> bool {
    let place = format!("{place}.outline");
    let n = corners.len();
    let mut fail = |what: &str, got: String, allowed: &str, mend: &str| {
        bad.push(GeometryError::new(place.clone(), what, got, allowed, mend));
        false
    };
    if n < 3 {
        return fail(
            "too few corners",
            n.to_string(),
            "3 or more",
            "add the missing corners",
        );
    }
    if n > 400 {
        return fail(
            "too many corners",
            n.to_string(),
            "3 to 400",
            "draw the room more simply",
        );
    }
    for (i, c) in corners.iter().enumerate() {
        if !c.iter().all(|v| v.is_finite() && v.abs() <= 1000.0) {
            return fail(
                "a corner is out of reach",
                format!("corner {} at {}, {}", i + 1, length(c[0]), length(c[1])),
                "-1000 to 1000 m (-3280 to 3280 ft)",
                "correct the corner",
            );
        }
    }
    for (i, (p, q)) in corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .enumerate()
    {
        if libm::hypot(p[0] - q[0], p[1] - q[1]) < 1e-3 {
            let next = i % n + 1;
            return fail(
                "two corners fall together",
                format!("corners {next} and {}", next % n + 1),
                "at least 1 mm between corners",
                "leave one of them out; the outline closes by itself",
            );
        }
    }
    if let Some((i, j)) = self_crossing(corners) {
        return fail(
            "the outline crosses or touches itself",
            format!("walls {i} and {j} meet"),
            "walls that meet only at their common corner",
            "put the corners in order round the room",
        );
    }
    let a = signed_area(corners).abs();
    if a < 0.05 {
        return fail(
            "the room has no area",
            area(a),
            "0.05 m2 (0.5 ft2) or more",
            "correct the corners",
        );
    }
    true
}

/// Rooms of a storey must not lie over each other, nor reach into a storey above.
pub(super) fn overlaps(h: &House, placed: &[Placed], bad: &mut Vec<GeometryError>) {
    for (i, p) in placed.iter().enumerate() {
        for (j, q) in placed.iter().enumerate().skip(i + 1) {
            let (low, high) = if p.floor_m <= q.floor_m {
                (p, q)
            } else {
                (q, p)
            };
            let same = p.storey == q.storey;
            let pokes = low.floor_m + low.height_m - high.floor_m;
            if !same && pokes <= 0.3 {
                continue;
            }
            let common = common_m2(&p.plan, &q.plan);
            let reach = 0.25 * p.perimeter_m().min(q.perimeter_m());
            let allowed = TOUCH_M * reach + 0.01;
            if common > allowed {
                let name = |k: usize| h.rooms.get(k).map_or("", |r| r.name.as_str());
                let lower = if p.floor_m <= q.floor_m {
                    (i, j)
                } else {
                    (j, i)
                };
                bad.push(overlap(
                    name(lower.0),
                    name(lower.1),
                    same,
                    common,
                    allowed,
                    pokes,
                ));
            }
        }
    }
}

fn overlap(
    room: &str,
    other: &str,
    same: bool,
    common: f64,
    allowed: f64,
    pokes: f64,
) -> GeometryError {
    if same {
        GeometryError::new(
            format!("room.{room}.outline"),
            format!("lies over the room \"{other}\""),
            format!("{} in common", area(common)),
            format!("up to {} where walls meet", area(allowed)),
            "move a corner so that the rooms only touch",
        )
    } else {
        GeometryError::new(
            format!("room.{room}"),
            format!("reaches into the height of the room \"{other}\" on another storey"),
            format!("{} too high over {}", length(pokes), area(common)),
            "ceilings at or under the floor above".to_owned(),
            "lower the ceiling, raise the storey above, or cut the room above away there",
        )
    }
}
