//! The outdoor wall in a column for a phone: what is drawn stands left, its words right of it, one
//! beneath the other, each with a line to its place.

use jobfile::Job;
use units::System;

use super::column::{LEFT, RIGHT, ROW, SMALL, lines, page, table, words};
use super::page::{path, rect, text};
use super::wall::{Seen, UP_M, coarse, title_block};
use crate::Plan;

/// Height of an elevation.
const TALL: f64 = 250.0;
/// Most that a unit takes of the width: the rest is for words.
const BROAD: f64 = 112.0;

/// As [`super::wall`], in a column.
pub fn wall_column(plan: &Plan, job: &Job, system: System) -> Option<String> {
    let done = plan.install.done()?;
    let units = &job.equipment.outdoors;
    if units.is_empty() {
        return None;
    }
    let mut out = String::new();
    let title = "The outdoor wall: snow, base, free space";
    let room = RIGHT - LEFT;
    let mut y = words(&mut out, (LEFT, 26.0), "bold", room, title);
    for unit in units {
        y = words(&mut out, (LEFT, y + 6.0), "small bold", room, &unit.name);
        y = elevation(&Seen::of(plan, job, &unit.name), y - 8.0, system, &mut out);
        let here = format!("outdoor.{}", unit.name);
        let rows = done.place.iter().filter(|j| j.place == here);
        y = table(rows, y + ROW, &mut out);
    }
    let heard = done.place.iter();
    let heard = heard.filter(|j| j.place.starts_with("listener"));
    y = table(heard, y, &mut out);
    let cells = title_block(plan, job, system);
    Some(page(y, title, &cells, &out))
}

/// Words beside the drawing, of a place in it.
struct Call {
    of: (f64, f64),
    says: String,
}

/// Draws a unit on its wall; gives where drawing and words end.
fn elevation(seen: &Seen<'_>, top: f64, system: System, out: &mut String) -> f64 {
    let m = |v: f64| coarse(v, system);
    let scale = ((TALL - 16.0) / UP_M).min(BROAD / seen.size.0);
    let ground = top + TALL;
    // what is higher than is drawn is drawn to the edge, and its words say how high
    let up = |h: f64| ground - h.clamp(0.0, UP_M) * scale;
    let (w, h) = (seen.size.0 * scale, seen.size.1.min(UP_M) * scale);
    let x = LEFT + 14.0;
    let edge = x + w + 14.0;
    let mut calls = Vec::new();
    let mut call = |of: (f64, f64), says: String| calls.push(Call { of, says });
    path(out, "ink", 1.6, &format!("M{LEFT} {ground:.1}H{edge:.1}"));
    if seen.snow > 0.0 {
        let at = up(seen.snow);
        rect(out, "frostwash", LEFT, at, edge - LEFT, ground - at);
        path(out, "frost", 1.2, &format!("M{LEFT} {at:.1}H{edge:.1}"));
        call((edge, at), format!("snow {}", m(seen.snow)));
    }
    if let Some(ice) = seen.ice {
        let at = up(ice);
        rect(out, "frostmid", LEFT, at, edge - LEFT, ground - at);
        let says = format!("ice {} if none drains or thaws", m(ice));
        call((edge, 0.5 * (at + ground)), says);
    }
    let foot = up(seen.base.unwrap_or(0.0)).max(top + 8.0 + h);
    if seen.bracket {
        path(out, "copper", 2.4, &format!("M{x:.1} {foot:.1}h{w:.1}"));
    } else {
        let (a, b) = (x + 12.0, x + w - 12.0);
        let legs = format!("M{a:.1} {foot:.1}V{ground:.1}M{b:.1} {foot:.1}V{ground:.1}");
        path(out, "copper", 1.2, &legs);
    }
    rect(out, "copperwash", x, foot - h, w, h);
    let d = format!("M{x:.1} {:.1}h{w:.1}v{h:.1}h-{w:.1}Z", foot - h);
    path(out, "copper", 1.6, &d);
    if !seen.sized {
        let says = "size not on the sheet";
        call((x + w, foot - 0.6 * h), says.to_owned());
    }
    if let Some(least) = seen.least {
        let at = up(least);
        path(out, "ink", 0.8, &format!("M{LEFT} {at:.1}H{edge:.1}"));
        call((edge, at), format!("base wanted {}", m(least)));
    }
    let base = seen.base.map(|b| format!("base {}", m(b)));
    call(
        (x + w, foot),
        base.unwrap_or_else(|| "base not measured".to_owned()),
    );
    if let Some(above) = seen.above {
        let to = (foot - h - above * scale).max(top + 6.0);
        let middle = x + w / 2.0;
        let d = format!("M{middle:.1} {:.1}V{to:.1}", foot - h);
        path(out, "hair", 1.0, &d);
        call((middle, to), format!("{} free above", m(above)));
    }
    if let Some(word) = seen.drip {
        let at = top + 4.0;
        path(out, "ink", 3.0, &format!("M{LEFT} {at:.1}H{edge:.1}"));
        call((edge, at), format!("{word} over it"));
    }
    called(calls, (edge + 12.0, top + 14.0, ground), out).max(ground)
}

/// Sets the words as near to the height of their places as they can stand without touching.
fn called(mut calls: Vec<Call>, (x, top, ground): (f64, f64, f64), out: &mut String) -> f64 {
    calls.sort_by(|a, b| a.of.1.total_cmp(&b.of.1));
    let room = RIGHT - x;
    let tall = |c: &Call| lines(&c.says, SMALL, room).len() as f64 * ROW;
    let mut left: f64 = calls.iter().map(tall).sum();
    let mut y = top;
    for c in &calls {
        // not so low that those beneath it find no room over the ground
        y = y.max((c.of.1 + 4.0).min(ground + ROW - left));
        left -= tall(c);
        let end = (x - 3.0, y - 4.0);
        let d = format!("M{:.1} {:.1}L{:.1} {:.1}", c.of.0, c.of.1, end.0, end.1);
        path(out, "ink", 0.6, &d);
        for line in lines(&c.says, SMALL, room) {
            text(out, x, y, "start", "small", &line);
            y += ROW;
        }
    }
    y - ROW
}
