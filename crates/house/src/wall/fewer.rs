//! A wall with as few modes as will do.
//!
//! Cut fine enough, a wall has a dozen modes and more, but what its faces can feel of them is
//! little: most only tell apart what happens between two hours. Balanced truncation finds the few
//! combinations that are felt.

use nalgebra::{DMatrix, SymmetricEigen};

use super::modes::{Mode, WallModes};

/// The modes left out change no answer of a wall by more than this, W/(m2 K).
pub(super) const UNFELT_W_PER_M2K: f64 = 1e-4;

impl WallModes {
    /// The same wall with fewer modes. Steady heat is the same to rounding, and what goes in less
    /// what comes out is still what is stored.
    ///
    /// **Equation** P_ij = (b_i . b_j) / (1 - a_i a_j) = V S V'; with the columns V_r of the largest
    /// S the wall is A_r = V_r' A V_r = U a_r U', b_r = U' V_r' b. What is left out changes the heat
    /// at the faces by at most 2 dt sum(S left out) for any course of temperatures, and as much
    /// again where the constants between the faces are set so that steady heat is kept.
    ///
    /// **Symbols** a keep of a mode; b its gains from the two faces; dt step, s; S felt size of a
    /// combination of modes
    ///
    /// **Range** any wall: giving by the number by which it takes makes A symmetric and P stand for
    /// both what can be driven and what can be felt
    ///
    /// **Source** from-memory: balanced truncation of a linear system (Moore 1981; bound of Glover
    /// 1984), for a symmetric one; held in the tests against the wall with all its modes
    ///
    /// **Example** a framed wall of 6 modes keeps 4 (tested below).
    #[must_use]
    pub(super) fn fewer(self, unfelt_w_per_m2k: f64) -> Self {
        let n = self.modes.len();
        if n < 2 {
            return self;
        }
        let dt = self.step_s;
        let b = |m: &Mode| [m.inside, m.outside];
        let felt = DMatrix::from_fn(n, n, |i, j| {
            let (m, o) = (&self.modes[i], &self.modes[j]);
            (m.inside * o.inside + m.outside * o.outside) / (1.0 - m.keep * o.keep)
        });
        let sizes = SymmetricEigen::new(felt);
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by(|&i, &j| sizes.eigenvalues[j].total_cmp(&sizes.eigenvalues[i]));
        let mut left_out = 0.0;
        while let [_, .., last] = order[..] {
            left_out += 4.0 * dt * sizes.eigenvalues[last].max(0.0);
            if left_out > unfelt_w_per_m2k {
                break;
            }
            order.pop();
        }
        let r = order.len();
        if r == n {
            return self;
        }
        let v = |k: usize, i: usize| sizes.eigenvectors[(k, order[i])];
        let small = DMatrix::from_fn(r, r, |i, j| {
            let kept = |k: usize| v(k, i) * self.modes[k].keep * v(k, j);
            (0..n).map(kept).sum::<f64>()
        });
        let own = SymmetricEigen::new(small);
        let mut slow: Vec<usize> = (0..r).collect();
        slow.sort_by(|&i, &j| own.eigenvalues[j].total_cmp(&own.eigenvalues[i]));
        let gains: Vec<[f64; 2]> = (0..r)
            .map(|i| {
                let part = |side: usize| (0..n).map(|k| v(k, i) * b(&self.modes[k])[side]).sum();
                [part(0), part(1)]
            })
            .collect();
        let modes: Vec<Mode> = slow
            .into_iter()
            .map(|k| {
                let (mut inside, mut outside) = (0.0, 0.0);
                for (i, [of_inside, of_outside]) in gains.iter().enumerate() {
                    inside += own.eigenvectors[(i, k)] * of_inside;
                    outside += own.eigenvectors[(i, k)] * of_outside;
                }
                let keep = own.eigenvalues[k];
                Mode {
                    keep,
                    inside,
                    outside,
                    // So that every watt that goes in and does not come out is there.
                    stored: dt * dt * (inside + outside) / (1.0 - keep),
                }
            })
            .collect();
        let (was, is) = (steady(&self.modes, dt), steady(&modes, dt));
        Self {
            g_in: self.g_in + is[0] - was[0],
            g_out: self.g_out + is[1] - was[1],
            g_cross: self.g_cross + is[2] - was[2],
            modes,
            step_s: dt,
        }
    }
}

