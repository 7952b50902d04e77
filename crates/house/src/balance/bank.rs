//! The modes of many walls, laid out so that one pass steps them all: eight walls side by side,
//! mode by mode.

use super::arithmetic::{Arithmetic, Eight};
use super::eight::{Oct, Octs, SIDE};
use crate::wall::WallModes;

/// One mode of eight walls (see [`crate::wall::Mode`]); a wall without that mode has zeros.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
struct OctMode {
    keep: Oct,
    inside: Oct,
    outside: Oct,
    state: Oct,
}

/// Modes of a list of walls. Walls should come in order of falling number of modes, so that few
/// places in a oct stay empty.
#[derive(Debug, Clone)]
pub struct Bank {
    walls: usize,
    step_s: f64,
    /// For each group of eight walls the index of its first mode, and one past the last.
    first: Vec<usize>,
    modes: Vec<OctMode>,
    /// Heat stored per unit of state, J/m2, by mode.
    stored: Vec<Oct>,
    /// Heat the walls give back at their inside faces in the next step, W/m2.
    pub(super) back_in: Octs,
    /// As `back_in`, outside.
    pub(super) back_out: Octs,
}

impl Bank {
    /// Lays out walls made for steps of `step_s`.
    pub fn new(walls: &[&WallModes], step_s: f64) -> Self {
        let octs = walls.len().div_ceil(SIDE);
        let mut bank = Self {
            walls: walls.len(),
            step_s,
            first: vec![0],
            modes: Vec::new(),
            stored: Vec::new(),
            back_in: Octs::new(octs, 0.0),
            back_out: Octs::new(octs, 0.0),
        };
        for group in walls.chunks(SIDE) {
            let most = group.iter().map(|w| w.modes.len()).max().unwrap_or(0);
            for k in 0..most {
                let mut oct = OctMode::default();
                let mut stored = [0.0; SIDE];
                for (i, m) in group.iter().enumerate() {
                    let Some(m) = m.modes.get(k) else { continue };
                    oct.keep[i] = m.keep;
                    oct.inside[i] = m.inside;
                    oct.outside[i] = m.outside;
                    stored[i] = m.stored;
                }
                bank.modes.push(oct);
                bank.stored.push(stored);
            }
            bank.first.push(bank.modes.len());
        }
        bank
    }

    /// Sets every wall as if its faces had stood at these temperatures for ever.
    pub fn settle(&mut self, walls: &[&WallModes], t_in_c: &[f64], t_out_c: &[f64]) {
        for (w, wall) in walls.iter().enumerate() {
            let (oct, i) = (w / SIDE, w % SIDE);
            let first = self.first[oct];
            (self.back_in[oct][i], self.back_out[oct][i]) = (0.0, 0.0);
            let states = wall.settled_states(t_in_c[w], t_out_c[w]);
            for (k, (state, mode)) in states.into_iter().zip(&wall.modes).enumerate() {
                self.modes[first + k].state[i] = state;
                self.back_in[oct][i] += self.step_s * mode.inside * state;
                self.back_out[oct][i] += self.step_s * mode.outside * state;
            }
        }
    }

    /// One step of the walls of an oct with these face temperatures.
    #[inline(always)]
    pub(super) fn step<S: Arithmetic>(
        &mut self,
        s: S,
        oct: usize,
        t_in_c: Eight<S>,
        t_out_c: Eight<S>,
    ) {
        let (mut sum_in, mut sum_out) = (s.all(0.0), s.all(0.0));
        for m in &mut self.modes[self.first[oct]..self.first[oct + 1]] {
            let (inside, outside) = (s.take(&m.inside), s.take(&m.outside));
            let state = (s.take(&m.keep) * s.take(&m.state))
                .plus(inside, t_in_c)
                .plus(outside, t_out_c);
            sum_in = sum_in.plus(inside, state);
            sum_out = sum_out.plus(outside, state);
            m.state = state.put();
        }
        self.back_in[oct] = (sum_in * self.step_s).put();
        self.back_out[oct] = (sum_out * self.step_s).put();
    }

    /// Heat stored in each wall, J/m2 relative to 0 C.
    pub fn stored_j_per_m2(&self) -> Vec<f64> {
        (0..self.walls)
            .map(|w| {
                let (oct, i) = (w / SIDE, w % SIDE);
                (self.first[oct]..self.first[oct + 1])
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
