//! The modes of many walls, laid out so that one pass steps them all.

use crate::wall::WallModes;

/// Modes of a list of walls, mode by mode: all first modes beside each other, then all second
/// modes. Walls must come in order of falling number of modes.
#[derive(Debug, Clone)]
pub struct Bank {
    walls: usize,
    /// Walls that have a k-th mode, for each k.
    counts: Vec<usize>,
    keep: Vec<f64>,
    from_in: Vec<f64>,
    from_out: Vec<f64>,
    to_in: Vec<f64>,
    to_out: Vec<f64>,
    stored: Vec<f64>,
    state: Vec<f64>,
    /// Heat the walls give back at their inside faces in the next step, W/m2.
    pub back_in: Vec<f64>,
    /// As `back_in`, outside.
    pub back_out: Vec<f64>,
}

impl Bank {
    /// Lays out walls that are sorted by falling number of modes.
    pub fn new(walls: &[&WallModes]) -> Self {
        let mut bank = Self {
            walls: walls.len(),
            counts: Vec::new(),
            keep: Vec::new(),
            from_in: Vec::new(),
            from_out: Vec::new(),
            to_in: Vec::new(),
            to_out: Vec::new(),
            stored: Vec::new(),
            state: Vec::new(),
            back_in: vec![0.0; walls.len()],
            back_out: vec![0.0; walls.len()],
        };
        let most = walls.iter().map(|w| w.modes.len()).max().unwrap_or(0);
        for k in 0..most {
            let before = bank.keep.len();
            for m in walls.iter().filter_map(|w| w.modes.get(k)) {
                bank.keep.push(m.keep);
                bank.from_in.push(m.from_in);
                bank.from_out.push(m.from_out);
                bank.to_in.push(m.to_in);
                bank.to_out.push(m.to_out);
                bank.stored.push(m.stored);
            }
            bank.counts.push(bank.keep.len() - before);
        }
        bank.state = vec![0.0; bank.keep.len()];
        bank
    }

    /// Sets every wall as if its faces had stood at these temperatures for ever.
    pub fn settle(&mut self, walls: &[&WallModes], t_in_c: &[f64], t_out_c: &[f64]) {
        let mut at = 0;
        for (k, count) in self.counts.iter().enumerate() {
            for w in 0..*count {
                let states = walls[w].settled_states(t_in_c[w], t_out_c[w]);
                self.state[at + w] = states[k];
            }
            at += count;
        }
        self.give_back();
    }

    /// One step with these face temperatures.
    pub fn step(&mut self, t_in_c: &[f64], t_out_c: &[f64]) {
        self.back_in.fill(0.0);
        self.back_out.fill(0.0);
        let mut at = 0;
        for &count in &self.counts {
            let r = at..at + count;
            let own = self.state[r.clone()]
                .iter_mut()
                .zip(&self.keep[r.clone()])
                .zip(&self.from_in[r.clone()])
                .zip(&self.from_out[r.clone()])
                .zip(t_in_c)
                .zip(t_out_c);
            let give = self.to_in[r.clone()]
                .iter()
                .zip(&self.to_out[r])
                .zip(self.back_in.iter_mut())
                .zip(self.back_out.iter_mut());
            for (
                (((((w, keep), from_in), from_out), t_in), t_out),
                (((to_in, to_out), b_in), b_out),
            ) in own.zip(give)
            {
                *w = keep * *w + from_in * t_in + from_out * t_out;
                *b_in += to_in * *w;
                *b_out += to_out * *w;
            }
            at += count;
        }
    }

    fn give_back(&mut self) {
        self.back_in.fill(0.0);
        self.back_out.fill(0.0);
        let mut at = 0;
        for &count in &self.counts {
            for w in 0..count {
                self.back_in[w] += self.to_in[at + w] * self.state[at + w];
                self.back_out[w] += self.to_out[at + w] * self.state[at + w];
            }
            at += count;
        }
    }

    /// Heat stored in each wall, J/m2 relative to 0 C.
    pub fn stored_j_per_m2(&self) -> Vec<f64> {
        let mut sum = vec![0.0; self.walls];
        let mut at = 0;
        for &count in &self.counts {
            for w in 0..count {
                sum[w] += self.stored[at + w] * self.state[at + w];
            }
            at += count;
        }
        sum
    }

    /// Number of modes in all.
    pub fn modes(&self) -> usize {
        self.state.len()
    }
}
