//! The modes of a chain of cells and its constants between the faces.

use nalgebra::{DMatrix, SymmetricEigen};

use super::cells;
use super::fewer::UNFELT_W_PER_M2K;
use crate::assembly::Slab;

/// Modes this many times faster than the step are taken as settled within it.
const SETTLED: f64 = 60.0;

/// One mode: state v, `v' = keep * v + inside * T_in + outside * T_out`; the wall gives back
/// `step * inside * v'` at the inside face and `step * outside * v'` at the outside face in the
/// next step. It takes from a face by the number by which it gives to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mode {
    /// Share of the state that is left after a step.
    pub keep: f64,
    /// Gain from the inside face; over the step, what is given back to it, W/(m2 s) and state.
    pub inside: f64,
    /// As `inside`, at the outside face.
    pub outside: f64,
    /// Heat stored per unit of state, J/m2 (relative to 0 C).
    pub stored: f64,
}

/// A wall between its two faces, for a fixed step. Heat into the wall, W/m2, at the end of a step:
/// `q_in = g_in T_in + g_cross T_out - step sum(inside v)`, `q_out = g_cross T_in +
/// g_out T_out - step sum(outside v)`, with `v` the states of the step before.
#[derive(Debug, Clone, PartialEq)]
pub struct WallModes {
    /// W/(m2 K).
    pub g_in: f64,
    /// W/(m2 K).
    pub g_out: f64,
    /// W/(m2 K), not positive.
    pub g_cross: f64,
    /// Slow modes, slowest first.
    pub modes: Vec<Mode>,
    /// The step it is made for, s.
    pub step_s: f64,
}

impl WallModes {
    /// Works out the modes of a build-up.
    ///
    /// **Equation** C dT/dt = -K T + b u; with C^-1/2 K C^-1/2 = V L V' and w = V' C^1/2 T each
    /// mode steps by w' = (w + dt b_k u') / (1 + dt l_k).
    ///
    /// **Symbols** C capacities, J/(m2 K); K links, W/(m2 K); u face temperatures, C; l_k rate of
    /// a mode, 1/s; dt step, s.
    ///
    /// **Range** any layers; without capacity the wall is a plain resistance.
    ///
    /// **Source** from-memory: modal form of the backward Euler step; checked in the tests
    /// against solving the cells directly.
    ///
    /// **Example**
    /// ```
    /// use house::{assembly::Slab, wall::WallModes};
    /// let wall = WallModes::new(&[Slab { r_m2k_per_w: 2.0, c_j_per_m2k: 50_000.0 }], 3600.0);
    /// assert!((wall.steady_w_per_m2k() - 0.5).abs() < 1e-9);
    /// ```
    pub fn new(slabs: &[Slab], step_s: f64) -> Self {
        Self::with_all(slabs, step_s).fewer(UNFELT_W_PER_M2K)
    }

    /// With all the modes of its cells.
    pub(super) fn with_all(slabs: &[Slab], step_s: f64) -> Self {
        let cut = cells(slabs, step_s);
        let (c, g) = (&cut.capacity_j_per_m2k, &cut.link_w_per_m2k);
        let n = c.len();
        if n == 0 {
            let u = g[0];
            return Self {
                g_in: u,
                g_out: u,
                g_cross: -u,
                modes: Vec::new(),
                step_s,
            };
        }
        let mut a = DMatrix::<f64>::zeros(n, n);
        for i in 0..n {
            a[(i, i)] = (g[i] + g[i + 1]) / c[i];
            if i + 1 < n {
                let off = -g[i + 1] / (c[i] * c[i + 1]).sqrt();
                a[(i, i + 1)] = off;
                a[(i + 1, i)] = off;
            }
        }
        let eigen = SymmetricEigen::new(a);
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by(|&i, &j| eigen.eigenvalues[i].total_cmp(&eigen.eigenvalues[j]));
        let (mut g_in, mut g_out, mut g_cross) = (g[n], g[0], 0.0);
        let mut modes = Vec::new();
        for k in order {
            let v = eigen.eigenvectors.column(k);
            let rate = eigen.eigenvalues[k];
            let p_out = g[0] * v[0] / c[0].sqrt();
            let p_in = g[n] * v[n - 1] / c[n - 1].sqrt();
            let keep = 1.0 / (1.0 + step_s * rate);
            let settled = step_s * rate > SETTLED;
            // Response within the step: settled modes answer at once and keep nothing.
            let answer = if settled { 1.0 / rate } else { keep * step_s };
            g_in -= p_in * p_in * answer;
            g_out -= p_out * p_out * answer;
            g_cross -= p_in * p_out * answer;
            if !settled {
                let stored: f64 = (0..n).map(|j| c[j].sqrt() * v[j]).sum();
                modes.push(Mode {
                    keep,
                    inside: p_in * keep,
                    outside: p_out * keep,
                    stored: stored * step_s,
                });
            }
        }
        Self {
            g_in,
            g_out,
            g_cross,
            modes,
            step_s,
        }
    }

