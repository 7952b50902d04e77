//! The arrays an hour is worked out in, and the passes over them. Plain loops over slices of one
//! length, so that the processor can take several faces at once.

use super::network::Network;
use super::passes;
use crate::film::InsideFilm;

/// Kept between steps to spare allocation. Face arrays are in the network's order.
#[derive(Debug, Clone, Default)]
pub(super) struct Work {
    /// Heat on each face that does not depend on the unknowns, W/m2.
    pub force: Vec<f64>,
    /// Sun and radiant gains on each face, W/m2.
    pub sun: Vec<f64>,
    /// Loss in the matrix less the true loss of this hour, W/(m2 K).
    pub slack: Vec<f64>,
    /// Force and lag together, then the face's part that the zones do not make.
    pub part: Vec<f64>,
    /// Scratch.
    sum: Vec<f64>,
    to_air: Vec<f64>,
    to_star: Vec<f64>,
    /// Air and star of each face's zone, C.
    pub air_f: Vec<f64>,
    pub star_f: Vec<f64>,
    /// Lagged heat to each face, W/m2: film and loss.
    pub lag_face: Vec<f64>,
    /// The film's part of it, taken from the air.
    pub lag_film: Vec<f64>,
    /// Lagged leakage heat, W per zone.
    pub lag_leak: Vec<f64>,
    /// Lagged heat through doors, W per zone.
    pub lag_doors: Vec<f64>,
    /// The same four as the last solution asks for them.
    pub next_face: Vec<f64>,
    pub next_film: Vec<f64>,
    pub next_leak: Vec<f64>,
    pub next_doors: Vec<f64>,
    /// Outer side of outer walls: 1 / (film + wall), and what drives it.
    pub den: Vec<f64>,
    pub drive_out: Vec<f64>,
    /// Right-hand side; the answer without supply, leaks and doors; its air with leaks and doors.
    pub right: Vec<f64>,
    pub free: Vec<f64>,
    pub free_air: Vec<f64>,
    /// Heat of supply, leaks and doors together, W per zone.
    pub heat: Vec<f64>,
    /// The solution.
    pub air: Vec<f64>,
    pub star: Vec<f64>,
    pub face: Vec<f64>,
    /// What does not change while a step is iterated, W per zone.
    pub base: Vec<f64>,
    /// Heat the walls of a zone took in the last step beyond what their faces gave; the air pays
    /// it in the next, so that the ledger closes. W per zone.
    pub owed: Vec<f64>,
    /// The same by face, W/m2.
    pub beyond: Vec<f64>,
    /// Leakage, W/K per zone.
    pub leak: Vec<f64>,
    /// Sun let into each zone, beam and diffuse, W.
    pub sun_zone: Vec<[f64; 2]>,
    /// Face temperatures in bank order.
    pub bank_in: Vec<f64>,
    pub bank_out: Vec<f64>,
}

impl Work {
    pub fn new(n: &Network, start_c: f64) -> Self {
        let (faces, zones) = (n.faces(), n.zones);
        let outer = n.outer.len();
        let bank = outer.max(n.partitions.len());
        let (f, z) = (vec![0.0; faces], vec![0.0; zones]);
        Self {
            force: f.clone(),
            sun: f.clone(),
            slack: f.clone(),
            part: f.clone(),
            sum: f.clone(),
            to_air: f.clone(),
            to_star: f.clone(),
            air_f: vec![start_c; faces],
            star_f: vec![start_c; faces],
            lag_face: f.clone(),
            lag_film: f.clone(),
            lag_leak: z.clone(),
            lag_doors: z.clone(),
            next_face: f.clone(),
            next_film: f.clone(),
            next_leak: z.clone(),
            next_doors: z.clone(),
            den: vec![0.0; outer],
            drive_out: vec![0.0; outer],
            right: vec![0.0; 2 * zones],
            free: vec![0.0; 2 * zones],
            free_air: z.clone(),
            heat: z.clone(),
            air: vec![start_c; zones],
            star: vec![start_c; zones],
            face: vec![start_c; faces],
            base: z.clone(),
            owed: z.clone(),
            beyond: f.clone(),
            leak: z,
            sun_zone: vec![[0.0; 2]; zones],
            bank_in: vec![0.0; bank],
            bank_out: vec![0.0; bank],
        }
    }

