//! What can be checked before anything is built: sizes, outlines, names, references.

use super::names::{did_you_mean, listed};
use super::problem::{GeometryError, area, length};
use super::shape::{edges, polygon, self_crossing, signed_area};
use super::{STOREY_GAP_M, TOUCH_M};
use crate::assembly;
use crate::describe::{Gain, House, Leakage, Over, Setting};
use geo::{Area, BooleanOps, MultiPolygon};

use super::draft::Placed;

/// Runs every check. The rooms come back placed.
pub(super) fn house(house: &House) -> Result<Vec<Placed>, Vec<GeometryError>> {
    let mut bad = Vec::new();
    site(house, &mut bad);
    storeys(house, &mut bad);
    constructions(house, &mut bad);
    names_once(house, &mut bad);
    let placed = rooms(house, &mut bad);
    references(house, &mut bad);
    openings(house, &mut bad);
    if bad.is_empty() {
        overlaps(house, &placed, &mut bad);
    }
    if bad.is_empty() { Ok(placed) } else { Err(bad) }
}

/// A number that must lie in a range; words for its unit are in `allowed`.
fn number(
    bad: &mut Vec<GeometryError>,
    place: &str,
    what: &str,
    v: f64,
    range: (f64, f64),
    allowed: &str,
) {
    if !(v >= range.0 && v <= range.1) {
        bad.push(GeometryError::new(
            place,
            what,
            v.to_string(),
            allowed,
            "correct the value",
        ));
    }
}

/// A length that must lie in a range.
fn size(bad: &mut Vec<GeometryError>, place: &str, what: &str, v: f64, lo: f64, hi: f64) {
    if !(v >= lo && v <= hi) {
        bad.push(GeometryError::new(
            place,
            what,
            length(v),
            format!("{} to {}", length(lo), length(hi)),
            "correct the size",
        ));
    }
}

fn site(h: &House, bad: &mut Vec<GeometryError>) {
    number(
        bad,
        "plan_north",
        "turn of the plan",
        h.plan_north_deg,
        (-360.0, 360.0),
        "-360 to 360 degrees",
    );
    number(
        bad,
        "ground_albedo",
        "share of sun the ground reflects",
        h.ground_albedo,
        (0.0, 1.0),
        "0 to 1",
    );
    number(
        bad,
        "furnishing",
        "heat capacity of contents",
        h.furnishing_j_per_m2k,
        (0.0, 1e6),
        "0 to 1000000 J/(m2 K)",
    );
    number(
        bad,
        "soil",
        "conductivity",
        h.soil.k_w_per_mk,
        (0.1, 10.0),
        "0.1 to 10 W/(m K)",
    );
    number(
        bad,
        "soil",
        "heat capacity",
        h.soil.capacity_j_per_m3k,
        (1e5, 1e7),
        "1e5 to 1e7 J/(m3 K)",
    );
    size(
        bad,
        "soil",
        "wall thickness",
        h.soil.wall_thickness_m,
        0.0,
        3.0,
    );
    if let Leakage::Fixed { per_h } = h.leakage {
        number(
            bad,
            "leakage",
            "air changes",
            per_h,
            (0.0, 50.0),
            "0 to 50 an hour",
        );
    }
    if let Leakage::BlowerDoor {
        flow_m3_per_s,
        at_pa,
        exponent,
        ..
    } = h.leakage
    {
        number(
            bad,
            "leakage",
            "flow of the blower door",
            flow_m3_per_s,
            (1e-4, 50.0),
            "0.0001 to 50 m3/s",
        );
        number(
            bad,
            "leakage",
            "test pressure",
            at_pa,
            (1.0, 100.0),
            "1 to 100 Pa",
        );
        number(bad, "leakage", "exponent", exponent, (0.5, 1.0), "0.5 to 1");
    }
    for (i, v) in h.vents.iter().enumerate() {
        let place = format!("vent.{}", i + 1);
        number(
            bad,
            &place,
            "flow",
            v.flow_m3_per_s,
            (0.0, 10.0),
            "0 to 10 m3/s",
        );
        number(
            bad,
            &place,
            "share of heat recovered",
            v.recovery,
            (0.0, 1.0),
            "0 to 1",
        );
    }
}

