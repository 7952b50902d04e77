//! An outline made ready: turning left, its edges with number, direction and length.

use geo::{Coord, LineString, MultiPolygon, Polygon};

/// One edge of an outline, seen with the room on its left.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Edge {
    /// Start, m.
    pub a: [f64; 2],
    /// End, m.
    pub b: [f64; 2],
    /// Direction from a to b, unit length.
    pub dir: [f64; 2],
    /// Length, m.
    pub length_m: f64,
    /// Number in the outline as described, from 1.
    pub number: usize,
    /// Plan direction it faces, degrees clockwise from +y.
    pub faces_deg: f64,
}

impl Edge {
    /// The point this far along.
    pub fn at(&self, t: f64) -> [f64; 2] {
        [self.a[0] + self.dir[0] * t, self.a[1] + self.dir[1] * t]
    }

    /// Word for the plan direction it faces.
    pub fn word(&self) -> &'static str {
        match quarter(self.faces_deg) {
            0 => "north",
            1 => "east",
            2 => "south",
            _ => "west",
        }
    }
}

/// Quarter of the compass: 0 north, 1 east, 2 south, 3 west.
pub(super) fn quarter(deg: f64) -> usize {
    // the small push keeps walls at exactly 45 degrees on one side whatever the last bit
    (((deg + 45.0 + 1e-7) / 90.0).floor() as i64).rem_euclid(4) as usize
}

/// Angle kept in 0 to 360 and rid of rounding dust.
pub(super) fn clean_deg(deg: f64) -> f64 {
    let d = (deg * 1e7).round() / 1e7;
    d.rem_euclid(360.0)
}

/// Area with sign: positive when the outline turns left.
pub(super) fn signed_area(corners: &[[f64; 2]]) -> f64 {
    let Some(last) = corners.last() else {
        return 0.0;
    };
    let mut before = last;
    let mut twice = 0.0;
    for c in corners {
        twice += before[0] * c[1] - c[0] * before[1];
        before = c;
    }
    0.5 * twice
}

/// The edges of an outline, turned so that the room is on their left.
pub(super) fn edges(corners: &[[f64; 2]]) -> Vec<Edge> {
    let n = corners.len();
    let left = signed_area(corners) >= 0.0;
    let pairs = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .enumerate();
    let mut out = Vec::with_capacity(n);
    for (i, (p, q)) in pairs {
        let (a, b) = if left { (*p, *q) } else { (*q, *p) };
        let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
        let length_m = libm::hypot(dx, dy);
        if length_m <= 0.0 {
            continue;
        }
        let dir = [dx / length_m, dy / length_m];
        // outward is to the right of the direction
        let faces = libm::atan2(dir[1], -dir[0]).to_degrees();
        out.push(Edge {
            a,
            b,
            dir,
            length_m,
            number: i + 1,
            faces_deg: clean_deg(faces),
        });
    }
    if !left {
        out.reverse();
    }
    out
}

/// The outline as a polygon.
pub(super) fn polygon(corners: &[[f64; 2]]) -> MultiPolygon<f64> {
    let ring: Vec<Coord<f64>> = corners.iter().map(|c| Coord { x: c[0], y: c[1] }).collect();
    MultiPolygon::new(vec![Polygon::new(LineString::new(ring), Vec::new())])
}

/// Do two edges of an outline cross or touch where they should not? Gives their numbers.
pub(super) fn self_crossing(corners: &[[f64; 2]]) -> Option<(usize, usize)> {
    let n = corners.len();
    let corner = |i: usize| corners.get(i % n.max(1)).copied().unwrap_or([0.0; 2]);
    for i in 0..n {
        for j in (i + 1)..n {
            let (a, b, c, d) = (corner(i), corner(i + 1), corner(j), corner(j + 1));
            let next = j == i + 1;
            let round = i == 0 && j + 1 == n;
            if next || round {
                // neighbours share a corner: only folding back on itself is wrong
                let (shared, p, q) = if next { (b, a, d) } else { (a, b, c) };
                let u = [p[0] - shared[0], p[1] - shared[1]];
                let v = [q[0] - shared[0], q[1] - shared[1]];
                let cross = u[0] * v[1] - u[1] * v[0];
                let dot = u[0] * v[0] + u[1] * v[1];
                let size = libm::hypot(u[0], u[1]) * libm::hypot(v[0], v[1]);
                if dot > 0.0 && cross.abs() < 1e-6 * size {
                    return Some((i + 1, j + 1));
                }
            } else if touch(a, b, c, d) {
                return Some((i + 1, j + 1));
            }
        }
    }
    None
}

/// Do the stretches a-b and c-d meet?
fn touch(a: [f64; 2], b: [f64; 2], c: [f64; 2], d: [f64; 2]) -> bool {
    let side = |p: [f64; 2], q: [f64; 2], r: [f64; 2]| {
        let v = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
        if v.abs() < 1e-9 { 0.0 } else { v.signum() }
    };
    let on = |p: [f64; 2], q: [f64; 2], r: [f64; 2]| {
        r[0] >= p[0].min(q[0]) - 1e-9
            && r[0] <= p[0].max(q[0]) + 1e-9
            && r[1] >= p[1].min(q[1]) - 1e-9
            && r[1] <= p[1].max(q[1]) + 1e-9
    };
    let (s1, s2, s3, s4) = (side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b));
    if s1 * s2 < 0.0 && s3 * s4 < 0.0 {
        return true;
    }
    (s1 == 0.0 && on(a, b, c))
        || (s2 == 0.0 && on(a, b, d))
        || (s3 == 0.0 && on(c, d, a))
        || (s4 == 0.0 && on(c, d, b))
}
