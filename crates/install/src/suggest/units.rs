//! Positions of an outdoor unit: along every outside wall of the lowest storey above ground.

use heatpump::Sheet;
use jobfile::{OutdoorChoice, OutdoorPlace};

use super::heads::{side_word, way_m};
use super::{Suggested, Tried, chosen, counted};
use crate::desk::Desk;
use crate::indoors::room;
use crate::outdoors::{self, yard};
use crate::{Input, Rules};

/// Positions lie so far apart, m: a foot.
const STEP_M: f64 = 0.3048;
/// Rules that hang on the position.
const RULES: [&str; 8] = [
    "outdoor-space",
    "outdoor-distance",
    "roof-drip",
    "winter-wind",
    "ice-on-walk",
    "bracket-bedroom",
    "sound-day",
    "sound-night",
];

pub(super) fn suggest(
    input: &Input<'_>,
    rules: &Rules,
    outdoor: &OutdoorChoice,
    unit: Option<&Sheet>,
) -> Result<Suggested, String> {
    let name = format!("outdoor.{}", outdoor.name);
    let places = &input.job.installation.outdoors;
    let own = places.iter().find(|p| p.outdoor == outdoor.name);
    let open = open(input, unit);
    // what was measured holds at the old place only
    let base = OutdoorPlace {
        outdoor: outdoor.name.clone(),
        on: own.map_or("stand".to_owned(), |p| p.on.clone()),
        base_m: own.and_then(|p| p.base_m),
        drip_m: own.and_then(|p| p.drip_m),
        ..OutdoorPlace::default()
    };
    let mut others = Vec::new();
    for (o, u) in input.outdoors().filter(|(o, _)| o.name != outdoor.name) {
        let p = places.iter().find(|p| p.outdoor == o.name);
        let spot = p.and_then(|p| yard::spot(input, p, u));
        others.extend(spot.map(|s| (o.name.clone(), s)));
    }
    let judged = |p: &OutdoorPlace, spot: yard::Spot, says: String| -> Result<Tried, String> {
        let mut desk = Desk::new(input.job.units);
        outdoors::one(input, rules, &mut desk, outdoor, unit, p, Some(&spot));
        let mut spots = others.clone();
        let line = lines_m(input, outdoor, spot.foot_m, p.base_m);
        let deg = libm::atan2(spot.out[0], spot.out[1]).to_degrees();
        let at = spot.middle_m;
        spots.push((outdoor.name.clone(), spot));
        outdoors::hear(input, &mut desk, &spots);
        counted(desk, &RULES, says, at, deg.rem_euclid(360.0), line)
    };
    let all = yard::walls(input);
    let low = yard::low_storey(input, &all);
    let width = unit.and_then(|u| u.size.width_m).unwrap_or(0.9);
    let mut tried = Vec::new();
    for wall in all.iter().filter(|w| Some(w.storey) == low) {
        let (from, to) = wall.span();
        if to - from < width {
            continue;
        }
        let steps = libm::floor((to - from - width) / STEP_M) as usize;
        for k in 0..=steps {
            let at = from + 0.5 * width + STEP_M * k as f64;
            let Some(spot) = yard::at_wall(wall, at, &base, unit) else {
                continue;
            };
            let behind = input.model.and_then(|m| m.zones.get(wall.zone));
            let side = side_word(libm::atan2(spot.out[0], spot.out[1]).to_degrees());
            let says = format!(
                "{side} wall at {}{}, middle {} from the left end of that stretch seen from outside",
                behind.map_or("the house", |z| z.name.as_str()),
                door(input, behind.map(|z| z.name.as_str()), side),
                crate::desk::both(at - from, units::Dim::Length, input.job.units),
            );
            let mut p = base.clone();
            p.distances = open_space(input, &spot, unit);
            tried.push(judged(&p, spot, says)?);
        }
    }
    let yours = own.and_then(|p| Some((p, yard::spot(input, p, unit)?)));
    let yours = yours
        .map(|(p, spot)| judged(p, spot, "as the job has it".to_owned()))
        .transpose()?;
    Ok(chosen((name, open), tried, yours.as_ref(), input.job.units))
}

