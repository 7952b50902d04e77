//! Which wall a person means, and what the notes say of it.

use super::draft::Draft;
use super::names::listed;
use super::problem::GeometryError;
use super::shape::{Edge, quarter};
use crate::describe::{Compass, Side, WallNote};

/// What the notes say of one edge.
#[derive(Debug, Clone, Default)]
pub(super) struct Notes {
    pub construction: Option<String>,
    pub adiabatic: bool,
    pub no_sun: bool,
}

/// Notes sorted to rooms and edges; a note that fits no wall or several is an error.
pub(super) fn notes_by_edge(draft: &mut Draft<'_>) -> Vec<Vec<Notes>> {
    let mut out: Vec<Vec<Notes>> = draft
        .placed
        .iter()
        .map(|p| vec![Notes::default(); p.edges.len()])
        .collect();
    let house = draft.house;
    for (i, w) in house.walls.iter().enumerate() {
        let WallNote {
            room,
            side,
            construction,
            adiabatic,
            no_sun,
        } = w;
        let place = format!("wall.{}", i + 1);
        let Some(at) = house.rooms.iter().position(|r| &r.name == room) else {
            continue;
        };
        let found = edge_meant(draft, at, side, &place, true);
        for e in found {
            if let Some(n) = out.get_mut(at).and_then(|r| r.get_mut(e)) {
                // several notes on one wall add up
                if construction.is_some() {
                    n.construction.clone_from(construction);
                }
                n.adiabatic |= *adiabatic;
                n.no_sun |= *no_sun;
            }
        }
    }
    draft.no_flow = out
        .iter()
        .enumerate()
        .flat_map(|(r, edges)| {
            edges
                .iter()
                .enumerate()
                .filter(|(_, n)| n.adiabatic)
                .map(move |(e, _)| (r, e))
        })
        .collect();
    out
}

/// The edges a side means. One edge, or several in one line when the wall has corners on a
/// straight; otherwise an error is noted and nothing comes back. With `any` set partitions count
/// as well; without it, of several the only one with an outside stretch is taken.
pub(super) fn edge_meant(
    draft: &mut Draft<'_>,
    room: usize,
    side: &Side,
    place: &str,
    any: bool,
) -> Vec<usize> {
    let Some(p) = draft.placed.get(room) else {
        return Vec::new();
    };
    let name = draft.name(room).to_owned();
    let mut found: Vec<usize> = match side {
        Side::Number(n) => p
            .edges
            .iter()
            .enumerate()
            .filter(|(_, e)| e.number == *n)
            .map(|(i, _)| i)
            .collect(),
        Side::Facing(c) => {
            let want = match c {
                Compass::North => 0,
                Compass::East => 1,
                Compass::South => 2,
                Compass::West => 3,
            };
            let faces = |e: &Edge| quarter(e.faces_deg) == want;
            p.edges
                .iter()
                .enumerate()
                .filter(|(_, e)| faces(e))
                .map(|(i, _)| i)
                .collect()
        }
    };
    if found.is_empty() {
        let (got, allowed) = match side {
            Side::Number(n) => (n.to_string(), format!("1 to {}", p.edges.len())),
            Side::Facing(_) => (side_word(side), listed(p.edges.iter().map(Edge::word))),
        };
        draft.bad.push(GeometryError::new(
            format!("{place}.wall"),
            format!("the room \"{name}\" has no such wall"),
            got,
            allowed,
            "name one of its walls",
        ));
        return found;
    }
    if found.len() > 1 && !any {
        let outside: Vec<usize> = found
            .iter()
            .copied()
            .filter(|e| {
                draft
                    .runs
                    .get(room)
                    .and_then(|r| r.get(*e))
                    .is_some_and(|r| r.iter().any(|x| x.other.is_none()))
            })
            .collect();
        if outside.len() == 1 {
            found = outside;
        }
    }
    let in_line = found
        .first()
        .and_then(|f| p.edges.get(*f))
        .is_some_and(|first| {
            found.iter().filter_map(|i| p.edges.get(*i)).all(|e| {
                let off = |q: [f64; 2]| {
                    ((q[0] - first.a[0]) * first.dir[1] - (q[1] - first.a[1]) * first.dir[0]).abs()
                };
                off(e.a) < 1e-3 && off(e.b) < 1e-3
            })
        });
    if found.len() > 1 && !in_line {
        let numbers: Vec<String> = found
            .iter()
            .filter_map(|i| p.edges.get(*i))
            .map(|e| e.number.to_string())
            .collect();
        draft.bad.push(GeometryError::new(
            format!("{place}.wall"),
            format!("the room \"{name}\" has several such walls"),
            format!("{}: walls {}", side_word(side), numbers.join(", ")),
            "one wall",
            "give the wall by number: 1 goes from the first corner to the second",
        ));
        return Vec::new();
    }
    found
}

/// A side in words.
pub(super) fn side_word(side: &Side) -> String {
    match side {
        Side::Number(n) => format!("wall {n}"),
        Side::Facing(Compass::North) => "north".to_owned(),
        Side::Facing(Compass::East) => "east".to_owned(),
        Side::Facing(Compass::South) => "south".to_owned(),
        Side::Facing(Compass::West) => "west".to_owned(),
    }
}
