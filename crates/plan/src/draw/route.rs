//! On the placing drawing: the route of a line, and the ice before a unit.

use jobfile::Job;
use units::System;

use super::numbered::Numbered;
use super::page::{joined, path};
use super::placed::inches;
use super::storeys::View;
use crate::Plan;

/// The route of the line piece by piece, where the job says where each ends; else its way along the
/// axes of the plan, dotted.
pub(super) fn route(
    out: &mut String,
    job: &Job,
    head: &str,
    at: [f64; 2],
    foot: [f64; 2],
    view: &View,
) {
    let line = job.installation.lines.iter().find(|l| l.head == head);
    let ends: Option<Vec<[f64; 2]>> = line.and_then(|l| l.pieces.iter().map(|p| p.to_m).collect());
    let Some(ends) = ends.filter(|e| !e.is_empty()) else {
        let d = joined(&[view.at(foot), view.at([at[0], foot[1]]), view.at(at)]);
        out.push_str(&format!(
            "<path class=\"copper\" stroke-width=\"1.6\" stroke-dasharray=\"1.5 4\" stroke-linecap=\"round\" d=\"{d}\"/>\n"
        ));
        return;
    };
    let mut points = vec![view.at(foot)];
    points.extend(ends.iter().map(|p| view.at(*p)));
    path(out, "copper", 1.8, &joined(&points));
    for (x, y) in &points {
        out.push_str(&format!(
            "<circle class=\"coppered\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"2.2\"/>\n"
        ));
    }
}

/// The ice of a winter before the wall: half a disc, in words below how thick.
pub(super) fn ice(
    out: &mut String,
    plan: &Plan,
    name: &str,
    spot: &install::UnitOnPlan,
    view: &View,
    marks: &mut Numbered,
    system: System,
) {
    let Some(reach) = plan.book.value(&format!("outdoors.{name}.ice-reach")) else {
        return;
    };
    let facing = libm::atan2(spot.out[0], spot.out[1]);
    let mut points = Vec::new();
    for k in -12..=12 {
        let a = facing + std::f64::consts::FRAC_PI_2 * f64::from(k) / 12.0;
        points.push(view.at([
            spot.foot_m[0] + reach * libm::sin(a),
            spot.foot_m[1] + reach * libm::cos(a),
        ]));
    }
    out.push_str(&format!(
        "<path class=\"frost\" stroke-width=\"1\" stroke-dasharray=\"2 3\" d=\"{}Z\"/>\n",
        joined(&points)
    ));
    let thick = plan.book.value(&format!("outdoors.{name}.ice"));
    let thick = thick.map_or("thickness not known".to_owned(), |m| {
        format!("up to {} thick if nothing drains", inches(m, system))
    });
    let a = facing + 0.9;
    let at = view.at([
        spot.foot_m[0] + (reach + 0.35) * libm::sin(a),
        spot.foot_m[1] + (reach + 0.35) * libm::cos(a),
    ]);
    let far = inches(reach, system);
    marks.at(
        out,
        at,
        "frost",
        format!("ice of {name}, to {far} from the wall, {thick}"),
    );
}
