//! Names: each once, and what is named is there.

use super::build_ups::SET_NAMES;
use super::names::{did_you_mean, listed};
use super::problem::GeometryError;
use crate::describe::House;

pub(super) fn names_once(h: &House, bad: &mut Vec<GeometryError>) {
    let mut once = |what: &str, names: Vec<&str>| {
        for (i, n) in names.iter().enumerate() {
            if n.trim().is_empty() {
                bad.push(GeometryError::new(
                    format!("{what}.{}", i + 1),
                    "no name",
                    "nothing",
                    "a name",
                    "give it a name",
                ));
            } else if names.iter().take(i).any(|m| m == n) {
                bad.push(GeometryError::new(
                    format!("{what}.{n}"),
                    format!("two of one kind ({what}) share a name"),
                    format!("\"{n}\" again"),
                    "each name once",
                    "give one of them another name",
                ));
            }
        }
    };
    once(
        "storey",
        h.storeys.iter().map(|s| s.name.as_str()).collect(),
    );
    once("room", h.rooms.iter().map(|r| r.name.as_str()).collect());
    once(
        "construction",
        h.constructions.iter().map(|c| c.name.as_str()).collect(),
    );
    once(
        "glazing",
        h.glazings.iter().map(|g| g.name.as_str()).collect(),
    );
}

/// Names that refer to something.
pub(super) fn references(h: &House, bad: &mut Vec<GeometryError>) {
    let rooms: Vec<&str> = h.rooms.iter().map(|r| r.name.as_str()).collect();
    let mut room = |place: String, name: &str| {
        if !rooms.contains(&name) {
            bad.push(GeometryError::new(
                place,
                "no such room",
                format!("\"{name}\""),
                listed(rooms.iter().copied()),
                did_you_mean(
                    name,
                    rooms.iter().copied(),
                    "draw the room or correct the name",
                ),
            ));
        }
    };
    for (i, w) in h.walls.iter().enumerate() {
        room(format!("wall.{}.room", i + 1), &w.room);
    }
    for (i, w) in h.windows.iter().enumerate() {
        room(format!("window.{}.room", i + 1), &w.room);
    }
    for (i, d) in h.outer_doors.iter().enumerate() {
        room(format!("outer_door.{}.room", i + 1), &d.room);
    }
    for (i, d) in h.doors.iter().enumerate() {
        for r in &d.rooms {
            room(format!("door.{}", i + 1), r);
        }
    }
    for (i, v) in h.vents.iter().enumerate() {
        if !v.room.is_empty() {
            room(format!("vent.{}.room", i + 1), &v.room);
        }
    }
    let mut named = |place: String, kind: &str, name: &str, known: Vec<&str>| {
        if !known.contains(&name) {
            bad.push(GeometryError::new(
                place,
                format!("no such {kind}"),
                format!("\"{name}\""),
                listed(known.iter().copied()),
                did_you_mean(
                    name,
                    known.iter().copied(),
                    "describe it or correct the name",
                ),
            ));
        }
    };
    for (i, w) in h.walls.iter().enumerate() {
        if let Some(c) = &w.construction {
            let known = h.constructions.iter().map(|c| c.name.as_str()).collect();
            if !SET_NAMES.contains(&c.as_str()) {
                named(
                    format!("wall.{}.construction", i + 1),
                    "construction",
                    c,
                    known,
                );
            }
        }
    }
    for (i, w) in h.windows.iter().enumerate() {
        let known = h.glazings.iter().map(|g| g.name.as_str()).collect();
        named(
            format!("window.{}.glazing", i + 1),
            "glazing",
            &w.glazing,
            known,
        );
    }
}
