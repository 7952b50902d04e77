//! What of a window the sun reaches.

use super::{Fin, ShadedWindow};

const DEG: f64 = core::f64::consts::PI / 180.0;

/// The sun's direction in the axes of an upright window: a unit vector.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunSide {
    /// To the right, seen from outside.
    pub across: f64,
    /// Up.
    pub up: f64,
    /// Out of the wall: the cosine of the incidence.
    pub out: f64,
}

/// Turns the sun's direction (east, north, up) into the axes of a wall that faces `azimuth_deg`
/// from north clockwise.
///
/// **Equation** across = -e cos a + n sin a; out = e sin a + n cos a
///
/// **Symbols**
/// - e, n: components of the sun's direction to the east and north; a: azimuth the wall faces
///
/// **Range** upright walls
///
/// **Source** `common-practice`: turn of axes
///
/// **Example**
/// ```
/// // The morning sun in the east stands to the right of one who looks at a south wall.
/// let s = climate::shade::sun_side(1.0, 0.0, 0.0, 180.0);
/// assert!((s.across - 1.0).abs() < 1e-12 && s.out.abs() < 1e-12);
/// ```
pub fn sun_side(east: f64, north: f64, up: f64, azimuth_deg: f64) -> SunSide {
    let (sine, cosine) = libm::sincos(azimuth_deg * DEG);
    SunSide {
        across: north * sine - east * cosine,
        up,
        out: east * sine + north * cosine,
    }
}

/// Share of the window's area that the sun reaches, 0 to 1; 0 when it stands behind the wall.
///
/// **Equation** 1 - (A + B - C) / (w h), with A and B the areas of the window under the shadow of
/// the overhang and of the fin on the sun's side, C the area under both. A point of a plate at
/// (x, y, d) throws its shadow to (x - d across / out, y - d up / out)
///
/// **Symbols**
/// - w, h: width and height of the window, m; d: distance from the wall's plane, m
///
/// **Range** any sun direction; plates thin, opaque and upright or level
///
/// **Source** `common-practice`: parallel projection, exact by clipping of polygons
///
/// **Example**
/// ```
/// use climate::shade::{Overhang, ShadedWindow, SunSide, sunlit_share};
/// // Sun straight ahead at 45 degrees: an overhang of 1 m, 0.5 m above, shades the top 0.5 m.
/// let window = ShadedWindow { width_m: 3.0, height_m: 2.0, left_fin: None, right_fin: None,
///     overhang: Some(Overhang { depth_m: 1.0, above_m: 0.5, past_left_m: 5.0, past_right_m: 5.0 }) };
/// let sun = SunSide { across: 0.0, up: 0.5_f64.sqrt(), out: 0.5_f64.sqrt() };
/// assert!((sunlit_share(&window, sun) - 0.75).abs() < 1e-12);
/// ```
pub fn sunlit_share(window: &ShadedWindow, sun: SunSide) -> f64 {
    if sun.out <= 0.0 {
        return 0.0;
    }
    let (slide, drop) = (sun.across / sun.out, sun.up / sun.out);
    let (w, h) = (window.width_m, window.height_m);
    let mut shadows = [Polygon::EMPTY; 2];
    if let Some(o) = window.overhang {
        let (left, right, top) = (-o.past_left_m, w + o.past_right_m, h + o.above_m);
        let (dx, dy) = (-o.depth_m * slide, -o.depth_m * drop);
        shadows[0] = Polygon::four([
            (left, top),
            (right, top),
            (right + dx, top + dy),
            (left + dx, top + dy),
        ]);
    }
    // Only the fin on the sun's side throws its shadow over the window.
    let fin_shadow = |x: f64, f: Fin| {
        let (bottom, top) = (-f.past_bottom_m, h + f.past_top_m);
        let (dx, dy) = (-f.depth_m * slide, -f.depth_m * drop);
        Polygon::four([
            (x, bottom),
            (x, top),
            (x + dx, top + dy),
            (x + dx, bottom + dy),
        ])
    };
    if sun.across < 0.0 {
        if let Some(f) = window.left_fin {
            shadows[1] = fin_shadow(-f.beside_m, f);
        }
    } else if let Some(f) = window.right_fin {
        shadows[1] = fin_shadow(w + f.beside_m, f);
    }
    let glass = Polygon::four([(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]);
    let [overhang, fin] = shadows.map(|s| s.within(&glass));
    let both = overhang.within(&fin);
    let dark = overhang.area() + fin.area() - both.area();
    (1.0 - dark / (w * h)).clamp(0.0, 1.0)
}

/// A convex polygon of at most twelve corners: a four-sided shadow cut by two others.
#[derive(Debug, Clone, Copy)]
struct Polygon {
    corners: [(f64, f64); 16],
    count: usize,
}

impl Polygon {
    const EMPTY: Self = Self {
        corners: [(0.0, 0.0); 16],
        count: 0,
    };

    /// From four corners in either sense; kept counter-clockwise.
    fn four(corners: [(f64, f64); 4]) -> Self {
        let mut p = Self::EMPTY;
        for c in corners {
            p.push(c);
        }
        if p.signed_area() < 0.0 {
            p.corners[..4].reverse();
        }
        p
    }

    fn push(&mut self, corner: (f64, f64)) {
        if let Some(place) = self.corners.get_mut(self.count) {
            *place = corner;
            self.count += 1;
        }
    }

    fn sides(&self) -> impl Iterator<Item = ((f64, f64), (f64, f64))> {
        let corners = &self.corners[..self.count];
        corners
            .iter()
            .copied()
            .zip(corners.iter().copied().cycle().skip(1))
    }

    fn signed_area(&self) -> f64 {
        0.5 * self
            .sides()
            .map(|((x1, y1), (x2, y2))| x1 * y2 - x2 * y1)
            .sum::<f64>()
    }

    fn area(&self) -> f64 {
        self.signed_area().max(0.0)
    }

    /// The part of this polygon inside another.
    fn within(&self, other: &Self) -> Self {
        if self.area() <= 0.0 || other.area() <= 0.0 {
            return Self::EMPTY;
        }
        let mut rest = *self;
        for ((x1, y1), (x2, y2)) in other.sides() {
            // Above 0 on the left of the side, which is inside.
            let side = |(x, y): (f64, f64)| (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1);
            let mut kept = Self::EMPTY;
            for (a, b) in rest.sides() {
                let (sa, sb) = (side(a), side(b));
                if sa >= 0.0 {
                    kept.push(a);
                }
                if (sa > 0.0 && sb < 0.0) || (sa < 0.0 && sb > 0.0) {
                    let t = sa / (sa - sb);
                    kept.push((a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1)));
                }
            }
            rest = kept;
        }
        rest
    }
}
