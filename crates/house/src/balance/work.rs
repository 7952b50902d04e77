//! The arrays an hour is worked out in; kept between steps to spare allocation.

use super::arithmetic::Arithmetic;
use super::eight::{Oct, SIDE};
use super::faces::Hours;
use super::network::Network;

#[derive(Debug, Clone, Default)]
pub(super) struct Work {
    /// The faces.
    pub hours: Hours,
    /// The zones eight by eight.
    pub zones: Vec<ZoneOct>,
    /// Heat through doors beyond the matrix that the last solution asks for, W per zone.
    pub next_doors: Vec<Oct>,
    /// Right-hand side, air first, then stars.
    pub right: Vec<f64>,
    /// The answer without supply, leaks and doors, air and stars; the air with leaks and doors.
    pub free: Vec<Oct>,
    pub free_star: Vec<Oct>,
    pub free_air: Vec<Oct>,
    /// Heat of supply, leaks and doors together, W per zone.
    pub heat: Vec<Oct>,
    /// The solution.
    pub air: Vec<Oct>,
    pub star: Vec<Oct>,
    /// What does not change while a step is iterated, W per zone.
    pub base: Vec<Oct>,
    /// Heat the walls of a zone took in the last step beyond what their faces gave; the air pays
    /// it in the next, so that the ledger closes. W per zone.
    pub owed: Vec<Oct>,
    /// Sun let into each zone, W.
    pub beam: Vec<Oct>,
    pub diffuse: Vec<Oct>,
}

/// Eight zones.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
pub(super) struct ZoneOct {
    /// Capacity of air and contents over the step, W/K.
    pub capacity: Oct,
    /// Share of the sun let in that does not leave through glass again.
    pub keeps_beam: Oct,
    pub keeps_diffuse: Oct,
    /// Shares of stack air and of wind air that enter.
    pub stack_share: Oct,
    pub wind_share: Oct,
    /// Leakage in the matrix, and as it is, W/K.
    pub leak_nominal: Oct,
    pub leak: Oct,
    /// Lagged heat by leakage and through doors, and by leakage as the last solution asks, W.
    pub lag_leak: Oct,
    pub lag_doors: Oct,
    pub next_leak: Oct,
}

impl ZoneOct {
    /// The zones of a network; leakage comes later.
    fn all(n: &Network) -> Vec<Self> {
        let mut all = vec![Self::default(); n.zone_octs()];
        for z in 0..n.zones {
            let (oct, i) = (&mut all[z / SIDE], z % SIDE);
            oct.capacity[i] = n.capacity[z];
            oct.keeps_beam[i] = 1.0 - n.escapes[z][0];
            oct.keeps_diffuse[i] = 1.0 - n.escapes[z][1];
        }
        all
    }
}

impl Work {
    pub fn new(n: &Network, start_c: f64) -> Self {
        let (zones, octs) = (n.zones, n.zone_octs());
        let none = vec![[0.0; SIDE]; octs];
        Self {
            hours: Hours::new(n, start_c),
            zones: ZoneOct::all(n),
            next_doors: none.clone(),
            right: vec![0.0; 2 * zones],
            free: none.clone(),
            free_star: none.clone(),
            free_air: none.clone(),
            heat: none.clone(),
            air: vec![[start_c; SIDE]; octs],
            star: vec![[start_c; SIDE]; octs],
            base: none.clone(),
            owed: none.clone(),
            beam: none.clone(),
            diffuse: none,
        }
    }

    /// Heat into a face since the ledger began, and beyond that into its wall, W h/m2.
    pub fn face_took_wh_per_m2(&self, face: usize) -> (f64, f64) {
        let hour = &self.hours.rest[face / SIDE];
        (hour.into[face % SIDE], hour.beyond[face % SIDE])
    }
}

/// Takes over (or goes by `step` towards) the air through leaks and doors that the solution asks
/// for.
#[inline(always)]
pub(super) fn take_air<S: Arithmetic>(s: S, zones: &mut [ZoneOct], next_doors: &[Oct], step: f64) {
    for (z, to_doors) in zones.iter_mut().zip(next_doors) {
        let (leak, doors) = (s.take(&z.lag_leak), s.take(&z.lag_doors));
        z.lag_leak = (leak + (s.take(&z.next_leak) - leak) * step).put();
        z.lag_doors = (doors + (s.take(to_doors) - doors) * step).put();
    }
}

/// Air that makes the stack, C: that of the zones, by their shares of the leaks.
#[inline(always)]
pub(super) fn inside_c<S: Arithmetic>(s: S, zones: &[ZoneOct], air: &[Oct]) -> f64 {
    let mut all = s.all(0.0);
    for (z, air) in zones.iter().zip(air) {
        all = all + s.take(&z.wind_share) * s.take(air);
    }
    all.sum()
}
