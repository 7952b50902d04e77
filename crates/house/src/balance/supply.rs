//! What may heat or cool each zone in an hour, and finding how much of it is asked.

use nalgebra::DMatrix;

/// What may heat or cool one zone in one hour. Heat comes in two stages: the first up to its
/// setting, the backup only when the first is at its most and the zone is below the backup's own
/// setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supply {
    /// Thermostat of the first stage, C; `-inf` is off.
    pub heat_to_c: f64,
    /// Most the first stage can give, W.
    pub heat_most_w: f64,
    /// Thermostat of the backup, C; not above `heat_to_c` where the first stage has any power.
    pub backup_to_c: f64,
    /// Most the backup can give, W.
    pub backup_most_w: f64,
    /// Cooling thermostat, C; `inf` is off. Above both heating thermostats.
    pub cool_to_c: f64,
    /// Most the cooling can take out (sensible), W.
    pub cool_most_w: f64,
}

impl Supply {
    /// Nothing.
    pub const NONE: Self = Self {
        heat_to_c: f64::NEG_INFINITY,
        heat_most_w: 0.0,
        backup_to_c: f64::NEG_INFINITY,
        backup_most_w: 0.0,
        cool_to_c: f64::INFINITY,
        cool_most_w: 0.0,
    };

    /// As much as it takes, up to `heat_to_c`, down to `cool_to_c`.
    pub fn ideal(heat_to_c: Option<f64>, cool_to_c: Option<f64>) -> Self {
        Self {
            heat_to_c: heat_to_c.unwrap_or(f64::NEG_INFINITY),
            heat_most_w: f64::INFINITY,
            cool_to_c: cool_to_c.unwrap_or(f64::INFINITY),
            cool_most_w: f64::INFINITY,
            ..Self::NONE
        }
    }
}

/// How a zone stands with its supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Off,
    Hold,
    Full,
    BackupHold,
    BackupFull,
    CoolHold,
    CoolFull,
}

/// Tolerance on a thermostat, K.
const EPS_K: f64 = 1e-9;
/// Most rounds of looking for who holds and who is at the most.
const MOST_ROUNDS: usize = 40;

/// Finds how much each zone's supply gives, remembering the last answer as the first guess.
#[derive(Debug, Clone)]
pub struct Thermostats {
    state: Vec<State>,
    hold: Vec<usize>,
    /// Inverse for the zones that held last, with the version of the matrix it belongs to: who
    /// holds seldom changes from hour to hour.
    inverse: Vec<f64>,
    inverted: Vec<usize>,
    inverted_version: usize,
    gap: Vec<f64>,
    /// Heat into each zone's air, W (cooling below zero).
    pub heat_w: Vec<f64>,
    /// Zone air with that heat, C.
    pub air_c: Vec<f64>,
}

impl Thermostats {
    /// For this many zones.
    pub fn new(zones: usize) -> Self {
        Self {
            state: vec![State::Off; zones],
            hold: Vec::with_capacity(zones),
            inverse: Vec::with_capacity(zones * zones),
            inverted: Vec::with_capacity(zones),
            inverted_version: 0,
            gap: Vec::with_capacity(zones),
            heat_w: vec![0.0; zones],
            air_c: vec![0.0; zones],
        }
    }

    /// Solves for the heat of every zone. `free_c` is the air without any supply, `response` the
    /// matrix of kelvin per watt, `response[i * stride + j]` being zone i by heat in zone j; it may
    /// change only together with `version` (from 1). Returns false if the rounds ran out (the
    /// last state is kept).
    pub fn solve(
        &mut self,
        free_c: &[f64],
        response: &[f64],
        stride: usize,
        version: usize,
        supply: &[Supply],
    ) -> bool {
        for _ in 0..MOST_ROUNDS {
            self.spread(free_c, response, stride, version, supply);
            if !self.mend_states(supply) {
                return true;
            }
        }
        false
    }

    /// Heat with the present states, and the air that follows.
    fn spread(
        &mut self,
        free_c: &[f64],
        response: &[f64],
        stride: usize,
        version: usize,
        supply: &[Supply],
    ) {
        let zones = self.state.len();
        self.hold.clear();
        let mut fixed = false;
        for (z, (s, q)) in supply.iter().zip(&mut self.heat_w).enumerate() {
            *q = match self.state[z] {
                State::Off => 0.0,
                State::Full => s.heat_most_w,
                State::BackupFull => s.heat_most_w + s.backup_most_w,
                State::CoolFull => -s.cool_most_w,
                State::Hold | State::BackupHold | State::CoolHold => {
                    self.hold.push(z);
                    0.0
                }
            };
            fixed |= *q != 0.0;
        }
        self.air_c.copy_from_slice(free_c);
        if fixed {
            add_product(response, stride, &self.heat_w, &mut self.air_c);
        }
        let n = self.hold.len();
        if n == 0 {
            return;
        }
        if self.inverted_version != version || self.inverted != self.hold {
            self.invert(response, stride);
            self.inverted_version = version;
        }
        self.gap.clear();
        for &z in &self.hold {
            let s = &supply[z];
            let to = match self.state[z] {
                State::BackupHold => s.backup_to_c,
                State::CoolHold => s.cool_to_c,
                _ => s.heat_to_c,
            };
            self.gap.push(to - self.air_c[z]);
        }
        for (&z, row) in self.hold.iter().zip(self.inverse.chunks_exact(n)) {
            self.heat_w[z] = row.iter().zip(&self.gap).map(|(r, g)| r * g).sum();
        }
        for &z in &self.hold {
            let (q, column) = (self.heat_w[z], &response[z * stride..z * stride + zones]);
            for (air, r) in self.air_c.iter_mut().zip(column) {
                *air += r * q;
            }
        }
    }

