//! The outdoor wall: each unit on its base, with snow, drip, ice and what is around it.

use jobfile::Job;
use units::{Dim, System, show};

use super::page::{cell, page, path, rect, text};
use crate::Plan;

const HEIGHT: f64 = 330.0;
const GROUND: f64 = 286.0;
const PANEL: f64 = 430.0;
/// Pixels to a metre.
const SCALE: f64 = 96.0;

/// The elevation of every outdoor unit; `None` without one that is placed.
pub fn wall(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let units = &job.equipment.outdoors;
    if units.is_empty() || plan.install.done().is_none() {
        return None;
    }
    let width = PANEL * units.len() as f64;
    let mut out = String::new();
    text(
        &mut out,
        16.0,
        26.0,
        "start",
        "bold",
        "The outdoor wall: snow, base, free space",
    );
    for (i, unit) in units.iter().enumerate() {
        one(plan, &unit.name, PANEL * i as f64, system, &mut out);
    }
    let of = |k: &str| {
        let first = units.first().map_or("", |u| u.name.as_str());
        plan.value(&format!("outdoors.{first}.{k}"))
            .map_or("not known".to_owned(), |(v, d)| show(v, d, system))
    };
    let cells = [
        cell(
            "Snow, base and ice to scale. Meltwater of a year",
            of("water"),
        ),
        cell("Base wanted", of("base-least")),
        cell("Ice if none drains", of("ice")),
    ];
    Some(page(width.max(640.0), HEIGHT, "Outdoor wall", &cells, &out))
}

fn one(plan: &Plan, name: &str, x0: f64, system: System, out: &mut String) {
    let value = |k: &str| plan.book.value(&format!("outdoors.{name}.{k}"));
    let m = |v: f64| show(v, Dim::Length, system);
    let (left, right) = (x0 + 16.0, x0 + PANEL - 16.0);
    path(out, "ink", 1.5, &format!("M{left:.1} {GROUND}H{right:.1}"));
    let snow = value("snow").unwrap_or(0.0) * SCALE;
    if snow > 0.0 {
        rect(out, "frostwash", left, GROUND - snow, right - left, snow);
        path(
            out,
            "frost",
            1.2,
            &format!("M{left:.1} {:.1}H{right:.1}", GROUND - snow),
        );
        let says = format!("snow {}", m(snow / SCALE));
        text(
            out,
            left + 6.0,
            GROUND - snow + 14.0,
            "start",
            "small halo",
            &says,
        );
    }
    if let Some(ice) = value("ice") {
        let deep = (ice * SCALE).min(40.0);
        rect(out, "frostmid", x0 + 150.0, GROUND - deep, 130.0, deep);
        let says = format!("ice {}, if none drains", m(ice));
        text(out, x0 + 286.0, GROUND - 4.0, "start", "small halo", &says);
    }
    // a unit of usual height stands for one whose sheet says none
    let base = value("base");
    let foot = GROUND - base.unwrap_or(0.0) * SCALE;
    let (w, h) = (96.0, 100.0);
    let x = x0 + 167.0;
    rect(out, "copperwash", x, foot - h, w, h);
    path(
        out,
        "copper",
        1.6,
        &format!("M{x:.1} {:.1}h{w}v{h}h-{w}Z", foot - h),
    );
    path(
        out,
        "copper",
        1.0,
        &format!(
            "M{:.1} {foot:.1}V{GROUND}M{:.1} {foot:.1}V{GROUND}",
            x + 10.0,
            x + w - 10.0
        ),
    );
    text(out, x + w / 2.0, foot - h / 2.0, "middle", "small", name);
    let base = base.map_or("base not measured".to_owned(), |b| format!("base {}", m(b)));
    text(out, x + w + 10.0, foot + 4.0, "start", "small halo", &base);
    if let Some(least) = value("base-least") {
        let y = GROUND - least * SCALE;
        path(
            out,
            "ink",
            0.8,
            &format!("M{:.1} {y:.1}H{:.1}", x - 26.0, x + w + 6.0),
        );
        text(
            out,
            x - 30.0,
            y + 4.0,
            "end",
            "small halo",
            &format!("wanted {}", m(least)),
        );
    }
    for (i, (k, word)) in [
        ("above", "above"),
        ("side", "side"),
        ("service_side", "service side"),
        ("front", "front"),
        ("rear", "behind"),
    ]
    .iter()
    .enumerate()
    {
        let found = value(k).map_or("not measured".to_owned(), m);
        let need = value(&format!("{k}.required")).map_or("not on the sheet".to_owned(), m);
        text(
            out,
            left,
            48.0 + 15.0 * i as f64,
            "start",
            "small",
            &format!("{word}: {found}, wanted {need}"),
        );
    }
}
