//! Side view of lines and drains: length along the route against height.

use jobfile::Job;
use units::{Dim, System, show};

use super::judged::{LEFT, RIGHT, WIDTH};
use super::page::{Cell, cell, joined, page, path, text};
use crate::Plan;

/// A line and a drain for each head that has them.
pub fn side(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let done = &job.installation;
    if plan.install.done().is_none() || (done.lines.is_empty() && done.drains.is_empty()) {
        return None;
    }
    let mut out = String::new();
    text(
        &mut out,
        16.0,
        26.0,
        "start",
        "bold",
        "Lines and drains from the side: along the route, and up",
    );
    let mut y = 34.0;
    for head in &job.equipment.heads {
        y += 14.0;
        text(&mut out, LEFT, y, "start", "bold small", &head.name);
        y += 4.0;
        for r in routes(plan, job, &head.name, system) {
            y = route(&mut out, (LEFT, y + 14.0), &r, system);
        }
    }
    let cells = title_block(plan, job, system);
    Some(page(
        WIDTH,
        y + 12.0,
        "Lines and drains from the side",
        &cells,
        &out,
    ))
}

/// The title block: of the first unit.
pub(super) fn title_block(plan: &Plan, job: &Job, system: System) -> [Cell; 2] {
    let total = job
        .equipment
        .outdoors
        .first()
        .and_then(|o| plan.value(&format!("lines.{}.total", o.name)));
    [
        cell(
            "Heights larger than lengths; dashed: not measured",
            "Copper is the line, frost the drain",
        ),
        cell(
            "All lines",
            total.map_or("not all measured".to_owned(), |(v, d)| show(v, d, system)),
        ),
    ]
}

/// A line or a drain of a head.
pub(super) struct Route<'j> {
    pub title: String,
    pub class: &'static str,
    /// Name, length and rise, m; none where it was not measured.
    pub pieces: Vec<(&'j str, f64, Option<f64>)>,
}

/// The line and the drain of a head, as far as they are described.
pub(super) fn routes<'j>(plan: &Plan, job: &'j Job, head: &str, system: System) -> Vec<Route<'j>> {
    let done = &job.installation;
    let mut all = Vec::new();
    if let Some(l) = done.lines.iter().find(|l| l.head == head) {
        let says = |k: &str| {
            plan.value(&format!("lines.{head}.{k}"))
                .map(|(v, d)| show(v, d, system))
        };
        let length = says("length").unwrap_or_else(|| "not measured".to_owned());
        let over = says("rise").map_or_else(
            || "height of the head not measured".to_owned(),
            |rise| format!("head {rise} over the unit"),
        );
        let pieces = l.pieces.iter();
        all.push(Route {
            title: format!("line {length}, {over}"),
            class: "copper",
            pieces: pieces
                .map(|p| (p.name.as_str(), p.length_m, p.rise_m))
                .collect(),
        });
    }
    if let Some(d) = done.drains.iter().find(|d| d.head == head) {
        let pieces = d.pieces.iter();
        all.push(Route {
            title: "drain, from the head".to_owned(),
            class: "frost",
            pieces: pieces
                .map(|p| (p.name.as_str(), p.length_m, p.fall_m.map(|f| -f)))
                .collect(),
        });
    }
    all
}

/// A rise in words.
pub(super) fn slope(rise: Option<f64>, system: System) -> String {
    rise.map_or("not measured".to_owned(), |r| {
        let dim = if r.abs() < 0.3 {
            Dim::SmallLength
        } else {
            Dim::Length
        };
        let word = match r {
            0.0 => return "level".to_owned(),
            r if r < 0.0 => "down",
            _ => "up",
        };
        format!("{word} {}", show(r.abs(), dim, system))
    })
}

/// Heights of the ends of the pieces over the first, m.
pub(super) fn heights(pieces: &[(&str, f64, Option<f64>)]) -> Vec<f64> {
    let mut all = vec![0.0_f64];
    for p in pieces {
        all.push(all.last().copied().unwrap_or(0.0) + p.2.unwrap_or(0.0));
    }
    all
}

fn route(out: &mut String, at: (f64, f64), route: &Route<'_>, system: System) -> f64 {
    let (width, tall) = (RIGHT - LEFT - 12.0, 96.0);
    let (pieces, class) = (&route.pieces, route.class);
    text(out, at.0, at.1 + 4.0, "start", "small", &route.title);
    let all: f64 = pieces.iter().map(|p| p.1).sum();
    let heights = heights(pieces);
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let span = (high - low).max(0.05);
    let y = |h: f64| at.1 + 40.0 + tall * (high - h) / span;
    let mut x = at.0;
    for (i, (name, length, rise)) in pieces.iter().enumerate() {
        let next = x + width * length / all.max(1e-6);
        let (a, b) = (
            heights.get(i).copied().unwrap_or(0.0),
            heights.get(i + 1).copied().unwrap_or(0.0),
        );
        let d = joined(&[(x, y(a)), (next, y(b))]);
        if rise.is_some() {
            path(out, class, 2.2, &d);
        } else {
            out.push_str(&format!("<path class=\"{class}\" stroke-width=\"1.4\" stroke-dasharray=\"5 4\" d=\"{d}\"/>\n"));
        }
        let fall = slope(*rise, system);
        // names stand in a list beneath, so that they never run over each other
        let (mx, my) = (f64::midpoint(x, next), y(f64::midpoint(a, b)));
        let number = format!("{}", i + 1);
        text(out, mx, my - 6.0, "middle", "small halo", &number);
        let says = super::page::fitted(&format!("{number}  {name}, {fall}"), 10.5, width);
        let beneath = at.1 + tall + 62.0 + 14.0 * i as f64;
        text(out, at.0, beneath, "start", "small", &says);
        x = next;
    }
    at.1 + tall + 62.0 + 14.0 * pieces.len() as f64
}
