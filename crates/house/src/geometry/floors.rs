//! Floors: over other rooms, on the ground, over open air, over a crawl space.

use super::CRAWL_HEIGHT_M;
use super::draft::Draft;
use super::walls::ground_error;
use crate::assembly::Flow;
use crate::describe::Under;
use crate::ground::{self, Crawl};
use crate::model::{Behind, SurfaceKind};
use geo::Area;

/// Vents of a made crawl space: opening per perimeter, wind, shielding. Source: `iso-13370`,
/// annex E (average shielding; opening and wind are common practice).
const CRAWL_VENTS: Crawl = Crawl {
    height_m: 0.0,
    wall_u_w_per_m2k: 0.0,
    vent_m2_per_m: 0.0015,
    wind_m_per_s: 4.0,
    wind_shielding: 0.05,
};

/// Makes all floor surfaces.
pub(super) fn build(draft: &mut Draft<'_>) {
    between(draft);
    for storey in 0..draft.house.storeys.len() {
        let parts: Vec<(usize, f64)> = draft
            .open_under
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
        match s.under {
            Under::Ground => on_ground(draft, &parts, (-s.floor_m).max(0.0)),
            Under::OpenAir => over_air(draft, &parts, true),
            Under::StillAir => over_air(draft, &parts, false),
            Under::Adiabatic => {
                let construction = draft.build_up("floor");
                for (room, area) in parts {
                    let name = format!("{}.floor", draft.name(room));
                    let behind = Behind::Adiabatic;
                    draft.flat(name, room, SurfaceKind::Floor, area, construction, behind);
                }
            }
            Under::Crawl => over_crawl(draft, &parts, storey),
        }
    }
}

/// Floors between storeys: one surface, inside face up.
fn between(draft: &mut Draft<'_>) {
    for s in draft.stacked.clone() {
        let open = draft.heated(s.upper) && draft.vented(s.lower);
        let construction = draft.build_up(if open { "open floor" } else { "floor" });
        let name = format!("{}.floor-{}", draft.name(s.upper), draft.name(s.lower));
        let behind = Behind::Zone(s.lower);
        draft.flat(
            name,
            s.upper,
            SurfaceKind::InnerFloor,
            s.area_m2,
            construction,
            behind,
        );
    }
}

/// Outside length of these rooms' edges, walls without heat flow left out: the exposed
/// perimeter, m. Rooms with most of their
/// floor over other rooms do not count.
fn perimeter_m(draft: &Draft<'_>, parts: &[(usize, f64)]) -> f64 {
    let mut sum = 0.0;
    for (room, part) in parts {
        let Some(p) = draft.placed.get(*room) else {
            continue;
        };
        if *part < 0.5 * p.area_m2 {
            continue;
        }
        let Some(edges) = draft.runs.get(*room) else {
            continue;
        };
        for (e, runs) in edges.iter().enumerate() {
            if draft.no_flow.contains(&(*room, e)) {
                continue;
            }
            for run in runs.iter().filter(|r| r.other.is_none()) {
                sum += run.to_m - run.from_m;
            }
        }
    }
    sum
}

/// Slab or basement floor. The whole storey is one slab for ISO 13370: every room has the mean
/// transmittance of it.
fn on_ground(draft: &mut Draft<'_>, parts: &[(usize, f64)], depth_m: f64) {
    let construction = draft.build_up("slab");
    let r = draft.resistance(construction, Flow::Down);
    let area: f64 = parts.iter().map(|p| p.1).sum();
    let around = perimeter_m(draft, parts);
    for (room, part) in parts {
        let name = format!("{}.floor", draft.name(*room));
        // without an edge to outside there is no steady path
        let behind = if around <= 0.0 {
            Behind::Adiabatic
        } else {
            match ground::floor_contact(&draft.house.soil, area, around, r, depth_m) {
                Ok(c) => Behind::Ground(c),
                Err(e) => {
                    draft.bad.push(ground_error(&name, &e));
                    return;
                }
            }
        };
        draft.flat(name, *room, SurfaceKind::Floor, *part, construction, behind);
    }
}