/// A word where an outer door stands somewhere in the stretch: where, is not on the plan.
fn door(input: &Input<'_>, room: Option<&str>, side: &str) -> &'static str {
    use house::describe::{Compass, Side};
    let word = |s: &Side| match s {
        Side::Facing(Compass::North) => "north",
        Side::Facing(Compass::East) => "east",
        Side::Facing(Compass::South) => "south",
        Side::Facing(Compass::West) => "west",
        Side::Number(_) => "",
    };
    let mut doors = input.job.house.outer_doors.iter();
    let here = doors.any(|d| Some(d.room.as_str()) == room && word(&d.side) == side);
    if here {
        " (an outer door is in it: keep clear)"
    } else {
        ""
    }
}

/// Free space that the plan tells: behind by the sheet, in front and beside up to what stands
/// there. Nothing on the plan is open ground as far as the plan goes.
fn open_space(
    input: &Input<'_>,
    spot: &yard::Spot,
    unit: Option<&Sheet>,
) -> Vec<(&'static str, f64)> {
    let mut out = Vec::new();
    out.extend(unit.and_then(|u| u.size.clear_rear_m).map(|m| ("rear", m)));
    let marks = input.job.installation.landmarks.iter();
    let solid = marks.filter(|m| m.what == "wall");
    let walls = solid.filter_map(|m| Some([m.at_m, m.to_m?]));
    let house = yard::walls(input);
    let low = yard::low_storey(input, &house);
    let house = house.iter().filter(|w| Some(w.storey) == low);
    // its own wall is behind it
    let house = house.filter(|w| room::from_line_m(spot.foot_m, w.ends_m) > 0.05);
    let all: Vec<[[f64; 2]; 2]> = walls.chain(house.map(|w| w.ends_m)).collect();
    let o = spot.out;
    let ray = |dir: [f64; 2], past: f64| {
        let hits = all.iter().filter_map(|w| hit_m(spot.middle_m, dir, *w));
        hits.fold(15.0, f64::min) - past
    };
    out.push(("front", ray(o, spot.half_depth_m)));
    let sides = [[-o[1], o[0]], [o[1], -o[0]]];
    let mut beside = sides.map(|d| ray(d, spot.half_width_m));
    beside.sort_by(f64::total_cmp);
    out.push(("side", beside[0]));
    out.push(("service_side", beside[1]));
    out
}

/// Way from a place in a direction to a wall, m.
fn hit_m(at: [f64; 2], dir: [f64; 2], [a, b]: [[f64; 2]; 2]) -> Option<f64> {
    let (e, n) = (b[0] - a[0], b[1] - a[1]);
    let cross = dir[0] * n - dir[1] * e;
    if cross.abs() < 1e-9 {
        return None;
    }
    let (re, rn) = (a[0] - at[0], a[1] - at[1]);
    let along = (re * n - rn * e) / cross;
    let share = (re * dir[1] - rn * dir[0]) / cross;
    (along > 0.0 && (0.0..=1.0).contains(&share)).then_some(along)
}

/// All lines of the unit, where every head stands on the plan, m.
fn lines_m(
    input: &Input<'_>,
    outdoor: &OutdoorChoice,
    foot: [f64; 2],
    base: Option<f64>,
) -> Option<f64> {
    let places = &input.job.installation.heads;
    let mut sum = 0.0;
    for head in input.heads_on(&outdoor.name) {
        let p = places.iter().find(|p| p.head == head.name)?;
        sum += way_m(input, head, p.at_m?, p.height_m, foot, base)?;
    }
    Some(sum)
}

/// What the plan cannot tell of outdoor positions.
fn open(input: &Input<'_>, unit: Option<&Sheet>) -> Vec<String> {
    let mut out = vec![
        "what is over it, and what the wall is made of: look".to_owned(),
        "only what is on the plan is judged: add a [[landmark]] for what is missing".to_owned(),
    ];
    let size = unit.map(|u| (u.size.width_m, u.size.depth_m, u.size.clear_rear_m));
    if !matches!(size, Some((Some(_), Some(_), Some(_)))) {
        out.push(
            "width, depth and free space behind from the unit's sheet: no position without them"
                .to_owned(),
        );
    }
    let marks = &input.job.installation.landmarks;
    for (what, words) in [
        ("eave", "eaves and valleys"),
        ("lot_line", "lot lines"),
        ("walk", "walks"),
        ("gas_regulator", "gas regulator"),
        ("dryer", "dryer outlet"),
        ("meter", "meter and disconnect"),
    ] {
        if !marks.iter().any(|m| m.what == what) {
            out.push(format!("{words}: not on the plan"));
        }
    }
    if input
        .job
        .installation
        .listeners
        .iter()
        .all(|l| l.at_m.is_none())
    {
        out.push("sound: no listener has a place on the plan".to_owned());
    }
    if input.winter_wind_deg.is_none() {
        out.push("winter wind: it comes from everywhere alike".to_owned());
    }
    out
}
