//! The plan with heads and how far their air carries, outdoor units, lines, and what is around.

use house::describe::Room;
use jobfile::{HeadPlace, Job};
use units::{Dim, System, show};

use super::numbered::Numbered;
use super::page::{cell, joined, page, path, safe, text};
use super::route::{ice, route};
use super::storeys::{View, ends, north, walls};
use crate::Plan;

const WIDTH: f64 = 520.0;
const SIDE: f64 = 24.0;
/// What is around is drawn so far from the house, m.
const YARD_M: f64 = 4.0;

/// The drawing; none without rooms, or before the installation is begun.
pub fn placed(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let model = plan.model.done()?;
    let done = plan.install.done()?;
    let rooms_on = |name: &str| -> Vec<&Room> {
        job.house
            .rooms
            .iter()
            .filter(|r| r.storey == name)
            .collect()
    };
    let has_head = |rooms: &[&Room]| {
        rooms
            .iter()
            .any(|r| job.equipment.heads_in(&r.name).next().is_some())
    };
    let low = job.house.storeys.iter().position(|s| s.floor_m > -1.0);
    let mut out = String::new();
    let title = "Where heads and outdoor units stand";
    text(&mut out, 16.0, 26.0, "start", "bold", title);
    let mut marks = Numbered::default();
    let mut y = 44.0;
    for (i, storey) in job.house.storeys.iter().enumerate() {
        let rooms = rooms_on(&storey.name);
        let yard = Some(i) == low;
        if rooms.is_empty() || !(has_head(&rooms) || yard) {
            continue;
        }
        let (lo, hi) = ends(&rooms);
        let margin = if yard { YARD_M } else { 0.4 };
        let across = hi[0] - lo[0] + 2.0 * YARD_M;
        let view = View {
            scale: (WIDTH - 2.0 * SIDE) / across.max(1.0),
            x: SIDE,
            y: y + 18.0,
            left_m: lo[0] - YARD_M,
            top_m: hi[1] + margin,
        };
        let tall = (hi[1] - lo[1] + 2.0 * margin) * view.scale;
        text(&mut out, SIDE, y + 8.0, "start", "small soft", &storey.name);
        for room in &rooms {
            let corners: Vec<(f64, f64)> = room.outline.iter().map(|p| view.at(*p)).collect();
            path(&mut out, "ink", 1.4, &format!("{}Z", joined(&corners)));
        }
        let heads = job.equipment.heads.iter();
        let heads = heads.filter(|h| rooms.iter().any(|r| r.name == h.room));
        let heads: Vec<_> = heads
            .filter_map(|h| {
                let p = job.installation.heads.iter().find(|p| p.head == h.name)?;
                Some((h, p, p.at_m?))
            })
            .collect();
        for (h, p, at) in &heads {
            if let Some(room) = rooms.iter().find(|r| r.name == h.room) {
                air(&mut out, plan, &h.name, p, *at, room, &view);
            }
        }
        walls(&mut out, model, i, &view);
        if yard {
            around(
                &mut out,
                job,
                &view,
                &mut marks,
                ([lo[0], hi[0]], [lo[1], hi[1]]),
                system,
            );
            for (name, spot) in &done.spots {
                ice(&mut out, plan, name, spot, &view, &mut marks, system);
                unit(&mut out, plan, name, spot, &view, &mut marks, system);
            }
        }
        for (h, p, at) in &heads {
            let on = done.spots.iter().find(|(name, _)| *name == h.on);
            if let Some((_, spot)) = on {
                route(&mut out, job, &h.name, *at, spot.foot_m, &view);
            }
            head(&mut out, plan, h, p, *at, &view, &mut marks, system);
        }
        for room in &rooms {
            let left = room
                .outline
                .iter()
                .map(|p| p[0])
                .fold(f64::INFINITY, f64::min);
            let top = room
                .outline
                .iter()
                .map(|p| p[1])
                .fold(f64::NEG_INFINITY, f64::max);
            let (x, y) = view.at([left, top]);
            marks.word(&mut out, (x + 7.0, y + 15.0), "small halo", &room.name);
        }
        y += tall + 34.0;
    }
    north(&mut out, job.house.plan_north_deg, WIDTH - 26.0, 26.0);
    let y = marks.list(&mut out, SIDE, y + 6.0, WIDTH - 2.0 * SIDE);
    text(
        &mut out,
        SIDE,
        y + 6.0,
        "start",
        "small soft",
        "Copper: warm air while low enough to feel; frost, dashed: cold air to the floor.",
    );
    text(
        &mut out,
        SIDE,
        y + 20.0,
        "start",
        "small soft",
        "Copper line: the route, dotted where it is not on the plan. Circles: seats; bars: beds.",
    );
    let unplaced = job.equipment.heads.len()
        - job
            .installation
            .heads
            .iter()
            .filter(|p| p.at_m.is_some() && job.equipment.heads.iter().any(|h| h.name == p.head))
            .count();
    let cells = [
        cell("Placing", plan.name.clone()),
        cell("Heads not placed", unplaced.to_string()),
        cell("Units placed", done.spots.len().to_string()),
    ];
    Some(page(WIDTH, y + 34.0, title, &cells, &out))
}

