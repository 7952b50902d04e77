//! The network as the hourly passes take it: faces eight by eight, partitions side by side.

use super::arithmetic::Arithmetic;
use super::eight::SIDE;
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
            faces.last = (q + 1) * SIDE == self.first[zone + 1];
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

    /// Octs that hold a number for each zone.
    pub(super) fn zone_octs(&self) -> usize {
        self.zones.div_ceil(SIDE)
    }
}