fn storeys(h: &House, bad: &mut Vec<GeometryError>) {
    if h.storeys.is_empty() {
        bad.push(GeometryError::new(
            "storey",
            "no storey",
            "none",
            "at least one",
            "add a storey",
        ));
    }
    for s in &h.storeys {
        let place = format!("storey.{}", s.name);
        size(
            bad,
            &place,
            "floor level over grade",
            s.floor_m,
            -10.0,
            100.0,
        );
        size(bad, &place, "ceiling height", s.ceiling_m, 1.0, 30.0);
        if let Over::Sloped { pitch_deg } = s.over {
            number(
                bad,
                &place,
                "pitch",
                pitch_deg,
                (0.0, 75.0),
                "0 to 75 degrees",
            );
        }
    }
}

fn constructions(h: &House, bad: &mut Vec<GeometryError>) {
    for c in &h.constructions {
        if let Err(e) = assembly::resolved(c, assembly::Flow::Level) {
            let place = match e.layer {
                0 => format!("construction.{}", c.name),
                n => format!("construction.{}.layer.{n}", c.name),
            };
            bad.push(GeometryError::new(
                place,
                e.what,
                e.got,
                e.usable,
                "correct the layer",
            ));
        }
    }
}

fn names_once(h: &House, bad: &mut Vec<GeometryError>) {
    let mut once = |what: &str, names: Vec<&str>| {
        for (i, n) in names.iter().enumerate() {
            if n.trim().is_empty() {
                bad.push(GeometryError::new(
                    format!("{what}.{}", i + 1),
                    "no name",
                    "nothing",
                    "a name",
                    "give it a name",
                ));
            } else if names.iter().take(i).any(|m| m == n) {
                bad.push(GeometryError::new(
                    format!("{what}.{n}"),
                    format!("two of one kind ({what}) share a name"),
                    format!("\"{n}\" again"),
                    "each name once",
                    "give one of them another name",
                ));
            }
        }
    };
    once(
        "storey",
        h.storeys.iter().map(|s| s.name.as_str()).collect(),
    );
    once("room", h.rooms.iter().map(|r| r.name.as_str()).collect());
    once(
        "construction",
        h.constructions.iter().map(|c| c.name.as_str()).collect(),
    );
    once(
        "glazing",
        h.glazings.iter().map(|g| g.name.as_str()).collect(),
    );
}

fn rooms(h: &House, bad: &mut Vec<GeometryError>) -> Vec<Placed> {
    if h.rooms.is_empty() {
        bad.push(GeometryError::new(
            "room",
            "no room",
            "none",
            "at least one",
            "draw a room",
        ));
    }
    let mut placed = Vec::with_capacity(h.rooms.len());
    for r in &h.rooms {
        let place = format!("room.{}", r.name);
        let storey = h.storeys.iter().position(|s| s.name == r.storey);
        if storey.is_none() {
            let known = h.storeys.iter().map(|s| s.name.as_str());
            bad.push(GeometryError::new(
                format!("{place}.storey"),
                "no such storey",
                format!("\"{}\"", r.storey),
                listed(known.clone()),
                did_you_mean(&r.storey, known, "add the storey or correct the name"),
            ));
        }
        if let Some(c) = r.ceiling_m {
            size(bad, &place, "ceiling height", c, 1.0, 30.0);
        }
        if let Some(n) = r.own_air_changes_per_h {
            number(
                bad,
                &place,
                "outdoor air changes",
                n,
                (0.0, 100.0),
                "0 to 100 an hour",
            );
        }
        number(bad, &place, "people", r.people, (0.0, 1000.0), "0 to 1000");
        for (what, s) in [
            ("heating setting", &r.heated),
            ("cooling setting", &r.cooled),
        ] {
            setting(bad, &place, what, s.as_ref());
        }
        for g in &r.gains {
            gain(bad, &place, g);
        }
        let sound = outline(bad, &place, &r.outline);
        if let (Some(storey), true) = (storey, sound) {
            let Some(s) = h.storeys.get(storey) else {
                continue;
            };
            placed.push(Placed {
                storey,
                floor_m: s.floor_m,
                height_m: r.ceiling_m.unwrap_or(s.ceiling_m),
                edges: edges(&r.outline),
                plan: polygon(&r.outline),
                area_m2: signed_area(&r.outline).abs(),
            });
        }
    }
    placed
}

fn setting(bad: &mut Vec<GeometryError>, place: &str, what: &str, s: Option<&Setting>) {
    let Some(s) = s else { return };
    for v in s.by_hour_c.iter().flatten() {
        if !(-60.0..=80.0).contains(v) {
            number(bad, place, what, *v, (-60.0, 80.0), "-60 to 80 C");
            return;
        }
    }
}

