//! The yard on the plan: outside walls, where a unit stands at one, and what is how far from it.

use heatpump::Sheet;
use house::describe::Use;
use house::model::{Behind, SurfaceKind};
use jobfile::OutdoorPlace;

use crate::Input;
use crate::indoors::room::from_line_m;

/// Nearer than this a walk lies in a unit's meltwater, m. Common practice.
const WALK_NEAR_M: f64 = 1.2;
/// Nearer than this an eave drips on a unit, a valley pours on it, m. Common practice.
const EAVE_NEAR_M: f64 = 0.6;
const VALLEY_NEAR_M: f64 = 1.0;
/// The wind blows at a unit within this of straight on, degrees.
const WIND_WITHIN_DEG: f64 = 45.0;

/// How far its ice spreads from a unit at a wall, m: half a disc of the ground that its water takes.
///
/// # Equation
/// `r = sqrt(2 A / pi)`
/// # Symbols
/// `A` ground it spreads over, m2; `r` m.
/// # Range
/// Level ground before a wall; where the ground falls, farther that way.
/// # Source
/// `common-practice`: geometry.
/// # Example
/// 20 ft2 (1.86 m2) reach 1.09 m: `the_ice_and_the_walk` in `crates/install/tests/rules.rs`.
pub(crate) fn ice_reach_m(p: &OutdoorPlace) -> Option<f64> {
    p.ice_area_m2
        .map(|a| (2.0 * a / std::f64::consts::PI).sqrt())
}

/// A stretch of outside wall.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OuterWall {
    /// Ends on the plan, m.
    pub ends_m: [[f64; 2]; 2],
    /// Outward, east and north, of length 1.
    pub out: [f64; 2],
    /// Compass direction it looks to, degrees.
    pub azimuth_deg: f64,
    /// Plan side.
    pub side: &'static str,
    /// Storey.
    pub storey: usize,
    /// Zone behind it.
    pub zone: usize,
}

impl OuterWall {
    /// To the right, seen from outside.
    fn right(&self) -> [f64; 2] {
        [-self.out[1], self.out[0]]
    }

    /// From where to where it goes to the right, m.
    pub fn span(&self) -> (f64, f64) {
        let [a, b] = self.ends_m.map(|p| dot(p, self.right()));
        (a.min(b), a.max(b))
    }
}

/// A unit on the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// Middle, m.
    pub middle_m: [f64; 2],
    /// The way it blows, east and north.
    pub out: [f64; 2],
    /// The same as a compass direction, degrees.
    pub azimuth_deg: f64,
    /// Half of its width, m.
    pub half_width_m: f64,
    /// Half of its depth, m.
    pub half_depth_m: f64,
    /// Foot of the wall behind it, m.
    pub foot_m: [f64; 2],
}

