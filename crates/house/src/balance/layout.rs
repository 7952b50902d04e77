//! The network as the hourly passes take it: faces eight by eight, partitions side by side.

use super::arithmetic::Arithmetic;
use super::eight::{Oct, SIDE};
use super::faces::{Faces, Hours};
use super::network::Network;
use super::walls::Mates;

impl Network {
    /// The faces eight by eight.
    pub(super) fn lay_out(&mut self) {
        let octs = self.area.len() / SIDE;
        self.eight.resize(octs, Faces::default());
        for q in 0..octs {
            let zone = self.zone_of(q * SIDE);
            let faces = &mut self.eight[q];
            faces.zone = zone;
            for i in 0..SIDE {
                let f = q * SIDE + i;
                faces.area[i] = self.area[f];
                faces.convection[i] = self.convection[f];
                faces.radiant[i] = self.radiant[f];
                faces.inverse[i] = self.inverse[f];
                if !self.stated[f] {
                    let [air_warmer, face_warmer] = self.looks[f].natural_at_1_k();
                    faces.from_film[i] = self.convection[f];
                    faces.air_warmer[i] = air_warmer;
                    faces.face_warmer[i] = face_warmer;
                }
                faces.takes_beam[i] = self.takes_beam[f];
                faces.takes_diffuse[i] = self.takes_diffuse[f];
                faces.takes_radiant[i] = self.takes_radiant[f];
            }
        }
        self.octs_of_zone = self
            .first
            .windows(2)
            .map(|w| (w[1] - w[0]) / SIDE)
            .collect();
        self.mates = self
            .partitions
            .iter()
            .map(|p| Mates {
                faces: p.faces.map(|f| f as u32),
                inverse: self.inverse_mate[p.faces[0]],
            })
            .collect();
    }

    /// What the partitions give their faces before anything inside is known.
    #[inline(always)]
    pub(super) fn drive_partitions(&self, hours: &mut Hours) {
        let given = hours.given.as_flattened_mut();
        let back_in = self.partition_bank.back_in.as_flattened();
        let back_out = self.partition_bank.back_out.as_flattened();
        for (m, (back_in, back_out)) in self.mates.iter().zip(back_in.iter().zip(back_out)) {
            given[m.faces[0] as usize] = *back_in;
            given[m.faces[1] as usize] = *back_out;
        }
    }

    /// Steps the partitions with the faces as they now are.
    #[inline(always)]
    pub(super) fn step_partitions<S: Arithmetic>(&mut self, s: S, hours: &Hours) {
        let face = hours.face.as_flattened();
        for (k, some) in self.mates.chunks(SIDE).enumerate() {
            let mut sides = [[0.0; SIDE]; 2];
            for (i, m) in some.iter().enumerate() {
                sides[0][i] = face[m.faces[0] as usize];
                sides[1][i] = face[m.faces[1] as usize];
            }
            self.partition_bank
                .step(s, k, s.take(&sides[0]), s.take(&sides[1]));
        }
    }

    /// What the faces of each zone come to together, zone by zone. The octs of a zone are added
    /// up first, so that the eight are added up once only.
    #[inline(always)]
    pub(super) fn by_zone<'a, S: Arithmetic>(&'a self, s: S, of: &'a [Oct]) -> ByZone<'a, S> {
        ByZone {
            s,
            of,
            octs: self.octs_of_zone.iter(),
        }
    }

    /// Octs that hold a number for each zone.
    pub(super) fn zone_octs(&self) -> usize {
        self.zones.div_ceil(SIDE)
    }
}

/// Sums of lists of faces, zone by zone.
pub(super) struct ByZone<'a, S> {
    s: S,
    of: &'a [Oct],
    octs: core::slice::Iter<'a, usize>,
}

impl<S: Arithmetic> Iterator for ByZone<'_, S> {
    type Item = f64;

    #[inline(always)]
    fn next(&mut self) -> Option<f64> {
        let (here, rest) = self.of.split_at_checked(*self.octs.next()?)?;
        self.of = rest;
        let mut all = self.s.all(0.0);
        for oct in here {
            all = all + self.s.take(oct);
        }
        Some(all.sum())
    }
}
