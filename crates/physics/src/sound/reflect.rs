//! Sound thrown back by walls: each wall makes a mirror image of the source.

/// A wall on the plan that throws sound back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Ends, east and north, m.
    pub ends_m: [[f64; 2]; 2],
    /// Share of the sound energy it throws back: 1 flat and hard, 0.8 a house wall with windows,
    /// 0.4 half open.
    pub throws_back: f64,
}

/// A way of the sound from source to listener.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Length, m.
    pub length_m: f64,
    /// Share of energy left by the walls on the way.
    pub left: f64,
    /// Walls it comes off, in order; none for the direct way.
    pub walls: Vec<usize>,
}

/// All ways of the sound by the direct line, one wall, and two walls.
///
/// # Equation
/// A wall's image of the source lies as far behind it. The way counts where the line from the
/// image to the listener meets the wall between its ends; with two walls the image of the image
/// in the second is used and both meetings must lie on their walls. `left` is the product of
/// `throws_back`.
/// # Symbols
/// Plan positions and lengths, m; shares of energy, 1.
/// # Range
/// Walls much larger than the wave (at 500 Hz 0.7 m); heights left out, so that lengths are those
/// on the plan; nothing in between takes sound away.
/// # Source
/// `iso-9613-2`, 7.5, reflections by image sources, table 4 for the share thrown back.
/// # Example
/// ```
/// use physics::sound::reflect::{Wall, ways};
/// // Source 1 m, listener 5 m before a long hard wall: direct 4 m, off the wall 6 m.
/// let wall = Wall { ends_m: [[0.0, -20.0], [0.0, 20.0]], throws_back: 1.0 };
/// let all = ways([1.0, 0.0], [5.0, 0.0], &[wall]);
/// assert_eq!(all.len(), 2);
/// assert!((all[0].length_m - 4.0).abs() < 1e-12 && (all[1].length_m - 6.0).abs() < 1e-12);
/// ```
pub fn ways(source_m: [f64; 2], listener_m: [f64; 2], walls: &[Wall]) -> Vec<Way> {
    let mut out = vec![Way {
        length_m: apart(source_m, listener_m),
        left: 1.0,
        walls: Vec::new(),
    }];
    for (i, first) in walls.iter().enumerate() {
        let image = mirrored(source_m, first);
        if meets(image, listener_m, first).is_some() && same_side(source_m, listener_m, first) {
            out.push(Way {
                length_m: apart(image, listener_m),
                left: first.throws_back,
                walls: vec![i],
            });
        }
        for (j, second) in walls.iter().enumerate().filter(|(j, _)| *j != i) {
            let twice = mirrored(image, second);
            let Some(at) = meets(twice, listener_m, second) else {
                continue;
            };
            let Some(before) = meets(image, at, first) else {
                continue;
            };
            // right in the corner both orders are one and the same way
            let corner = apart(before, at) < 1e-9;
            let there = corner || same_side(source_m, at, first);
            let here = corner || same_side(before, listener_m, second);
            if there && here && !(corner && j < i) {
                out.push(Way {
                    length_m: apart(twice, listener_m),
                    left: first.throws_back * second.throws_back,
                    walls: vec![i, j],
                });
            }
        }
    }
    out
}

fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    libm::hypot(a[0] - b[0], a[1] - b[1])
}

/// Signed distance from the line of the wall, times its length.
fn side(p: [f64; 2], w: &Wall) -> f64 {
    let [a, b] = w.ends_m;
    (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
}

fn same_side(p: [f64; 2], q: [f64; 2], w: &Wall) -> bool {
    side(p, w) * side(q, w) > 0.0
}

fn mirrored(p: [f64; 2], w: &Wall) -> [f64; 2] {
    let [a, b] = w.ends_m;
    let (e, n) = (b[0] - a[0], b[1] - a[1]);
    let size = e * e + n * n;
    if size <= 0.0 {
        return p;
    }
    let off = 2.0 * side(p, w) / size;
    [p[0] + off * n, p[1] - off * e]
}

/// Where the line between two points meets the wall, if it does.
fn meets(p: [f64; 2], q: [f64; 2], w: &Wall) -> Option<[f64; 2]> {
    let (sp, sq) = (side(p, w), side(q, w));
    if sp * sq > 0.0 || sp == sq {
        return None;
    }
    let t = sp / (sp - sq);
    let at = [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])];
    let [a, b] = w.ends_m;
    let (e, n) = (b[0] - a[0], b[1] - a[1]);
    let along = ((at[0] - a[0]) * e + (at[1] - a[1]) * n) / (e * e + n * n);
    (0.0..=1.0).contains(&along).then_some(at)
}
