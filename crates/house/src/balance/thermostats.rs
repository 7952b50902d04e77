//! Finding how much of what may heat or cool is asked, so that every zone comes to its setting or
//! has all there is.

use nalgebra::DMatrix;

use super::quad::{Quad, SIDE, Table, clear, copy, each};
use super::supply::Supply;
use super::terms::State;

/// Most rounds of looking for who holds and who is at the most.
const MOST_ROUNDS: usize = 40;
/// So many sets of holding zones are kept: by day and by night, with and without fans, the same
/// few come back.
const KEPT: usize = 8;

/// The terms of four zones.
#[derive(Debug, Clone, Copy, Default)]
struct TermsQuad {
    /// Heat of those that do not hold, W.
    given_w: Quad,
    /// Setting of those that do, C.
    to_c: Quad,
    least_w: Quad,
    most_w: Quad,
    least_c: Quad,
    most_c: Quad,
}

/// Zones that hold, and what moves with them: their heat and everybody's air are two tables times
/// what they lack.
#[derive(Debug, Clone, Default)]
struct Holders {
    zones: Vec<usize>,
    /// The matrix it was made from; 0 is none.
    version: usize,
    heat_of_gap: Table,
    air_of_gap: Table,
}

/// Finds how much each zone's supply gives, remembering the last answer as the first guess.
#[derive(Debug, Clone)]
pub struct Thermostats {
    state: Vec<State>,
    terms: Vec<TermsQuad>,
    /// Some zone that does not hold is given heat.
    given: bool,
    /// The states have moved since the holders were looked up.
    moved: bool,
    kept: Vec<Holders>,
    /// Which of them hold now, and which is to be thrown out next.
    now: usize,
    oldest: usize,
    gap: Vec<f64>,
    held_w: Vec<Quad>,
    /// Heat into each zone's air, W (cooling below zero).
    heat: Vec<Quad>,
    /// Zone air with that heat, C.
    air: Vec<Quad>,
}

impl Thermostats {
    /// For this many zones.
    pub fn new(zones: usize) -> Self {
        let none = vec![[0.0; SIDE]; zones.div_ceil(SIDE)];
        Self {
            state: vec![State::Off; zones],
            terms: vec![TermsQuad::default(); none.len()],
            given: false,
            moved: true,
            kept: vec![Holders::default(); KEPT],
            now: 0,
            oldest: 0,
            gap: Vec::with_capacity(zones),
            held_w: Vec::with_capacity(none.len()),
            heat: none.clone(),
            air: none,
        }
    }

    /// Zone air with the heat found, C.
    #[inline(always)]
    pub fn air_c(&self) -> &[f64] {
        &self.air.as_flattened()[..self.state.len()]
    }

    /// Heat into each zone's air, W (cooling below zero).
    #[inline(always)]
    pub fn heat_w(&self) -> &[f64] {
        &self.heat.as_flattened()[..self.state.len()]
    }

    /// Air and heat four by four.
    #[inline(always)]
    pub(super) fn quads(&self) -> (&[Quad], &[Quad]) {
        (&self.air, &self.heat)
    }

    /// Takes in what may heat or cool from now on.
    #[inline(always)]
    pub(super) fn offer(&mut self, supply: &[Supply]) {
        self.given = false;
        for (z, (state, s)) in self.state.iter().zip(supply).enumerate() {
            let terms = state.terms(s);
            let (quad, i) = (&mut self.terms[z / SIDE], z % SIDE);
            let given = if state.holds() { 0.0 } else { terms.sets };
            self.given |= given != 0.0;
            quad.given_w[i] = given;
            quad.to_c[i] = terms.sets;
            [quad.least_w[i], quad.most_w[i]] = terms.heat_w;
            [quad.least_c[i], quad.most_c[i]] = terms.air_c;
        }
    }