/// Directions of a head's jets, degrees.
fn ways(plan: &Plan, p: &HeadPlace) -> Vec<f64> {
    let done = plan.install.done();
    let all = done.and_then(|d| d.ways.iter().find(|(name, _)| *name == p.head));
    all.map_or_else(|| p.blows_deg.into_iter().collect(), |(_, w)| w.clone())
}

/// How far its air carries, warm and cold, as fans cut to the room.
fn air(
    out: &mut String,
    plan: &Plan,
    name: &str,
    p: &HeadPlace,
    at: [f64; 2],
    room: &Room,
    view: &View,
) {
    let id = format!(
        "room-{}",
        room.name.replace(|c: char| !c.is_ascii_alphanumeric(), "-")
    );
    let corners: Vec<(f64, f64)> = room.outline.iter().map(|p| view.at(*p)).collect();
    out.push_str(&format!(
        "<clipPath id=\"{}\"><path d=\"{}Z\"/></clipPath>\n<g clip-path=\"url(#{})\">\n",
        safe(&id),
        joined(&corners),
        safe(&id)
    ));
    for (duty, half_deg) in [("heating", 18.0), ("cooling", 11.0)] {
        let far = plan.book.value(&format!("indoors.{name}.{duty}.carries"));
        let Some(far) = far.filter(|m| *m > 0.1) else {
            continue;
        };
        for deg in ways(plan, p) {
            let mut points = vec![view.at(at)];
            for k in -4..=4 {
                let a: f64 = (deg + half_deg * f64::from(k) / 4.0_f64).to_radians();
                let tip = [at[0] + far * libm::sin(a), at[1] + far * libm::cos(a)];
                points.push(view.at(tip));
            }
            let d = format!("{}Z", joined(&points));
            if duty == "heating" {
                path(out, "copperwash", 0.0, &d);
                path(out, "copper", 1.0, &d);
            } else {
                out.push_str(&format!(
                    "<path class=\"frost\" stroke-width=\"1.2\" stroke-dasharray=\"5 4\" d=\"{d}\"/>\n"
                ));
            }
        }
    }
    out.push_str("</g>\n");
    for s in &p.seats_m {
        let (x, y) = view.at(*s);
        out.push_str(&format!(
            "<circle class=\"ink\" stroke-width=\"1.4\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\"/>\n"
        ));
    }
    for b in &p.beds_m {
        let (x, y) = view.at(*b);
        out.push_str(&format!(
            "<rect class=\"ink\" stroke-width=\"1.4\" x=\"{:.1}\" y=\"{:.1}\" width=\"12\" height=\"6\"/>\n",
            x - 6.0,
            y - 3.0
        ));
    }
}

