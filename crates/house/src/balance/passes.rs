//! Passes over all faces at once. Each is a plain loop over slices of one length, handed in as
//! such, so that the compiler takes two faces a time and checks no bounds.

use crate::film::{InsideFilm, on_pieces};

/// `sum = force + lag`, and the part of each face that the zones do not make, its mate left out.
pub fn parts(part: &mut [f64], sum: &mut [f64], force: &[f64], lag: &[f64], inverse: &[f64]) {
    let n = part.len();
    let (sum, force, lag, inverse) = (&mut sum[..n], &force[..n], &lag[..n], &inverse[..n]);
    for f in 0..n {
        let s = force[f] + lag[f];
        sum[f] = s;
        part[f] = inverse[f] * s;
    }
}

/// What each face gives to the air and the star of its zone, W.
pub fn gifts(
    to_air: &mut [f64],
    to_star: &mut [f64],
    part: &[f64],
    film: &[f64],
    area: &[f64],
    area_convection: &[f64],
    area_radiant: &[f64],
) {
    let n = to_air.len();
    let (to_star, part, film) = (&mut to_star[..n], &part[..n], &film[..n]);
    let (area, ac, ar) = (&area[..n], &area_convection[..n], &area_radiant[..n]);
    for f in 0..n {
        to_air[f] = ac[f] * part[f] - area[f] * film[f];
        to_star[f] = ar[f] * part[f];
    }
}

/// The pull of air and star on each face, and the face's temperature, its mate left out.
#[allow(clippy::too_many_arguments)]
pub fn temperatures(
    face: &mut [f64],
    pull: &mut [f64],
    part: &[f64],
    inverse: &[f64],
    air: &[f64],
    star: &[f64],
    convection: &[f64],
    radiant: &[f64],
) {
    let n = face.len();
    let (pull, part, inverse) = (&mut pull[..n], &part[..n], &inverse[..n]);
    let (air, star, c, h) = (&air[..n], &star[..n], &convection[..n], &radiant[..n]);
    for f in 0..n {
        let p = c[f] * air[f] + h[f] * star[f];
        pull[f] = p;
        face[f] = part[f] + inverse[f] * p;
    }
}

/// Film heat beyond the constant coefficient at these temperatures, W/m2.
pub fn films(
    next: &mut [f64],
    film: &InsideFilm,
    first_piece: &[u32],
    air: &[f64],
    face: &[f64],
    convection: &[f64],
) {
    let n = next.len();
    let (first, air, face, c) = (&first_piece[..n], &air[..n], &face[..n], &convection[..n]);
    for f in 0..n {
        let dt = air[f] - face[f];
        next[f] = on_pieces(film.all(), first[f], dt) - c[f] * dt;
    }
}

/// Film and loss together, and by how much (W) it differs from what was used.
pub fn lags(
    next_face: &mut [f64],
    moved: &mut [f64],
    film: &[f64],
    slack: &[f64],
    face: &[f64],
    used: &[f64],
    area: &[f64],
) {
    let n = next_face.len();
    let (moved, film, slack) = (&mut moved[..n], &film[..n], &slack[..n]);
    let (face, used, area) = (&face[..n], &used[..n], &area[..n]);
    for f in 0..n {
        let all = film[f] + slack[f] * face[f];
        next_face[f] = all;
        moved[f] = area[f] * (all - used[f]).abs();
    }
}

/// Heat into each face from its room, added up.
#[allow(clippy::too_many_arguments)]
pub fn into_faces(
    sum: &mut [f64],
    dt: f64,
    air: &[f64],
    star: &[f64],
    face: &[f64],
    convection: &[f64],
    radiant: &[f64],
    film: &[f64],
    sun: &[f64],
) {
    let n = sum.len();
    let (air, star, face) = (&air[..n], &star[..n], &face[..n]);
    let (c, h, film, sun) = (&convection[..n], &radiant[..n], &film[..n], &sun[..n]);
    for f in 0..n {
        let t = face[f];
        sum[f] += dt * (c[f] * (air[f] - t) + h[f] * (star[f] - t) + film[f] + sun[f]);
    }
}

/// What the walls took beyond what their faces gave, because the loss was lagged: W/m2.
pub fn beyond(beyond: &mut [f64], lag_face: &[f64], lag_film: &[f64], slack: &[f64], face: &[f64]) {
    let n = beyond.len();
    let (all, film) = (&lag_face[..n], &lag_film[..n]);
    let (slack, face) = (&slack[..n], &face[..n]);
    for f in 0..n {
        beyond[f] = all[f] - film[f] - slack[f] * face[f];
    }
}

/// `used += step (next - used)`.
pub fn approach(used: &mut [f64], next: &[f64], step: f64) {
    for (u, n) in used.iter_mut().zip(next) {
        *u += step * (n - *u);
    }
}

/// `out = a + b * c`.
pub fn add_times(out: &mut [f64], a: &[f64], b: &[f64], c: &[f64]) {
    let n = out.len();
    let (a, b, c) = (&a[..n], &b[..n], &c[..n]);
    for f in 0..n {
        out[f] = a[f] + b[f] * c[f];
    }
}

/// `out += a * scale`.
pub fn add_scaled(out: &mut [f64], a: &[f64], scale: f64) {
    for (o, a) in out.iter_mut().zip(a) {
        *o += scale * a;
    }
}