    /// Solves for the heat of every zone with the supply last offered. `free` is the air without
    /// any supply, `response` the table of kelvin in one zone per watt in another; it may change
    /// only together with `version` (from 1). Returns false if the rounds ran out (the last state
    /// is kept).
    #[inline(always)]
    pub(super) fn solve(
        &mut self,
        free: &[Quad],
        response: &Table,
        version: usize,
        supply: &[Supply],
    ) -> bool {
        for _ in 0..MOST_ROUNDS {
            if self.moved || self.kept[self.now].version != version {
                self.look_who_holds(response, version);
                self.moved = false;
            }
            self.spread(free, response);
            if self.stands() {
                return true;
            }
            self.mend_states(supply);
        }
        false
    }

    /// Heat with the present states, and the air that follows.
    #[inline(always)]
    fn spread(&mut self, free: &[Quad], response: &Table) {
        let zones = self.state.len();
        for (heat, terms) in self.heat.iter_mut().zip(&self.terms) {
            *heat = terms.given_w;
        }
        copy(&mut self.air, free);
        if self.given {
            response.add_product(0, &self.heat.as_flattened()[..zones], &mut self.air);
        }
        let hold = &self.kept[self.now];
        self.gap.clear();
        for z in &hold.zones {
            let (quad, i) = (z / SIDE, z % SIDE);
            self.gap.push(self.terms[quad].to_c[i] - self.air[quad][i]);
        }
        clear(&mut self.held_w);
        hold.heat_of_gap.add_product(0, &self.gap, &mut self.held_w);
        hold.air_of_gap.add_product(0, &self.gap, &mut self.air);
        let heat = self.heat.as_flattened_mut();
        for (z, q) in hold.zones.iter().zip(self.held_w.as_flattened()) {
            heat[*z] = *q;
        }
    }

    /// Whether every zone's heat and air agree with its state.
    #[inline(always)]
    fn stands(&self) -> bool {
        let mut off = [0.0; SIDE];
        for ((t, q), air) in self.terms.iter().zip(&self.heat).zip(&self.air) {
            let out = each(|i| {
                // Said this way round, what is not a number does not stand.
                let heat = q[i] >= t.least_w[i] && q[i] <= t.most_w[i];
                let air = air[i] >= t.least_c[i] && air[i] <= t.most_c[i];
                if heat && air { 0.0 } else { 1.0 }
            });
            off = each(|i| off[i] + out[i]);
        }
        off == [0.0; SIDE]
    }

    /// Finds the tables for the zones that hold, or makes them.
    #[inline(never)]
    fn look_who_holds(&mut self, response: &Table, version: usize) {
        let who = || {
            let all = self.state.iter().enumerate();
            all.filter(|(_, s)| s.holds()).map(|(z, _)| z)
        };
        let same = |k: &Holders| k.version == version && k.zones.iter().copied().eq(who());
        let found = self.kept.iter().position(same);
        self.now = found.unwrap_or(self.oldest);
        let zones: Vec<usize> = who().collect();
        self.held_w.resize(zones.len().div_ceil(SIDE), [0.0; SIDE]);
        if found.is_none() {
            self.oldest = (self.oldest + 1) % KEPT;
            self.kept[self.now].invert(zones, response, version, self.air.len());
        }
    }

    /// Moves every zone whose state contradicts its heat or air.
    #[inline(never)]
    fn mend_states(&mut self, supply: &[Supply]) {
        let (heat, air) = (self.heat.as_flattened(), self.air.as_flattened());
        for (z, state) in self.state.iter_mut().enumerate() {
            *state = state.next(&supply[z], heat[z], air[z]);
        }
        self.moved = true;
        self.offer(supply);
    }

    /// The part of a zone's heat that the backup gives, W.
    pub fn backup_w(&self, zone: usize, supply: &Supply) -> f64 {
        match self.state[zone] {
            State::BackupHold | State::BackupFull => {
                (self.heat_w()[zone] - supply.heat_most_w.max(0.0)).max(0.0)
            }
            _ => 0.0,
        }
    }
}