/// What modes give back when nothing changes, inside, outside and across, W/(m2 K).
fn steady(modes: &[Mode], dt: f64) -> [f64; 3] {
    let mut sum = [0.0; 3];
    for m in modes {
        let of = dt / (1.0 - m.keep);
        sum[0] += of * m.inside * m.inside;
        sum[1] += of * m.outside * m.outside;
        sum[2] += of * m.inside * m.outside;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assembly::Slab;

    fn layer(r_m2k_per_w: f64, c_j_per_m2k: f64) -> Slab {
        Slab {
            r_m2k_per_w,
            c_j_per_m2k,
        }
    }

    /// A framed wall, a heavy one, a slab with three metres of soil.
    fn walls() -> [Vec<Slab>; 3] {
        [
            vec![
                layer(0.06, 9_000.0),
                layer(2.1, 6_000.0),
                layer(0.08, 10_000.0),
            ],
            vec![
                layer(0.0643, 4_293.0),
                layer(1.5375, 861.0),
                layer(0.1961, 140_000.0),
            ],
            vec![layer(1.5, 6_000_000.0), layer(0.05, 200_000.0)],
        ]
    }

    /// Heat at the faces and what is stored, for each hour of some faces.
    fn ran(wall: &WallModes, faces: &[[f64; 2]]) -> Vec<[f64; 3]> {
        let mut w = vec![0.0; wall.modes.len()];
        let dt = wall.step_s;
        let mut all = Vec::new();
        for [t_in, t_out] in faces {
            let (mut q_in, mut q_out, mut stored) = (
                wall.g_in * t_in + wall.g_cross * t_out,
                wall.g_cross * t_in + wall.g_out * t_out,
                0.0,
            );
            for (m, w) in wall.modes.iter().zip(&mut w) {
                q_in -= dt * m.inside * *w;
                q_out -= dt * m.outside * *w;
                *w = m.keep * *w + m.inside * t_in + m.outside * t_out;
                stored += m.stored * *w;
            }
            all.push([q_in, q_out, stored]);
        }
        all
    }

    /// Faces that jump, swing and stand: any course must be followed.
    fn faces() -> Vec<[f64; 2]> {
        (0..2000)
            .map(|h| {
                let hour = f64::from(h);
                let night = if h % 24 < 6 { -4.0 } else { 0.0 };
                [
                    21.0 + night + libm::sin(hour * hour),
                    10.0 * libm::cos(hour / 4.0) + 15.0 * libm::sin(hour / 1400.0),
                ]
            })
            .collect()
    }

    /// The bound is per kelvin of the greatest swing; no face here is over 30 C.
    #[test]
    fn gives_the_same_heat_as_all_the_modes() {
        for slabs in walls() {
            let all = WallModes::with_all(&slabs, 3600.0);
            let few = all.clone().fewer(UNFELT_W_PER_M2K);
            assert!(few.modes.len() < all.modes.len() && few.modes.len() > 1);
            assert!(few.modes.iter().all(|m| m.keep > 0.0 && m.keep < 1.0));
            let mut apart: f64 = 0.0;
            for (a, b) in ran(&all, &faces()).iter().zip(&ran(&few, &faces())) {
                apart = apart.max((a[0] - b[0]).abs()).max((a[1] - b[1]).abs());
            }
            assert!(apart < 30.0 * UNFELT_W_PER_M2K, "{apart} W/m2");
        }
    }

    #[test]
    fn steady_heat_is_the_same() {
        for slabs in walls() {
            let all = WallModes::with_all(&slabs, 3600.0);
            let few = all.clone().fewer(UNFELT_W_PER_M2K);
            let (want, got) = (all.steady_w_per_m2k(), few.steady_w_per_m2k());
            assert!((got - want).abs() < 1e-9, "{got} against {want}");
        }
    }

    /// In less out is stored, to rounding, hour by hour.
    #[test]
    fn keeps_what_goes_in() {
        for slabs in walls() {
            let few = WallModes::with_all(&slabs, 3600.0).fewer(UNFELT_W_PER_M2K);
            let ran = ran(&few, &faces());
            for pair in ran.windows(2) {
                let into = (pair[1][0] + pair[1][1]) * few.step_s;
                let rise = pair[1][2] - pair[0][2];
                // J/m2; a joule in 3600 s is 0.0003 W.
                assert!((into - rise).abs() < 0.5, "{into} against {rise}");
            }
        }
    }

    #[test]
    fn as_many_as_are_felt() {
        let [framed, heavy, soil] = walls();
        let counts = [framed, heavy, soil].map(|slabs| {
            let all = WallModes::with_all(&slabs, 3600.0);
            [all.modes.len(), all.fewer(UNFELT_W_PER_M2K).modes.len()]
        });
        assert_eq!(counts, [[6, 4], [9, 6], [14, 12]]);
    }
}
