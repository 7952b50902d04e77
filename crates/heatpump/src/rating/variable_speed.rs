//! SEER2 and HSPF2 of a variable-speed unit, which is what a ductless unit is. No published
//! worked number is in hand for this procedure: its tests check limits and consistency only.

use super::bins::{COOLING_BINS, HeatingRegion};
use super::two_stage::Stage;

/// Cooling tests of a variable-speed unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VariableCooling {
    /// Full speed, 95 F.
    pub a_full: Stage,
    /// Full speed, 82 F.
    pub b_full: Stage,
    /// Intermediate speed, 87 F.
    pub e_middle: Stage,
    /// Low speed, 82 F.
    pub b_low: Stage,
    /// Low speed, 67 F.
    pub f_low: Stage,
    /// Cycling coefficient, low speed (0.25 by default).
    pub cd_low: f64,
}

/// Slope of an intermediate-speed line, a blend of the slopes of low and full speed by where the
/// intermediate test lies between them.
fn blended(low: f64, full: f64, here: f64, low_here: f64, full_here: f64) -> f64 {
    let share = (here - low_here) / (full_here - low_here);
    low * (1.0 - share) + full * share
}

fn middle_line(
    at: (f64, Stage),
    low: impl Fn(f64) -> Stage,
    full: impl Fn(f64) -> Stage,
    t: f64,
) -> Stage {
    let (t0, m) = at;
    let (l, f) = (low(t0), full(t0));
    let (l1, f1) = (low(t0 + 1.0), full(t0 + 1.0));
    let dq = blended(
        l1.btu_h - l.btu_h,
        f1.btu_h - f.btu_h,
        m.btu_h,
        l.btu_h,
        f.btu_h,
    );
    let dw = blended(l1.w - l.w, f1.w - f.w, m.w, l.w, f.w);
    Stage {
        btu_h: m.btu_h + dq * (t - t0),
        w: m.w + dw * (t - t0),
    }
}

/// Power at a load between low, intermediate and full speed: ratio of capacity to power in
/// straight lines over capacity.
fn power_at(load: f64, low: Stage, middle: Stage, full: Stage) -> f64 {
    let (a, b) = if load <= middle.btu_h {
        (low, middle)
    } else {
        (middle, full)
    };
    let (ra, rb) = (a.btu_h / a.w, b.btu_h / b.w);
    let ratio = ra + (rb - ra) / (b.btu_h - a.btu_h) * (load - a.btu_h);
    load / ratio
}

/// SEER2 of a variable-speed unit.
///
/// # Equation
/// `BL = (t - 65) / (95 - 65) 0.93 Q(95) / 1.1`; below low speed it cycles; between, `q / e` in
/// straight lines over capacity through low, intermediate and full; above, full.
/// # Symbols
/// As [`crate::two_stage_seer2`].
/// # Range
/// Positive tests with the intermediate between low and full at 87 F; `None` otherwise.
/// # Source
/// `cfr-430-m1` 4.1.4, from memory. No published worked number in hand.
/// # Example
/// In the tests: where all speeds have one ratio of capacity to power, that ratio is the answer.
pub fn variable_seer2(tests: &VariableCooling) -> Option<f64> {
    let all = [
        tests.a_full,
        tests.b_full,
        tests.e_middle,
        tests.b_low,
        tests.f_low,
    ];
    if !all.iter().all(|s| s.usable()) || !(0.0..1.0).contains(&tests.cd_low) {
        return None;
    }
    let low_at = |t| Stage::line((67.0, tests.f_low), (82.0, tests.b_low), t);
    let full_at = |t| Stage::line((82.0, tests.b_full), (95.0, tests.a_full), t);
    if !between(low_at(87.0), tests.e_middle, full_at(87.0)) {
        return None;
    }
    let mut cooling = 0.0;
    let mut energy = 0.0;
    for (t, n) in COOLING_BINS {
        let load = (t - 65.0) / 30.0 * 0.93 * tests.a_full.btu_h / 1.1;
        let (low, full) = (low_at(t), full_at(t));
        let middle = middle_line((87.0, tests.e_middle), low_at, full_at, t);
        let (q, e) = if load <= low.btu_h {
            let x = load / low.btu_h;
            (load, x * low.w / (1.0 - tests.cd_low * (1.0 - x)))
        } else if load < full.btu_h {
            (load, power_at(load, low, middle, full))
        } else {
            (full.btu_h, full.w)
        };
        cooling += n * q;
        energy += n * e;
    }
    positive(cooling / energy)
}