    /// State of every mode when both faces have stood at these temperatures for ever.
    pub fn settled_states(&self, t_in_c: f64, t_out_c: f64) -> Vec<f64> {
        self.modes
            .iter()
            .map(|m| (m.inside * t_in_c + m.outside * t_out_c) / (1.0 - m.keep))
            .collect()
    }

    /// Transmittance between the faces, W/(m2 K): what is left when nothing changes.
    pub fn steady_w_per_m2k(&self) -> f64 {
        let slow: f64 = self
            .modes
            .iter()
            .map(|m| self.step_s * m.inside * m.outside / (1.0 - m.keep))
            .sum();
        -(self.g_cross - slow)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heavy() -> Vec<Slab> {
        vec![
            Slab {
                r_m2k_per_w: 0.0643,
                c_j_per_m2k: 4293.0,
            },
            Slab {
                r_m2k_per_w: 1.5375,
                c_j_per_m2k: 861.0,
            },
            Slab {
                r_m2k_per_w: 0.1961,
                c_j_per_m2k: 140_000.0,
            },
        ]
    }

    /// Backward Euler on the cells themselves, by elimination, as the reference.
    fn direct(slabs: &[Slab], faces: &[(f64, f64)], step_s: f64) -> Vec<(f64, f64)> {
        let cut = cells(slabs, step_s);
        let (c, g) = (&cut.capacity_j_per_m2k, &cut.link_w_per_m2k);
        let n = c.len();
        let mut t = nalgebra::DVector::<f64>::zeros(n);
        let mut out = Vec::new();
        for (t_in, t_out) in faces {
            let mut a = DMatrix::<f64>::zeros(n, n);
            let mut b = nalgebra::DVector::<f64>::zeros(n);
            for i in 0..n {
                a[(i, i)] = c[i] / step_s + g[i] + g[i + 1];
                b[i] = c[i] / step_s * t[i];
                if i + 1 < n {
                    a[(i, i + 1)] = -g[i + 1];
                    a[(i + 1, i)] = -g[i + 1];
                }
            }
            b[0] += g[0] * t_out;
            b[n - 1] += g[n] * t_in;
            t = a.lu().solve(&b).expect("the chain is regular");
            out.push((g[n] * (t_in - t[n - 1]), g[0] * (t_out - t[0])));
        }
        out
    }

    #[test]
    fn equals_the_cells_stepped_directly() {
        let faces: Vec<(f64, f64)> = (0..200)
            .map(|h| (20.0 + libm::sin(h as f64), 10.0 * libm::cos(h as f64 / 4.0)))
            .collect();
        let wall = WallModes::new(&heavy(), 3600.0);
        let mut w = vec![0.0; wall.modes.len()];
        // Settled modes cost at most 1/60 of their own small part: 0.05 W/m2 of about 20.
        for ((t_in, t_out), (q_in, q_out)) in faces.iter().zip(direct(&heavy(), &faces, 3600.0)) {
            let back = |to: fn(&Mode) -> f64| {
                let all = wall.modes.iter().zip(&w);
                all.map(|(m, w)| 3600.0 * to(m) * w).sum::<f64>()
            };
            let (back_in, back_out) = (back(|m| m.inside), back(|m| m.outside));
            let got_in = wall.g_in * t_in + wall.g_cross * t_out - back_in;
            let got_out = wall.g_out * t_out + wall.g_cross * t_in - back_out;
            assert!((got_in - q_in).abs() < 0.05, "{got_in} against {q_in}");
            assert!((got_out - q_out).abs() < 0.05, "{got_out} against {q_out}");
            for (m, w) in wall.modes.iter().zip(&mut w) {
                *w = m.keep * *w + m.inside * t_in + m.outside * t_out;
            }
        }
    }

    #[test]
    fn steady_is_one_over_the_resistance() {
        let wall = WallModes::new(&heavy(), 3600.0);
        let u = 1.0 / heavy().iter().map(|s| s.r_m2k_per_w).sum::<f64>();
        assert!((wall.steady_w_per_m2k() - u).abs() < 1e-9 * u);
        let states = wall.settled_states(20.0, -10.0);
        let stored: f64 = wall
            .modes
            .iter()
            .zip(&states)
            .map(|(m, w)| m.stored * w)
            .sum();
        // 0.0643 of siding at about -9.5 C, the block near 19 C.
        assert!(stored > 140_000.0 * 17.0 && stored < 140_000.0 * 20.0);
    }
}
