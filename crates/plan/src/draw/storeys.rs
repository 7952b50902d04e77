//! The plan of each storey: outlines, windows, losses and temperatures.

use house::balance::Doors;
use house::describe::Room;
use house::model::{Model, SurfaceKind};
use jobfile::Job;
use units::System;

use super::axes::temperature;
use super::page::{Cell, cell, fitted, joined, page, path, text};
use crate::{Loads, Plan};

const WIDTH: f64 = 860.0;
const HEAD: f64 = 62.0;
const GAP: f64 = 36.0;

/// From the plan to the sheet.
pub(super) struct View {
    pub scale: f64,
    pub x: f64,
    pub y: f64,
    pub left_m: f64,
    pub top_m: f64,
}

impl View {
    /// Place on the sheet.
    pub fn at(&self, p: [f64; 2]) -> (f64, f64) {
        (
            self.x + (p[0] - self.left_m) * self.scale,
            self.y + (self.top_m - p[1]) * self.scale,
        )
    }
}

/// Lowest and highest corners.
pub(super) fn ends(rooms: &[&Room]) -> ([f64; 2], [f64; 2]) {
    let mut lo = [f64::INFINITY; 2];
    let mut hi = [f64::NEG_INFINITY; 2];
    for p in rooms.iter().flat_map(|r| &r.outline) {
        for k in 0..2 {
            lo[k] = lo[k].min(p[k]);
            hi[k] = hi[k].max(p[k]);
        }
    }
    (lo, hi)
}

/// The drawing; none where no room has an outline.
pub fn storeys(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let model = plan.model.done()?;
    let loads = plan.loads.done();
    let told = told(job);
    let sizes: Vec<([f64; 2], [f64; 2])> = told.iter().map(|(_, r)| ends(r)).collect();
    let across: f64 = sizes.iter().map(|(lo, hi)| hi[0] - lo[0]).sum();
    let tall = sizes
        .iter()
        .map(|(lo, hi)| hi[1] - lo[1])
        .fold(1.0, f64::max);
    let room = WIDTH - 56.0 - GAP * (told.len() as f64 - 1.0);
    let scale = (room / across.max(1.0)).min(420.0 / tall);
    let mut x = 28.0 + 0.5 * (room - across * scale).max(0.0);
    let mut out = String::new();
    let title = title(plan, system);
    text(&mut out, 16.0, 26.0, "start", "bold", &title);
    for ((index, rooms), (lo, hi)) in told.iter().zip(&sizes) {
        let view = View {
            scale,
            x,
            y: HEAD,
            left_m: lo[0],
            top_m: hi[1],
        };
        if let Some(s) = job.house.storeys.get(*index) {
            text(&mut out, x, HEAD - 10.0, "start", "small soft", &s.name);
        }
        for room in rooms {
            fill(&mut out, room, job, loads, &view);
        }
        walls(&mut out, model, *index, &view);
        for room in rooms {
            words(&mut out, room, (job, loads), &view, (12.0, 10.5), system);
        }
        x += (hi[0] - lo[0]) * scale + GAP;
    }
    let height = HEAD + tall * scale + 54.0;
    north(&mut out, job.house.plan_north_deg, WIDTH - 34.0, 30.0);
    text(
        &mut out,
        28.0,
        height - 20.0,
        "start",
        "small soft",
        COLOURS,
    );
    let cells = title_block(plan, told.len(), system);
    Some(page(WIDTH, height, &title, &cells, &out))
}

/// What the colours of rooms mean.
pub(super) const COLOURS: &str =
    "Copper: a head blows here. Frost: heated, without a head; its temperature with doors closed.";

/// Storeys that are drawn, by number, with their rooms: those with a heated room; a bare cellar says
/// nothing.
pub(super) fn told(job: &Job) -> Vec<(usize, Vec<&Room>)> {
    let storeys: Vec<(usize, Vec<&Room>)> = job
        .house
        .storeys
        .iter()
        .enumerate()
        .map(|(i, s)| {
            (
                i,
                job.house
                    .rooms
                    .iter()
                    .filter(|r| r.storey == s.name)
                    .collect(),
            )
        })
        .filter(|(_, rooms): &(usize, Vec<&Room>)| !rooms.is_empty())
        .collect();
    let heated = |s: &(usize, Vec<&Room>)| s.1.iter().any(|r| r.heated.is_some());
    if storeys.iter().any(heated) {
        storeys.into_iter().filter(heated).collect()
    } else {
        storeys
    }
}

/// What the drawing shows.
pub(super) fn title(plan: &Plan, system: System) -> String {
    plan.loads.done().map_or("Plan".to_owned(), |l| {
        format!(
            "Plan: heat lost at {}, {}",
            temperature(l.design.outdoor_c, system),
            units::load_unit(system)
        )
    })
}

/// The title block.
pub(super) fn title_block(plan: &Plan, storeys: usize, system: System) -> [Cell; 3] {
    let loads = plan.loads.done();
    let house = loads.map_or("waits".to_owned(), |l| {
        format!(
            "{} {}",
            units::load_number(l.heating.heat_w, system),
            units::load_unit(system)
        )
    });
    [
        cell(&plan.name, title(plan, system)),
        cell("House", house),
        cell("Storeys", storeys.to_string()),
    ]
}

