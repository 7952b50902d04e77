//! What is over the top ceilings: a made attic, a flat or sloped roof, nothing.

use super::draft::Draft;
use super::upright::common_m2;
use super::{ATTIC_AIR_CHANGES_PER_H, ATTIC_PITCH_DEG};
use crate::describe::Over;
use crate::model::{Behind, SurfaceKind};
use geo::{Area, MultiPolygon};

/// A ridge over a set of rooms: along the longest wall's direction or across it, whichever way
/// the plan is longer.
#[derive(Debug, Clone, Copy)]
struct Ridge {
    /// Direction, unit length.
    dir: [f64; 2],
    /// Middle of the plan's bounding rectangle, m.
    middle: [f64; 2],
    /// Extent along the ridge, m.
    long_m: f64,
    /// Extent across, m.
    wide_m: f64,
}

/// Makes all ceilings and roofs.
pub(super) fn build(draft: &mut Draft<'_>) {
    for storey in 0..draft.house.storeys.len() {
        let parts: Vec<(usize, f64)> = draft
            .open_over
            .iter()
            .enumerate()
            .filter(|(i, _)| draft.placed.get(*i).is_some_and(|p| p.storey == storey))
            .map(|(i, part)| (i, part.unsigned_area()))
            .filter(|(_, a)| *a > 1e-4)
            .collect();
        let Some(s) = draft.house.storeys.get(storey) else {
            continue;
        };
        if parts.is_empty() {
            continue;
        }
        let over = s.over;
        if over != Over::Adiabatic {
            for (room, part) in &parts {
                if let Some(x) = draft.exposed_m2.get_mut(*room) {
                    *x += part;
                }
            }
        }
        match over {
            Over::Attic => attic(draft, &parts, storey),
            Over::FlatRoof => {
                let construction = draft.build_up("roof");
                for (room, area) in parts {
                    let name = format!("{}.roof", draft.name(room));
                    let behind = Behind::Outdoor {
                        azimuth_deg: 0.0,
                        sun: true,
                        wind: true,
                    };
                    draft.flat(name, room, SurfaceKind::Roof, area, construction, behind);
                }
            }
            Over::Sloped { pitch_deg } => sloped(draft, &parts, pitch_deg),
            Over::Adiabatic => {
                let construction = draft.build_up("ceiling");
                for (room, area) in parts {
                    let name = format!("{}.ceiling", draft.name(room));
                    let behind = Behind::Adiabatic;
                    draft.flat(name, room, SurfaceKind::Ceiling, area, construction, behind);
                }
            }
        }
    }
}

/// Direction of the longest wall, and the extent of the plan along and across it.
fn ridge(draft: &Draft<'_>, parts: &[(usize, f64)]) -> Option<Ridge> {
    let edges = || {
        parts
            .iter()
            .filter_map(|(i, _)| draft.placed.get(*i))
            .flat_map(|p| &p.edges)
    };
    // by walls that look outside first: they carry the roof
    let longest = edges().max_by(|a, b| a.length_m.total_cmp(&b.length_m))?;
    let d = longest.dir;
    let (mut lo, mut hi) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    for e in edges() {
        let along = e.a[0] * d[0] + e.a[1] * d[1];
        let across = e.a[0] * d[1] - e.a[1] * d[0];
        lo = [lo[0].min(along), lo[1].min(across)];
        hi = [hi[0].max(along), hi[1].max(across)];
    }
    let (len, wid) = (hi[0] - lo[0], hi[1] - lo[1]);
    let (m, n) = (0.5 * (lo[0] + hi[0]), 0.5 * (lo[1] + hi[1]));
    let middle = [m * d[0] + n * d[1], m * d[1] - n * d[0]];
    Some(if len >= wid {
        Ridge {
            dir: d,
            middle,
            long_m: len,
            wide_m: wid,
        }
    } else {
        Ridge {
            dir: [d[1], -d[0]],
            middle,
            long_m: wid,
            wide_m: len,
        }
    })
}

impl Ridge {
    /// Plan directions the two slopes face, degrees: right of the ridge, then left.
    fn faces_deg(&self) -> [f64; 2] {
        let right = libm::atan2(self.dir[1], -self.dir[0]).to_degrees();
        [right, right + 180.0]
    }

    /// Area of a plan on the right and left of the ridge, m2.
    fn halves_m2(&self, plan: &MultiPolygon<f64>) -> [f64; 2] {
        let reach = 4.0 * (self.long_m + self.wide_m) + 10.0;
        let (d, m) = (self.dir, self.middle);
        let right = [d[1], -d[0]];
        let p = |along: f64, across: f64| {
            [
                m[0] + along * d[0] + across * right[0],
                m[1] + along * d[1] + across * right[1],
            ]
        };
        let half = super::shape::polygon(&[
            p(-reach, 0.0),
            p(-reach, reach),
            p(reach, reach),
            p(reach, 0.0),
        ]);
        let on_right = common_m2(plan, &half);
        [on_right, (plan.unsigned_area() - on_right).max(0.0)]
    }
}

