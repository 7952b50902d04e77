//! The outer sides of the outer walls, four walls at a time in the order of their bank.

use super::bank::Bank;
use super::four::Hours;
use super::network::Network;
use super::quad::{Quad, SIDE, each, quads};
use super::walls::Outer;
use crate::drive::Drive;

/// Four outer walls.
#[derive(Debug, Clone, Copy)]
struct OuterQuad {
    /// Where film and felt temperature stand in their lists.
    column: [u32; SIDE],
    /// Inside faces.
    face: [u32; SIDE],
    g_in: Quad,
    g_out: Quad,
    g_cross: Quad,
    /// Loss that stands in the matrix, W/(m2 K).
    in_matrix: Quad,
    /// 1 / (film + wall), m2 K/W, and what drives the outer face, W/m2.
    den: Quad,
    drive: Quad,
    /// Heat into the outer face since the ledger began, W h/m2.
    into: Quad,
}

/// All outer walls of a house.
#[derive(Debug, Clone)]
pub(super) struct Outside {
    walls: Vec<OuterQuad>,
    count: usize,
    /// Film and felt temperature: the drive's columns of the hour, then each ground contact, then
    /// one through which nothing passes.
    film: Vec<f64>,
    felt: Vec<f64>,
    /// Virtual ground temperature by month of each contact, C.
    ground_c: Vec<[f64; 12]>,
    columns: usize,
}

impl Outside {
    /// Lays out the outer walls of a network. `ground_c` is by surface and month.
    pub fn new(n: &Network, drive: &Drive, ground_c: &[Vec<f64>]) -> Self {
        let (mut column, mut ground, mut conductance) = (Vec::new(), Vec::new(), Vec::new());
        let contacts = n
            .outer
            .iter()
            .filter(|w| matches!(w.drive, Outer::Ground { .. }))
            .count();
        let nothing = drive.faces + contacts;
        for w in &n.outer {
            column.push(match w.drive {
                Outer::Weather(g) => g,
                Outer::Ground {
                    conductance: c,
                    surface,
                } => {
                    let months: Vec<f64> = ground_c.get(surface).cloned().unwrap_or_default();
                    let mut by_month = [0.0; 12];
                    for (to, from) in by_month.iter_mut().zip(months) {
                        *to = from;
                    }
                    ground.push(by_month);
                    conductance.push(c);
                    drive.faces + ground.len() - 1
                }
                Outer::Nothing => nothing,
            } as u32);
        }
        let mut film = vec![0.0; drive.faces];
        film.extend(conductance);
        film.push(0.0);
        // A place in a quad without a wall works on a face that belongs to no zone.
        let bin = n.faces() as u32;
        let g = |pick: fn(&crate::wall::WallModes) -> f64, rest: f64| {
            let list: Vec<f64> = n.outer.iter().map(|w| pick(&w.wall)).collect();
            quads(&list, rest)
        };
        let faces: Vec<u32> = n.outer.iter().map(|w| w.face as u32).collect();
        let walls = quads(&column, nothing as u32)
            .into_iter()
            .zip(quads(&faces, bin))
            .zip(g(|w| w.g_in, 0.0))
            .zip(g(|w| w.g_out, 1.0))
            .zip(g(|w| w.g_cross, 0.0))
            .map(|((((column, face), g_in), g_out), g_cross)| OuterQuad {
                column,
                face,
                g_in,
                g_out,
                g_cross,
                in_matrix: [0.0; SIDE],
                den: [0.0; SIDE],
                drive: [0.0; SIDE],
                into: [0.0; SIDE],
            })
            .collect();
        let mut all = Self {
            walls,
            count: n.outer.len(),
            felt: vec![0.0; film.len()],
            film,
            ground_c: ground,
            columns: drive.faces,
        };
        all.tune(n);
        all
    }

    /// Takes over the losses that stand in the matrix.
    pub fn tune(&mut self, n: &Network) {
        for quad in &mut self.walls {
            for (y, f) in quad.in_matrix.iter_mut().zip(quad.face) {
                *y = n.y.get(f as usize).copied().unwrap_or(0.0);
            }
        }
    }

    /// Films and felt temperatures of a step.
    #[inline(always)]
    pub fn weather(&mut self, drive: &Drive, h: usize) {
        let d = self.columns;
        self.film[..d].copy_from_slice(&drive.film_w_per_m2k[h * d..(h + 1) * d]);
        self.felt[..d].copy_from_slice(&drive.felt_c[h * d..(h + 1) * d]);
        let month = usize::from(drive.month[h].saturating_sub(1)).min(11);
        for (felt, by_month) in self.felt[d..].iter_mut().zip(&self.ground_c) {
            *felt = by_month[month];
        }
    }

    /// Film and felt temperature of one of the drive's columns in the step last asked for.
    #[inline(always)]
    pub fn at(&self, column: usize) -> (f64, f64) {
        (self.film[column], self.felt[column])
    }

    /// What each wall gives its inside face before anything inside is known, and by how much its
    /// loss differs from the matrix.
    #[inline(always)]
    pub fn drive_faces(&mut self, bank: &Bank, hours: &mut Hours) {
        let given = hours.given.as_flattened_mut();
        let slack = hours.slack.as_flattened_mut();
        let backs = bank.back_in.iter().zip(&bank.back_out);
        for (w, (back_in, back_out)) in self.walls.iter_mut().zip(backs) {
            let (g_in, g_out, g_cross, y) = (w.g_in, w.g_out, w.g_cross, w.in_matrix);
            let film = each(|i| self.film[w.column[i] as usize]);
            let felt = each(|i| self.felt[w.column[i] as usize]);
            let den = each(|i| 1.0 / (film[i] + g_out[i]));
            let drive = each(|i| film[i] * felt[i] + back_out[i]);
            let through = each(|i| g_cross[i] * den[i]);
            let gives = each(|i| back_in[i] - through[i] * drive[i]);
            let loses = each(|i| y[i] - g_in[i] + g_cross[i] * through[i]);
            w.den = den;
            w.drive = drive;
            for i in 0..SIDE {
                let f = w.face[i] as usize;
                given[f] = gives[i];
                slack[f] = loses[i];
            }
        }
    }

    /// Steps the walls with the faces as they now are.
    #[inline(always)]
    pub fn step(&mut self, bank: &mut Bank, hours: &Hours, dt_h: f64) {
        let face = hours.face.as_flattened();
        for (k, w) in self.walls.iter_mut().enumerate() {
            let (den, drive, into) = (w.den, w.drive, w.into);
            let (g_out, g_cross, back) = (w.g_out, w.g_cross, bank.back_out[k]);
            let inside = each(|i| face[w.face[i] as usize]);
            let outside = each(|i| den[i] * (drive[i] - g_cross[i] * inside[i]));
            let heat = each(|i| g_out[i] * outside[i] + g_cross[i] * inside[i] - back[i]);
            w.into = each(|i| into[i] + dt_h * heat[i]);
            bank.step(k, inside, outside);
        }
    }

    /// Begins the ledger.
    pub fn begin_sums(&mut self) {
        for w in &mut self.walls {
            w.into = [0.0; SIDE];
        }
    }

    /// Heat into the outer side of each wall since the ledger began, W h/m2.
    pub fn taken_wh_per_m2(&self) -> impl Iterator<Item = f64> + '_ {
        self.walls.iter().flat_map(|w| w.into).take(self.count)
    }
}
