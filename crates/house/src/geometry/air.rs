//! Outdoor air: leakage by room, fixed air changes, fans.

use super::draft::Draft;
use super::problem::GeometryError;
use crate::describe::Leakage;
use crate::model::{Leak, ZoneVent};
use reckon::Known;

/// Fills leak, shares, fixed air, fans, and the height of the house.
pub(super) fn build(draft: &mut Draft<'_>) {
    let house = draft.house;
    let in_envelope: Vec<bool> = {
        let heated: Vec<bool> = (0..house.rooms.len()).map(|i| draft.heated(i)).collect();
        // a house without any thermostat floats as a whole
        if heated.iter().any(|h| *h) {
            heated
        } else {
            vec![true; heated.len()]
        }
    };
    let inside = || {
        draft
            .placed
            .iter()
            .zip(&in_envelope)
            .filter(|(_, h)| **h)
            .map(|(p, _)| p)
    };
    let top = inside().map(|p| p.floor_m + p.height_m).fold(0.0, f64::max);
    // leaks begin at grade where the lowest heated floor is under it
    let bottom = inside()
        .map(|p| p.floor_m)
        .fold(f64::INFINITY, f64::min)
        .max(0.0)
        .min(top);
    draft.model.top_m = top;
    let mut leak = Leak {
        c_m3_per_s_pa_n: 0.0,
        tested: (0.0, 0.0),
        n: 0.65,
        bottom_m: bottom,
        top_m: top,
        known: Known::Assumed,
    };
    match house.leakage {
        Leakage::Fixed { per_h } => {
            for (i, r) in house.rooms.iter().enumerate() {
                let rate = r.own_air_changes_per_h.unwrap_or(per_h);
                fixed_air(draft, i, rate);
            }
        }
        Leakage::BlowerDoor {
            flow_m3_per_s,
            at_pa,
            exponent,
            known,
        } => {
            leak.c_m3_per_s_pa_n = coefficient(flow_m3_per_s, at_pa, exponent);
            leak.tested = (flow_m3_per_s, at_pa);
            leak.n = exponent;
            leak.known = known;
            plausible(draft, &in_envelope, flow_m3_per_s, at_pa, exponent);
            for (i, r) in house.rooms.iter().enumerate() {
                if let Some(rate) = r.own_air_changes_per_h {
                    fixed_air(draft, i, rate);
                }
            }
            shares(draft, &in_envelope);
        }
    }
    draft.model.leak = leak;
    vents(draft, &in_envelope);
}

/// Leakage coefficient from one reading of a blower door.
///
/// **Equation** `c = Q/dP^n`.
/// **Symbols** Q flow (m3/s), dP test pressure (Pa), n exponent (1), c (m3/(s Pa^n)).
/// **Range** n 0.5 to 1. Q is taken as volume of the air that passes the leaks, at the air
/// density of the test; the balance turns it to mass with the density of the hour. The small
/// correction for test weather (under 5 %) is not made: the test sheet seldom gives it.
/// **Source** `ashrae-fundamentals-2017`, ch. 16, power law.
/// **Example** 2160 cfm (1.0194 m3/s) at 50 Pa, n 0.65: c = 0.0802.
fn coefficient(flow_m3_per_s: f64, at_pa: f64, exponent: f64) -> f64 {
    flow_m3_per_s / libm::pow(at_pa, exponent)
}

fn fixed_air(draft: &mut Draft<'_>, zone: usize, per_h: f64) {
    if let Some(z) = draft.model.zones.get_mut(zone) {
        z.fixed_air_m3_per_s = per_h * z.volume_m3 / 3600.0;
    }
}

/// Air changes an hour at 50 Pa of the heated rooms that a test can have found: the tightest houses
/// are near the lower end, and air changes typed as cfm (9 for 1,800) fall below it.
const TESTED_PER_H: std::ops::RangeInclusive<f64> = 0.2..=80.0;

/// A flow that makes no sense for the volume is a flow in other units.
fn plausible(draft: &mut Draft<'_>, inside: &[bool], flow: f64, at_pa: f64, n: f64) {
    let volume: f64 = draft
        .placed
        .iter()
        .zip(inside)
        .filter(|(_, h)| **h)
        .map(|(p, _)| p.area_m2 * p.height_m)
        .sum();
    let per_h = coefficient(flow, at_pa, n) * libm::pow(50.0, n) * 3600.0 / volume;
    if !TESTED_PER_H.contains(&per_h) {
        draft.bad.push(GeometryError::new(
            "leakage",
            "the blower-door flow does not fit the volume of the heated rooms",
            format!("{per_h:.3} air changes an hour at 50 Pa"),
            "0.2 to 80 an hour at 50 Pa",
            "check whether air changes were written as a flow, the unit, and that all rooms are drawn",
        ));
    }
}

/// Shares of the leakage by exposed area of the rooms inside the envelope; by volume where
/// nothing is exposed. Source: `common-practice`.
fn shares(draft: &mut Draft<'_>, inside: &[bool]) {
    let by_area: Vec<f64> = draft
        .exposed_m2
        .iter()
        .zip(inside)
        .map(|(a, h)| if *h { *a } else { 0.0 })
        .collect();
    let by_volume: Vec<f64> = draft
        .placed
        .iter()
        .zip(inside)
        .map(|(p, h)| if *h { p.area_m2 * p.height_m } else { 0.0 })
        .collect();
    let weights = if by_area.iter().sum::<f64>() > 1e-6 {
        by_area
    } else {
        by_volume
    };
    let sum: f64 = weights.iter().sum();
    if sum <= 0.0 {
        return;
    }
    for (z, w) in draft.model.zones.iter_mut().zip(weights) {
        z.leak_share = w / sum;
        z.leak_weight = w;
    }
}

/// Fans by room; without a room, over the heated rooms by volume.
fn vents(draft: &mut Draft<'_>, inside: &[bool]) {
    let house = draft.house;
    let volumes: Vec<f64> = draft
        .placed
        .iter()
        .map(|p| p.area_m2 * p.height_m)
        .collect();
    let whole: f64 = volumes
        .iter()
        .zip(inside)
        .filter(|(_, h)| **h)
        .map(|(v, _)| v)
        .sum();
    for v in &house.vents {
        let mut add = |zone: usize, flow_m3_per_s: f64| {
            draft.model.vents.push(ZoneVent {
                zone,
                flow_m3_per_s,
                recovery: v.recovery,
                on: v.on,
            });
        };
        if let Some(zone) = house.rooms.iter().position(|r| r.name == v.room) {
            add(zone, v.flow_m3_per_s);
            continue;
        }
        for (zone, (volume, h)) in volumes.iter().zip(inside).enumerate() {
            if *h && whole > 0.0 {
                add(zone, v.flow_m3_per_s * volume / whole);
            }
        }
    }
}