fn corners(room: &Room, view: &View) -> Vec<(f64, f64)> {
    room.outline.iter().map(|p| view.at(*p)).collect()
}

pub(super) fn fill(out: &mut String, room: &Room, job: &Job, loads: Option<&Loads>, view: &View) {
    let head = job.equipment.heads_in(&room.name).next().is_some();
    let floats = loads.is_some_and(|l| l.floats.iter().any(|f| f.room == room.name));
    let class = match (head, floats) {
        (true, _) => "copperwash",
        (_, true) => "frostwash",
        _ => "paper",
    };
    let d = format!("{}Z", joined(&corners(room, view)));
    path(out, class, 0.0, &d);
    path(out, "ink", 1.6, &d);
}

/// Outside walls thick, windows as gaps with two lines.
pub(super) fn walls(out: &mut String, model: &Model, storey: usize, view: &View) {
    let of_storey = |zone: usize| {
        model
            .zones
            .get(zone)
            .is_some_and(|z| z.storey == Some(storey))
    };
    for s in model.surfaces.iter().filter(|s| of_storey(s.zone)) {
        if let (Some([a, b]), SurfaceKind::Wall | SurfaceKind::BasementWall) = (s.ends_m, s.kind) {
            path(out, "ink", 4.5, &joined(&[view.at(a), view.at(b)]));
        }
    }
    for p in model.panes.iter().filter(|p| of_storey(p.zone)) {
        let Some([a, b]) = model.surfaces.get(p.in_surface).and_then(|s| s.ends_m) else {
            continue;
        };
        let length = libm::hypot(b[0] - a[0], b[1] - a[1]).max(1e-6);
        let n = p.count.max(1);
        for k in 0..n {
            // Where a window stands along its wall is often not known: they are spread evenly.
            let middle = (f64::from(k) + 0.5) / f64::from(n);
            let half = 0.5 * (p.width_m / length).min(0.95 / f64::from(n));
            let along = |t: f64| view.at([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
            let (u, v) = (along(middle - half), along(middle + half));
            out.push_str(&format!("<path stroke=\"#fffdf7\" class=\"paperline\" stroke-width=\"5\" fill=\"none\" d=\"{}\"/>\n", joined(&[u, v])));
            let (dx, dy) = (v.0 - u.0, v.1 - u.1);
            let l = libm::hypot(dx, dy).max(1e-6);
            let (nx, ny) = (-dy / l * 2.3, dx / l * 2.3);
            for s in [-1.0, 1.0] {
                let line = [(u.0 + s * nx, u.1 + s * ny), (v.0 + s * nx, v.1 + s * ny)];
                path(out, "frost", 1.2, &joined(&line));
            }
        }
    }
}

/// Name, loss and temperature, as many lines as the room has height for; sizes of plain and small
/// words.
pub(super) fn words(
    out: &mut String,
    room: &Room,
    (job, loads): (&Job, Option<&Loads>),
    view: &View,
    (plain, small): (f64, f64),
    system: System,
) {
    let points = corners(room, view);
    let span = |k: fn(&(f64, f64)) -> f64| {
        let lo = points.iter().map(k).fold(f64::INFINITY, f64::min);
        let hi = points.iter().map(k).fold(f64::NEG_INFINITY, f64::max);
        (lo, hi)
    };
    let ((x0, x1), (y0, y1)) = (span(|p| p.0), span(|p| p.1));
    let wide = x1 - x0 - 16.0;
    let mut lines = vec![("bold", fitted(&room.name, plain, wide))];
    if let Some(loads) = loads {
        if let Some(r) = loads.heating.rooms.iter().find(|r| r.room == room.name) {
            lines.push(("", units::load_number(r.heat_w, system)));
        }
        if let Some(c) = loads.float_c(&room.name, loads.design.outdoor_c, Doors::Closed) {
            let long = format!("{}, door closed", temperature(c, system));
            let fits = super::page::wide(&long, small) <= wide;
            lines.push((
                "small soft",
                if fits { long } else { temperature(c, system) },
            ));
        }
    }
    for head in job.equipment.heads_in(&room.name) {
        lines.push((
            "small soft",
            fitted(&format!("head {}", head.unit), small, wide),
        ));
    }
    let step = plain + 4.0;
    let fits = (((y1 - y0 - 10.0) / step).max(1.0)) as usize;
    lines.truncate(fits);
    let first = 0.5 * (y0 + y1) - 0.5 * step * (lines.len() as f64 - 1.0) + 4.0;
    for (i, (class, says)) in lines.iter().enumerate() {
        text(out, x0 + 9.0, first + step * i as f64, "start", class, says);
    }
}

/// An arrow to north.
pub(super) fn north(out: &mut String, plan_north_deg: f64, x: f64, y: f64) {
    // The plan's up looks to this direction, so true north lies as far to the left of up.
    let turn = -plan_north_deg;
    out.push_str(&format!(
        "<g transform=\"translate({x:.1} {y:.1}) rotate({turn:.1})\"><path class=\"ink\" stroke-width=\"1.2\" d=\"M0 14V-14M-5 -6L0 -14L5 -6\"/></g>\n"
    ));
    text(out, x - 16.0, y + 4.0, "end", "small soft", "north");
}
