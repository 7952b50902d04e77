//! The arrays an hour is worked out in; kept between steps to spare allocation.

use super::four::Hours;
use super::network::Network;
use super::quad::{Quad, SIDE, each};

#[derive(Debug, Clone, Default)]
pub(super) struct Work {
    /// The faces.
    pub hours: Hours,
    /// The zones four by four.
    pub zones: Vec<ZoneQuad>,
    /// Heat through doors beyond the matrix that the last solution asks for, W per zone.
    pub next_doors: Vec<Quad>,
    /// Right-hand side, air first, then stars.
    pub right: Vec<f64>,
    /// The answer without supply, leaks and doors, air first; its air with leaks and doors.
    pub free: Vec<Quad>,
    pub free_air: Vec<Quad>,
    /// Heat of supply, leaks and doors together, W per zone.
    pub heat: Vec<Quad>,
    /// The solution.
    pub air: Vec<Quad>,
    pub star: Vec<Quad>,
    /// What does not change while a step is iterated, W per zone.
    pub base: Vec<Quad>,
    /// Heat the walls of a zone took in the last step beyond what their faces gave; the air pays
    /// it in the next, so that the ledger closes. W per zone.
    pub owed: Vec<Quad>,
    /// Sun let into each zone, W.
    pub beam: Vec<Quad>,
    pub diffuse: Vec<Quad>,
}

/// Four zones.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct ZoneQuad {
    /// Capacity of air and contents over the step, W/K.
    pub capacity: Quad,
    /// Share of the sun let in that does not leave through glass again.
    pub keeps_beam: Quad,
    pub keeps_diffuse: Quad,
    /// Shares of stack air and of wind air that enter.
    pub stack_share: Quad,
    pub wind_share: Quad,
    /// Leakage in the matrix, and as it is, W/K.
    pub leak_nominal: Quad,
    pub leak: Quad,
    /// Lagged heat by leakage and through doors, and by leakage as the last solution asks, W.
    pub lag_leak: Quad,
    pub lag_doors: Quad,
    pub next_leak: Quad,
}

impl ZoneQuad {
    /// The zones of a network; leakage comes later.
    fn all(n: &Network) -> Vec<Self> {
        let mut all = vec![Self::default(); n.zone_quads()];
        for z in 0..n.zones {
            let (quad, i) = (&mut all[z / SIDE], z % SIDE);
            quad.capacity[i] = n.capacity[z];
            quad.keeps_beam[i] = 1.0 - n.escapes[z][0];
            quad.keeps_diffuse[i] = 1.0 - n.escapes[z][1];
        }
        all
    }
}

impl Work {
    pub fn new(n: &Network, start_c: f64) -> Self {
        let (zones, quads) = (n.zones, n.zone_quads());
        let none = vec![[0.0; SIDE]; quads];
        Self {
            hours: Hours::new(n, start_c),
            zones: ZoneQuad::all(n),
            next_doors: none.clone(),
            right: vec![0.0; 2 * zones],
            free: vec![[0.0; SIDE]; 2 * quads],
            free_air: none.clone(),
            heat: none.clone(),
            air: vec![[start_c; SIDE]; quads],
            star: vec![[start_c; SIDE]; quads],
            base: none.clone(),
            owed: none.clone(),
            beam: none.clone(),
            diffuse: none,
        }
    }

    /// Takes over (or goes by `step` towards) the air through leaks and doors that the solution
    /// asks for.
    #[inline(always)]
    pub fn take_air(&mut self, step: f64) {
        for (z, to_doors) in self.zones.iter_mut().zip(&self.next_doors) {
            let (leak, doors, to_leak) = (z.lag_leak, z.lag_doors, z.next_leak);
            z.lag_leak = each(|i| leak[i] + step * (to_leak[i] - leak[i]));
            z.lag_doors = each(|i| doors[i] + step * (to_doors[i] - doors[i]));
        }
    }

    /// Heat into a face since the ledger began, and beyond that into its wall, W h/m2.
    pub fn face_took_wh_per_m2(&self, face: usize) -> (f64, f64) {
        let hour = &self.hours.rest[face / SIDE];
        (hour.into[face % SIDE], hour.beyond[face % SIDE])
    }
}
