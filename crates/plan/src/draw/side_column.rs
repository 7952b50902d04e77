//! Lines and drains from the side in a column for a phone.

use jobfile::Job;
use units::System;

use super::column::{LEFT, RIGHT, ROW, page, words};
use super::page::{joined, path, text};
use super::side::{Route, heights, routes, slope, title_block};
use crate::Plan;

/// Height of a profile.
const TALL: f64 = 84.0;

/// As [`super::side`], in a column.
pub fn side_column(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let done = &job.installation;
    if plan.install.done().is_none() || (done.lines.is_empty() && done.drains.is_empty()) {
        return None;
    }
    let mut out = String::new();
    let room = RIGHT - LEFT;
    let title = "Lines and drains from the side: along the route, and up";
    let mut y = words(&mut out, (LEFT, 26.0), "bold", room, title);
    for head in &job.equipment.heads {
        let all = routes(plan, job, &head.name, system);
        y = words(&mut out, (LEFT, y + 10.0), "small bold", room, &head.name);
        for r in all {
            y = words(&mut out, (LEFT, y), "small", room, &r.title);
            y = profile(&mut out, y, &r);
            for (i, (name, _, rise)) in r.pieces.iter().enumerate() {
                let says = format!("{}. {name}, {}", i + 1, slope(*rise, system));
                y = words(&mut out, (LEFT, y), "small", room, &says);
            }
            y += 6.0;
        }
    }
    let cells = title_block(plan, job, system);
    let label = "Lines and drains from the side";
    Some(page(y, label, &cells, &out))
}

/// The pieces along the route, each with its number; gives where words may go on.
fn profile(out: &mut String, top: f64, route: &Route<'_>) -> f64 {
    let width = RIGHT - LEFT;
    let all: f64 = route.pieces.iter().map(|p| p.1).sum();
    let heights = heights(&route.pieces);
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let y = |h: f64| top + 20.0 + TALL * (high - h) / (high - low).max(0.05);
    let mut x = LEFT;
    let mut numbers: Vec<(f64, f64)> = Vec::new();
    for (i, (piece, ends)) in route.pieces.iter().zip(heights.windows(2)).enumerate() {
        let [a, b] = ends else { continue };
        let next = x + width * piece.1 / all.max(1e-6);
        let d = joined(&[(x, y(*a)), (next, y(*b))]);
        if piece.2.is_some() {
            path(out, route.class, 2.2, &d);
        } else {
            out.push_str(&format!(
                "<path class=\"{}\" stroke-width=\"1.4\" stroke-dasharray=\"5 4\" d=\"{d}\"/>\n",
                route.class
            ));
        }
        // short pieces stand close: their numbers go over and under the line in turn
        let at = (f64::midpoint(x, next), y(f64::midpoint(*a, *b)));
        let free = |dy: &f64| {
            let apart =
                |n: &(f64, f64)| (n.0 - at.0).abs() > 17.0 || (n.1 - at.1 - dy).abs() > 13.0;
            numbers.iter().all(apart)
        };
        let dy = [-6.0, 18.0, -20.0, 32.0].into_iter().find(free);
        let number = (
            at.0.clamp(LEFT + 8.0, RIGHT - 8.0),
            at.1 + dy.unwrap_or(-6.0),
        );
        numbers.push(number);
        text(
            out,
            number.0,
            number.1,
            "middle",
            "small halo",
            &(i + 1).to_string(),
        );
        x = next;
    }
    top + 20.0 + TALL + 28.0 + 0.5 * ROW
}
