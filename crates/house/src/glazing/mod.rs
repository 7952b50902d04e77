//! Windows: what sun they let in by angle, what they soak up, and how they lose heat.

mod gap;
mod pane;
mod stack;

use crate::describe::{Glazing, GlazingData, Pane};
use stack::Stack;

pub(crate) use gap::gas_at_10c;

/// Steps of the cosine of incidence in the tables: 0, 1/40 .. 1.
const STEPS: usize = 40;

/// Outside film under the rating's winter condition, W/(m2 K): convection 26 and radiation 4.
pub(crate) const RATING_OUT_W_PER_M2K: f64 = 30.0;
/// Inside film under the rating's winter condition, W/(m2 K).
pub(crate) const RATING_IN_W_PER_M2K: f64 = 8.0;
/// Nothing conducts better than this between the faces of a pane, W/(m2 K).
const MOST_CORE_W_PER_M2K: f64 = 300.0;

/// A glazing ready for the hourly balance. All values per area of the whole window, frame
/// included.
#[derive(Debug, Clone, PartialEq)]
pub struct Glass {
    /// Sun let through, by cosine of incidence.
    through: [f64; STEPS + 1],
    /// Sun soaked up that belongs to the outer face.
    outer: [f64; STEPS + 1],
    /// Sun soaked up that belongs to the inner face.
    inner: [f64; STEPS + 1],
    /// The same three for light from all directions.
    pub diffuse: Shares,
    /// Light from the room that falls on the window: share that leaves the house again.
    pub from_room_out: f64,
    /// Light from the room: share soaked up (counted at the inner face).
    pub from_room_soaked: f64,
    /// Conductance between outer and inner face at a mean temperature of 10 C, W/(m2 K).
    pub core_w_per_m2k: f64,
    /// How the conductance grows with mean temperature, W/(m2 K) per K.
    pub core_slope: f64,
}

/// What becomes of sun that falls on a window; the rest is reflected.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shares {
    /// Let through.
    pub through: f64,
    /// Soaked up, counted at the outer face.
    pub outer: f64,
    /// Soaked up, counted at the inner face.
    pub inner: f64,
}

impl Glass {
    /// Works out a glazing from its panes or its label.
    ///
    /// Label values: the angle dependence is that of the stated number of clear 3 mm panes,
    /// scaled so that the label's solar heat gain at normal incidence is met; the resistance
    /// between the faces is what the label's transmittance leaves after the rating's films.
    pub fn new(glazing: &Glazing) -> Self {
        let clear = 1.0 - glazing.frame_share;
        let (stack, core, slope, scale) = match &glazing.made_of {
            GlazingData::Panes { panes, gaps } => {
                let stack = Stack::new(panes);
                let core = gap::core_w_per_m2k(panes, gaps, 10.0);
                let slope = (gap::core_w_per_m2k(panes, gaps, 40.0) - core) / 30.0;
                (stack, core, slope, 1.0)
            }
            GlazingData::Label {
                u_w_per_m2k,
                shgc,
                panes,
            } => {
                let count = (*panes).clamp(1, 4) as usize;
                let stack = Stack::new(&vec![CLEAR_3MM; count]);
                let films = 1.0 / RATING_OUT_W_PER_M2K + 1.0 / RATING_IN_W_PER_M2K;
                let core = 1.0 / (1.0 / u_w_per_m2k - films).max(1.0 / MOST_CORE_W_PER_M2K);
                let base = stack.shares(1.0);
                let inward_outer = (1.0 / RATING_OUT_W_PER_M2K) / (1.0 / u_w_per_m2k);
                let inward_inner = 1.0 - (1.0 / RATING_IN_W_PER_M2K) / (1.0 / u_w_per_m2k);
                let gain = base.through + inward_outer * base.outer + inward_inner * base.inner;
                (stack, core, 0.0, shgc / gain)
            }
        };
        let mut made = Self {
            through: [0.0; STEPS + 1],
            outer: [0.0; STEPS + 1],
            inner: [0.0; STEPS + 1],
            diffuse: Shares::default(),
            from_room_out: 0.0,
            from_room_soaked: 0.0,
            core_w_per_m2k: clear * core + glazing.frame_share * frame_core(glazing),
            core_slope: clear * slope,
        };
        let part = clear * scale;
        for i in 0..=STEPS {
            let s = stack.shares(i as f64 / STEPS as f64);
            made.through[i] = part * s.through;
            made.outer[i] = part * s.outer;
            made.inner[i] = part * s.inner;
        }
        made.diffuse = Shares {
            through: hemisphere(&made.through),
            outer: hemisphere(&made.outer),
            inner: hemisphere(&made.inner),
        };
        let back = stack.reversed();
        let mut out = [0.0; STEPS + 1];
        let mut soaked = [0.0; STEPS + 1];
        for i in 0..=STEPS {
            let s = back.shares(i as f64 / STEPS as f64);
            out[i] = clear * s.through;
            soaked[i] = clear * (s.outer + s.inner);
        }
        made.from_room_out = hemisphere(&out);
        made.from_room_soaked = hemisphere(&soaked);
        made
    }

