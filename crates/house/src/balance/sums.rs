//! What is added up over the accepted steps.

use super::Balance;
use super::arithmetic::{Arithmetic, run};
use super::eight::{Oct, SIDE, copy, sum};
use super::solve::Accepting;
use super::work::take_air;

/// What is added up for eight zones, in watt hours.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
#[repr(C, align(64))]
pub struct ZoneSums {
    /// What the walls took beyond what their faces gave and the air has paid since.
    pub paid_wh: Oct,
    /// Heat by the supply.
    pub supply_wh: Oct,
    /// Heat by gains, air and radiant.
    pub gains_wh: Oct,
    /// Sun let in and kept there (what leaves through glass again is taken off).
    pub sun_wh: Oct,
    /// Heat by outdoor air (leakage, fans, fixed), usually below zero.
    pub outdoor_air_wh: Oct,
    /// Heat by air through doors from other zones, beyond the matrix.
    pub doors_wh: Oct,
}

/// Sums over the accepted steps. What goes into each face is kept with the faces.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sums {
    /// Hours added.
    pub hours: f64,
    /// By eight zones.
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
        let task = Accepting {
            balance: self,
            step: h,
        };
        run(task.balance.processor, task);
    }

    #[inline(always)]
    pub(super) fn accept_here<S: Arithmetic>(&mut self, s: S, h: usize) {
        let (n, w, sums) = (&mut self.network, &mut self.work, &mut self.sums);
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let outdoor = s.all(self.drive.outdoor_c[h]);
        let dt = 1.0 / self.drive.per_hour as f64;
        for (sums, owed) in sums.zones.iter_mut().zip(&w.owed) {
            sums.paid_wh = (s.take(&sums.paid_wh) + s.take(owed) * dt).put();
        }
        w.hours.close(s, n, dt, &w.air, &w.star, &mut w.owed);
        self.outside.step(s, &mut n.outer_bank, &w.hours, dt);
        n.step_partitions(s, &w.hours);
        let gains = self.gains_air[of_day]
            .iter()
            .zip(&self.gains_radiant[of_day]);
        let sun = w.beam.iter().zip(&w.diffuse);
        let (air, heat) = self.thermostats.octs();
        let heat = heat
            .iter()
            .zip(air)
            .zip(&self.outdoor[self.of_hour[of_day]]);
        let zones = sums.zones.iter_mut().zip(&w.zones);
        for ((((sums, z), (air_w, radiant_w)), (beam, diffuse)), ((heat, air), to_out)) in
            zones.zip(gains).zip(sun).zip(heat)
        {
            let sun =
                s.take(beam) * s.take(&z.keeps_beam) + s.take(diffuse) * s.take(&z.keeps_diffuse);
            let out = s.take(to_out) * (outdoor - s.take(air)) + s.take(&z.lag_leak);
            let gains = s.take(air_w) + s.take(radiant_w);
            sums.supply_wh = (s.take(&sums.supply_wh) + s.take(heat) * dt).put();
            sums.gains_wh = (s.take(&sums.gains_wh) + gains * dt).put();
            sums.sun_wh = (s.take(&sums.sun_wh) + sun * dt).put();
            sums.outdoor_air_wh = (s.take(&sums.outdoor_air_wh) + out * dt).put();
            sums.doors_wh = (s.take(&sums.doors_wh) + s.take(&z.lag_doors) * dt).put();
        }
        let air = w.air.as_flattened();
        for p in &self.passages {
            let [a, b] = p.zones;
            let heat = dt * p.constant_w_per_k * (air[a] - air[b]);
            sums.zones[a / SIDE].doors_wh[a % SIDE] -= heat;
            sums.zones[b / SIDE].doors_wh[b % SIDE] += heat;
        }
        sums.hours += dt;
        copy(&mut self.air_then, &w.air);
        take_air(s, &mut w.zones, &w.next_doors, 1.0);
        self.watch(s);
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
        let sum = |of: fn(&ZoneSums) -> Oct| s.zones.iter().map(|z| sum(of(z))).sum::<f64>();
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
        let ledger = self.zone_ledger(zone);
        let into_faces: f64 = ledger.faces.iter().map(|f| f.took_wh).sum();
        let parts = [
            ledger.supply_wh,
            ledger.gains_wh,
            ledger.sun_wh,
            ledger.outdoor_air_wh,
            ledger.doors_wh,
            -ledger.paid_wh,
            -into_faces,
        ];
        let through: f64 = parts.iter().map(|q| q.abs()).sum();
        (
            (parts.iter().sum::<f64>() - ledger.stored_wh) * 3600.0,
            through * 3600.0,
        )
    }

    /// What one zone got and gave since [`Balance::begin_sums`].
    pub fn zone_ledger(&self, zone: usize) -> ZoneLedger {
        let n = &self.network;
        let (z, i) = (&self.sums.zones[zone / SIDE], zone % SIDE);
        let took = |face: usize, surfaces: &[usize], panes: &[usize]| FaceLedger {
            surfaces: surfaces.to_vec(),
            panes: panes.to_vec(),
            took_wh: self.work.face_took_wh_per_m2(face).0 * n.area[face],
        };
        let here = n.first[zone]..n.first[zone + 1];
        let outer = (n.outer.iter()).map(|w| (w.face, &*w.surfaces, [].as_slice()));
        let windows = (n.windows.iter()).map(|w| (w.face, [].as_slice(), &*w.panes));
        let between =
            (n.partitions.iter()).flat_map(|p| p.faces.map(|f| (f, &*p.surfaces, [].as_slice())));
        let faces = outer
            .chain(windows)
            .chain(between)
            .filter(|(face, ..)| here.contains(face))
            .map(|(face, surfaces, panes)| took(face, surfaces, panes))
            .collect();
        let rise = self.air_c()[zone] - self.sums.air_at_start_c[zone];
        ZoneLedger {
            supply_wh: z.supply_wh[i],
            gains_wh: z.gains_wh[i],
            sun_wh: z.sun_wh[i],
            outdoor_air_wh: z.outdoor_air_wh[i],
            doors_wh: z.doors_wh[i],
            paid_wh: z.paid_wh[i],
            stored_wh: n.capacity[zone] * self.drive.step_s() / 3600.0 * rise,
            air_c: self.air_c()[zone],
            faces,
        }
    }
}

/// What one zone got and gave, W h: what comes in less what the faces took is stored.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneLedger {
    /// Heat by the supply.
    pub supply_wh: f64,
    /// Heat by gains, air and radiant.
    pub gains_wh: f64,
    /// Sun let in and kept.
    pub sun_wh: f64,
    /// Heat by outdoor air.
    pub outdoor_air_wh: f64,
    /// Heat by air through doors.
    pub doors_wh: f64,
    /// What the walls took beyond what their faces gave and the air has paid since.
    pub paid_wh: f64,
    /// Stored in the air and what follows it.
    pub stored_wh: f64,
    /// Air at the end, C.
    pub air_c: f64,
    /// Its walls and windows.
    pub faces: Vec<FaceLedger>,
}

/// What one face took, sun and longwave with the air.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceLedger {
    /// Surfaces of the model that the face stands for.
    pub surfaces: Vec<usize>,
    /// Or its panes.
    pub panes: Vec<usize>,
    /// W h into the face.
    pub took_wh: f64,
}
