//! What is added up over the accepted steps.

use super::Balance;
use super::quad::{Quad, SIDE, copy, each, sum};
use super::solve::Accepting;

/// What is added up for four zones, in watt hours.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ZoneSums {
    /// What the walls took beyond what their faces gave and the air has paid since.
    pub paid_wh: Quad,
    /// Heat by the supply.
    pub supply_wh: Quad,
    /// Heat by gains, air and radiant.
    pub gains_wh: Quad,
    /// Sun let in and kept there (what leaves through glass again is taken off).
    pub sun_wh: Quad,
    /// Heat by outdoor air (leakage, fans, fixed), usually below zero.
    pub outdoor_air_wh: Quad,
    /// Heat by air through doors from other zones, beyond the matrix.
    pub doors_wh: Quad,
}

/// Sums over the accepted steps. What goes into each face is kept with the faces.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sums {
    /// Hours added.
    pub hours: f64,
    /// By four zones.
    pub zones: Vec<ZoneSums>,
    /// Stored when the sums began, J per zone's air and house's walls together.
    pub stored_at_start_j: f64,
    /// Air of each zone when the sums began, C.
    pub air_at_start_c: Vec<f64>,
}

impl Sums {
    /// All zero.
    pub fn new(zones: usize) -> Self {
        Self {
            hours: 0.0,
            zones: vec![ZoneSums::default(); zones.div_ceil(SIDE)],
            stored_at_start_j: 0.0,
            air_at_start_c: vec![0.0; zones],
        }
    }
}

impl Balance<'_> {
    /// Takes the solved step as it stands and moves on.
    pub fn accept(&mut self, h: usize) {
        let processor = self.processor;
        processor.dispatch(Accepting {
            balance: self,
            step: h,
        });
    }

    #[inline(always)]
    pub(super) fn accept_here(&mut self, h: usize) {
        let (n, w, s) = (&mut self.network, &mut self.work, &mut self.sums);
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let outdoor = self.drive.outdoor_c[h];
        let dt = 1.0 / self.drive.per_hour as f64;
        for (s, owed) in s.zones.iter_mut().zip(&w.owed) {
            let paid = s.paid_wh;
            s.paid_wh = each(|i| paid[i] + dt * owed[i]);
        }
        w.hours.close(n, dt, &w.air, &w.star, &mut w.owed);
        self.outside.step(&mut n.outer_bank, &w.hours, dt);
        n.step_partitions(&w.hours);
        let gains = self.gains_air[of_day]
            .iter()
            .zip(&self.gains_radiant[of_day]);
        let sun = w.beam.iter().zip(&w.diffuse);
        let (air, heat) = self.thermostats.quads();
        let heat = heat
            .iter()
            .zip(air)
            .zip(&self.outdoor[self.of_hour[of_day]]);
        let zones = s.zones.iter_mut().zip(&w.zones);
        for ((((s, z), (air_w, radiant_w)), (beam, diffuse)), ((heat, air), to_out)) in
            zones.zip(gains).zip(sun).zip(heat)
        {
            let (was, z) = (*s, *z);
            s.supply_wh = each(|i| was.supply_wh[i] + dt * heat[i]);
            s.gains_wh = each(|i| was.gains_wh[i] + dt * (air_w[i] + radiant_w[i]));
            let sun = each(|i| beam[i] * z.keeps_beam[i] + diffuse[i] * z.keeps_diffuse[i]);
            s.sun_wh = each(|i| was.sun_wh[i] + dt * sun[i]);
            let out = each(|i| to_out[i] * (outdoor - air[i]) + z.lag_leak[i]);
            s.outdoor_air_wh = each(|i| was.outdoor_air_wh[i] + dt * out[i]);
            s.doors_wh = each(|i| was.doors_wh[i] + dt * z.lag_doors[i]);
        }
        let air = w.air.as_flattened();
        for p in &self.passages {
            let [a, b] = p.zones;
            let heat = dt * p.constant_w_per_k * (air[a] - air[b]);
            s.zones[a / SIDE].doors_wh[a % SIDE] -= heat;
            s.zones[b / SIDE].doors_wh[b % SIDE] += heat;
        }
        s.hours += dt;
        copy(&mut self.air_then, &w.air);
        w.take_air(1.0);
        self.watch();
    }

    /// By how much the ledger of the whole house fails to close since [`Balance::begin_sums`]: heat
    /// in minus heat out minus stored, J; and the heat that went through, J.
    pub fn closure_j(&self) -> (f64, f64) {
        let (n, s) = (&self.network, &self.sums);
        let outside: f64 = n
            .outer
            .iter()
            .zip(self.outside.taken_wh_per_m2())
            .map(|(w, q)| q * n.area[w.face])
            .sum();
        // A window takes from the room what it does not give back as sun.
        let windows: f64 = n
            .windows
            .iter()
            .map(|w| {
                let (into, beyond) = self.work.face_took_wh_per_m2(w.face);
                -(into + beyond) * n.area[w.face]
            })
            .sum();
        let sum = |of: fn(&ZoneSums) -> Quad| s.zones.iter().map(|z| sum(of(z))).sum::<f64>();
        let (gains, sun) = (sum(|z| z.gains_wh), sum(|z| z.sun_wh));
        // What the air pays goes to the walls: no heat in or out.
        let into = sum(|z| z.supply_wh) + gains + sun + sum(|z| z.outdoor_air_wh);
        let stored = self.stored_j() - s.stored_at_start_j;
        let through = sum(|z| z.supply_wh.map(f64::abs))
            + gains
            + sun
            + sum(|z| z.outdoor_air_wh.map(f64::abs));
        (
            (into + outside + windows) * 3600.0 - stored,
            through * 3600.0,
        )
    }

    /// The same for one zone: what its air and faces take in less what its air stores.
    pub fn zone_closure_j(&self, zone: usize) -> (f64, f64) {
        let (n, s) = (&self.network, &self.sums);
        let faces = n.first[zone]..n.first[zone + 1];
        let into_faces: f64 = faces
            .map(|f| self.work.face_took_wh_per_m2(f).0 * n.area[f])
            .sum();
        let (z, i) = (&s.zones[zone / SIDE], zone % SIDE);
        let parts = [
            z.supply_wh[i],
            z.gains_wh[i],
            z.sun_wh[i],
            z.outdoor_air_wh[i],
            z.doors_wh[i],
            -z.paid_wh[i],
            -into_faces,
        ];
        let rise = self.air_c()[zone] - s.air_at_start_c[zone];
        let stored = n.capacity[zone] * self.drive.step_s() * rise;
        let through: f64 = parts.iter().map(|q| q.abs()).sum();
        (
            parts.iter().sum::<f64>() * 3600.0 - stored,
            through * 3600.0,
        )
    }
}
