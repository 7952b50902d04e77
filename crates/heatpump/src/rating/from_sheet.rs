//! The seasonal ratings a system would have by its own sheet, to hold against the printed ones.

use crate::cannot_tell::CannotTell;
use crate::capability::{Capability, Conditions, Duty, Ready};
use crate::performance::Performance;
use crate::sheet::Running;
use crate::system::System;
use serde::Serialize;

use super::bins::{Climate, region};
use super::en14825::{EN_AVERAGE, OffHours, RatedPoint, scop};
use super::two_stage::{RESISTANCE_3412, Stage};
use super::variable_speed::{VariableCooling, VariableHeating, variable_hspf2, variable_seer2};

/// Watts in one Btu/h.
const W_PER_BTU_H: f64 = 0.293_071_070_172_222;

/// Ratings computed from the test points. `None`: the points do not reach the temperatures of the
/// procedure, or do not have its order of speeds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SheetRatings {
    /// HSPF2, region IV, Btu/Wh.
    pub hspf2: Option<f64>,
    /// SEER2, Btu/Wh.
    pub seer2: Option<f64>,
    /// SCOP, average climate, design load the most at -10 C.
    pub scop: Option<f64>,
}

fn f(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

fn stage(run: Running) -> Stage {
    Stage {
        btu_h: run.capacity_w / W_PER_BTU_H,
        w: run.electric_w,
    }
}

/// Ratings of a system from its own test points, by the variable-speed American procedure and
/// EN 14825. Low speed is the minimum, intermediate the rated state at that temperature, full the
/// maximum in heating and the rated state in cooling; a temperature the sheet lacks is taken from
/// its curve. A plausibility check of a sheet, not a certified rating.
///
/// # Errors
/// The sheet has no curve at all: see [`CannotTell`].
pub fn sheet_ratings(system: &System) -> Result<SheetRatings, CannotTell> {
    let warm = Conditions::at_sea_level(f(70.0));
    let heating = Ready::new(system, Duty::Heating, warm)?;
    let cooling = Ready::new(system, Duty::Cooling, Conditions::at_sea_level(f(80.0))).ok();
    let cool = |t: f64| cooling.as_ref().and_then(|c| c.at(f(t)).ok());
    let nominal = cool(95.0).map(|c| stage(c.middle));
    let heat = |t: f64| heating.at(f(t)).ok();
    Ok(SheetRatings {
        hspf2: nominal.and_then(|n| hspf2(heat, n, heating.span_c().0 * 1.8 + 32.0)),
        seer2: seer2(cool),
        scop: seasonal(system, &heating, warm),
    })
}

fn hspf2(at: impl Fn(f64) -> Option<Capability>, nominal: Stage, coldest_f: f64) -> Option<f64> {
    let (h62, h47, h35, h17) = (at(62.0)?, at(47.0)?, at(35.0)?, at(17.0)?);
    let tests = VariableHeating {
        h0_low: stage(h62.min),
        h1_low: stage(h47.min),
        h1_full: stage(h47.max),
        h2_middle: stage(h35.middle),
        h2_full: Some(stage(h35.max)),
        h3_full: stage(h17.max),
        h4_full: at(5.0).map(|c| stage(c.max)),
        cooling_btu_h: nominal.btu_h,
        cd_low: h47.cd,
        defrost_credit: 1.0,
        cut_out_f: coldest_f,
    };
    variable_hspf2(&tests, &region(Climate::Iv), RESISTANCE_3412)
}

fn seer2(at: impl Fn(f64) -> Option<Capability>) -> Option<f64> {
    let (c95, c87, c82, c67) = (at(95.0)?, at(87.0)?, at(82.0)?, at(67.0)?);
    // Half way between least and rated: the procedure tests an intermediate speed of its own.
    let half = Running {
        capacity_w: 0.5 * (c87.min.capacity_w + c87.middle.capacity_w),
        electric_w: crate::part_load::modulating_w(
            0.5 * (c87.min.capacity_w + c87.middle.capacity_w),
            [c87.min, c87.middle, c87.max].map(|r| (r.capacity_w, r.electric_w)),
        ),
    };
    let tests = VariableCooling {
        a_full: stage(c95.middle),
        b_full: stage(c82.middle),
        e_middle: stage(half),
        b_low: stage(c82.min),
        f_low: stage(c67.min),
        cd_low: c95.cd,
    };
    variable_seer2(&tests)
}

fn seasonal(system: &System, heating: &Ready<'_>, warm: Conditions) -> Option<f64> {
    let design_w = heating.at(-10.0).ok()?.max.capacity_w;
    let performance = Performance::new(system, Duty::Heating, warm).ok()?;
    let mut points = Vec::with_capacity(5);
    for outdoor_c in [-10.0, -7.0, 2.0, 7.0, 12.0] {
        let c = heating.at(outdoor_c).ok()?;
        let need_w = design_w * (outdoor_c - 16.0) / (EN_AVERAGE.design_c - 16.0);
        // The unit turns down to the load where it can; the cycling below is the standard's.
        let capacity_w = need_w.max(c.min.capacity_w).min(c.max.capacity_w);
        let run = performance.operate(outdoor_c, capacity_w);
        points.push(RatedPoint {
            outdoor_c,
            capacity_w,
            cop: capacity_w / run.electric_w,
        });
    }
    let idle_w = system.outdoor.sheet.plate.standby_w.unwrap_or(0.0);
    let off = OffHours {
        thermostat_off: (179.0, idle_w),
        ..OffHours::default()
    };
    scop(
        &EN_AVERAGE,
        design_w,
        &points,
        heating.at(7.0).ok()?.cd,
        off,
    )
    .map(|r| r.scop)
}
