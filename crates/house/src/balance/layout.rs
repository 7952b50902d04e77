//! The network as the hourly passes take it: faces four by four, partitions side by side.

use super::four::{Faces, Hours};
use super::network::Network;
use super::quad::{Quad, SIDE, sum};
use super::walls::Mates;

impl Network {
    /// The faces four by four.
    pub(super) fn lay_out(&mut self) {
        let quads = self.area.len() / SIDE;
        self.four.resize(quads, Faces::default());
        for q in 0..quads {
            let zone = self.zone_of(q * SIDE);
            let four = &mut self.four[q];
            four.zone = zone;
            for i in 0..SIDE {
                let f = q * SIDE + i;
                four.area[i] = self.area[f];
                four.convection[i] = self.convection[f];
                four.radiant[i] = self.radiant[f];
                four.inverse[i] = self.inverse[f];
                if !self.stated[f] {
                    let [air_warmer, face_warmer] = self.looks[f].natural_at_1_k();
                    four.from_film[i] = self.convection[f];
                    four.air_warmer[i] = air_warmer;
                    four.face_warmer[i] = face_warmer;
                }
                four.takes_beam[i] = self.takes_beam[f];
                four.takes_diffuse[i] = self.takes_diffuse[f];
                four.takes_radiant[i] = self.takes_radiant[f];
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
    pub(super) fn step_partitions(&mut self, hours: &Hours) {
        let face = hours.face.as_flattened();
        for (k, four) in self.mates.chunks(SIDE).enumerate() {
            let mut sides = [[0.0; SIDE]; 2];
            for (i, m) in four.iter().enumerate() {
                sides[0][i] = face[m.faces[0] as usize];
                sides[1][i] = face[m.faces[1] as usize];
            }
            self.partition_bank.step(k, sides[0], sides[1]);
        }
    }

    /// Adds what four faces come to, to that of their zone.
    #[inline(always)]
    pub(super) fn add_by_zone(&self, of: &[Quad], into: &mut [f64]) {
        for (c, quad) in self.four.iter().zip(of) {
            into[c.zone] += sum(*quad);
        }
    }

    /// Quads that hold a number for each zone.
    pub(super) fn zone_quads(&self) -> usize {
        self.zones.div_ceil(SIDE)
    }
}