    /// Shares for a beam with this cosine of incidence (0 to 1).
    #[inline]
    pub fn beam(&self, cosine: f64) -> Shares {
        let x = cosine.clamp(0.0, 1.0) * STEPS as f64;
        let i = (x as usize).min(STEPS - 1);
        let f = x - i as f64;
        let at = |t: &[f64; STEPS + 1]| t[i] + f * (t[i + 1] - t[i]);
        Shares {
            through: at(&self.through),
            outer: at(&self.outer),
            inner: at(&self.inner),
        }
    }

    /// Transmittance under the rating's winter films, W/(m2 K).
    pub fn rated_u_w_per_m2k(&self) -> f64 {
        let core_r = 1.0 / self.core_w_per_m2k;
        1.0 / (core_r + 1.0 / RATING_OUT_W_PER_M2K + 1.0 / RATING_IN_W_PER_M2K)
    }

    /// Solar heat gain coefficient at this cosine of incidence, under the rating's winter films.
    pub fn shgc(&self, cosine: f64) -> f64 {
        let u = self.rated_u_w_per_m2k();
        let s = self.beam(cosine);
        s.through + s.outer * u / RATING_OUT_W_PER_M2K + s.inner * (1.0 - u / RATING_IN_W_PER_M2K)
    }
}

/// Uncoated 3 mm float glass (solar transmittance 0.834, reflectance 0.075: Standard 140-2020).
const CLEAR_3MM: Pane = Pane {
    thickness_m: 0.003048,
    k_w_per_mk: 1.0,
    sun_transmittance: 0.834,
    sun_reflectance_out: 0.075,
    sun_reflectance_in: 0.075,
    emittance_out: 0.84,
    emittance_in: 0.84,
};

fn frame_core(glazing: &Glazing) -> f64 {
    if glazing.frame_share <= 0.0 {
        return 0.0;
    }
    let films = 1.0 / RATING_OUT_W_PER_M2K + 1.0 / RATING_IN_W_PER_M2K;
    1.0 / (1.0 / glazing.frame_u_w_per_m2k - films).max(1.0 / MOST_CORE_W_PER_M2K)
}

