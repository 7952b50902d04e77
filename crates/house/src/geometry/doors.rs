//! Doors to outside and openings between rooms.

use super::draft::Draft;
use super::problem::{GeometryError, length};
use super::sides::side_word;
use super::windows::{Wanted, piece_for};
use crate::model::{Opening, Surface, SurfaceKind};

/// Doors to outside: a surface each, cut from the wall.
pub(super) fn outer(draft: &mut Draft<'_>) {
    let house = draft.house;
    for (i, d) in house.outer_doors.iter().enumerate() {
        let place = format!("outer_door.{}", i + 1);
        let Some(room) = house.rooms.iter().position(|r| r.name == d.room) else {
            continue;
        };
        let wanted = Wanted {
            place: &place,
            what: "door",
            room,
            side: &d.side,
            width_m: d.width_m,
            bottom_m: 0.0,
            height_m: d.height_m,
            from_left_m: None,
            count: 1,
        };
        let Some(at) = piece_for(draft, &wanted) else {
            continue;
        };
        let area = d.width_m * d.height_m;
        let Some(piece) = draft.pieces.get_mut(at) else {
            continue;
        };
        piece.cut_m2 += area;
        let wall = piece.surface;
        let Some(behind) = draft.model.surfaces.get(wall).map(|s| s.behind.clone()) else {
            continue;
        };
        let construction = draft.leaf(d.u_w_per_m2k, d.known, room);
        let name = format!("{}.door-{}", d.room, side_word(&d.side).replace(' ', "-"));
        draft.model.surfaces.push(Surface {
            name,
            zone: room,
            kind: SurfaceKind::Door,
            area_m2: area,
            tilt_deg: 90.0,
            construction,
            behind,
            ends_m: None,
        });
    }
}

/// Openings between rooms: beside each other on a storey, or over each other (a stair).
pub(super) fn inner(draft: &mut Draft<'_>) {
    let house = draft.house;
    for (i, d) in house.doors.iter().enumerate() {
        let place = format!("door.{}", i + 1);
        let [a, b] = &d.rooms;
        let at = |name: &String| house.rooms.iter().position(|r| &r.name == name);
        let (Some(a_at), Some(b_at)) = (at(a), at(b)) else {
            continue;
        };
        if a_at == b_at {
            draft.bad.push(GeometryError::new(
                place,
                "the door joins a room with itself",
                format!("\"{a}\" twice"),
                "two rooms",
                "name the room on the other side",
            ));
            continue;
        }
        let between = |p: &super::draft::WallPiece| {
            p.other.is_some_and(|(j, _)| {
                (p.room == a_at && j == b_at) || (p.room == b_at && j == a_at)
            })
        };
        let wall = draft
            .pieces
            .iter()
            .enumerate()
            .filter(|(_, p)| between(p))
            .max_by(|(_, p), (_, q)| (p.to_m - p.from_m).total_cmp(&(q.to_m - q.from_m)))
            .map(|(k, p)| (k, p.to_m - p.from_m, p.high_m));
        let stair = draft
            .stacked
            .iter()
            .any(|s| (s.upper == a_at && s.lower == b_at) || (s.upper == b_at && s.lower == a_at));
        if let Some((k, long, high)) = wall {
            if d.width_m > long + 1e-6 || d.height_m > high + 1e-6 {
                draft.bad.push(GeometryError::new(
                    place,
                    format!("the door is larger than the wall between \"{a}\" and \"{b}\""),
                    format!("{} wide, {} high", length(d.width_m), length(d.height_m)),
                    format!("up to {} wide, {} high", length(long), length(high)),
                    "correct the size of the door or the outlines",
                ));
                continue;
            }
            if let Some(p) = draft.pieces.get_mut(k) {
                p.cut_m2 += d.width_m * d.height_m;
            }
        } else if !stair && !joined_without_heat(draft, a_at, b_at) {
            draft.bad.push(GeometryError::new(
                place,
                "the door leads nowhere: the rooms do not touch",
                format!("\"{a}\" and \"{b}\""),
                "two rooms with a common wall on one storey, or one over the other for a stair",
                "correct the names, or draw the rooms so that their walls meet",
            ));
            continue;
        }
        draft.model.openings.push(Opening {
            zones: [a_at, b_at],
            width_m: d.width_m,
            height_m: d.height_m,
            stands: d.stands,
            undercut_m: d.undercut_m,
            transfer_m3_per_s: d.transfer_m3_per_s,
        });
    }
}

/// Rooms that touch along a wall noted as without heat flow: no surface joins them, a door may.
fn joined_without_heat(draft: &Draft<'_>, a: usize, b: usize) -> bool {
    draft.runs.get(a).is_some_and(|edges| {
        edges
            .iter()
            .flatten()
            .any(|r| r.other.is_some_and(|o| o.0 == b))
    })
}
