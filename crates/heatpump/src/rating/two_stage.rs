//! SEER2 and HSPF2 of a two-stage unit. The procedure is written in Btu/h, W and F, and its
//! published examples are checked to the last digit, so it stays in those units here.

use super::bins::{COOLING_BINS, HeatingRegion};

/// Heat of electric resistance, Btu per Wh, as the printed example rounds it.
pub const RESISTANCE_3413: f64 = 3.413;
/// Heat of electric resistance, Btu per Wh, as the later text rounds it.
pub const RESISTANCE_3412: f64 = 3.412;

/// Capacity and power of one stage at one test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// Capacity, Btu/h.
    pub btu_h: f64,
    /// Electric power, W.
    pub w: f64,
}

impl Stage {
    /// The straight line through two tests, at `t`. Temperatures in F.
    pub(super) fn line(cold: (f64, Stage), warm: (f64, Stage), t: f64) -> Stage {
        let ((tc, c), (tw, w)) = (cold, warm);
        Stage {
            btu_h: c.btu_h + (w.btu_h - c.btu_h) / (tw - tc) * (t - tc),
            w: c.w + (w.w - c.w) / (tw - tc) * (t - tc),
        }
    }

    pub(super) fn usable(self) -> bool {
        self.btu_h > 0.0 && self.w > 0.0 && self.btu_h.is_finite() && self.w.is_finite()
    }
}

/// Cooling tests of a two-stage unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoStageCooling {
    /// Full stage, 95 F.
    pub a_full: Stage,
    /// Full stage, 82 F.
    pub b_full: Stage,
    /// Low stage, 82 F.
    pub b_low: Stage,
    /// Low stage, 67 F.
    pub f_low: Stage,
    /// Cycling coefficient of the low stage; over 0.20 it counts as 0.20.
    pub cd_low: f64,
}

/// SEER2 of a two-stage unit that changes stage as the load asks.
///
/// # Equation
/// `BL = (t - 65) / (95 - 65) Q(95) / 1.1`. Below the low stage's capacity it cycles:
/// `X = BL / Qlow`, `E = X Elow / (1 - Cd (1 - X))`. Between the stages they alternate. Above, it
/// runs full. `SEER2 = sum(n q) / sum(n e)`.
/// # Symbols
/// `t` bin temperature, F; `BL` building load, Btu/h; `Q` capacity, Btu/h; `E` power, W; `n` share
/// of hours, 1.
/// # Range
/// Positive capacities and powers; `None` otherwise.
/// # Source
/// `ahri-210-240` 11.2.1.2 and `cfr-430-m1` 4.1.3, second hand; the load without the variable-speed
/// factor.
/// # Example
/// ```
/// use heatpump::{Stage, TwoStageCooling, two_stage_seer2};
/// let s = |btu_h, w| Stage { btu_h, w };
/// let tests = TwoStageCooling { a_full: s(48e3, 4300.0), b_full: s(52e3, 3900.0),
///     b_low: s(30e3, 2200.0), f_low: s(34e3, 2500.0), cd_low: 0.24 };
/// let got = two_stage_seer2(&tests).unwrap();
/// assert!((got / 12.4540352056775 - 1.0).abs() < 1e-9);
/// ```
pub fn two_stage_seer2(tests: &TwoStageCooling) -> Option<f64> {
    let all = [tests.a_full, tests.b_full, tests.b_low, tests.f_low];
    if !all.iter().all(|s| s.usable()) || !(0.0..1.0).contains(&tests.cd_low) {
        return None;
    }
    let cd = tests.cd_low.min(0.20);
    let mut cooling = 0.0;
    let mut energy = 0.0;
    for (t, n) in COOLING_BINS {
        let load = (t - 65.0) / (95.0 - 65.0) * tests.a_full.btu_h / 1.1;
        let full = Stage::line((82.0, tests.b_full), (95.0, tests.a_full), t);
        let low = Stage::line((67.0, tests.f_low), (82.0, tests.b_low), t);
        let (q, e) = if load <= low.btu_h {
            let x = load / low.btu_h;
            (x * low.btu_h, x * low.w / (1.0 - cd * (1.0 - x)))
        } else if load < full.btu_h {
            let x = (full.btu_h - load) / (full.btu_h - low.btu_h);
            (
                x * low.btu_h + (1.0 - x) * full.btu_h,
                x * low.w + (1.0 - x) * full.w,
            )
        } else {
            (full.btu_h, full.w)
        };
        cooling += n * q;
        energy += n * e;
    }
    (energy > 0.0).then_some(cooling / energy)
}

