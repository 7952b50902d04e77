//! The outer sides of the outer walls, eight walls at a time in the order of their bank.

use super::arithmetic::Arithmetic;
use super::bank::Bank;
use super::eight::{Oct, SIDE, octs};
use super::faces::Hours;
use super::network::Network;
use super::walls::Outer;
use crate::drive::Drive;

/// Eight outer walls.
#[derive(Debug, Clone, Copy)]
#[repr(C, align(64))]
struct OuterOct {
    g_in: Oct,
    g_out: Oct,
    g_cross: Oct,
    /// Loss that stands in the matrix, W/(m2 K).
    in_matrix: Oct,
    /// 1 / (film + wall), m2 K/W, and what drives the outer face, W/m2.
    den: Oct,
    drive: Oct,
    /// Heat into the outer face since the ledger began, W h/m2.
    into: Oct,
    /// Where film and felt temperature stand in their lists.
    column: [u32; SIDE],
    /// Inside faces.
    face: [u32; SIDE],
}

/// All outer walls of a house.
#[derive(Debug, Clone)]
pub(super) struct Outside {
    walls: Vec<OuterOct>,
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
        // A place in a oct without a wall works on a face that belongs to no zone.
        let bin = n.faces() as u32;
        let g = |pick: fn(&crate::wall::WallModes) -> f64, rest: f64| {
            let list: Vec<f64> = n.outer.iter().map(|w| pick(&w.wall)).collect();
            octs(&list, rest)
        };
        let faces: Vec<u32> = n.outer.iter().map(|w| w.face as u32).collect();
        let walls = octs(&column, nothing as u32)
            .into_iter()
            .zip(octs(&faces, bin))
            .zip(g(|w| w.g_in, 0.0))
            .zip(g(|w| w.g_out, 1.0))
            .zip(g(|w| w.g_cross, 0.0))
            .map(|((((column, face), g_in), g_out), g_cross)| OuterOct {
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
        for oct in &mut self.walls {
            for (y, f) in oct.in_matrix.iter_mut().zip(oct.face) {
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
    pub fn drive_faces<S: Arithmetic>(&mut self, s: S, bank: &Bank, hours: &mut Hours) {
        let given = hours.given.as_flattened_mut();
        let slack = hours.slack.as_flattened_mut();
        let backs = bank.back_in.iter().zip(&bank.back_out);
        for (w, (back_in, back_out)) in self.walls.iter_mut().zip(backs) {
            let (mut film, mut felt) = ([0.0; SIDE], [0.0; SIDE]);
            for i in 0..SIDE {
                let column = w.column[i] as usize;
                (film[i], felt[i]) = (self.film[column], self.felt[column]);
            }
            let (film, felt, g_cross) = (s.take(&film), s.take(&felt), s.take(&w.g_cross));
            let den = s.all(1.0).over(film + s.take(&w.g_out));
            let drive = s.take(back_out).plus(film, felt);
            let through = g_cross * den;
            let gives = s.take(back_in).less(through, drive).put();
            let loses = s.take(&w.in_matrix) - s.take(&w.g_in);
            let loses = loses.plus(g_cross, through).put();
            w.den = den.put();
            w.drive = drive.put();
            for i in 0..SIDE {
                let f = w.face[i] as usize;
                given[f] = gives[i];
                slack[f] = loses[i];
            }
        }
    }

    /// Steps the walls with the faces as they now are.
    #[inline(always)]
    pub fn step<S: Arithmetic>(&mut self, s: S, bank: &mut Bank, hours: &Hours, dt_h: f64) {
        let (face, dt) = (hours.face.as_flattened(), s.all(dt_h));
        for (k, w) in self.walls.iter_mut().enumerate() {
            let mut inside = [0.0; SIDE];
            for i in 0..SIDE {
                inside[i] = face[w.face[i] as usize];
            }
            let (inside, g_cross) = (s.take(&inside), s.take(&w.g_cross));
            let through = g_cross * inside;
            let outside = s.take(&w.den) * (s.take(&w.drive) - through);
            let heat = (through - s.take(&bank.back_out[k])).plus(s.take(&w.g_out), outside);
            w.into = s.take(&w.into).plus(heat, dt).put();
            bank.step(s, k, inside, outside);
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
