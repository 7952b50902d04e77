//! The modes of many walls, laid out so that one pass steps them all: four walls side by side,
//! mode by mode.

use super::quad::{Quad, SIDE, each};
use crate::wall::WallModes;

/// One mode of four walls (see [`crate::wall::Mode`]); a wall without that mode has zeros.
#[derive(Debug, Clone, Copy, Default)]
struct QuadMode {
    keep: Quad,
    inside: Quad,
    outside: Quad,
    state: Quad,
}

/// Modes of a list of walls. Walls should come in order of falling number of modes, so that few
/// places in a quad stay empty.
#[derive(Debug, Clone)]
pub struct Bank {
    walls: usize,
    step_s: f64,
    /// For each group of four walls the index of its first mode, and one past the last.
    first: Vec<usize>,
    modes: Vec<QuadMode>,
    /// Heat stored per unit of state, J/m2, by mode.
    stored: Vec<Quad>,
    /// Heat the walls give back at their inside faces in the next step, W/m2.
    pub(super) back_in: Vec<Quad>,
    /// As `back_in`, outside.
    pub(super) back_out: Vec<Quad>,
}

impl Bank {
    /// Lays out walls made for steps of `step_s`.
    pub fn new(walls: &[&WallModes], step_s: f64) -> Self {
        let quads = walls.len().div_ceil(SIDE);
        let mut bank = Self {
            walls: walls.len(),
            step_s,
            first: vec![0],
            modes: Vec::new(),
            stored: Vec::new(),
            back_in: vec![[0.0; SIDE]; quads],
            back_out: vec![[0.0; SIDE]; quads],
        };
        for group in walls.chunks(SIDE) {
            let most = group.iter().map(|w| w.modes.len()).max().unwrap_or(0);
            for k in 0..most {
                let mut quad = QuadMode::default();
                let mut stored = [0.0; SIDE];
                for (i, m) in group.iter().enumerate() {
                    let Some(m) = m.modes.get(k) else { continue };
                    quad.keep[i] = m.keep;
                    quad.inside[i] = m.inside;
                    quad.outside[i] = m.outside;
                    stored[i] = m.stored;
                }
                bank.modes.push(quad);
                bank.stored.push(stored);
            }
            bank.first.push(bank.modes.len());
        }
        bank
    }

    /// Sets every wall as if its faces had stood at these temperatures for ever.
    pub fn settle(&mut self, walls: &[&WallModes], t_in_c: &[f64], t_out_c: &[f64]) {
        for (w, wall) in walls.iter().enumerate() {
            let (quad, i) = (w / SIDE, w % SIDE);
            let first = self.first[quad];
            (self.back_in[quad][i], self.back_out[quad][i]) = (0.0, 0.0);
            let states = wall.settled_states(t_in_c[w], t_out_c[w]);
            for (k, (state, mode)) in states.into_iter().zip(&wall.modes).enumerate() {
                self.modes[first + k].state[i] = state;
                self.back_in[quad][i] += self.step_s * mode.inside * state;
                self.back_out[quad][i] += self.step_s * mode.outside * state;
            }
        }
    }

    /// One step of the walls of a quad with these face temperatures.
    #[inline(always)]
    pub(super) fn step(&mut self, quad: usize, t_in_c: Quad, t_out_c: Quad) {
        let (mut sum_in, mut sum_out) = ([0.0; SIDE], [0.0; SIDE]);
        for m in &mut self.modes[self.first[quad]..self.first[quad + 1]] {
            let (keep, inside, outside, was) = (m.keep, m.inside, m.outside, m.state);
            let state =
                each(|i| keep[i] * was[i] + inside[i] * t_in_c[i] + outside[i] * t_out_c[i]);
            sum_in = each(|i| sum_in[i] + inside[i] * state[i]);
            sum_out = each(|i| sum_out[i] + outside[i] * state[i]);
            m.state = state;
        }
        self.back_in[quad] = each(|i| self.step_s * sum_in[i]);
        self.back_out[quad] = each(|i| self.step_s * sum_out[i]);
    }

    /// Heat stored in each wall, J/m2 relative to 0 C.
    pub fn stored_j_per_m2(&self) -> Vec<f64> {
        (0..self.walls)
            .map(|w| {
                let (quad, i) = (w / SIDE, w % SIDE);
                (self.first[quad]..self.first[quad + 1])
                    .map(|k| self.stored[k][i] * self.modes[k].state[i])
                    .sum()
            })
            .collect()
    }

    /// Number of modes in all.
    pub fn modes(&self) -> usize {
        self.modes
            .iter()
            .map(|m| m.keep.iter().filter(|k| **k != 0.0).count())
            .sum()
    }
}
