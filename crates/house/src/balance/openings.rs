//! Air between rooms.

use crate::describe::Stands;
use crate::model::{Model, Opening};

/// Gap of a door that stands ajar, m (a hand's width; common practice, no source).
const AJAR_M: f64 = 0.10;
/// Air each way through a shut door without any gap, m3/s (5 cfm; trade card F11: 5 to 15 cfm).
const SHUT_M3_PER_S: f64 = 5.0 * 0.3048 * 0.3048 * 0.3048 / 60.0;
/// More for each metre of undercut height: 0.75 in carries about 40 cfm with a grille, 15 without
/// (trade card F11), taken as 10 cfm for 0.5 in.
const UNDERCUT_M3_PER_S_PER_M: f64 = 10.0 * 0.3048 * 0.3048 * 0.3048 / 60.0 / 0.0127;
/// Transmittance of a hollow inner door leaf, films included, W/(m2 K) (from memory). The leaf's
/// area is taken off the partition.
const LEAF_W_PER_M2K: f64 = 2.0;
/// Temperature difference the constant conductance is made for, K.
const USUAL_K: f64 = 2.0;
/// Discharge coefficient of a doorway (trade card F11).
const DISCHARGE: f64 = 0.65;
const GRAVITY: f64 = 9.80665;
const MEAN_K: f64 = 293.15;

/// A door or stair as the balance uses it: heat from zone a to zone b,
/// `steady (Ta - Tb) + buoyant |Ta - Tb|^1.5 sign`.
#[derive(Debug, Clone, PartialEq)]
pub struct Passage {
    /// The zones a and b.
    pub zones: [usize; 2],
    /// W/K whatever the temperatures.
    pub steady_w_per_k: f64,
    /// W/K^1.5 when a is warmer.
    pub buoyant_a_w: f64,
    /// W/K^1.5 when b is warmer.
    pub buoyant_b_w: f64,
    /// Constant conductance in the matrix, W/K.
    pub constant_w_per_k: f64,
}

impl Passage {
    /// A passage from an opening as it stands.
    pub fn new(o: &Opening, stands: Stands, model: &Model, air_j_per_m3k: f64) -> Self {
        let width = match stands {
            Stands::Open => o.width_m,
            Stands::Ajar => AJAR_M.min(o.width_m),
            Stands::Closed => 0.0,
        };
        let shut = match stands {
            Stands::Closed => {
                SHUT_M3_PER_S + UNDERCUT_M3_PER_S_PER_M * o.undercut_m + o.transfer_m3_per_s
            }
            _ => 0.0,
        };
        let [a, b] = o.zones;
        let rise = model.zones[b].middle_m - model.zones[a].middle_m;
        let upright = rise.abs() < 1.2;
        let (from_a, from_b) = if upright {
            let k = air_j_per_m3k * doorway_m3_per_s(width, o.height_m);
            (k, k)
        } else {
            // Stairs: warm air below rises and cold air falls through the same hole; warm air
            // above cold stays where it is, and only a tenth is exchanged by people and drafts.
            let k = air_j_per_m3k * stairwell_m3_per_s(width * o.height_m);
            if rise > 0.0 {
                (k, 0.1 * k)
            } else {
                (0.1 * k, k)
            }
        };
        let leaf = match stands {
            Stands::Closed if upright => LEAF_W_PER_M2K * o.width_m * o.height_m,
            _ => 0.0,
        };
        let steady = air_j_per_m3k * shut + leaf;
        let slope = 1.5 * from_a.max(from_b) * USUAL_K.sqrt();
        Self {
            zones: o.zones,
            steady_w_per_k: steady,
            buoyant_a_w: from_a,
            buoyant_b_w: from_b,
            constant_w_per_k: steady + slope,
        }
    }

    /// Sets the constant conductance for a usual difference, given as the root of kelvins.
    pub fn tune(&mut self, root_k: f64) {
        let k = self.buoyant_a_w.max(self.buoyant_b_w);
        self.constant_w_per_k = self.steady_w_per_k + 1.5 * k * root_k.max(0.4);
    }

    /// Heat from a to b beyond what the constant conductance gives, W.
    #[inline]
    pub fn beyond_constant_w(&self, a_c: f64, b_c: f64) -> f64 {
        self.heat_w(a_c, b_c) - self.constant_w_per_k * (a_c - b_c)
    }

    /// Heat from a to b, W.
    #[inline]
    pub fn heat_w(&self, a_c: f64, b_c: f64) -> f64 {
        let dt = a_c - b_c;
        let k = if dt > 0.0 {
            self.buoyant_a_w
        } else {
            self.buoyant_b_w
        };
        (self.steady_w_per_k + k * dt.abs().sqrt()) * dt
    }
}

/// Air each way through a doorway at 1 K.
///
/// **Equation** Q = (C W / 3) sqrt(g H^3 dT / T)
///
/// **Symbols** C discharge 0.65; W width, m; H height, m; dT 1 K; T 293.15 K; Q m3/s each way
///
/// **Range** upright openings
///
/// **Source** brown-solvason-1962 (trade card F11)
///
/// **Example**
/// ```
/// // A 30 in by 80 in door at 1 K: 184 cfm each way.
/// let q = house::balance::doorway_m3_per_s(0.762, 2.032);
/// assert!((q * 2118.88 - 184.0).abs() < 3.0);
/// ```
pub fn doorway_m3_per_s(width_m: f64, height_m: f64) -> f64 {
    DISCHARGE * width_m / 3.0 * (GRAVITY * height_m * height_m * height_m / MEAN_K).sqrt()
}

/// Air each way through a hole in a floor at 1 K, warm below.
///
/// **Equation** Q = 0.055 sqrt(g dT / T) D^2.5, D = sqrt(4 A / pi)
///
/// **Symbols** A area, m2; D equivalent diameter, m
///
/// **Range** short openings
///
/// **Source** epstein-1988 (from memory)
///
/// **Example**
/// ```
/// // A hole of 2 m2 with 1 K between the floors passes about a tenth of a cubic metre a second.
/// let q = house::balance::stairwell_m3_per_s(2.0);
/// assert!(0.02 < q && q < 0.04);
/// ```
pub fn stairwell_m3_per_s(area_m2: f64) -> f64 {
    let d = (4.0 * area_m2 / core::f64::consts::PI).sqrt();
    0.055 * (GRAVITY / MEAN_K).sqrt() * d * d * d.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Trade card F11: 184 cfm at 1 K and 319 at 3 K, carrying 360 and 1,860 Btu/h, for an open
    /// door. Size not stated there; a 30 in by 80 in door gives it.
    #[test]
    fn open_door_of_the_card() {
        let cfm = 0.3048 * 0.3048 * 0.3048 / 60.0;
        let q = doorway_m3_per_s(0.762, 2.032);
        assert!((q / cfm - 184.0).abs() < 3.0, "{} cfm", q / cfm);
        assert!((q * 3.0_f64.sqrt() / cfm - 319.0).abs() < 5.0);
    }
}
