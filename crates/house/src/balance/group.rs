//! Surfaces that are alike, and faces in the order of their zones.

use super::eight::SIDE;
use super::spread::Made;
use crate::assembly::{AssemblyError, Flow, Slab, resolved};
use crate::drive::Drive;
use crate::model::{Behind, Model};

/// Layers of a surface, soil added where it meets the ground.
pub(super) fn slabs_of(model: &Model, i: usize) -> Result<Vec<Slab>, AssemblyError> {
    let s = &model.surfaces[i];
    let mut slabs = resolved(
        &model.constructions[s.construction],
        Flow::of_tilt(s.tilt_deg),
    )?;
    if let Behind::Ground(contact) = &s.behind {
        slabs.insert(
            0,
            Slab {
                r_m2k_per_w: contact.soil_m / model.soil.k_w_per_mk,
                c_j_per_m2k: contact.soil_m * model.soil.capacity_j_per_m3k,
            },
        );
    }
    Ok(slabs)
}

/// Surfaces in groups that differ only in area.
pub(super) fn alike(model: &Model, drive: &Drive) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (i, s) in model.surfaces.iter().enumerate() {
        let same = |g: &&mut Vec<usize>| {
            let o = &model.surfaces[g[0]];
            let behind = match (&s.behind, &o.behind) {
                (Behind::Outdoor { .. }, Behind::Outdoor { .. }) => {
                    drive.of_surface[i] == drive.of_surface[g[0]]
                }
                (a, b) => a == b,
            };
            behind && (s.zone, s.construction, s.tilt_deg) == (o.zone, o.construction, o.tilt_deg)
        };
        if s.area_m2 <= 0.0 {
            continue;
        }
        match groups.iter_mut().find(same) {
            Some(group) => group.push(i),
            None => groups.push(vec![i]),
        }
    }
    groups
}

/// Sorts faces by zone, keeping their order otherwise, and fills every zone up to a multiple of
/// eight; tells where each went.
pub(super) fn sort_by_zone(made: &mut Vec<Made>, zones: usize) -> Vec<usize> {
    let before = std::mem::take(made);
    let mut place = vec![0; before.len()];
    for zone in 0..zones {
        for (from, m) in before.iter().enumerate().filter(|(_, m)| m.zone == zone) {
            place[from] = made.len();
            made.push(*m);
        }
        while !made.len().is_multiple_of(SIDE) {
            made.push(Made::nothing(zone));
        }
    }
    place
}
