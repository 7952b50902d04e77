//! The arrays an hour is worked out in, and the passes over them. Plain loops over slices of one
//! length, so that the processor can take several faces at once.

use super::network::Network;
use crate::film::{InsideFilm, on_pieces};

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
    sum: Vec<f64>,
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
        for ((sum, force), lag) in self.sum.iter_mut().zip(&self.force).zip(&self.lag_face) {
            *sum = force + lag;
        }
        let sum = &self.sum[..n.mate.len()];
        for ((((p, s), mate), own), cross) in self
            .part
            .iter_mut()
            .zip(sum)
            .zip(&n.mate)
            .zip(&n.inverse)
            .zip(&n.inverse_mate)
        {
            *p = own * s + cross * sum[*mate];
        }
        for z in 0..n.zones {
            let r = n.first[z]..n.first[z + 1];
            let (part, film) = (&self.part[r.clone()], &self.lag_film[r.clone()]);
            let (ac, ar) = (&n.area_convection[r.clone()], &n.area_radiant[r.clone()]);
            let area = &n.area[r];
            let (mut air, mut star) = (0.0, 0.0);
            for ((((p, l), c), r), a) in part.iter().zip(film).zip(ac).zip(ar).zip(area) {
                air += c * p - a * l;
                star += r * p;
            }
            self.right[z] = self.base[z] + air;
            self.right[n.zones + z] = star;
        }
    }

    /// Face temperatures from air and stars.
    pub fn face_temperatures(&mut self, n: &Network) {
        for z in 0..n.zones {
            let r = n.first[z]..n.first[z + 1];
            let (air, star) = (self.air[z], self.star[z]);
            let (c, h) = (&n.convection[r.clone()], &n.radiant[r.clone()]);
            for ((pull, c), h) in self.sum[r].iter_mut().zip(c).zip(h) {
                *pull = c * air + h * star;
            }
        }
        let pull = &self.sum[..n.mate.len()];
        for (((((t, part), p), mate), own), cross) in self
            .face
            .iter_mut()
            .zip(&self.part)
            .zip(pull)
            .zip(&n.mate)
            .zip(&n.inverse)
            .zip(&n.inverse_mate)
        {
            *t = part + own * p + cross * pull[*mate];
        }
    }

    /// The film and loss that the solution asks for; returns by how much each differs from the
    /// one used, in the zone where it differs most, W.
    pub fn next_films(&mut self, n: &Network, film: &InsideFilm) -> f64 {
        let mut most = 0.0_f64;
        for z in 0..n.zones {
            let r = n.first[z]..n.first[z + 1];
            let air = self.air[z];
            let mut moved = 0.0;
            let now = self.face[r.clone()]
                .iter()
                .zip(&n.looks[r.clone()])
                .zip(&n.convection[r.clone()])
                .zip(&self.slack[r.clone()])
                .zip(&n.area[r.clone()])
                .zip(&self.lag_face[r.clone()]);
            let next = self.next_film[r.clone()]
                .iter_mut()
                .zip(&mut self.next_face[r]);
            for ((((((t, looks), c), slack), area), used), (next_film, next_face)) in now.zip(next)
            {
                let dt = air - t;
                let heat = on_pieces(film.pieces(*looks), dt) - c * dt;
                let all = heat + slack * t;
                *next_film = heat;
                *next_face = all;
                moved += area * (all - used).abs();
            }
            most = most.max(moved);
        }
        most
    }

    /// Takes over the films the solution asks for.
    pub fn take_films(&mut self, step: f64) {
        approach(&mut self.lag_face, &self.next_face, step);
        approach(&mut self.lag_film, &self.next_film, step);
    }

    /// Takes over (or goes by `step` towards) the air through leaks and doors that the solution
    /// asks for.
    pub fn take_air(&mut self, step: f64) {
        approach(&mut self.lag_leak, &self.next_leak, step);
        approach(&mut self.lag_doors, &self.next_doors, step);
    }
}

fn approach(used: &mut [f64], next: &[f64], step: f64) {
    for (u, n) in used.iter_mut().zip(next) {
        *u += step * (n - *u);
    }
}
