//! Losses of the rooms as bars, by what the heat passes through.

use house::loads::Through;
use units::System;

use super::axes::{Scale, temperature};
use super::page::{cell, fitted, page, rect, text, wide};
use crate::Plan;

const WIDTH: f64 = 760.0;
const ROW: f64 = 26.0;

const GROUPS: [(&str, &str, &[Through]); 5] = [
    (
        "inked",
        "walls and doors",
        &[Through::Walls, Through::Doors],
    ),
    ("frosted", "glass", &[Through::Windows]),
    (
        "frostmid",
        "ceiling, floor, ground",
        &[Through::Ceiling, Through::Floor, Through::Ground],
    ),
    ("coppermid", "to rooms and spaces beside", &[Through::Inner]),
    (
        "coppered",
        "leaks and fans",
        &[Through::Leaks, Through::Fans],
    ),
];

/// The chart; none without loads.
pub fn bars(plan: &Plan, system: System) -> Option<String> {
    let loads = plan.loads.done()?;
    let rooms = &loads.heating.rooms;
    let most = rooms
        .iter()
        .map(|r| r.parts.iter().map(|p| p.heat_w.max(0.0)).sum::<f64>())
        .fold(0.0, f64::max)
        .max(1.0);
    let x = Scale::new((0.0, most), (150.0, WIDTH - 100.0));
    let mut out = String::new();
    let title = format!(
        "Heat lost at {}, room by room",
        temperature(loads.design.outdoor_c, system)
    );
    text(&mut out, 16.0, 26.0, "start", "bold", &title);
    let mut lx = 16.0;
    for (class, word, through) in GROUPS {
        let there = |p: &house::loads::Part| through.contains(&p.through) && p.heat_w > 0.0;
        if !rooms.iter().any(|r| r.parts.iter().any(there)) {
            continue;
        }
        rect(&mut out, class, lx, 40.0, 11.0, 11.0);
        text(&mut out, lx + 16.0, 49.5, "start", "small", word);
        lx += 34.0 + wide(word, 10.5);
    }
    let mut y = 68.0;
    for room in rooms {
        text(
            &mut out,
            142.0,
            y + 13.0,
            "end",
            "",
            &fitted(&room.room, 12.0, 130.0),
        );
        let mut at = 0.0;
        for (class, _, through) in GROUPS {
            let w: f64 = room
                .parts
                .iter()
                .filter(|p| through.contains(&p.through) && p.heat_w > 0.0)
                .map(|p| p.heat_w)
                .sum();
            if w > 0.0 {
                rect(&mut out, class, x.at(at), y, x.at(at + w) - x.at(at), 17.0);
                at += w;
            }
        }
        text(
            &mut out,
            x.at(at) + 8.0,
            y + 13.0,
            "start",
            "",
            &units::load_number(room.heat_w, system),
        );
        y += ROW;
    }
    let cells = [
        cell(
            &plan.name,
            "A room that a neighbour warms loses less than its bar is long",
        ),
        cell(
            "House",
            format!(
                "{} {}",
                units::load_number(loads.heating.heat_w, system),
                units::load_unit(system)
            ),
        ),
        cell("Outdoors", temperature(loads.design.outdoor_c, system)),
    ];
    Some(page(WIDTH, y + 12.0, &title, &cells, &out))
}