/// Heating tests of a variable-speed unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VariableHeating {
    /// Low speed, 62 F.
    pub h0_low: Stage,
    /// Low speed, 47 F.
    pub h1_low: Stage,
    /// Full speed, 47 F.
    pub h1_full: Stage,
    /// Intermediate speed, 35 F.
    pub h2_middle: Stage,
    /// Full speed, 35 F; `None` takes the default of 0.90 of capacity and 0.985 of power on the
    /// line from 17 to 47 F.
    pub h2_full: Option<Stage>,
    /// Full speed, 17 F.
    pub h3_full: Stage,
    /// Full speed, 5 F, where tested.
    pub h4_full: Option<Stage>,
    /// Cooling capacity at 95 F, Btu/h.
    pub cooling_btu_h: f64,
    /// Cycling coefficient, low speed.
    pub cd_low: f64,
    /// Demand-defrost credit, 1 to 1.03.
    pub defrost_credit: f64,
    /// Below this outdoor temperature it does not run, F.
    pub cut_out_f: f64,
}

/// HSPF2 of a variable-speed unit.
///
/// # Equation
/// Load as [`crate::two_stage_hspf2`] with the variable-speed slope. Low speed on the line from 47
/// to 62 F; intermediate from its 35 F test by blended slopes; full as two-stage, below 17 F on the
/// line from 5 to 17 F where 5 F was tested. Below low speed it cycles; above full, resistance.
/// # Symbols
/// As [`crate::two_stage_hspf2`].
/// # Range
/// Positive tests, intermediate between low and full at 35 F; `None` otherwise.
/// # Source
/// `cfr-430-m1` 4.2.4, from memory. No published worked number in hand.
/// # Departures
/// One cut-out temperature without the band between off and on.
/// # Example
/// In the tests: where all speeds have one ratio of capacity to power, that ratio is the answer.
pub fn variable_hspf2(
    tests: &VariableHeating,
    region: &HeatingRegion,
    resistance_btu_per_wh: f64,
) -> Option<f64> {
    let h2_full = tests.h2_full.unwrap_or_else(|| {
        let s = Stage::line((17.0, tests.h3_full), (47.0, tests.h1_full), 35.0);
        Stage {
            btu_h: 0.90 * s.btu_h,
            w: 0.985 * s.w,
        }
    });
    let all = [
        tests.h0_low,
        tests.h1_low,
        tests.h1_full,
        tests.h2_middle,
        h2_full,
        tests.h3_full,
    ];
    let fifth = tests.h4_full.is_none_or(Stage::usable);
    if !all.iter().all(|s| s.usable())
        || !fifth
        || !(0.0..1.0).contains(&tests.cd_low)
        || tests.cooling_btu_h <= 0.0
        || resistance_btu_per_wh <= 0.0
    {
        return None;
    }
    let low_at = |t| Stage::line((47.0, tests.h1_low), (62.0, tests.h0_low), t);
    let full_at = |t: f64| match tests.h4_full {
        Some(h4) if t < 17.0 => Stage::line((5.0, h4), (17.0, tests.h3_full), t),
        _ if t >= 45.0 || t <= 17.0 => Stage::line((17.0, tests.h3_full), (47.0, tests.h1_full), t),
        _ => Stage::line((17.0, tests.h3_full), (35.0, h2_full), t),
    };
    if !between(low_at(35.0), tests.h2_middle, full_at(35.0)) {
        return None;
    }
    // Slope of full speed at 35 F by the line from 17 to 35 F, so that the blend has no step in it.
    let full_frosty = |t| Stage::line((17.0, tests.h3_full), (35.0, h2_full), t);
    let mut heat = 0.0;
    let mut energy = 0.0;
    for (i, n) in region.hours.iter().enumerate() {
        let t = region.first_bin_f - 5.0 * i as f64;
        let load = ((region.zero_load_f - t) / (region.zero_load_f - region.design_f)
            * region.slope_variable
            * tests.cooling_btu_h)
            .max(0.0);
        heat += n * load;
        if t < tests.cut_out_f {
            energy += n * load / resistance_btu_per_wh;
            continue;
        }
        let (low, full) = (low_at(t), full_at(t));
        let middle = middle_line((35.0, tests.h2_middle), low_at, full_frosty, t);
        let runs = low.usable() && middle.usable();
        let (e, rest) = if load >= full.btu_h {
            (full.w, load - full.btu_h)
        } else if runs && load > low.btu_h {
            (power_at(load, low, middle, full), 0.0)
        } else if low.usable() {
            let x = load / low.btu_h;
            (x * low.w / (1.0 - tests.cd_low * (1.0 - x)), 0.0)
        } else {
            return None;
        };
        energy += n * (e + rest / resistance_btu_per_wh);
    }
    positive(heat / energy * tests.defrost_credit)
}

fn between(low: Stage, middle: Stage, full: Stage) -> bool {
    low.btu_h < middle.btu_h && middle.btu_h < full.btu_h && low.w < middle.w && middle.w < full.w
}

fn positive(x: f64) -> Option<f64> {
    (x.is_finite() && x > 0.0).then_some(x)
}