fn gain(bad: &mut Vec<GeometryError>, place: &str, g: &Gain) {
    number(
        bad,
        place,
        "radiant share of a gain",
        g.radiant,
        (0.0, 1.0),
        "0 to 1",
    );
    for v in &g.by_hour_w {
        if !(-1e5..=1e6).contains(v) {
            number(
                bad,
                place,
                "gain, W",
                *v,
                (-1e5, 1e6),
                "-100000 to 1000000 W",
            );
            return;
        }
    }
}

fn outline(bad: &mut Vec<GeometryError>, place: &str, corners: &[[f64; 2]]) -> bool {
    let place = format!("{place}.outline");
    let n = corners.len();
    let mut fail = |what: &str, got: String, allowed: &str, mend: &str| {
        bad.push(GeometryError::new(place.clone(), what, got, allowed, mend));
        false
    };
    if n < 3 {
        return fail(
            "too few corners",
            n.to_string(),
            "3 or more",
            "add the missing corners",
        );
    }
    if n > 400 {
        return fail(
            "too many corners",
            n.to_string(),
            "3 to 400",
            "draw the room more simply",
        );
    }
    for (i, c) in corners.iter().enumerate() {
        if !c.iter().all(|v| v.is_finite() && v.abs() <= 1000.0) {
            return fail(
                "a corner is out of reach",
                format!("corner {} at {}, {}", i + 1, length(c[0]), length(c[1])),
                "-1000 to 1000 m (-3280 to 3280 ft)",
                "correct the corner",
            );
        }
    }
    for (i, (p, q)) in corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .enumerate()
    {
        if libm::hypot(p[0] - q[0], p[1] - q[1]) < 1e-3 {
            let next = i % n + 1;
            return fail(
                "two corners fall together",
                format!("corners {next} and {}", next % n + 1),
                "at least 1 mm between corners",
                "leave one of them out; the outline closes by itself",
            );
        }
    }
    if let Some((i, j)) = self_crossing(corners) {
        return fail(
            "the outline crosses or touches itself",
            format!("walls {i} and {j} meet"),
            "walls that meet only at their common corner",
            "put the corners in order round the room",
        );
    }
    let a = signed_area(corners).abs();
    if a < 0.05 {
        return fail(
            "the room has no area",
            area(a),
            "0.05 m2 (0.5 ft2) or more",
            "correct the corners",
        );
    }
    true
}

/// Rooms of a storey must not lie over each other, nor reach into a storey above.
fn overlaps(h: &House, placed: &[Placed], bad: &mut Vec<GeometryError>) {
    for (i, p) in placed.iter().enumerate() {
        for (j, q) in placed.iter().enumerate().skip(i + 1) {
            let (low, high) = if p.floor_m <= q.floor_m {
                (p, q)
            } else {
                (q, p)
            };
            let same = p.storey == q.storey;
            let pokes = low.floor_m + low.height_m - high.floor_m;
            if !same && pokes <= 0.3_f64.min(STOREY_GAP_M) {
                continue;
            }
            let common = common_area(&p.plan, &q.plan);
            let reach = 0.25 * p.perimeter_m().min(q.perimeter_m());
            let allowed = TOUCH_M * reach + 0.01;
            if common > allowed {
                let name = |k: usize| h.rooms.get(k).map_or("", |r| r.name.as_str());
                let lower = if p.floor_m <= q.floor_m {
                    (i, j)
                } else {
                    (j, i)
                };
                bad.push(overlap(
                    name(lower.0),
                    name(lower.1),
                    same,
                    common,
                    allowed,
                    pokes,
                ));
            }
        }
    }
}

fn overlap(
    room: &str,
    other: &str,
    same: bool,
    common: f64,
    allowed: f64,
    pokes: f64,
) -> GeometryError {
    if same {
        GeometryError::new(
            format!("room.{room}.outline"),
            format!("lies over the room \"{other}\""),
            format!("{} in common", area(common)),
            format!("up to {} where walls meet", area(allowed)),
            "move a corner so that the rooms only touch",
        )
    } else {
        GeometryError::new(
            format!("room.{room}"),
            format!("reaches into the height of the room \"{other}\" on another storey"),
            format!("{} too high over {}", length(pokes), area(common)),
            "ceilings at or under the floor above".to_owned(),
            "lower the ceiling, raise the storey above, or cut the room above away there",
        )
    }
}

/// Area two plans have in common, m2.
pub(super) fn common_area(p: &MultiPolygon<f64>, q: &MultiPolygon<f64>) -> f64 {
    p.intersection(q).unsigned_area()
}