    /// Sun and radiant gains on every face, added to the force.
    pub fn spread_sun(&mut self, n: &Network, radiant_w: &[f64]) {
        for z in 0..n.zones {
            let r = n.first[z]..n.first[z + 1];
            let ([beam, diffuse], gains) = (self.sun_zone[z], radiant_w[z]);
            let (sun, force) = (&mut self.sun[r.clone()], &mut self.force[r.clone()]);
            let (tb, td) = (&n.takes_beam[r.clone()], &n.takes_diffuse[r.clone()]);
            let tr = &n.takes_radiant[r];
            for ((((s, f), b), d), g) in sun.iter_mut().zip(force).zip(tb).zip(td).zip(tr) {
                *s = b * beam + d * diffuse + g * gains;
                *f += *s;
            }
        }
    }

    /// Parts of the faces that the zones do not make, and what they give to air and star.
    pub fn eliminate_faces(&mut self, n: &Network) {
        passes::parts(
            &mut self.part,
            &mut self.sum,
            &self.force,
            &self.lag_face,
            &n.inverse,
        );
        for p in &n.partitions {
            let [a, b] = p.faces;
            self.part[a] += n.inverse_mate[a] * self.sum[b];
            self.part[b] += n.inverse_mate[b] * self.sum[a];
        }
        passes::gifts(
            &mut self.to_air,
            &mut self.to_star,
            &self.part,
            &self.lag_film,
            &n.area,
            &n.area_convection,
            &n.area_radiant,
        );
        let (air, star) = self.right.split_at_mut(n.zones);
        for z in 0..n.zones {
            let r = n.first[z]..n.first[z + 1];
            air[z] = self.base[z] + self.to_air[r.clone()].iter().sum::<f64>();
            star[z] = self.to_star[r].iter().sum();
        }
    }

    /// Face temperatures from air and stars.
    pub fn face_temperatures(&mut self, n: &Network) {
        for z in 0..n.zones {
            let r = n.first[z]..n.first[z + 1];
            self.air_f[r.clone()].fill(self.air[z]);
            self.star_f[r].fill(self.star[z]);
        }
        passes::temperatures(
            &mut self.face,
            &mut self.sum,
            &self.part,
            &n.inverse,
            &self.air_f,
            &self.star_f,
            &n.convection,
            &n.radiant,
        );
        for p in &n.partitions {
            let [a, b] = p.faces;
            self.face[a] += n.inverse_mate[a] * self.sum[b];
            self.face[b] += n.inverse_mate[b] * self.sum[a];
        }
    }

    /// The film and loss that the solution asks for; returns by how much each differs from the
    /// one used, in the zone where it differs most, W.
    pub fn next_films(&mut self, n: &Network, film: &InsideFilm) -> f64 {
        passes::films(
            &mut self.next_film,
            film,
            &n.first_piece,
            &self.air_f,
            &self.face,
            &n.tabled,
        );
        passes::lags(
            &mut self.next_face,
            &mut self.sum,
            &self.next_film,
            &self.slack,
            &self.face,
            &self.lag_face,
            &n.area,
        );
        (0..n.zones)
            .map(|z| self.sum[n.first[z]..n.first[z + 1]].iter().sum::<f64>())
            .fold(0.0, f64::max)
    }

    /// The losses of this step with the faces as they were: the first guess of what is lagged.
    pub fn guess_losses(&mut self) {
        passes::add_times(&mut self.lag_face, &self.lag_film, &self.slack, &self.face);
    }

    /// Takes over the films the solution asks for.
    pub fn take_films(&mut self, step: f64) {
        passes::approach(&mut self.lag_face, &self.next_face, step);
        passes::approach(&mut self.lag_film, &self.next_film, step);
    }

    /// Takes over (or goes by `step` towards) the air through leaks and doors that the solution
    /// asks for.
    pub fn take_air(&mut self, step: f64) {
        passes::approach(&mut self.lag_leak, &self.next_leak, step);
        passes::approach(&mut self.lag_doors, &self.next_doors, step);
    }
}
