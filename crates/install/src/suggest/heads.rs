//! Positions of a head: along each wall of its room, or over its ceiling.

use heatpump::{HeadKind, Kind, Sheet};
use house::describe::Room;
use jobfile::{HeadChoice, HeadPlace};

use super::{Suggested, Tried, chosen, counted};
use crate::desk::Desk;
use crate::indoors::{self, room};
use crate::outdoors::yard;
use crate::{Input, Rules};

/// Positions lie so far apart, m: half a foot.
const STEP_M: f64 = 0.1524;
/// Coarser over a ceiling, m: a foot.
const CEILING_STEP_M: f64 = 0.3048;
/// A wall head hangs so high where the ceiling lets it, m: 7 ft.
const HIGH_M: f64 = 2.1336;
/// The outlet stands off its wall by about the depth of the head, m.
const OFF_M: f64 = 0.15;
/// Rules that hang on the position.
const RULES: [&str; 7] = [
    "head-space",
    "jet-reach",
    "warm-air-low",
    "cold-air-falls",
    "seat-draught",
    "sensor-height",
    "worst-glass",
];

/// A candidate before it is judged.
struct Candidate {
    says: String,
    place: HeadPlace,
}

pub(super) fn suggest(
    input: &Input<'_>,
    rules: &Rules,
    head: &HeadChoice,
) -> Result<Suggested, String> {
    let all = &input.job.installation.heads;
    let none = HeadPlace::default();
    let own = all.iter().find(|p| p.head == head.name);
    let base = own.unwrap_or(&none);
    let mut open = vec![
        "what is behind: studs, joists, joints that can be reached, asbestos and lead".to_owned(),
        "doors, curtains and furniture: they are not on the plan".to_owned(),
    ];
    let (Some(unit), Some(room)) = (input.sheet(&head.unit), room::named(input.job, &head.room))
    else {
        open.push("the head's sheet or its room".to_owned());
        return Ok(chosen(
            (format!("head.{}", head.name), open),
            Vec::new(),
            None,
            input.job.units,
        ));
    };
    if base.seats_m.is_empty() && base.beds_m.is_empty() {
        open.push("draught: no seat or bed is named in [[head_place]]".to_owned());
    }
    let windows = input
        .model
        .map_or(Vec::new(), |m| room::windows(input.job, m, &head.room));
    if windows.iter().any(|w| !w.typed) {
        open.push("where windows stand along their walls: taken as evenly spread".to_owned());
    }
    let candidates = match unit.kind {
        Kind::Head(HeadKind::CeilingCassette | HeadKind::SlimDuct) => over(input, room, unit, base),
        _ => along(input, room, unit, base, &windows),
    };
    let judged = |c: Candidate| -> Result<Option<Tried>, String> {
        let (Some(at), Some(deg)) = (c.place.at_m, c.place.blows_deg) else {
            return Ok(None);
        };
        let mut desk = Desk::new(input.job.units);
        indoors::one(input, &rules.indoors, &mut desk, head, &c.place);
        let line = line_m(input, head, at, c.place.height_m);
        counted(desk, &RULES, c.says, at, deg, line).map(Some)
    };
    let mut tried = Vec::new();
    for c in candidates {
        tried.extend(judged(c)?);
    }
    let yours = own.map(|p| Candidate {
        says: "as the job has it".to_owned(),
        place: p.clone(),
    });
    let yours = yours.map(judged).transpose()?.flatten();
    Ok(chosen(
        (format!("head.{}", head.name), open),
        tried,
        yours.as_ref(),
        input.job.units,
    ))
}

