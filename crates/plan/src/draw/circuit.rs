//! The circuit of each outdoor unit as one line: panel, breaker, wire, disconnect, unit; and
//! beneath it every rule as measured, wanted, verdict.

use jobfile::{Circuit, Job};
use units::{Dim, System, show};

use super::judged::{LEFT, RIGHT, WIDTH, table};
use super::page::{cell, fitted, page, path, rect, safe, text};
use crate::Plan;

/// From one thing on the line to the next.
const STEP: f64 = 52.0;
/// Where the line runs.
const LINE: f64 = LEFT + 40.0;

/// The drawing; `None` without an outdoor unit, or before the installation is begun.
pub fn circuit(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let done = plan.install.done()?;
    let units = &job.equipment.outdoors;
    if units.is_empty() {
        return None;
    }
    let title = "Circuits, one line each";
    let mut out = String::new();
    text(&mut out, 16.0, 26.0, "start", "bold", title);
    let none = Circuit::default();
    let mut y = 44.0;
    for unit in units {
        let all = &job.installation.circuits;
        let c = all.iter().find(|c| c.outdoor == unit.name).unwrap_or(&none);
        y = line(plan, job, c, &unit.name, &unit.unit, y, system, &mut out);
        let here = format!("outdoor.{}", unit.name);
        y = table(done.wires.iter().filter(|j| j.place == here), y, &mut out) + 14.0;
    }
    let rest = done
        .wires
        .iter()
        .filter(|j| !j.place.starts_with("outdoor"));
    let y = table(rest, y - 8.0, &mut out);
    let of = |k: &str| {
        let v = plan.value(&format!("panel.{k}"));
        v.map_or("cannot tell".to_owned(), |(v, d)| show(v, d, system))
    };
    let cells = [
        cell("A licensed electrician does this work", plan.name.clone()),
        cell("By calculation", of("calculated")),
        cell("By measurement", of("measured")),
        cell("Service", of("rating")),
    ];
    Some(page(WIDTH, y + 12.0, title, &cells, &out))
}

#[allow(clippy::too_many_arguments)] // one thing drawn; a struct would only rename them
fn line(
    plan: &Plan,
    job: &Job,
    c: &Circuit,
    name: &str,
    sheet: &str,
    top: f64,
    system: System,
    out: &mut String,
) -> f64 {
    let value = |k: &str| {
        let v = plan.value(&format!("wires.{name}.{k}"));
        v.map_or("not known".to_owned(), |(v, d)| show(v, d, system))
    };
    let rating = job.installation.panel.as_ref().and_then(|p| p.rating_a);
    let rating = rating.map_or("rating not said".to_owned(), |a| {
        show(a, Dim::Current, system)
    });
    let wire = c
        .wire
        .map_or("gauge not said".to_owned(), |w| format!("{w} AWG"));
    let seen = match c.disconnect_seen {
        Some(true) => "seen from the unit",
        Some(false) => "NOT seen from the unit",
        None => "sight not said",
    };
    let fault = c.ground_fault.as_deref().unwrap_or("not said");
    let steps: [(&str, String, String); 5] = [
        (
            "panel",
            format!("Panel, {rating}"),
            format!("service receptacle {} from the unit", value("receptacle")),
        ),
        (
            "breaker",
            format!("Breaker {}", value("breaker")),
            format!(
                "plate: least {}, most {}; ground fault: {fault}",
                value("mca"),
                value("mocp")
            ),
        ),
        (
            "wire",
            format!("Wire {wire}, {} one way", value("run")),
            format!("carries {}, loses {}", value("carries"), value("drop")),
        ),
        (
            "disconnect",
            format!("Disconnect, {} from the unit", value("disconnect")),
            seen.to_owned(),
        ),
        (
            "unit",
            format!("{name}: {sheet}"),
            format!("{} on the plate", value("plate-volts")),
        ),
    ];
    let last = top + STEP * (steps.len() as f64 - 1.0);
    path(out, "ink", 1.6, &format!("M{LINE} {top:.1}V{last:.1}"));
    for (i, (kind, first, second)) in steps.iter().enumerate() {
        let y = top + STEP * i as f64;
        symbol(out, kind, y);
        let room = RIGHT - LINE - 40.0;
        text(
            out,
            LINE + 40.0,
            y + 2.0,
            "start",
            "",
            &fitted(first, 12.0, room),
        );
        text(
            out,
            LINE + 40.0,
            y + 16.0,
            "start",
            "small soft",
            &fitted(second, 10.5, room),
        );
    }
    last + 36.0
}

/// A sign on the line, with a word for who cannot see it.
fn symbol(out: &mut String, kind: &str, y: f64) {
    out.push_str(&format!("<g><title>{}</title>\n", safe(kind)));
    match kind {
        "panel" | "unit" => {
            let class = if kind == "unit" {
                "copperwash"
            } else {
                "paper"
            };
            rect(out, class, LINE - 24.0, y - 12.0, 48.0, 26.0);
            let d = format!("M{} {}h48v26h-48Z", LINE - 24.0, y - 12.0);
            path(out, if kind == "unit" { "copper" } else { "ink" }, 1.6, &d);
        }
        "breaker" => {
            rect(out, "paper", LINE - 12.0, y - 9.0, 24.0, 19.0);
            path(
                out,
                "ink",
                1.6,
                &format!("M{LINE} {}a9 9 0 0 1 0 18", y - 9.0),
            );
        }
        "disconnect" => {
            rect(out, "paper", LINE - 12.0, y - 10.0, 24.0, 20.0);
            path(
                out,
                "ink",
                1.6,
                &format!("M{LINE} {}L{} {}", y + 10.0, LINE + 12.0, y - 8.0),
            );
        }
        _ => {
            for d in [-5.0, 0.0, 5.0] {
                let tick = format!("M{} {}l8 -6", LINE - 4.0, y + d + 3.0);
                path(out, "ink", 1.2, &tick);
            }
        }
    }
    out.push_str("</g>\n");
}