#[allow(clippy::too_many_arguments)] // one thing drawn; a struct would only rename them
fn head(
    out: &mut String,
    plan: &Plan,
    h: &jobfile::HeadChoice,
    p: &HeadPlace,
    at: [f64; 2],
    view: &View,
    marks: &mut Numbered,
    system: System,
) {
    let (x, y) = view.at(at);
    let four = ways(plan, p).len() > 1;
    let (w, d) = if four { (16.0, 16.0) } else { (22.0, 7.0) };
    let turn = p.blows_deg.unwrap_or(0.0);
    out.push_str(&format!(
        "<g transform=\"translate({x:.1} {y:.1}) rotate({turn:.1})\"><rect class=\"coppered\" x=\"{:.1}\" y=\"{:.1}\" width=\"{w}\" height=\"{d}\"/></g>\n",
        -w / 2.0,
        -d / 2.0
    ));
    marks.keep(x - 8.0, y - 8.0, 16.0, 16.0);
    let far = |duty: &str| {
        let m = plan
            .book
            .value(&format!("indoors.{}.{duty}.carries", h.name));
        m.map_or("cannot tell".to_owned(), |m| inches(m, system))
    };
    let says = format!(
        "head {}, {}: warm air {}, cold air {}",
        h.name,
        h.unit,
        far("heating"),
        far("cooling")
    );
    let back = turn.to_radians();
    // the number stands behind the head, out of its air
    let behind = (x - 16.0 * libm::sin(back), y + 16.0 * libm::cos(back));
    marks.at(out, behind, "copper", says);
}

fn unit(
    out: &mut String,
    plan: &Plan,
    name: &str,
    spot: &install::UnitOnPlan,
    view: &View,
    marks: &mut Numbered,
    system: System,
) {
    let (o, r) = (spot.out, [-spot.out[1], spot.out[0]]);
    let corner = |a: f64, b: f64| {
        let (a, b) = (a * spot.half_depth_m, b * spot.half_width_m);
        view.at([
            spot.middle_m[0] + a * o[0] + b * r[0],
            spot.middle_m[1] + a * o[1] + b * r[1],
        ])
    };
    let all = [
        corner(1.0, 1.0),
        corner(1.0, -1.0),
        corner(-1.0, -1.0),
        corner(-1.0, 1.0),
    ];
    let d = format!("{}Z", joined(&all));
    path(out, "frostwash", 0.0, &d);
    path(out, "frost", 1.6, &d);
    let base = plan.book.value(&format!("outdoors.{name}.base"));
    let base = base.map_or("base not measured".to_owned(), |m| {
        format!("base {}", show(m, Dim::Length, system))
    });
    let (x, y) = view.at(spot.middle_m);
    marks.keep(x - 9.0, y - 9.0, 18.0, 18.0);
    let off = (x + 24.0 * o[0], y - 24.0 * o[1]);
    marks.at(out, off, "frost", format!("outdoor unit {name}, {base}"));
}

/// Landmarks and listeners near the house.
fn around(
    out: &mut String,
    job: &Job,
    view: &View,
    marks: &mut Numbered,
    (xs, ys): ([f64; 2], [f64; 2]),
    system: System,
) {
    // what lies farther off is drawn at the edge, with its real distance in words
    let edge = YARD_M - 0.4;
    let pulled = |p: [f64; 2]| {
        [
            p[0].clamp(xs[0] - edge, xs[1] + edge),
            p[1].clamp(ys[0] - edge, ys[1] + edge),
        ]
    };
    let off = |p: [f64; 2]| {
        let e = (xs[0] - p[0]).max(p[0] - xs[1]).max(0.0);
        let n = (ys[0] - p[1]).max(p[1] - ys[1]).max(0.0);
        libm::hypot(e, n)
    };
    for m in &job.installation.landmarks {
        let a = pulled(m.at_m);
        let b = m.to_m.map_or(a, pulled);
        let name = m.name.clone().unwrap_or_else(|| m.what.replace('_', " "));
        if m.to_m.is_some() {
            let class = if m.what == "wall" { "ink" } else { "hair" };
            path(out, class, 1.6, &joined(&[view.at(a), view.at(b)]));
        }
        let middle = [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
        let real = m.to_m.map_or(off(m.at_m), |to| {
            off([
                f64::midpoint(m.at_m[0], to[0]),
                f64::midpoint(m.at_m[1], to[1]),
            ])
        });
        let says = if real < 0.05 {
            format!("{name}, at the house")
        } else {
            format!("{name}, {} from the house", inches(real, system))
        };
        marks.at(out, view.at(middle), "hair", says);
    }
    for l in &job.installation.listeners {
        if let Some(at) = l.at_m {
            let says = format!("listener {}", l.name);
            marks.at(out, view.at(pulled(at)), "ink", says);
        }
    }
}

/// A reckoned length: no finer than an inch or a decimetre.
pub(super) fn inches(m: f64, system: System) -> String {
    let step = if system == System::Us { 0.0254 } else { 0.1 };
    show(libm::round(m / step) * step, Dim::Length, system)
}
