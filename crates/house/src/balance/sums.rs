//! What is added up over the accepted steps.

use super::{Balance, passes};

/// Sums over the accepted steps, in watt hours.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Sums {
    /// Hours added.
    pub hours: f64,
    /// Heat into each face from its room, sun included, W h/m2; faces as in the network.
    pub into_face: Vec<f64>,
    /// Heat each wall took beyond that, W h/m2 (see `owed` in the work arrays).
    pub beyond: Vec<f64>,
    /// Of it, what the air has paid, W h per zone.
    pub paid_wh: Vec<f64>,
    /// Heat into the outer side of opaque outer walls, W h/m2; walls as in the network.
    pub into_outside: Vec<f64>,
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
    /// Stored when the sums began, J per zone's air and house's walls together.
    pub stored_at_start_j: f64,
    /// Air of each zone when the sums began, C.
    pub air_at_start_c: Vec<f64>,
}

impl Sums {
    /// All zero.
    pub fn new(zones: usize, faces: usize, outer: usize) -> Self {
        let z = vec![0.0; zones];
        Self {
            hours: 0.0,
            into_face: vec![0.0; faces],
            beyond: vec![0.0; faces],
            paid_wh: z.clone(),
            into_outside: vec![0.0; outer],
            supply_wh: z.clone(),
            gains_wh: z.clone(),
            sun_wh: z.clone(),
            outdoor_air_wh: z.clone(),
            doors_wh: z.clone(),
            stored_at_start_j: 0.0,
            air_at_start_c: z,
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
        passes::into_faces(
            &mut s.into_face,
            dt,
            &w.air_f,
            &w.star_f,
            &w.face,
            &n.convection,
            &n.radiant,
            &w.lag_film,
            &w.sun,
        );
        passes::beyond(&mut w.beyond, &w.lag_face, &w.lag_film, &w.slack, &w.face);
        passes::add_scaled(&mut s.beyond, &w.beyond, dt);
        for (i, wall) in n.outer.iter().enumerate() {
            let t_in = w.face[wall.face];
            let t_out = w.den[i] * (w.drive_out[i] - wall.wall.g_cross * t_in);
            s.into_outside[i] += dt
                * (wall.wall.g_out * t_out + wall.wall.g_cross * t_in - n.outer_bank.back_out[i]);
            w.bank_in[i] = t_in;
            w.bank_out[i] = t_out;
        }
        n.outer_bank.step(&w.bank_in, &w.bank_out);
        for (i, p) in n.partitions.iter().enumerate() {
            w.bank_in[i] = w.face[p.faces[0]];
            w.bank_out[i] = w.face[p.faces[1]];
        }
        n.partition_bank.step(&w.bank_in, &w.bank_out);
        let radiant = &self.gains_radiant[of_day];
        let gains = &self.gains_air[of_day];
        let to_out = &self.outdoor[self.of_hour[of_day]];
        for z in 0..n.zones {
            s.paid_wh[z] += dt * w.owed[z];
            let r = n.first[z]..n.first[z + 1];
            w.owed[z] = n.area[r.clone()]
                .iter()
                .zip(&w.beyond[r])
                .map(|(a, b)| a * b)
                .sum();
            s.supply_wh[z] += dt * self.thermostats.heat_w[z];
            s.gains_wh[z] += dt * (gains[z] + radiant[z]);
            let [beam, diffuse] = w.sun_zone[z];
            s.sun_wh[z] +=
                dt * (beam * (1.0 - n.escapes[z][0]) + diffuse * (1.0 - n.escapes[z][1]));
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
        self.air_c.copy_from_slice(&w.air);
        w.take_films(1.0);
        w.take_air(1.0);
        self.watch();
    }

    /// By how much the ledger of the whole house fails to close since [`Balance::begin_sums`]: heat
    /// in minus heat out minus stored, J; and the heat that went through, J.
    pub fn closure_j(&self) -> (f64, f64) {
        let (n, s) = (&self.network, &self.sums);
        let sum = |v: &[f64]| v.iter().sum::<f64>();
        let outside: f64 = n
            .outer
            .iter()
            .zip(&s.into_outside)
            .map(|(w, q)| q * n.area[w.face])
            .sum();
        // A window takes from the room what it does not give back as sun.
        let windows: f64 = n
            .windows
            .iter()
            .map(|w| -(s.into_face[w.face] + s.beyond[w.face]) * n.area[w.face])
            .sum();
        // What the air pays goes to the walls: no heat in or out.
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

    /// The same for one zone: what its air and faces take in less what its air stores.
    pub fn zone_closure_j(&self, zone: usize) -> (f64, f64) {
        let (n, s) = (&self.network, &self.sums);
        let faces = n.first[zone]..n.first[zone + 1];
        let into_faces: f64 = faces.map(|f| s.into_face[f] * n.area[f]).sum();
        let parts = [
            s.supply_wh[zone],
            s.gains_wh[zone],
            s.sun_wh[zone],
            s.outdoor_air_wh[zone],
            s.doors_wh[zone],
            -s.paid_wh[zone],
            -into_faces,
        ];
        let rise = self.air_c[zone] - s.air_at_start_c[zone];
        let stored = n.capacity[zone] * self.drive.step_s() * rise;
        let through: f64 = parts.iter().map(|q| q.abs()).sum();
        (
            parts.iter().sum::<f64>() * 3600.0 - stored,
            through * 3600.0,
        )
    }
}