/// Names that refer to something.
fn references(h: &House, bad: &mut Vec<GeometryError>) {
    let rooms: Vec<&str> = h.rooms.iter().map(|r| r.name.as_str()).collect();
    let mut room = |place: String, name: &str| {
        if !rooms.contains(&name) {
            bad.push(GeometryError::new(
                place,
                "no such room",
                format!("\"{name}\""),
                listed(rooms.iter().copied()),
                did_you_mean(
                    name,
                    rooms.iter().copied(),
                    "draw the room or correct the name",
                ),
            ));
        }
    };
    for (i, w) in h.walls.iter().enumerate() {
        room(format!("wall.{}.room", i + 1), &w.room);
    }
    for (i, w) in h.windows.iter().enumerate() {
        room(format!("window.{}.room", i + 1), &w.room);
    }
    for (i, d) in h.outer_doors.iter().enumerate() {
        room(format!("outer_door.{}.room", i + 1), &d.room);
    }
    for (i, d) in h.doors.iter().enumerate() {
        for r in &d.rooms {
            room(format!("door.{}", i + 1), r);
        }
    }
    for (i, v) in h.vents.iter().enumerate() {
        if !v.room.is_empty() {
            room(format!("vent.{}.room", i + 1), &v.room);
        }
    }
    let mut named = |place: String, kind: &str, name: &str, known: Vec<&str>| {
        if !known.contains(&name) {
            bad.push(GeometryError::new(
                place,
                format!("no such {kind}"),
                format!("\"{name}\""),
                listed(known.iter().copied()),
                did_you_mean(
                    name,
                    known.iter().copied(),
                    "describe it or correct the name",
                ),
            ));
        }
    };
    for (i, w) in h.walls.iter().enumerate() {
        if let Some(c) = &w.construction {
            let known = h.constructions.iter().map(|c| c.name.as_str()).collect();
            if !super::build_ups::SET_NAMES.contains(&c.as_str()) {
                named(
                    format!("wall.{}.construction", i + 1),
                    "construction",
                    c,
                    known,
                );
            }
        }
    }
    for (i, w) in h.windows.iter().enumerate() {
        let known = h.glazings.iter().map(|g| g.name.as_str()).collect();
        named(
            format!("window.{}.glazing", i + 1),
            "glazing",
            &w.glazing,
            known,
        );
    }
}

fn openings(h: &House, bad: &mut Vec<GeometryError>) {
    for (i, w) in h.windows.iter().enumerate() {
        let place = format!("window.{}", i + 1);
        size(bad, &place, "width", w.width_m, 0.05, 30.0);
        size(bad, &place, "height", w.height_m, 0.05, 15.0);
        size(bad, &place, "sill over the floor", w.sill_m, 0.0, 15.0);
        if let Some(l) = w.from_left_m {
            size(bad, &place, "distance from the left end", l, 0.0, 1000.0);
        }
        number(
            bad,
            &place,
            "how many alike",
            f64::from(w.count),
            (1.0, 100.0),
            "1 to 100",
        );
        let s = &w.shade;
        let depths = [
            ("overhang depth", s.overhang_depth_m),
            ("overhang gap", s.overhang_gap_m),
            ("overhang past the window", s.overhang_past_m),
            ("fin depth", s.fin_depth_m),
            ("fin gap", s.fin_gap_m),
            ("fin above the head", s.fin_above_m),
            ("fin below the sill", s.fin_below_m),
        ];
        for (what, v) in depths {
            size(bad, &place, what, v, 0.0, 50.0);
        }
    }
    for (i, d) in h.outer_doors.iter().enumerate() {
        let place = format!("outer_door.{}", i + 1);
        size(bad, &place, "width", d.width_m, 0.3, 15.0);
        size(bad, &place, "height", d.height_m, 0.5, 10.0);
        // over 5.8 the films alone would have to be less than nothing
        number(
            bad,
            &place,
            "transmittance",
            d.u_w_per_m2k,
            (0.1, 5.8),
            "0.1 to 5.8 W/(m2 K)",
        );
    }
    for (i, d) in h.doors.iter().enumerate() {
        let place = format!("door.{}", i + 1);
        size(bad, &place, "width", d.width_m, 0.2, 30.0);
        size(bad, &place, "height", d.height_m, 0.2, 15.0);
        size(bad, &place, "gap under the leaf", d.undercut_m, 0.0, 0.5);
        number(
            bad,
            &place,
            "moved air",
            d.transfer_m3_per_s,
            (0.0, 5.0),
            "0 to 5 m3/s",
        );
    }
}