/// Mean over the hemisphere of evenly spread light: 2 times the integral of f(mu) mu, exact for
/// the straight pieces of the table.
fn hemisphere(table: &[f64; STEPS + 1]) -> f64 {
    let h = 1.0 / STEPS as f64;
    (0..STEPS)
        .map(|i| {
            let (a, b) = (i as f64 * h, (i + 1) as f64 * h);
            let (fa, fb) = (table[i], table[i + 1]);
            2.0 * h / 3.0 * (fa * a + fb * b + f64::midpoint(fa * b, fb * a))
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::describe::{Gap, Gas};
    use reckon::Known;

    fn glazing(made_of: GlazingData) -> Glazing {
        Glazing {
            name: "test".into(),
            made_of,
            frame_share: 0.0,
            frame_u_w_per_m2k: 0.0,
            known: Known::Seen,
        }
    }

    /// Double pane of the older Standard 140: 3.175 mm, index 1.526, extinction 0.0196 per mm,
    /// with the angle table of its SHGC at 0, 40, 55, 70, 80 degrees (checks/published: 0.787,
    /// 0.767, 0.702, 0.518, 0.266, secondary). Tolerance 0.01: the films behind that table differ
    /// from ours.
    #[test]
    fn older_double_pane_by_angle() {
        let r = libm::pow(0.526 / 2.526, 2.0);
        let t = libm::exp(-0.0196 * 3.175);
        let tau = (1.0 - r) * (1.0 - r) * t / (1.0 - r * r * t * t);
        let rho = r * (1.0 + t * tau);
        let pane = Pane {
            thickness_m: 0.003175,
            k_w_per_mk: 1.06,
            sun_transmittance: tau,
            sun_reflectance_out: rho,
            sun_reflectance_in: rho,
            ..CLEAR_3MM
        };
        let gaps = vec![Gap {
            width_m: 0.013,
            gas: Gas::Air,
            stated_r_m2k_per_w: None,
        }];
        let g = Glass::new(&glazing(GlazingData::Panes {
            panes: vec![pane, pane],
            gaps,
        }));
        for (angle, want) in [
            (0.0, 0.787),
            (40.0, 0.767),
            (55.0, 0.702),
            (70.0, 0.518),
            (80.0, 0.266),
        ] {
            let got = g.shgc(libm::cos(f64::to_radians(angle)));
            assert!(
                (got - want).abs() < 0.01,
                "{angle} degrees: {got} against {want}"
            );
        }
    }

    /// Light from all directions through something that lets everything through is all let
    /// through, and the cosine itself averages to 2/3.
    #[test]
    fn hemisphere_is_exact_for_straight_lines() {
        assert!((hemisphere(&[1.0; STEPS + 1]) - 1.0).abs() < 1e-12);
        let cosine = core::array::from_fn(|i| i as f64 / STEPS as f64);
        assert!((hemisphere(&cosine) - 2.0 / 3.0).abs() < 1e-12);
    }

    /// Double clear glass of Standard 140-2020 (table of its case 600): through 0.703, 0.678,
    /// 0.577, 0.438, 0.208 at 0, 40, 60, 70, 80 degrees, 0.601 from all directions; soaked up
    /// 0.096 and 0.072 at 0, 0.110 and 0.073 from all directions. Tolerance 0.008: that table
    /// keeps each pane's own index of refraction from a spectral file.
    #[test]
    fn double_clear_of_standard_140() {
        let gaps = vec![Gap {
            width_m: 0.012,
            gas: Gas::Air,
            stated_r_m2k_per_w: Some(1.0 / 5.208),
        }];
        let g = Glass::new(&glazing(GlazingData::Panes {
            panes: vec![CLEAR_3MM; 2],
            gaps,
        }));
        for (angle, want) in [
            (0.0, 0.703),
            (40.0, 0.678),
            (60.0, 0.577),
            (70.0, 0.438),
            (80.0, 0.208),
        ] {
            let got = g.beam(libm::cos(f64::to_radians(angle))).through;
            assert!(
                (got - want).abs() < 0.008,
                "{angle} degrees: {got} against {want}"
            );
        }
        let normal = g.beam(1.0);
        assert!((normal.outer - 0.096).abs() < 0.005 && (normal.inner - 0.072).abs() < 0.005);
        let d = g.diffuse;
        assert!((d.through - 0.601).abs() < 0.008, "diffuse {}", d.through);
        assert!(
            (d.outer - 0.110).abs() < 0.008 && (d.inner - 0.073).abs() < 0.008,
            "{d:?}"
        );
    }

    #[test]
    fn label_is_met() {
        for (u, shgc, panes) in [
            (5.9, 0.86, 1),
            (2.8, 0.70, 2),
            (1.7, 0.30, 2),
            (1.0, 0.25, 3),
        ] {
            let g = Glass::new(&glazing(GlazingData::Label {
                u_w_per_m2k: u,
                shgc,
                panes,
            }));
            assert!((g.rated_u_w_per_m2k() - u).abs() < 1e-9 * u, "U {u}");
            assert!(
                (g.shgc(1.0) - shgc).abs() < 1e-9,
                "SHGC {shgc}: {}",
                g.shgc(1.0)
            );
            assert!(g.diffuse.through < g.beam(1.0).through);
            assert!(g.beam(0.0).through < 1e-12);
        }
    }

    #[test]
    fn nothing_is_made_of_light() {
        let gaps = vec![Gap {
            width_m: 0.012,
            gas: Gas::Argon,
            stated_r_m2k_per_w: None,
        }];
        let low = Pane {
            sun_transmittance: 0.6,
            sun_reflectance_out: 0.17,
            sun_reflectance_in: 0.22,
            emittance_out: 0.06,
            ..CLEAR_3MM
        };
        let g = Glass::new(&glazing(GlazingData::Panes {
            panes: vec![CLEAR_3MM, low],
            gaps,
        }));
        for i in 0..=100 {
            let s = g.beam(f64::from(i) / 100.0);
            let sum = s.through + s.outer + s.inner;
            assert!(sum <= 1.0 && s.through >= 0.0 && s.outer >= 0.0 && s.inner >= 0.0);
        }
        assert!(g.from_room_out + g.from_room_soaked < 1.0);
        assert!(
            g.core_w_per_m2k < 2.5,
            "low emittance keeps heat: {}",
            g.core_w_per_m2k
        );
    }
}