    /// Inverse of the matrix of the holding zones.
    fn invert(&mut self, response: &[f64], stride: usize) {
        let n = self.hold.len();
        let m = DMatrix::from_fn(n, n, |i, j| response[self.hold[i] * stride + self.hold[j]]);
        let inverse = m.clone().cholesky().map_or_else(
            || m.try_inverse().unwrap_or_else(|| DMatrix::zeros(n, n)),
            |c| c.inverse(),
        );
        self.inverse.clear();
        self.inverse.extend_from_slice(inverse.as_slice());
        self.inverted.clone_from(&self.hold);
    }

    /// Moves every zone whose state contradicts its heat or air; true if any moved.
    fn mend_states(&mut self, supply: &[Supply]) -> bool {
        let mut moved = false;
        for z in 0..self.state.len() {
            let (s, q, air) = (&supply[z], self.heat_w[z], self.air_c[z]);
            let heats = s.heat_most_w > 0.0;
            let backs = s.backup_most_w > 0.0;
            let full_heat = if heats { s.heat_most_w } else { 0.0 };
            let next = match self.state[z] {
                State::Off if heats && air < s.heat_to_c - EPS_K => State::Hold,
                State::Off if backs && air < s.backup_to_c - EPS_K => State::BackupHold,
                State::Off if s.cool_most_w > 0.0 && air > s.cool_to_c + EPS_K => State::CoolHold,
                State::Hold if !heats || q < 0.0 || !s.heat_to_c.is_finite() => State::Off,
                State::Hold if q > s.heat_most_w => State::Full,
                State::Full if !heats || air > s.heat_to_c + EPS_K => State::Hold,
                State::Full if backs && air < s.backup_to_c - EPS_K => State::BackupHold,
                State::BackupHold if !backs || q < full_heat || !s.backup_to_c.is_finite() => {
                    if heats {
                        State::Full
                    } else {
                        State::Off
                    }
                }
                State::BackupHold if q > full_heat + s.backup_most_w => State::BackupFull,
                State::BackupFull if !backs || air > s.backup_to_c + EPS_K => State::BackupHold,
                State::CoolHold if q > 0.0 || !s.cool_to_c.is_finite() => State::Off,
                State::CoolHold if -q > s.cool_most_w => State::CoolFull,
                State::CoolFull if s.cool_most_w <= 0.0 || air < s.cool_to_c - EPS_K => {
                    State::CoolHold
                }
                stays => stays,
            };
            if next != self.state[z] {
                self.state[z] = next;
                moved = true;
            }
        }
        moved
    }

    /// The part of a zone's heat that the backup gives, W.
    pub fn backup_w(&self, zone: usize, supply: &Supply) -> f64 {
        match self.state[zone] {
            State::BackupHold | State::BackupFull => {
                (self.heat_w[zone] - supply.heat_most_w.max(0.0)).max(0.0)
            }
            _ => 0.0,
        }
    }
}

/// Adds a symmetric matrix times a vector: rows are columns.
pub(super) fn add_product(matrix: &[f64], stride: usize, by: &[f64], into: &mut [f64]) {
    for (column, x) in matrix.chunks_exact(stride).zip(by) {
        if *x != 0.0 {
            for (y, m) in into.iter_mut().zip(column) {
                *y += m * x;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Two zones; each watt warms its own by 0.01 K and the other by 0.004 K.
    const R: [f64; 4] = [0.01, 0.004, 0.004, 0.01];

    #[test]
    fn holds_both_settings() {
        let mut t = Thermostats::new(2);
        let s = [
            Supply::ideal(Some(20.0), None),
            Supply::ideal(Some(18.0), None),
        ];
        assert!(t.solve(&[0.0, 0.0], &R, 2, 1, &s));
        assert!((t.air_c[0] - 20.0).abs() < 1e-9 && (t.air_c[1] - 18.0).abs() < 1e-9);
        assert!(t.heat_w[0] > 0.0 && t.heat_w[1] > 0.0);
    }

    #[test]
    fn spills_to_backup_below_its_setting() {
        let mut t = Thermostats::new(2);
        let first = Supply {
            heat_most_w: 1000.0,
            backup_to_c: 17.0,
            backup_most_w: 5000.0,
            ..Supply::ideal(Some(20.0), None)
        };
        assert!(t.solve(&[0.0, 0.0], &R, 2, 1, &[first, Supply::NONE]));
        assert!((t.air_c[0] - 17.0).abs() < 1e-9);
        assert!((t.backup_w(0, &first) - 700.0).abs() < 1e-6);
        assert!((t.air_c[1] - 0.004 * 1700.0).abs() < 1e-9);
        // Milder: the first stage alone, below its setting but above the backup's.
        assert!(t.solve(&[9.0, 9.0], &R, 2, 1, &[first, Supply::NONE]));
        assert!((t.heat_w[0] - 1000.0).abs() < 1e-9 && t.backup_w(0, &first) == 0.0);
        assert!((t.air_c[0] - 19.0).abs() < 1e-9);
    }

    #[test]
    fn cools_and_lets_be() {
        let mut t = Thermostats::new(2);
        let s = Supply {
            cool_most_w: 300.0,
            ..Supply::ideal(Some(20.0), Some(25.0))
        };
        assert!(t.solve(&[30.0, 22.0], &R, 2, 1, &[s, Supply::NONE]));
        assert!((t.heat_w[0] + 300.0).abs() < 1e-9 && t.heat_w[1] == 0.0);
        assert!(t.solve(&[22.0, 22.0], &R, 2, 1, &[s, Supply::NONE]));
        assert_eq!(t.heat_w, vec![0.0, 0.0]);
    }
}