fn dot(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

/// Outside walls of all storeys above ground.
pub(crate) fn walls(input: &Input<'_>) -> Vec<OuterWall> {
    let Some(model) = input.model else {
        return Vec::new();
    };
    let mut out = Vec::new();
    for s in model
        .surfaces
        .iter()
        .filter(|s| s.kind == SurfaceKind::Wall)
    {
        let (Some(ends_m), Behind::Outdoor { azimuth_deg, .. }) = (s.ends_m, &s.behind) else {
            continue;
        };
        let storey = model.zones.get(s.zone).and_then(|z| z.storey);
        let Some(storey) = storey else { continue };
        let plan_deg = azimuth_deg - input.job.house.plan_north_deg;
        let side = match plan_deg.rem_euclid(360.0) {
            d if !(45.0..315.0).contains(&d) => "north",
            d if d < 135.0 => "east",
            d if d < 225.0 => "south",
            _ => "west",
        };
        out.push(OuterWall {
            ends_m,
            out: crate::indoors::room::toward(plan_deg),
            azimuth_deg: *azimuth_deg,
            side,
            storey,
            zone: s.zone,
        });
    }
    out
}

/// The storey nearest to the ground: units stand at its walls.
pub(crate) fn low_storey(input: &Input<'_>, all: &[OuterWall]) -> Option<usize> {
    let floor = |i: usize| {
        let s = input.job.house.storeys.get(i);
        s.map_or(f64::INFINITY, |s| s.floor_m)
    };
    let over = |i: &usize| floor(*i) > -1.0;
    let all = all.iter().map(|w| w.storey).filter(over);
    all.min_by(|a, b| floor(*a).total_cmp(&floor(*b)))
}

/// A unit with its middle so far along a side of the house, from the left end seen from outside.
pub(crate) fn spot(input: &Input<'_>, p: &OutdoorPlace, unit: Option<&Sheet>) -> Option<Spot> {
    let (side, along) = (p.wall.as_deref()?, p.along_m?);
    let all = walls(input);
    let storey = low_storey(input, &all)?;
    let here = all.iter().filter(|w| w.side == side && w.storey == storey);
    let here: Vec<&OuterWall> = here.collect();
    let left = here.iter().map(|w| w.span().0).reduce(f64::min)?;
    let at = left + along;
    let holds = |w: &&&OuterWall| (w.span().0 - 1e-6..=w.span().1 + 1e-6).contains(&at);
    let far = |w: &OuterWall| dot(w.ends_m[0], w.out);
    let wall = here
        .iter()
        .filter(holds)
        .max_by(|a, b| far(a).total_cmp(&far(b)))?;
    at_wall(wall, at, p, unit)
}

/// A unit at a wall, its middle at this place to the right.
pub(crate) fn at_wall(
    wall: &OuterWall,
    at: f64,
    p: &OutdoorPlace,
    unit: Option<&Sheet>,
) -> Option<Spot> {
    let unit = unit?;
    let (width, depth) = (unit.size.width_m?, unit.size.depth_m?);
    let typed = p.distances.iter().find(|(k, _)| *k == "rear");
    let rear = typed.map(|(_, m)| *m).or(unit.size.clear_rear_m)?;
    let (r, o) = (wall.right(), wall.out);
    let off = dot(wall.ends_m[0], o);
    let point = |out: f64| [r[0] * at + o[0] * out, r[1] * at + o[1] * out];
    Some(Spot {
        middle_m: point(off + rear + 0.5 * depth),
        out: o,
        azimuth_deg: wall.azimuth_deg,
        half_width_m: 0.5 * width,
        half_depth_m: 0.5 * depth,
        foot_m: point(off),
    })
}

impl Spot {
    /// From its casing to a place, m.
    pub fn to_m(&self, p: [f64; 2]) -> f64 {
        let d = [p[0] - self.middle_m[0], p[1] - self.middle_m[1]];
        let out = (dot(d, self.out).abs() - self.half_depth_m).max(0.0);
        let side = (dot(d, [-self.out[1], self.out[0]]).abs() - self.half_width_m).max(0.0);
        libm::hypot(out, side)
    }

    /// From its casing to a line, m.
    pub fn to_line_m(&self, ends: [[f64; 2]; 2]) -> f64 {
        let (o, r) = (self.out, [-self.out[1], self.out[0]]);
        let corner = |a: f64, b: f64| {
            let (a, b) = (a * self.half_depth_m, b * self.half_width_m);
            [
                self.middle_m[0] + a * o[0] + b * r[0],
                self.middle_m[1] + a * o[1] + b * r[1],
            ]
        };
        let corners = [
            corner(1.0, 1.0),
            corner(1.0, -1.0),
            corner(-1.0, 1.0),
            corner(-1.0, -1.0),
        ];
        let mine = corners.iter().map(|c| from_line_m(*c, ends));
        let theirs = ends.iter().map(|e| self.to_m(*e));
        mine.chain(theirs).fold(f64::INFINITY, f64::min)
    }
}

/// The place with what the plan tells where nobody measured.
pub(crate) fn filled(
    input: &Input<'_>,
    p: &OutdoorPlace,
    unit: Option<&Sheet>,
    spot: Option<&Spot>,
) -> OutdoorPlace {
    let mut p = p.clone();
    let (Some(spot), Some(_)) = (spot, unit) else {
        return p;
    };
    let marks = &input.job.installation.landmarks;
    let nearest = |kinds: &[&str]| {
        let all = marks.iter().filter(|m| kinds.contains(&m.what.as_str()));
        all.map(|m| spot.to_line_m([m.at_m, m.to_m.unwrap_or(m.at_m)]))
            .reduce(f64::min)
    };
    let has = |p: &OutdoorPlace, k: &str| p.distances.iter().any(|(n, _)| *n == k);
    for (k, kinds) in [
        ("gas_regulator", &["gas_regulator"][..]),
        ("dryer", &["dryer"]),
        ("intake", &["intake"]),
        ("meter_space", &["meter", "disconnect"]),
        ("walk", &["walk"]),
        ("lot_line", &["lot_line"]),
    ] {
        if let Some(m) = nearest(kinds).filter(|_| !has(&p, k)) {
            p.distances.push((k, m));
        }
    }
    if !has(&p, "window")
        && let Some(m) = window_m(input, spot)
    {
        p.distances.push(("window", m));
    }
    if p.roof_drip.is_none() {
        let (eave, valley) = (nearest(&["eave"]), nearest(&["valley"]));
        p.roof_drip = match (eave, valley) {
            (_, Some(m)) if m < VALLEY_NEAR_M => Some("valley".to_owned()),
            (Some(m), _) if m < EAVE_NEAR_M => Some("eave".to_owned()),
            (None, None) => None,
            _ => Some("nothing".to_owned()),
        };
    }
    if p.water_crosses_walk.is_none() {
        let reach = ice_reach_m(&p).unwrap_or(WALK_NEAR_M);
        p.water_crosses_walk = nearest(&["walk"]).map(|m| m < reach);
    }
    if p.faces_wind.is_none() {
        p.faces_wind = input.winter_wind_deg.map(|from| {
            let off = (from - spot.azimuth_deg).rem_euclid(360.0);
            off.min(360.0 - off) <= WIND_WITHIN_DEG
        });
    }
    if p.bedroom_wall.is_none() {
        p.bedroom_wall = slept_behind(input, spot);
    }
    p
}

/// To the nearest window of the house, m.
fn window_m(input: &Input<'_>, spot: &Spot) -> Option<f64> {
    let model = input.model?;
    let rooms = input.job.house.rooms.iter();
    let all = rooms.flat_map(|r| crate::indoors::room::windows(input.job, model, &r.name));
    all.map(|w| spot.to_line_m(w.ends_m)).reduce(f64::min)
}

/// Whether a bedroom is behind the wall there, on any storey.
fn slept_behind(input: &Input<'_>, spot: &Spot) -> Option<bool> {
    let model = input.model?;
    let all = walls(input);
    let mut here = all
        .iter()
        .filter(|w| from_line_m(spot.foot_m, w.ends_m) < 0.3)
        .filter_map(|w| model.zones.get(w.zone))
        .peekable();
    here.peek()?;
    Some(here.any(|z| z.used_for == Use::Sleeping))
}
