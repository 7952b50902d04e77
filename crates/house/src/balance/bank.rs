//! The modes of many walls, laid out so that one pass steps them all: four walls side by side,
//! mode by mode.

use crate::wall::WallModes;

/// Walls side by side.
const SIDE: usize = 4;
type Quad = [f64; SIDE];

/// One mode of four walls; a wall without that mode has zeros.
#[derive(Debug, Clone, Copy, Default)]
struct QuadMode {
    keep: Quad,
    from_in: Quad,
    from_out: Quad,
    to_in: Quad,
    to_out: Quad,
    stored: Quad,
    state: Quad,
}

/// Modes of a list of walls. Walls should come in order of falling number of modes, so that few
/// places in a quad stay empty.
#[derive(Debug, Clone)]
pub struct Bank {
    walls: usize,
    /// For each group of four walls the index of its first mode, and one past the last.
    first: Vec<usize>,
    modes: Vec<QuadMode>,
    /// Heat the walls give back at their inside faces in the next step, W/m2.
    pub back_in: Vec<f64>,
    /// As `back_in`, outside.
    pub back_out: Vec<f64>,
}

impl Bank {
    /// Lays out walls.
    pub fn new(walls: &[&WallModes]) -> Self {
        let mut bank = Self {
            walls: walls.len(),
            first: vec![0],
            modes: Vec::new(),
            back_in: vec![0.0; walls.len()],
            back_out: vec![0.0; walls.len()],
        };
        for group in walls.chunks(SIDE) {
            let most = group.iter().map(|w| w.modes.len()).max().unwrap_or(0);
            for k in 0..most {
                let mut quad = QuadMode::default();
                for (i, m) in group.iter().enumerate() {
                    let Some(m) = m.modes.get(k) else { continue };
                    quad.keep[i] = m.keep;
                    quad.from_in[i] = m.from_in;
                    quad.from_out[i] = m.from_out;
                    quad.to_in[i] = m.to_in;
                    quad.to_out[i] = m.to_out;
                    quad.stored[i] = m.stored;
                }
                bank.modes.push(quad);
            }
            bank.first.push(bank.modes.len());
        }
        bank
    }

    /// Sets every wall as if its faces had stood at these temperatures for ever.
    pub fn settle(&mut self, walls: &[&WallModes], t_in_c: &[f64], t_out_c: &[f64]) {
        for (w, wall) in walls.iter().enumerate() {
            let first = self.first[w / SIDE];
            for (k, state) in wall
                .settled_states(t_in_c[w], t_out_c[w])
                .into_iter()
                .enumerate()
            {
                self.modes[first + k].state[w % SIDE] = state;
            }
        }
        self.each(t_in_c, t_out_c, |_, _, _| {});
    }

    /// One step with these face temperatures.
    pub fn step(&mut self, t_in_c: &[f64], t_out_c: &[f64]) {
        self.each(t_in_c, t_out_c, |m, t_in, t_out| {
            for i in 0..SIDE {
                m.state[i] =
                    m.keep[i] * m.state[i] + m.from_in[i] * t_in[i] + m.from_out[i] * t_out[i];
            }
        });
    }

    /// Runs over all modes, changing their states, and gathers what they give back.
    #[inline(always)]
    fn each(
        &mut self,
        t_in_c: &[f64],
        t_out_c: &[f64],
        change: impl Fn(&mut QuadMode, &Quad, &Quad),
    ) {
        let groups = self
            .back_in
            .chunks_mut(SIDE)
            .zip(self.back_out.chunks_mut(SIDE));
        for (g, (back_in, back_out)) in groups.enumerate() {
            let at = g * SIDE;
            let count = back_in.len();
            let (mut t_in, mut t_out) = ([0.0; SIDE], [0.0; SIDE]);
            t_in[..count].copy_from_slice(&t_in_c[at..at + count]);
            t_out[..count].copy_from_slice(&t_out_c[at..at + count]);
            let (mut sum_in, mut sum_out) = ([0.0; SIDE], [0.0; SIDE]);
            for m in &mut self.modes[self.first[g]..self.first[g + 1]] {
                change(m, &t_in, &t_out);
                for i in 0..SIDE {
                    sum_in[i] += m.to_in[i] * m.state[i];
                    sum_out[i] += m.to_out[i] * m.state[i];
                }
            }
            back_in.copy_from_slice(&sum_in[..count]);
            back_out.copy_from_slice(&sum_out[..count]);
        }
    }

    /// Heat stored in each wall, J/m2 relative to 0 C.
    pub fn stored_j_per_m2(&self) -> Vec<f64> {
        (0..self.walls)
            .map(|w| {
                let group = self.first[w / SIDE]..self.first[w / SIDE + 1];
                self.modes[group]
                    .iter()
                    .map(|m| m.stored[w % SIDE] * m.state[w % SIDE])
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
