//! What can be checked before anything is built: sizes, outlines, names, references.

use super::draft::Placed;
use super::problem::{GeometryError, length};
use super::{check_names, check_rooms};
use crate::assembly;
use crate::describe::{House, Leakage, Over};

/// Runs every check. The rooms come back placed.
pub(super) fn house(house: &House) -> Result<Vec<Placed>, Vec<GeometryError>> {
    let mut bad = Vec::new();
    site(house, &mut bad);
    storeys(house, &mut bad);
    constructions(house, &mut bad);
    check_names::names_once(house, &mut bad);
    let placed = check_rooms::rooms(house, &mut bad);
    check_names::references(house, &mut bad);
    openings(house, &mut bad);
    if bad.is_empty() {
        check_rooms::overlaps(house, &placed, &mut bad);
    }
    if bad.is_empty() { Ok(placed) } else { Err(bad) }
}

/// A number that must lie in a range; words for its unit are in `allowed`.
pub(super) fn number(
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
pub(super) fn size(
    bad: &mut Vec<GeometryError>,
    place: &str,
    what: &str,
    v: f64,
    lo: f64,
    hi: f64,
) {
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