impl Holders {
    /// Inverts the part of the matrix that belongs to these zones.
    fn invert(&mut self, zones: Vec<usize>, response: &Table, version: usize, quads: usize) {
        let n = zones.len();
        let m = DMatrix::from_fn(n, n, |i, j| response.at(zones[i], zones[j]));
        let inverse = m.clone().cholesky().map_or_else(
            || m.try_inverse().unwrap_or_else(|| DMatrix::zeros(n, n)),
            |c| c.inverse(),
        );
        let heat = |i: usize, j: usize| if i < n { inverse[(i, j)] } else { 0.0 };
        self.heat_of_gap.fill(n.div_ceil(SIDE), n, heat);
        self.air_of_gap.fill(quads, n, |z, j| {
            (0..n)
                .map(|k| response.at(z, zones[k]) * inverse[(k, j)])
                .sum()
        });
        (self.zones, self.version) = (zones, version);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two zones; each watt warms its own by 0.01 K and the other by 0.004 K.
    fn two() -> Table {
        Table::new(1, 2, |i, j| match (i, j) {
            (0, 0) | (1, 1) => 0.01,
            (0, 1) | (1, 0) => 0.004,
            _ => 0.0,
        })
    }

    fn solve(t: &mut Thermostats, free_c: [f64; 2], supply: &[Supply]) {
        let free = [[free_c[0], free_c[1], 0.0, 0.0]];
        t.offer(supply);
        assert!(t.solve(&free, &two(), 1, supply));
    }

    #[test]
    fn holds_both_settings() {
        let mut t = Thermostats::new(2);
        let s = [
            Supply::ideal(Some(20.0), None),
            Supply::ideal(Some(18.0), None),
        ];
        solve(&mut t, [0.0, 0.0], &s);
        assert!((t.air_c()[0] - 20.0).abs() < 1e-9 && (t.air_c()[1] - 18.0).abs() < 1e-9);
        assert!(t.heat_w()[0] > 0.0 && t.heat_w()[1] > 0.0);
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
        solve(&mut t, [0.0, 0.0], &[first, Supply::NONE]);
        assert!((t.air_c()[0] - 17.0).abs() < 1e-9);
        assert!((t.backup_w(0, &first) - 700.0).abs() < 1e-6);
        assert!((t.air_c()[1] - 0.004 * 1700.0).abs() < 1e-9);
        // Milder: the first stage alone, below its setting but above the backup's.
        solve(&mut t, [9.0, 9.0], &[first, Supply::NONE]);
        assert!((t.heat_w()[0] - 1000.0).abs() < 1e-9 && t.backup_w(0, &first) == 0.0);
        assert!((t.air_c()[0] - 19.0).abs() < 1e-9);
    }

    #[test]
    fn cools_and_lets_be() {
        let mut t = Thermostats::new(2);
        let s = Supply {
            cool_most_w: 300.0,
            ..Supply::ideal(Some(20.0), Some(25.0))
        };
        solve(&mut t, [30.0, 22.0], &[s, Supply::NONE]);
        assert!((t.heat_w()[0] + 300.0).abs() < 1e-9 && t.heat_w()[1] == 0.0);
        solve(&mut t, [22.0, 22.0], &[s, Supply::NONE]);
        assert_eq!(t.heat_w(), [0.0, 0.0]);
    }

    /// A setting that ends takes its zone out of the hold; nothing infinite is left behind.
    #[test]
    fn lets_go_when_nothing_is_offered() {
        let mut t = Thermostats::new(2);
        let s = Supply::ideal(Some(20.0), None);
        solve(&mut t, [0.0, 0.0], &[s, s]);
        solve(&mut t, [3.0, 4.0], &[Supply::NONE, s]);
        assert!(t.heat_w()[0] == 0.0 && (t.air_c()[1] - 20.0).abs() < 1e-9);
        solve(&mut t, [3.0, 4.0], &[Supply::NONE; 2]);
        assert_eq!((t.heat_w(), t.air_c()), (&[0.0, 0.0][..], &[3.0, 4.0][..]));
    }
}
