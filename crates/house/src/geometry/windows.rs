//! Windows into their walls.

use super::draft::Draft;
use super::problem::{GeometryError, length};
use super::sides::{edge_meant, side_word};
use crate::describe::Side;
use crate::model::{Behind, WindowPane};

/// Where an opening is to go.
pub(super) struct Wanted<'a> {
    pub place: &'a str,
    pub what: &'a str,
    pub room: usize,
    pub side: &'a Side,
    pub width_m: f64,
    pub bottom_m: f64,
    pub height_m: f64,
    pub from_left_m: Option<f64>,
    pub count: u32,
}

/// Puts every window into its wall.
pub(super) fn build(draft: &mut Draft<'_>) {
    let house = draft.house;
    // (piece, left, right, bottom, top, place) of windows whose position is known
    let mut set: Vec<(usize, [f64; 4], String)> = Vec::new();
    for (i, w) in house.windows.iter().enumerate() {
        let place = format!("window.{}", i + 1);
        let Some(room) = house.rooms.iter().position(|r| r.name == w.room) else {
            continue;
        };
        let wanted = Wanted {
            place: &place,
            what: "window",
            room,
            side: &w.side,
            width_m: w.width_m,
            bottom_m: w.sill_m,
            height_m: w.height_m,
            from_left_m: w.from_left_m,
            count: w.count,
        };
        let Some(piece_index) = piece_for(draft, &wanted) else {
            continue;
        };
        if let (Some(left), 1) = (w.from_left_m, w.count) {
            let here = [left, left + w.width_m, w.sill_m, w.sill_m + w.height_m];
            let clash = set.iter().find(|(p, there, _)| {
                *p == piece_index
                    && here[0] < there[1] - 1e-6
                    && there[0] < here[1] - 1e-6
                    && here[2] < there[3] - 1e-6
                    && there[2] < here[3] - 1e-6
            });
            if let Some((_, there, other)) = clash {
                draft.bad.push(GeometryError::new(
                    place.clone(),
                    format!("lies over {other}"),
                    format!("from {} to {}", length(here[0]), length(here[1])),
                    format!("outside {} to {}", length(there[0]), length(there[1])),
                    "check the distances from the left end of the wall",
                ));
            }
            set.push((piece_index, here, place.clone()));
        }
        let area = w.width_m * w.height_m * f64::from(w.count);
        let Some(piece) = draft.pieces.get_mut(piece_index) else {
            continue;
        };
        piece.cut_m2 += area;
        let in_surface = piece.surface;
        let azimuth_deg = match draft.model.surfaces.get(in_surface).map(|s| &s.behind) {
            Some(Behind::Outdoor { azimuth_deg, .. }) => *azimuth_deg,
            _ => continue,
        };
        let Some(glazing) = house.glazings.iter().position(|g| g.name == w.glazing) else {
            continue;
        };
        let name = if w.name.is_empty() {
            format!("{}.window-{}", w.room, side_word(&w.side).replace(' ', "-"))
        } else {
            w.name.clone()
        };
        draft.model.panes.push(WindowPane {
            name,
            zone: room,
            in_surface,
            area_m2: area,
            width_m: w.width_m,
            height_m: w.height_m,
            sill_m: w.sill_m,
            count: w.count,
            azimuth_deg,
            tilt_deg: 90.0,
            glazing,
            shade: w.shade,
            known: w.known,
        });
    }
}

/// The outside wall piece an opening belongs in, or an error noted.
pub(super) fn piece_for(draft: &mut Draft<'_>, w: &Wanted<'_>) -> Option<usize> {
    let edges = edge_meant(draft, w.room, w.side, w.place, false);
    if edges.is_empty() {
        return None;
    }
    let whole_length: f64 = edges
        .iter()
        .filter_map(|e| draft.placed.get(w.room).and_then(|p| p.edges.get(*e)))
        .map(|e| e.length_m)
        .sum();
    let what = w.what;
    let row = w.width_m * f64::from(w.count);
    if w.width_m > whole_length + 1e-9 {
        draft.bad.push(GeometryError::new(
            w.place,
            format!("the {what} is wider than the wall"),
            length(w.width_m),
            format!("up to {}", length(whole_length)),
            "check the width, or which wall is meant",
        ));
        return None;
    }
    let right = w.from_left_m.map(|l| l + row);
    if let Some(right) = right
        && right > whole_length + 1e-6
    {
        draft.bad.push(GeometryError::new(
            w.place,
            format!("the {what} reaches past the end of the wall"),
            format!("right edge at {}", length(right)),
            format!("up to {}", length(whole_length)),
            "check its distance from the left end of the wall, seen from inside",
        ));
        return None;
    }
    let height_m = draft.placed.get(w.room).map_or(0.0, |p| p.height_m);
    let top = w.bottom_m + w.height_m;
    if top > height_m + 1e-6 {
        draft.bad.push(GeometryError::new(
            w.place,
            format!("the {what} reaches over the ceiling"),
            format!("top at {}", length(top)),
            format!("up to {}", length(height_m)),
            "lower the sill or the height",
        ));
        return None;
    }
    // along the edge, the left end seen from inside is its end
    let middle = w.from_left_m.and_then(|l| match edges.as_slice() {
        [e] => draft
            .placed
            .get(w.room)
            .and_then(|p| p.edges.get(*e))
            .map(|e| e.length_m - (l + 0.5 * row)),
        _ => None,
    });
    let found = draft
        .pieces
        .iter()
        .enumerate()
        .filter(|(_, p)| p.room == w.room && p.other.is_none() && edges.contains(&p.edge))
        .filter(|(_, p)| middle.is_none_or(|m| m >= p.from_m && m <= p.to_m))
        .filter(|(_, p)| top > p.low_m)
        .max_by(|(_, a), (_, b)| {
            let fits = |p: &super::draft::WallPiece| p.high_m + 1e-6 >= top;
            fits(a)
                .cmp(&fits(b))
                .then((a.gross_m2 - a.cut_m2).total_cmp(&(b.gross_m2 - b.cut_m2)))
        })
        .map(|(i, _)| i);
    let Some(found) = found else {
        return no_piece(draft, w, &edges);
    };
    let surface = draft.pieces.get(found).map(|p| p.surface);
    let adiabatic = surface
        .and_then(|s| draft.model.surfaces.get(s))
        .is_some_and(|s| s.behind == Behind::Adiabatic);
    if adiabatic {
        draft.bad.push(GeometryError::new(
            w.place,
            format!("the {what} is in a wall without heat flow"),
            side_word(w.side),
            "a wall to outside",
            "take the note off the wall, or put the opening in another wall",
        ));
        return None;
    }
    Some(found)
}

/// No outside wall there: says whether it is a partition or under grade.
fn no_piece(draft: &mut Draft<'_>, w: &Wanted<'_>, edges: &[usize]) -> Option<usize> {
    let behind = edges
        .iter()
        .filter_map(|e| draft.runs.get(w.room).and_then(|r| r.get(*e)))
        .flatten()
        .find_map(|r| r.other);
    let (got, mend) = match behind {
        Some((j, _)) => (
            format!(
                "{}: the room \"{}\" is behind it there",
                side_word(w.side),
                draft.name(j)
            ),
            "name a wall that faces outside; an opening between rooms is a door",
        ),
        None => (
            format!("{}: under grade there", side_word(w.side)),
            "raise the sill, or correct the floor level of the storey",
        ),
    };
    draft.bad.push(GeometryError::new(
        w.place,
        format!("the {} is not in an outside wall", w.what),
        got,
        "a wall to outside, over grade",
        mend,
    ));
    None
}
