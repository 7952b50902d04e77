//! Walls: outside, under grade, between rooms.

use super::draft::{Draft, Run, WallPiece};
use super::problem::{GeometryError, area};
use super::sides::{Notes, notes_by_edge};
use crate::assembly::Flow;
use crate::ground;
use crate::model::{Behind, Surface, SurfaceKind};

/// Height differences less than this are none, m.
const LEVEL_M: f64 = 0.01;

/// Makes all wall surfaces.
pub(super) fn build(draft: &mut Draft<'_>) {
    let notes = notes_by_edge(draft);
    let none = Notes::default();
    let note =
        |room: usize, edge: usize| notes.get(room).and_then(|n| n.get(edge)).unwrap_or(&none);
    let runs = draft.runs.clone();
    for (room, edges) in runs.iter().enumerate() {
        for (edge, stretch) in edges.iter().enumerate() {
            let several = stretch.iter().filter(|r| r.other.is_none()).count() > 1;
            for (nth, run) in stretch.iter().enumerate() {
                let tail = if several {
                    format!("-part{}", nth + 1)
                } else {
                    String::new()
                };
                match run.other {
                    None => {
                        let height = draft.placed.get(room).map_or(0.0, |p| p.height_m);
                        outside(
                            draft,
                            room,
                            edge,
                            run,
                            (0.0, height),
                            &tail,
                            note(room, edge),
                        );
                    }
                    Some((j, k)) => {
                        shared(draft, room, edge, run, (j, k), note(room, edge), note(j, k));
                    }
                }
            }
        }
    }
}

/// Name of a wall: by direction where that is unique in the room, else by number too.
fn wall_name(draft: &Draft<'_>, room: usize, edge: usize) -> String {
    let Some(p) = draft.placed.get(room) else {
        return String::new();
    };
    let Some(e) = p.edges.get(edge) else {
        return String::new();
    };
    let alike = p.edges.iter().filter(|x| x.word() == e.word()).count();
    let name = draft.name(room);
    if alike == 1 {
        format!("{name}.wall-{}", e.word())
    } else {
        format!("{name}.wall-{}-{}", e.word(), e.number)
    }
}

/// An outside stretch between two heights over the room's floor, split at grade.
fn outside(
    draft: &mut Draft<'_>,
    room: usize,
    edge: usize,
    run: &Run,
    heights_m: (f64, f64),
    tail: &str,
    note: &Notes,
) {
    let Some(p) = draft.placed.get(room) else {
        return;
    };
    let Some(e) = p.edges.get(edge).cloned() else {
        return;
    };
    let (floor_m, room_height) = (p.floor_m, p.height_m);
    let base = format!("{}{tail}", wall_name(draft, room, edge));
    let length = run.to_m - run.from_m;
    let grade = (-floor_m).clamp(heights_m.0, heights_m.1);
    let ends = Some([e.at(run.from_m), e.at(run.to_m)]);
    let buried = -floor_m > 0.5 * room_height;
    let usual = if buried { "basement wall" } else { "wall" };
    if grade - heights_m.0 > LEVEL_M {
        let name = note
            .construction
            .clone()
            .unwrap_or_else(|| "basement wall".to_owned());
        let construction = draft.build_up(&name);
        let behind = if note.adiabatic {
            Behind::Adiabatic
        } else {
            let wall_r = draft.resistance(construction, Flow::Level);
            let slab = draft.build_up("slab");
            let floor_r = draft.resistance(slab, Flow::Down);
            match ground::wall_contact(&draft.house.soil, wall_r, floor_r, grade) {
                Ok(c) => Behind::Ground(c),
                Err(e) => {
                    draft.bad.push(ground_error(&base, &e));
                    return;
                }
            }
        };
        draft.model.surfaces.push(Surface {
            name: format!("{base}-under-grade"),
            zone: room,
            kind: SurfaceKind::BasementWall,
            area_m2: length * (grade - heights_m.0),
            tilt_deg: 90.0,
            construction,
            behind,
            ends_m: ends,
        });
    }
    if heights_m.1 - grade > LEVEL_M {
        let name = note
            .construction
            .clone()
            .unwrap_or_else(|| usual.to_owned());
        let construction = draft.build_up(&name);
        let azimuth_deg = draft.compass_deg(e.faces_deg);
        let gross = length * (heights_m.1 - grade);
        let behind = if note.adiabatic {
            Behind::Adiabatic
        } else {
            if let Some(x) = draft.exposed_m2.get_mut(room) {
                *x += gross;
            }
            Behind::Outdoor {
                azimuth_deg,
                sun: !note.no_sun,
                wind: true,
            }
        };
        draft.pieces.push(WallPiece {
            room,
            edge,
            other: None,
            surface: draft.model.surfaces.len(),
            from_m: run.from_m,
            to_m: run.to_m,
            low_m: grade,
            high_m: heights_m.1,
            gross_m2: gross,
            cut_m2: 0.0,
        });
        draft.model.surfaces.push(Surface {
            name: base,
            zone: room,
            kind: SurfaceKind::Wall,
            area_m2: gross,
            tilt_deg: 90.0,
            construction,
            behind,
            ends_m: ends,
        });
    }
}

