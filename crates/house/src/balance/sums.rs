//! What is added up over the accepted steps.

use super::Balance;

/// Sums over the accepted steps, in watt hours and kelvin hours.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sums {
    /// Hours added.
    pub hours: f64,
    /// Inside face temperatures, C h.
    pub face_c: Vec<f64>,
    /// Heat into each face from its room, sun included, W h/m2.
    pub into_face: Vec<f64>,
    /// Heat into the outer side of outer faces and windows from outside, W h/m2.
    pub into_outside: Vec<f64>,
    /// Zone air, C h.
    pub air_c: Vec<f64>,
    /// Heat by the supply, W h per zone.
    pub supply_wh: Vec<f64>,
    /// Heat by gains, air and radiant, W h per zone.
    pub gains_wh: Vec<f64>,
    /// Sun let into each zone and kept there (what leaves through glass again is taken off), W h.
    pub sun_wh: Vec<f64>,
    /// Heat by outdoor air (leakage, fans, fixed), W h per zone, usually below zero.
    pub outdoor_air_wh: Vec<f64>,
    /// Heat by air through doors from other zones, W h per zone.
    pub doors_wh: Vec<f64>,
    /// Heat from faces to the air, W h per zone (for the closing of the air's own balance).
    pub faces_wh: Vec<f64>,
    /// Stored when the sums began, J.
    pub stored_at_start_j: f64,
}

impl Sums {
    /// All zero.
    pub fn new(zones: usize, faces: usize, outer: usize) -> Self {
        Self {
            hours: 0.0,
            face_c: vec![0.0; faces],
            into_face: vec![0.0; faces],
            into_outside: vec![0.0; outer],
            air_c: vec![0.0; zones],
            supply_wh: vec![0.0; zones],
            gains_wh: vec![0.0; zones],
            sun_wh: vec![0.0; zones],
            outdoor_air_wh: vec![0.0; zones],
            doors_wh: vec![0.0; zones],
            faces_wh: vec![0.0; zones],
            stored_at_start_j: 0.0,
        }
    }
}

impl Balance<'_> {
    /// Takes the solved step as it stands and moves on.
    pub fn accept(&mut self, h: usize) {
        let (n, w, s) = (&mut self.network, &mut self.work, &mut self.sums);
        let of_day = usize::from(self.drive.hour_of_day[h]) % 24;
        let outdoor = self.drive.outdoor_c[h];
        let dt = 1.0 / self.drive.per_hour as f64;
        let single = n.outer + n.windows;
        // Outer side of every outer face; the lagged part of the inside loss is consistent with
        // the same hour's force and slack, so heat in minus heat out is what the wall stores.
        for f in 0..n.outer {
            self.outer_c[f] = w.den[f] * (w.drive_out[f] - n.g_cross[f] * w.face[f]);
        }
        for f in 0..n.zone.len() {
            let z = n.zone[f];
            let into = n.convection[f] * (w.air[z] - w.face[f])
                + w.lag_convection[f]
                + n.radiant[f] * (w.star[z] - w.face[f])
                + w.sun[f];
            s.face_c[f] += dt * w.face[f];
            s.into_face[f] += dt * into;
            s.faces_wh[z] -=
                dt * n.area[f] * (n.convection[f] * (w.air[z] - w.face[f]) + w.lag_convection[f]);
        }
        for f in 0..n.outer {
            s.into_outside[f] += dt
                * (n.g_out[f] * self.outer_c[f] + n.g_cross[f] * w.face[f]
                    - n.outer_bank.back_out[f]);
        }
        let radiant = &self.gains_radiant[of_day];
        let gains = &self.gains_air[of_day];
        let to_out = &self.outdoor[self.of_hour[of_day]];
        for z in 0..n.zones {
            s.air_c[z] += dt * w.air[z];
            s.supply_wh[z] += dt * self.thermostats.heat_w[z];
            s.gains_wh[z] += dt * (gains[z] + radiant[z]);
            let sun = w.sun_zone[z];
            s.sun_wh[z] +=
                dt * (sun[0] * (1.0 - n.escapes[z][0]) + sun[1] * (1.0 - n.escapes[z][1]));
            s.outdoor_air_wh[z] += dt * (to_out[z] * (outdoor - w.air[z]) + w.lag_leak[z]);
            s.doors_wh[z] += dt * w.lag_doors[z];
        }
        for p in &self.passages {
            let [a, b] = p.zones;
            let heat = dt * p.constant_w_per_k * (w.air[a] - w.air[b]);
            s.doors_wh[a] -= heat;
            s.doors_wh[b] += heat;
        }
        s.hours += dt;
        n.outer_bank
            .step(&w.face[..n.outer], &self.outer_c[..n.outer]);
        for p in 0..n.partitions {
            w.part[p] = w.face[single + 2 * p];
            w.other[p] = w.face[single + 2 * p + 1];
        }
        n.partition_bank
            .step(&w.part[..n.partitions], &w.other[..n.partitions]);
        self.air_c.copy_from_slice(&w.air);
        self.star_c.copy_from_slice(&w.star);
        self.face_c.copy_from_slice(&w.face);
        w.take_next(1.0);
    }

    /// By how much the ledger of the whole house fails to close since [`Balance::begin_sums`]: heat
    /// in minus heat out minus stored, J; and the heat that went through, J.
    pub fn closure_j(&self) -> (f64, f64) {
        let (n, s) = (&self.network, &self.sums);
        let sum = |v: &[f64]| v.iter().sum::<f64>();
        let outside: f64 = (0..n.outer).map(|f| s.into_outside[f] * n.area[f]).sum();
        // A window takes from the room what it does not give back as sun.
        let windows: f64 = (n.outer..n.outer + n.windows)
            .map(|f| -s.into_face[f] * n.area[f])
            .sum();
        let into = sum(&s.supply_wh) + sum(&s.gains_wh) + sum(&s.sun_wh) + sum(&s.outdoor_air_wh);
        let stored = self.stored_j() - s.stored_at_start_j;
        let through = s.supply_wh.iter().map(|q| q.abs()).sum::<f64>()
            + sum(&s.gains_wh)
            + sum(&s.sun_wh)
            + s.outdoor_air_wh.iter().map(|q| q.abs()).sum::<f64>();
        (
            (into + outside + windows) * 3600.0 - stored,
            through * 3600.0,
        )
    }
}
