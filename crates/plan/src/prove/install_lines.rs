//! Lines: friction and bends, refrigerants, tube, against the reference libraries and the table.

use physics::pipe::{
    DRAWN_COPPER_ROUGHNESS_M, Wet, bend_loss, friction_factor, gradient_pa_per_m,
    two_phase_gradient_pa_per_m,
};
use physics::refrigerant::{BubbleC, DewC, Refrigerant};
use physics::tube::{Tube, allowable_pressure_pa};

use super::{Check, number, rows};

const FRICTION: &str =
    include_str!("../../../../checks/values/physics_reference_friction_factors.csv");
const DROPS: &str =
    include_str!("../../../../checks/values/physics_reference_line_pressure_drop_single_phase.csv");
const BENDS: &str = include_str!("../../../../checks/values/physics_reference_bend_K.csv");
const TWO_PHASE: &str =
    include_str!("../../../../checks/values/physics_reference_two_phase_pressure_drop.csv");
const SATURATION: [(Refrigerant, &str); 4] = [
    (
        Refrigerant::R410A,
        include_str!("../../../../checks/values/physics_reference_sat_R410A.csv"),
    ),
    (
        Refrigerant::R32,
        include_str!("../../../../checks/values/physics_reference_sat_R32.csv"),
    ),
    (
        Refrigerant::R454B,
        include_str!("../../../../checks/values/physics_reference_sat_R454B.csv"),
    ),
    (
        Refrigerant::R290,
        include_str!("../../../../checks/values/physics_reference_sat_R290.csv"),
    ),
];
const FAR: &str = include_str!("../../../../checks/values/physics_refrigerant_far.csv");
const FLUIDS: &str = "reference library fluids 1.3.1";
const COOLPROP: &str = "reference library CoolProp 8.0.0";
const B280: &str = "ASTM B280, table of coil tube (second hand)";

pub(super) fn checks() -> Vec<Check> {
    let mut all = pipes();
    all.extend(saturation());
    all.push(back());
    all.extend(tubes());
    all
}

fn apart(got: f64, want: f64) -> f64 {
    (got / want - 1.0).abs()
}

/// The worst of many; what cannot be worked out counts as infinitely far.
struct Worst(f64, usize);

impl Worst {
    fn take(&mut self, got: Option<f64>, want: f64) {
        self.0 = self.0.max(got.map_or(f64::INFINITY, |g| apart(g, want)));
        self.1 += 1;
    }
}

fn pipes() -> Vec<Check> {
    let of = "of the value";
    let mut friction = Worst(0.0, 0);
    for r in rows(FRICTION) {
        friction.take(
            friction_factor(number(&r, 0), number(&r, 1)).ok(),
            number(&r, 3),
        );
    }
    let mut drops = Worst(0.0, 0);
    for r in rows(DROPS) {
        let (d, m, rho, mu) = (number(&r, 4), number(&r, 5), number(&r, 6), number(&r, 7));
        let got = gradient_pa_per_m(m, rho, mu, d, DRAWN_COPPER_ROUGHNESS_M);
        // kPa in 10 m
        drops.take(got.ok().map(|g| g / 100.0), number(&r, 11));
    }
    let mut bends = Worst(0.0, 0);
    for r in rows(BENDS) {
        let f = friction_factor(number(&r, 2), DRAWN_COPPER_ROUGHNESS_M / number(&r, 0));
        let turn = std::f64::consts::FRAC_PI_2;
        let got = f.and_then(|f| bend_loss(f, turn, number(&r, 1)));
        bends.take(got.ok(), number(&r, 3));
    }
    let mut wet = Worst(0.0, 0);
    for r in rows(TWO_PHASE) {
        wet.take(two_phase(&r), number(&r, 6));
    }
    vec![
        Check::new("line-friction", "friction factor over the grid", FLUIDS)
            .worst(1e-6, friction.0, friction.1, of),
        Check::new("line-drop", "pressure lost in lines, one phase", FLUIDS)
            .worst(2e-5, drops.0, drops.1, of),
        Check::new("line-bends", "loss of bends", FLUIDS).worst(1e-5, bends.0, bends.1, of),
        Check::new(
            "line-two-phase",
            "pressure lost in lines, boiling (Mueller-Steinhagen and Heck)",
            FLUIDS,
        )
        .worst(2e-4, wet.0, wet.1, of),
    ]
}

