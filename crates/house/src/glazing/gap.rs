//! Heat across panes and the gaps between them.

use physics::film::STEFAN_BOLTZMANN;

use crate::describe::{Gap, Gas, Pane};

/// Conductivity W/(m K), density kg/m3, viscosity Pa s, specific heat J/(kg K) at 10 C.
pub(crate) fn gas_at_10c(of: Gas) -> [f64; 4] {
    gas(of).0
}

/// As [`gas_at_10c`], and the growth of conductivity per K. EN 673 table 1 (from memory).
fn gas(gas: Gas) -> ([f64; 4], f64) {
    match gas {
        Gas::Air => ([0.02496, 1.232, 1.761e-5, 1008.0], 7.2e-5),
        Gas::Argon => ([0.01684, 1.699, 2.164e-5, 519.0], 5.0e-5),
    }
}

/// Conductance from the outer face of the first pane to the inner face of the last.
///
/// **Equation** 1/G = sum d/k + sum 1/(hg + hr); hg = Nu k/s, Nu = max(1, 0.035 (Gr Pr)^0.38);
/// hr = 4 sigma T^3 / (1/e1 + 1/e2 - 1).
///
/// **Symbols** d, k pane thickness m and conductivity W/(m K); s gap m; Gr Grashof number at 15 K;
/// T mean temperature K; e1, e2 emittances facing the gap.
///
/// **Range** upright glazing, gaps 4 to 25 mm.
///
/// **Source** en-673: clauses 5 and 6 (from memory).
///
/// **Example** two clear panes of 4 mm with 12 mm of air: U 2.87 W/(m2 K) with films 0.17 (tested
/// below).
pub fn core_w_per_m2k(panes: &[Pane], gaps: &[Gap], mean_c: f64) -> f64 {
    let mean_k = mean_c + 273.15;
    let mut r: f64 = panes.iter().map(|p| p.thickness_m / p.k_w_per_mk).sum();
    for (i, gap) in gaps.iter().enumerate() {
        if let Some(stated) = gap.stated_r_m2k_per_w {
            r += stated;
            continue;
        }
        let ([k10, density, viscosity, cp], grows) = gas(gap.gas);
        let k = k10 + grows * (mean_c - 10.0);
        let s = gap.width_m;
        let thinner = 283.15 / mean_k;
        let grashof = 9.81 * s * s * s * 15.0 * (density * thinner) * (density * thinner)
            / (mean_k * viscosity * viscosity);
        let prandtl = viscosity * cp / k10;
        let nusselt = (0.035 * libm::pow(grashof * prandtl, 0.38)).max(1.0);
        let faces = match (panes.get(i), panes.get(i + 1)) {
            (Some(a), Some(b)) => 1.0 / a.emittance_in + 1.0 / b.emittance_out - 1.0,
            _ => 1.0 / 0.84 + 1.0 / 0.84 - 1.0,
        };
        let radiant = 4.0 * STEFAN_BOLTZMANN * mean_k * mean_k * mean_k / faces;
        r += 1.0 / (nusselt * k / s + radiant);
    }
    1.0 / r.max(1e-4)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn filled(width_m: f64, gas: Gas) -> Gap {
        Gap {
            width_m,
            gas,
            stated_r_m2k_per_w: None,
        }
    }

    /// EN 673 practice: 4-12-4 clear air glazing has U 2.9, 4-16-4 with argon and emittance 0.05
    /// has U 1.1 to 1.2, with films 0.13 and 0.04 (from memory).
    #[test]
    fn usual_glazings() {
        let clear = Pane {
            thickness_m: 0.004,
            k_w_per_mk: 1.0,
            sun_transmittance: 0.82,
            sun_reflectance_out: 0.075,
            sun_reflectance_in: 0.075,
            emittance_out: 0.837,
            emittance_in: 0.837,
        };
        let u = |core: f64| 1.0 / (1.0 / core + 0.17);
        let double = core_w_per_m2k(&[clear, clear], &[filled(0.012, Gas::Air)], 10.0);
        assert!((u(double) - 2.87).abs() < 0.05, "{}", u(double));
        let low = Pane {
            emittance_out: 0.05,
            ..clear
        };
        let argon = core_w_per_m2k(&[clear, low], &[filled(0.016, Gas::Argon)], 10.0);
        assert!((u(argon) - 1.15).abs() < 0.06, "{}", u(argon));
    }
}