/// A stretch with another room behind it. Made once, from the room with the lower index; what
/// the taller room has over the lower one's ceiling faces outside.
fn shared(
    draft: &mut Draft<'_>,
    room: usize,
    edge: usize,
    run: &Run,
    other: (usize, usize),
    mine: &Notes,
    theirs: &Notes,
) {
    let (Some(p), Some(q)) = (draft.placed.get(room), draft.placed.get(other.0)) else {
        return;
    };
    let (h, h_other) = (p.height_m, q.height_m);
    if h - h_other > LEVEL_M {
        let tail = format!("-over-{}", draft.name(other.0));
        outside(draft, room, edge, run, (h_other, h), &tail, mine);
    }
    if mine.adiabatic || theirs.adiabatic {
        let name = format!("{}.partition-{}", draft.name(room), draft.name(other.0));
        let wanted = mine
            .construction
            .clone()
            .or_else(|| theirs.construction.clone());
        let construction = draft.build_up(wanted.as_deref().unwrap_or("partition"));
        let gross = (run.to_m - run.from_m) * h.min(h_other);
        draft.flat(
            name,
            room,
            SurfaceKind::Partition,
            gross,
            construction,
            Behind::Adiabatic,
        );
        return;
    }
    if room > other.0 {
        return;
    }
    if let (Some(a), Some(b)) = (&mine.construction, &theirs.construction)
        && a != b
    {
        let place = format!("room.{}.wall", draft.name(room));
        let what = format!(
            "its wall to the room \"{}\" is noted twice",
            draft.name(other.0)
        );
        draft.bad.push(GeometryError::new(
            place,
            what,
            format!("\"{a}\" and \"{b}\""),
            "one construction for a wall between two rooms",
            "leave one of the two notes out",
        ));
        return;
    }
    // the room that names the construction is on its inside; an unheated, vented space is on
    // the outside of an outside wall
    let outer_wall = (draft.vented(room) && draft.heated(other.0))
        || (draft.vented(other.0) && draft.heated(room));
    let flip = if theirs.construction.is_some() {
        true
    } else if mine.construction.is_some() {
        false
    } else {
        outer_wall && draft.vented(room)
    };
    let name = mine
        .construction
        .clone()
        .or_else(|| theirs.construction.clone())
        .unwrap_or_else(|| {
            if outer_wall {
                "wall".to_owned()
            } else {
                "partition".to_owned()
            }
        });
    let construction = draft.build_up(&name);
    let (inside, beyond) = if flip {
        (other.0, room)
    } else {
        (room, other.0)
    };
    let high = h.min(h_other);
    let gross = (run.to_m - run.from_m) * high;
    draft.pieces.push(WallPiece {
        room,
        edge,
        other: Some(other),
        surface: draft.model.surfaces.len(),
        from_m: run.from_m,
        to_m: run.to_m,
        low_m: 0.0,
        high_m: high,
        gross_m2: gross,
        cut_m2: 0.0,
    });
    let title = format!("{}.partition-{}", draft.name(inside), draft.name(beyond));
    draft.flat(
        title,
        inside,
        SurfaceKind::Partition,
        gross,
        construction,
        Behind::Zone(beyond),
    );
}

/// An error of the ground formulas, placed.
pub(super) fn ground_error(place: &str, e: &ground::GroundError) -> GeometryError {
    GeometryError::new(
        format!("surface.{place}"),
        format!("ground: {}", e.what),
        e.got.to_string(),
        e.usable,
        "check the depth of the storey, the build-up and the soil",
    )
}

/// Takes the openings out of the walls; more opening than wall is an error.
pub(super) fn close_areas(draft: &mut Draft<'_>) {
    for piece in draft.pieces.clone() {
        let net = piece.gross_m2 - piece.cut_m2;
        if piece.cut_m2 > 0.0 && net < -1e-9 {
            let name = draft
                .model
                .surfaces
                .get(piece.surface)
                .map_or_else(String::new, |s| s.name.clone());
            draft.bad.push(GeometryError::new(
                format!("room.{}", draft.name(piece.room)),
                format!("the openings are larger than the wall {name}"),
                area(piece.cut_m2),
                format!("up to {}", area(piece.gross_m2)),
                "check width, height and count of the windows and doors in it",
            ));
        }
        if let Some(s) = draft.model.surfaces.get_mut(piece.surface) {
            s.area_m2 = net.max(0.0);
        }
    }
}