/// Floor over open air: no sun; wind or none.
fn over_air(draft: &mut Draft<'_>, parts: &[(usize, f64)], wind: bool) {
    for (room, part) in parts {
        let construction = draft.build_up_of("open floor", *room);
        let name = format!("{}.floor", draft.name(*room));
        let behind = Behind::Outdoor {
            azimuth_deg: 0.0,
            sun: false,
            wind,
        };
        draft.flat(name, *room, SurfaceKind::Floor, *part, construction, behind);
        if let Some(x) = draft.exposed_m2.get_mut(*room) {
            *x += part;
        }
    }
}

/// Floor over a vented crawl space, which is a zone of its own with walls and bare ground.
fn over_crawl(draft: &mut Draft<'_>, parts: &[(usize, f64)], storey: usize) {
    let Some(s) = draft.house.storeys.get(storey) else {
        return;
    };
    let floor_m = s.floor_m;
    let height = floor_m.max(CRAWL_HEIGHT_M);
    let depth = (height - floor_m).max(0.0);
    let area: f64 = parts.iter().map(|p| p.1).sum();
    let around = perimeter_m(draft, parts);
    let name = if draft
        .house
        .storeys
        .iter()
        .filter(|x| x.under == Under::Crawl)
        .count()
        > 1
    {
        format!("crawl under {}", s.name)
    } else {
        "crawl".to_owned()
    };
    let zone = draft.buffer(&name, area, area * height, floor_m - 0.5 * height);
    if around > 0.0
        && let Ok(air) = ground::crawl_air_m3_per_s(&CRAWL_VENTS, around)
        && let Some(z) = draft.model.zones.get_mut(zone)
    {
        z.fixed_air_m3_per_s = air;
    }
    let floor = draft.build_up("open floor");
    for (room, part) in parts {
        let title = format!("{}.floor-{name}", draft.name(*room));
        let behind = Behind::Zone(zone);
        draft.flat(title, *room, SurfaceKind::InnerFloor, *part, floor, behind);
        if let Some(x) = draft.exposed_m2.get_mut(*room) {
            *x += part;
        }
    }
    let soil = draft.build_up("crawl ground");
    let soil_r = draft.resistance(soil, Flow::Down);
    if around > 0.0 {
        match ground::floor_contact(&draft.house.soil, area, around, soil_r, depth) {
            Ok(c) => {
                let behind = Behind::Ground(c);
                let title = format!("{name}.ground");
                draft.flat(title, zone, SurfaceKind::Floor, area, soil, behind);
            }
            Err(e) => draft.bad.push(ground_error(&name, &e)),
        }
    }
    crawl_walls(draft, parts, zone, &name, (height, depth), soil_r);
}

/// Walls of the crawl space along the outside edges of the rooms over it.
fn crawl_walls(
    draft: &mut Draft<'_>,
    parts: &[(usize, f64)],
    zone: usize,
    name: &str,
    (height, depth): (f64, f64),
    soil_r: f64,
) {
    let wall = draft.build_up("basement wall");
    let wall_r = draft.resistance(wall, Flow::Level);
    for (room, part) in parts {
        let Some(p) = draft.placed.get(*room) else {
            continue;
        };
        if *part < 0.5 * p.area_m2 {
            continue;
        }
        let edges = p.edges.clone();
        let Some(runs) = draft.runs.get(*room).cloned() else {
            continue;
        };
        for (e, stretch) in edges.iter().zip(&runs) {
            let length: f64 = stretch
                .iter()
                .filter(|r| r.other.is_none())
                .map(|r| r.to_m - r.from_m)
                .sum();
            if length <= 0.0 {
                continue;
            }
            let title = format!("{name}.wall-{}-{}", draft.name(*room), e.word());
            if height > depth {
                let azimuth_deg = draft.compass_deg(e.faces_deg);
                let behind = Behind::Outdoor {
                    azimuth_deg,
                    sun: true,
                    wind: true,
                };
                let area = length * (height - depth);
                draft.flat(title.clone(), zone, SurfaceKind::Wall, area, wall, behind);
            }
            if depth > 0.01 {
                match ground::wall_contact(&draft.house.soil, wall_r, soil_r, depth) {
                    Ok(c) => {
                        let title = format!("{title}-under-grade");
                        let kind = SurfaceKind::BasementWall;
                        let area = length * depth;
                        draft.flat(title, zone, kind, area, wall, Behind::Ground(c));
                    }
                    Err(e) => draft.bad.push(ground_error(&title, &e)),
                }
            }
        }
    }
}