/// Along each wall of the room, blowing straight off it, clear of glass and corners.
fn along(
    input: &Input<'_>,
    room: &Room,
    unit: &Sheet,
    base: &HeadPlace,
    windows: &[room::Glass],
) -> Vec<Candidate> {
    let floor = matches!(unit.kind, Kind::Head(HeadKind::FloorConsole));
    let size = &unit.size;
    let (Some(width), Some(high)) = (size.width_m, size.height_m) else {
        return Vec::new();
    };
    let Some(ceiling) = room::ceiling_m(input.job, room) else {
        return Vec::new();
    };
    let half = 0.5 * width;
    let under = ceiling - size.clear_above_m.unwrap_or(0.0) - high;
    // the outlet of a console is at its top
    let outlet = if floor { high } else { HIGH_M.min(under) };
    let top = if floor { high } else { outlet + high };
    let mut out = Vec::new();
    for (i, a) in room.outline.iter().enumerate() {
        let Some(b) = room.outline.get((i + 1) % room.outline.len()) else {
            continue;
        };
        let length = libm::hypot(b[0] - a[0], b[1] - a[1]);
        if length < width {
            continue;
        }
        let along = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
        let point = |s: f64, n: [f64; 2]| {
            [
                a[0] + along[0] * s + n[0] * OFF_M,
                a[1] + along[1] * s + n[1] * OFF_M,
            ]
        };
        let left = [-along[1], along[0]];
        let into = if room::inside(point(0.5 * length, left), &room.outline) {
            left
        } else {
            [-left[0], -left[1]]
        };
        let deg = libm::atan2(into[0], into[1]).to_degrees().rem_euclid(360.0);
        let steps = libm::floor((length - width) / STEP_M) as usize;
        for k in 0..=steps {
            let s = half + STEP_M * k as f64;
            let at = point(s, into);
            let covers = |w: &room::Glass| {
                let near = room::from_line_m(point(s, [0.0, 0.0]), w.ends_m) < half;
                let (low, head) = (w.sill_m, w.sill_m + w.height_m);
                let between = if floor { low < top } else { head > outlet };
                near && between
            };
            if windows.iter().any(covers) {
                continue;
            }
            let place = HeadPlace {
                at_m: Some(at),
                blows_deg: Some(deg),
                height_m: Some(outlet),
                above_m: Some(ceiling - top),
                side_m: Some(s.min(length - s) - half),
                front_m: room::ahead_m(at, deg, &room.outline),
                ..base.clone()
            };
            let says = format!(
                "{} wall of {}, middle {} from its {} end, blowing {}",
                side_word(deg + 180.0),
                room.name,
                crate::desk::both(s, units::Dim::Length, input.job.units),
                side_word(libm::atan2(-along[0], -along[1]).to_degrees()),
                side_word(deg),
            );
            out.push(Candidate { says, place });
        }
    }
    out
}

/// Over the ceiling, a foot apart.
fn over(input: &Input<'_>, room: &Room, unit: &Sheet, base: &HeadPlace) -> Vec<Candidate> {
    let Some(width) = unit.size.width_m else {
        return Vec::new();
    };
    let ceiling = room::ceiling_m(input.job, room);
    let lo = |k: usize| {
        room.outline
            .iter()
            .map(|p| p[k])
            .fold(f64::INFINITY, f64::min)
    };
    let hi = |k: usize| {
        room.outline
            .iter()
            .map(|p| p[k])
            .fold(f64::NEG_INFINITY, f64::max)
    };
    let count = |k: usize| libm::floor((hi(k) - lo(k) - width) / CEILING_STEP_M).max(0.0) as usize;
    let deg = base.blows_deg.unwrap_or(0.0);
    let mut out = Vec::new();
    for i in 0..=count(0) {
        for j in 0..=count(1) {
            let at = [
                lo(0) + 0.5 * width + CEILING_STEP_M * i as f64,
                lo(1) + 0.5 * width + CEILING_STEP_M * j as f64,
            ];
            if !room::inside(at, &room.outline) {
                continue;
            }
            let ways = [deg, deg + 90.0, deg + 180.0, deg + 270.0];
            let ahead = ways
                .iter()
                .filter_map(|d| room::ahead_m(at, *d, &room.outline));
            let near = ahead.reduce(f64::min);
            let place = HeadPlace {
                at_m: Some(at),
                blows_deg: Some(deg),
                height_m: ceiling,
                side_m: near.map(|m| m - 0.5 * width),
                front_m: near,
                ..base.clone()
            };
            let says = format!(
                "ceiling of {}, {} from its west and {} from its south wall",
                room.name,
                crate::desk::both(at[0] - lo(0), units::Dim::Length, input.job.units),
                crate::desk::both(at[1] - lo(1), units::Dim::Length, input.job.units),
            );
            out.push(Candidate { says, place });
        }
    }
    out
}

/// The nearest of four plan directions.
pub(super) fn side_word(deg: f64) -> &'static str {
    match deg.rem_euclid(360.0) {
        d if !(45.0..315.0).contains(&d) => "north",
        d if d < 135.0 => "east",
        d if d < 225.0 => "south",
        _ => "west",
    }
}

/// About the way of the line: along the axes of the plan and up, m.
fn line_m(input: &Input<'_>, head: &HeadChoice, at: [f64; 2], height: Option<f64>) -> Option<f64> {
    let (outdoor, unit) = input.outdoors().find(|(o, _)| o.name == head.on)?;
    let all = input.job.installation.outdoors.iter();
    let p = all.into_iter().find(|p| p.outdoor == outdoor.name)?;
    let spot = yard::spot(input, p, unit)?;
    way_m(input, head, at, height, spot.foot_m, p.base_m)
}

/// From a head to the foot of an outdoor unit.
pub(super) fn way_m(
    input: &Input<'_>,
    head: &HeadChoice,
    at: [f64; 2],
    height: Option<f64>,
    foot: [f64; 2],
    base: Option<f64>,
) -> Option<f64> {
    let room = room::named(input.job, &head.room)?;
    let storey = input
        .job
        .house
        .storeys
        .iter()
        .find(|s| s.name == room.storey)?;
    let up = storey.floor_m + height.unwrap_or(HIGH_M) - base.unwrap_or(0.0);
    Some((at[0] - foot[0]).abs() + (at[1] - foot[1]).abs() + up.abs())
}
