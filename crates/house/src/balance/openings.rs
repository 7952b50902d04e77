//! Air between rooms.

use physics::opening::{doorway_at_1_k_m3_per_s, stairwell_at_1_k_m3_per_s};

use super::arithmetic::Arithmetic;
use super::eight::{Oct, SIDE, clear};
use crate::describe::Stands;
use crate::model::{Model, Opening};

/// Gap of a door that stands ajar, m (a hand's width; common practice, no source).
pub(crate) const AJAR_M: f64 = 0.10;
/// Air each way through a shut door without any gap, m3/s (5 cfm; trade card F11: 5 to 15 cfm).
pub(crate) const SHUT_M3_PER_S: f64 = 5.0 * 0.3048 * 0.3048 * 0.3048 / 60.0;
/// More through an undercut: 0.75 in carries about 40 cfm with a grille, 15 without (trade card
/// F11), taken as 10 cfm, m3/s, for half an inch, m, and in proportion.
pub(crate) const UNDERCUT_M3_PER_S: f64 = 10.0 * 0.3048 * 0.3048 * 0.3048 / 60.0;
pub(crate) const UNDERCUT_M: f64 = 0.0127;
/// Transmittance of a hollow inner door leaf, films included, W/(m2 K) (from memory). The leaf's
/// area is taken off the partition.
pub(crate) const LEAF_W_PER_M2K: f64 = 2.0;
/// Temperature difference the constant conductance is made for, K.
const USUAL_K: f64 = 2.0;
/// Rooms whose middles lie further apart in height than this, m, are joined by a stair.
const STAIR_M: f64 = 1.2;
/// Share of the air of a stair that people and drafts exchange where it is warm above cold.
pub(crate) const WARM_ABOVE: f64 = 0.1;
/// Mean temperature of the air that passes, K.
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
                SHUT_M3_PER_S + UNDERCUT_M3_PER_S / UNDERCUT_M * o.undercut_m + o.transfer_m3_per_s
            }
            _ => 0.0,
        };
        let rise = Self::rise_m(o, model);
        let upright = rise.is_none();
        let (from_a, from_b) = if let Some(rise) = rise {
            // Stairs: warm air below rises and cold air falls through the same hole; warm air
            // above cold stays where it is, and only a tenth is exchanged by people and drafts.
            let k = air_j_per_m3k * stairwell_at_1_k_m3_per_s(width * o.height_m, MEAN_K);
            if rise > 0.0 {
                (k, WARM_ABOVE * k)
            } else {
                (WARM_ABOVE * k, k)
            }
        } else {
            let k = air_j_per_m3k * doorway_at_1_k_m3_per_s(width, o.height_m, MEAN_K);
            (k, k)
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

    /// How far the second room of a stair lies over the first, m; none where a door joins rooms
    /// beside each other.
    pub(crate) fn rise_m(o: &Opening, model: &Model) -> Option<f64> {
        let [a, b] = o.zones;
        let rise = model.zones[b].middle_m - model.zones[a].middle_m;
        (rise.abs() >= STAIR_M).then_some(rise)
    }

    /// Sets the constant conductance for a usual difference, given as the root of kelvins.
    pub fn tune(&mut self, root_k: f64) {
        let k = self.buoyant_a_w.max(self.buoyant_b_w);
        self.constant_w_per_k = self.steady_w_per_k + 1.5 * k * root_k.max(0.4);
    }

    /// Heat from a to b for every kelvin that a is warmer, W/K.
    pub fn w_per_k(&self, a_c: f64, b_c: f64) -> f64 {
        let dt = a_c - b_c;
        let k = if dt > 0.0 {
            self.buoyant_a_w
        } else {
            self.buoyant_b_w
        };
        self.steady_w_per_k + k * dt.abs().sqrt()
    }

    /// Heat from a to b, W.
    pub fn heat_w(&self, a_c: f64, b_c: f64) -> f64 {
        self.w_per_k(a_c, b_c) * (a_c - b_c)
    }
}

/// Eight passages as the hourly passes take them. What is left over has no conductance.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
pub(super) struct PassageOct {
    steady: Oct,
    buoyant_a: Oct,
    buoyant_b: Oct,
    constant: Oct,
    a: [u32; SIDE],
    b: [u32; SIDE],
}

/// Lays passages out eight by eight.
pub(super) fn lay_out(passages: &[Passage]) -> Vec<PassageOct> {
    let some = passages.chunks(SIDE).map(|some| {
        let mut oct = PassageOct::default();
        for (i, p) in some.iter().enumerate() {
            oct.steady[i] = p.steady_w_per_k;
            oct.buoyant_a[i] = p.buoyant_a_w;
            oct.buoyant_b[i] = p.buoyant_b_w;
            oct.constant[i] = p.constant_w_per_k;
            [oct.a[i], oct.b[i]] = p.zones.map(|z| z as u32);
        }
        oct
    });
    some.collect()
}

/// Heat through all passages beyond their constant conductances, W into each zone.
#[inline(always)]
pub(super) fn beyond_constant_w<S: Arithmetic>(
    s: S,
    passages: &[PassageOct],
    air_c: &[f64],
    into: &mut [Oct],
) {
    clear(into);
    let into = into.as_flattened_mut();
    let none = s.all(0.0);
    for p in passages {
        let (mut a, mut b) = ([0.0; SIDE], [0.0; SIDE]);
        for i in 0..SIDE {
            (a[i], b[i]) = (air_c[p.a[i] as usize], air_c[p.b[i] as usize]);
        }
        let apart = s.take(&a) - s.take(&b);
        let buoyant = none.below(apart, s.take(&p.buoyant_a), s.take(&p.buoyant_b));
        let whole = s.take(&p.steady) + buoyant * apart.abs().root();
        let heat = ((whole - s.take(&p.constant)) * apart).put();
        for i in 0..SIDE {
            into[p.a[i] as usize] -= heat[i];
            into[p.b[i] as usize] += heat[i];
        }
    }
}