/// The `roof` construction directly over the rooms, on two slopes.
fn sloped(draft: &mut Draft<'_>, parts: &[(usize, f64)], pitch_deg: f64) {
    let construction = draft.build_up("roof");
    let Some(ridge) = ridge(draft, parts) else {
        return;
    };
    let stretch = 1.0 / libm::cos(pitch_deg.to_radians());
    for (room, _) in parts {
        let Some(plan) = draft.open_over.get(*room) else {
            continue;
        };
        let halves = ridge.halves_m2(plan);
        for (area, faces) in halves.into_iter().zip(ridge.faces_deg()) {
            if area < 1e-3 {
                continue;
            }
            let azimuth_deg = draft.compass_deg(faces);
            let word = ["north", "east", "south", "west"]
                .get(super::shape::quarter(faces))
                .copied()
                .unwrap_or("");
            let name = format!("{}.roof-{word}", draft.name(*room));
            let behind = Behind::Outdoor {
                azimuth_deg,
                sun: true,
                wind: true,
            };
            let kind = SurfaceKind::Roof;
            draft.flat(name, *room, kind, area * stretch, construction, behind);
            draft.tilt_last(pitch_deg);
        }
    }
}

/// One vented attic over the storey's open ceilings: ceilings into it, two slopes, two gables.
///
/// **Equation** slopes `A/cos p`, rise `h = (w/2) tan p`, volume `A h/2`, each gable `w h/2`.
/// **Symbols** A ceiling area (m2), w extent across the ridge (m), p pitch 30 degrees.
/// **Range** any plan; for plans that are not rectangles gables and rise follow the bounding
/// rectangle.
/// **Source** `common-practice` for pitch and air changes; the rest is geometry.
/// **Example** 8 m by 6 m: slopes 55.4 m2, rise 1.73 m, volume 41.6 m3.
fn attic(draft: &mut Draft<'_>, parts: &[(usize, f64)], storey: usize) {
    let Some(ridge) = ridge(draft, parts) else {
        return;
    };
    let area: f64 = parts.iter().map(|p| p.1).sum();
    let pitch = ATTIC_PITCH_DEG.to_radians();
    let rise = 0.5 * ridge.wide_m * libm::tan(pitch);
    let volume = 0.5 * area * rise;
    let top = parts
        .iter()
        .filter_map(|(i, _)| draft.placed.get(*i))
        .map(|p| p.floor_m + p.height_m)
        .fold(f64::NEG_INFINITY, f64::max);
    let attics = draft
        .house
        .storeys
        .iter()
        .filter(|s| s.over == Over::Attic)
        .count();
    let storey_name = draft
        .house
        .storeys
        .get(storey)
        .map_or("", |s| s.name.as_str());
    let name = if attics > 1 {
        format!("attic over {storey_name}")
    } else {
        "attic".to_owned()
    };
    let zone = draft.buffer(&name, area, volume, top + rise / 3.0);
    if let Some(z) = draft.model.zones.get_mut(zone) {
        z.fixed_air_m3_per_s = ATTIC_AIR_CHANGES_PER_H * volume / 3600.0;
    }
    let ceiling = draft.build_up("ceiling");
    for (room, part) in parts {
        let title = format!("{}.ceiling", draft.name(*room));
        let behind = Behind::Zone(zone);
        draft.flat(title, *room, SurfaceKind::Ceiling, *part, ceiling, behind);
    }
    let deck = draft.build_up("attic roof");
    let mut halves = [0.0; 2];
    for (room, _) in parts {
        if let Some(plan) = draft.open_over.get(*room) {
            let h = ridge.halves_m2(plan);
            halves = [halves[0] + h[0], halves[1] + h[1]];
        }
    }
    let faces = ridge.faces_deg();
    for (half, face) in halves.into_iter().zip(faces) {
        if half < 1e-3 {
            continue;
        }
        let behind = Behind::Outdoor {
            azimuth_deg: draft.compass_deg(face),
            sun: true,
            wind: true,
        };
        let title = format!("{name}.roof-{:.0}", draft.compass_deg(face));
        let slope = half / libm::cos(pitch);
        draft.flat(title, zone, SurfaceKind::Roof, slope, deck, behind);
        draft.tilt_last(ATTIC_PITCH_DEG);
    }
    for face in faces {
        let azimuth_deg = draft.compass_deg(face + 90.0);
        let behind = Behind::Outdoor {
            azimuth_deg,
            sun: true,
            wind: true,
        };
        let title = format!("{name}.gable-{azimuth_deg:.0}");
        let gable = 0.5 * ridge.wide_m * rise;
        draft.flat(title, zone, SurfaceKind::Wall, gable, deck, behind);
    }
}