fn two_phase(r: &[&str]) -> Option<f64> {
    let name = r.first()?;
    let fluid = Refrigerant::ALL
        .into_iter()
        .find(|f| f.name().replace('-', "") == *name)?;
    let l = fluid.saturated_liquid(BubbleC(number(r, 1))).ok()?;
    let v = fluid.saturated_vapour(DewC(number(r, 1))).ok()?;
    let wet = Wet {
        liquid_kg_per_m3: l.density_kg_per_m3,
        liquid_pa_s: l.viscosity_pa_s,
        vapour_kg_per_m3: v.density_kg_per_m3,
        vapour_pa_s: v.viscosity_pa_s,
    };
    let (d, m, x) = (number(r, 2), number(r, 3), number(r, 4));
    two_phase_gradient_pa_per_m(m, x, wet, d, DRAWN_COPPER_ROUGHNESS_M).ok()
}

fn saturation() -> Vec<Check> {
    let mut all = Vec::new();
    for (fluid, text) in SATURATION {
        let (low, high) = fluid.range_c();
        let mut worst = Worst(0.0, 0);
        for r in rows(text) {
            let t = number(&r, 0);
            if !(low..=high).contains(&t) {
                continue;
            }
            let (l, v) = (
                fluid.saturated_liquid(BubbleC(t)),
                fluid.saturated_vapour(DewC(t)),
            );
            let bubble = fluid.bubble_pressure(BubbleC(t)).ok().map(|p| p.0 / 1e3);
            let dew = fluid.dew_pressure(DewC(t)).ok().map(|p| p.0 / 1e3);
            worst.take(bubble, number(&r, 1));
            worst.take(dew, number(&r, 2));
            worst.take(l.as_ref().ok().map(|l| l.density_kg_per_m3), number(&r, 3));
            worst.take(v.as_ref().ok().map(|v| v.density_kg_per_m3), number(&r, 4));
            worst.take(l.ok().map(|l| l.enthalpy_j_per_kg / 1e3), number(&r, 5));
            worst.take(v.ok().map(|v| v.enthalpy_j_per_kg / 1e3), number(&r, 6));
        }
        let what = format!(
            "{} at saturation: pressure, density, enthalpy",
            fluid.name()
        );
        let id = format!("refrigerant-{}", fluid.name().to_lowercase());
        all.push(Check::new(id, what, COOLPROP).worst(5e-4, worst.0, worst.1, "of the value"));
    }
    all
}

/// Pressure and enthalpy back to temperature, away from saturation.
fn back() -> Check {
    let mut worst = Worst(0.0, 0);
    for r in rows(FAR) {
        let name = r.first().copied().unwrap_or("");
        let fluid = Refrigerant::ALL
            .into_iter()
            .find(|f| f.name().replace('-', "") == name);
        let Some(fluid) = fluid else { continue };
        let state = fluid.state(number(&r, 2), number(&r, 5));
        let kelvin = state.ok().map(|s| s.temperature_c + 273.15);
        worst.take(kelvin, number(&r, 4) + 273.15);
    }
    let what = "temperature from pressure and enthalpy, in kelvins";
    Check::new("refrigerant-state", what, COOLPROP).worst(5e-4, worst.0, worst.1, "of the value")
}

fn tubes() -> Vec<Check> {
    let printed = [0.190, 0.311, 0.436, 0.555, 0.680, 0.666, 0.785];
    let mut worst = 0.0_f64;
    for (tube, want) in Tube::ALL.into_iter().zip(printed) {
        worst = worst.max((tube.inside_m() / 0.0254 - want).abs());
    }
    let held = Check::new(
        "tube-pressure",
        "3/4 by 0.035 in annealed: pressure it may have",
        "tube trade's formula, 6,000 psi (from memory)",
    );
    vec![
        Check::new("tube-inside", "inside of coil tube, 1/4 to 7/8 in", B280).worst(
            5e-4,
            worst,
            printed.len(),
            "in",
        ),
        match allowable_pressure_pa(0.75 * 0.0254, 0.035 * 0.0254) {
            Ok(pa) => held.near(582.0, 0.5, pa / 6_894.757_293, 0, "psi"),
            Err(why) => held.cannot_tell("582 psi", why.to_string()),
        },
    ]
}