/// Heating tests of a two-stage unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoStageHeating {
    /// Low stage, 62 F.
    pub h0_low: Stage,
    /// Full stage, 47 F.
    pub h1_full: Stage,
    /// Low stage, 47 F.
    pub h1_low: Stage,
    /// Full stage, 35 F.
    pub h2_full: Stage,
    /// Low stage, 35 F.
    pub h2_low: Stage,
    /// Full stage, 17 F.
    pub h3_full: Stage,
    /// Low stage, 17 F.
    pub h3_low: Stage,
    /// Cooling capacity at 95 F, Btu/h, which sets the load.
    pub cooling_btu_h: f64,
    /// Cycling coefficient, low stage.
    pub cd_low: f64,
    /// Demand-defrost credit, 1 to 1.03.
    pub defrost_credit: f64,
}

/// HSPF2 of a two-stage unit without lockouts.
///
/// # Equation
/// `BL = (tzl - t) / (tzl - tod) C Qc(95)`; low stage cycling below its capacity, alternating
/// between the stages, full above with electric resistance for the rest.
/// `HSPF2 = sum(n BL) / sum(n (e + RH)) Fdef`.
/// # Symbols
/// `tzl`, `tod` zero-load and design temperature of the region, F; `C` slope; `RH` resistance, W.
/// # Range
/// Positive capacities and powers; `None` otherwise.
/// # Source
/// `ahri-210-240` 11.2.2 and `cfr-430-m1` 4.2.3, second hand. Low-stage lines: 47 to 62 F from
/// 40 F up, 17 to 35 F between, 17 to 47 F below 17 F; full: 17 to 47 F at and above 45 F and at
/// and below 17 F, else 17 to 35 F. The printed example takes 3.413 Btu per Wh of resistance.
/// # Example
/// In the tests: both printed answers, to the last digit.
pub fn two_stage_hspf2(
    tests: &TwoStageHeating,
    region: &HeatingRegion,
    resistance_btu_per_wh: f64,
) -> Option<f64> {
    let all = [
        tests.h0_low,
        tests.h1_full,
        tests.h1_low,
        tests.h2_full,
        tests.h2_low,
        tests.h3_full,
        tests.h3_low,
    ];
    if !all.iter().all(|s| s.usable())
        || !(0.0..1.0).contains(&tests.cd_low)
        || tests.cooling_btu_h <= 0.0
        || resistance_btu_per_wh <= 0.0
    {
        return None;
    }
    let mut heat = 0.0;
    let mut energy = 0.0;
    for (i, n) in region.hours.iter().enumerate() {
        let t = region.first_bin_f - 5.0 * i as f64;
        let load = ((region.zero_load_f - t) / (region.zero_load_f - region.design_f)
            * region.slope
            * tests.cooling_btu_h)
            .max(0.0);
        let full = if t >= 45.0 || t <= 17.0 {
            Stage::line((17.0, tests.h3_full), (47.0, tests.h1_full), t)
        } else {
            Stage::line((17.0, tests.h3_full), (35.0, tests.h2_full), t)
        };
        let low = if t >= 40.0 {
            Stage::line((47.0, tests.h1_low), (62.0, tests.h0_low), t)
        } else if t >= 17.0 {
            Stage::line((17.0, tests.h3_low), (35.0, tests.h2_low), t)
        } else {
            Stage::line((17.0, tests.h3_low), (47.0, tests.h1_low), t)
        };
        let (e, rest_btu_h) = if load <= low.btu_h {
            let x = load / low.btu_h;
            (x * low.w / (1.0 - tests.cd_low * (1.0 - x)), 0.0)
        } else if load < full.btu_h {
            let x = (full.btu_h - load) / (full.btu_h - low.btu_h);
            (x * low.w + (1.0 - x) * full.w, 0.0)
        } else {
            (full.w, load - full.btu_h)
        };
        heat += n * load;
        energy += n * (e + rest_btu_h / resistance_btu_per_wh);
    }
    (energy > 0.0).then_some(heat / energy * tests.defrost_credit)
}
