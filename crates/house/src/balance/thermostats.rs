//! Finding how much of what may heat or cool is asked, so that every zone comes to its setting or
//! has all there is.

use nalgebra::DMatrix;

use super::arithmetic::Arithmetic;
use super::eight::{Oct, SIDE, Table, copy};
use super::supply::Supply;
use super::terms::State;

/// Most rounds of looking for who holds and who is at the most.
const MOST_ROUNDS: usize = 40;
/// So many sets of holding zones are kept: by day and by night, with and without fans, the same
/// few come back.
const KEPT: usize = 24;

/// The terms of eight zones.
#[derive(Debug, Clone, Copy, Default)]
#[repr(C, align(64))]
struct TermsOct {
    /// Heat of those that do not hold, W.
    given_w: Oct,
    /// 1 for those that do, and their setting, C.
    holds: Oct,
    to_c: Oct,
    least_w: Oct,
    most_w: Oct,
    least_c: Oct,
    most_c: Oct,
}

/// Zones that hold, and what moves with them: their heat and everybody's air are two tables times
/// what they lack. Who does not hold has nothing but zeros there, so that nobody need be picked.
#[derive(Debug, Clone, Default)]
struct Holders {
    zones: Vec<usize>,
    mark: u64,
    /// The matrix it was made from; 0 is none.
    version: usize,
    heat_of_gap: Table,
    air_of_gap: Table,
}

/// Finds how much each zone's supply gives, remembering the last answer as the first guess.
#[derive(Debug, Clone)]
pub struct Thermostats {
    state: Vec<State>,
    terms: Vec<TermsOct>,
    /// Some zone that does not hold is given heat.
    given: bool,
    /// The states have moved since the holders were looked up.
    moved: bool,
    kept: Vec<Holders>,
    /// Which of them hold now, and which is to be thrown out next.
    now: usize,
    oldest: usize,
    /// What the zones that hold lack, K.
    gap: Vec<Oct>,
    /// What was offered last.
    offered: Vec<Supply>,
    /// Heat into each zone's air, W (cooling below zero).
    heat: Vec<Oct>,
    /// Zone air with that heat, C.
    air: Vec<Oct>,
}

impl Thermostats {
    /// For this many zones.
    pub fn new(zones: usize) -> Self {
        let none = vec![[0.0; SIDE]; zones.div_ceil(SIDE)];
        Self {
            state: vec![State::Off; zones],
            terms: vec![TermsOct::default(); none.len()],
            given: false,
            moved: true,
            kept: vec![Holders::default(); KEPT],
            now: 0,
            oldest: 0,
            gap: none.clone(),
            offered: Vec::new(),
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

    /// Air and heat eight by eight.
    #[inline(always)]
    pub(super) fn octs(&self) -> (&[Oct], &[Oct]) {
        (&self.air, &self.heat)
    }

    /// Takes in what may heat or cool from now on.
    #[inline(always)]
    pub(super) fn offer(&mut self, supply: &[Supply]) {
        if self.offered.len() != supply.len() {
            self.offered = vec![Supply::NONE; supply.len()];
            self.set_terms(supply);
        }
        let mut new = false;
        for (z, s) in supply.iter().enumerate() {
            if self.offered[z] != *s {
                self.offered[z] = *s;
                self.set_terms_of(z, s);
                new = true;
            }
        }
        if new {
            self.look_who_is_given();
        }
    }

    /// Sets the terms of all zones.
    fn set_terms(&mut self, supply: &[Supply]) {
        for (z, s) in supply.iter().enumerate() {
            self.set_terms_of(z, s);
        }
        self.look_who_is_given();
    }

    #[inline(always)]
    fn set_terms_of(&mut self, z: usize, s: &Supply) {
        let Some(state) = self.state.get(z) else {
            return;
        };
        let (terms, holds) = (state.terms(s), state.holds());
        let (oct, i) = (&mut self.terms[z / SIDE], z % SIDE);
        oct.given_w[i] = if holds { 0.0 } else { terms.sets };
        oct.holds[i] = f64::from(u8::from(holds));
        oct.to_c[i] = terms.sets;
        [oct.least_w[i], oct.most_w[i]] = terms.heat_w;
        [oct.least_c[i], oct.most_c[i]] = terms.air_c;
    }

    fn look_who_is_given(&mut self) {
        let given = |q: &TermsOct| q.given_w != [0.0; SIDE];
        self.given = self.terms.iter().any(given);
    }

    /// Solves for the heat of every zone with the supply last offered. `free` is the air without
    /// any supply, `response` the table of kelvin in one zone per watt in another; it may change
    /// only together with `version` (from 1). Returns false if the rounds ran out (the last state
    /// is kept). `B` is the number of octs of zones, or 0 where it is not known beforehand.
    #[inline(always)]
    pub(super) fn solve<S: Arithmetic, const B: usize>(
        &mut self,
        s: S,
        free: &[Oct],
        response: &Table,
        version: usize,
        supply: &[Supply],
    ) -> bool {
        for _ in 0..MOST_ROUNDS {
            if self.moved || self.kept[self.now].version != version {
                self.look_who_holds(response, version);
                self.moved = false;
            }
            self.spread::<S, B>(s, free, response);
            if self.stands::<S, B>(s) {
                return true;
            }
            self.mend_states(supply);
        }
        false
    }

    /// Heat with the present states, and the air that follows.
    #[inline(always)]
    fn spread<S: Arithmetic, const B: usize>(&mut self, s: S, free: &[Oct], response: &Table) {
        let (zones, octs) = (self.state.len(), if B > 0 { B } else { self.air.len() });
        let (heat, air) = (&mut self.heat[..octs], &mut self.air[..octs]);
        let (gap, terms) = (&mut self.gap[..octs], &self.terms[..octs]);
        for (heat, terms) in heat.iter_mut().zip(terms) {
            *heat = terms.given_w;
        }
        copy(air, &free[..octs]);
        if self.given {
            response.add_product::<S, B>(s, &heat.as_flattened()[..zones], air);
        }
        let none = s.all(0.0);
        for ((gap, terms), air) in gap.iter_mut().zip(terms).zip(&*air) {
            let lacks = s.take(&terms.to_c) - s.take(air);
            *gap = none.below(s.take(&terms.holds), lacks, none).put();
        }
        let (hold, gap) = (&self.kept[self.now], &gap.as_flattened()[..zones]);
        hold.heat_of_gap.add_product::<S, B>(s, gap, heat);
        hold.air_of_gap.add_product::<S, B>(s, gap, air);
    }

    /// Whether every zone's heat and air agree with its state.
    #[inline(always)]
    fn stands<S: Arithmetic, const B: usize>(&self, s: S) -> bool {
        let octs = if B > 0 { B } else { self.air.len() };
        let mut off = s.all(0.0);
        let lists = self.terms[..octs].iter().zip(&self.heat[..octs]);
        for ((t, q), air) in lists.zip(&self.air[..octs]) {
            let heat = s.take(q).outside(s.take(&t.least_w), s.take(&t.most_w));
            let air = s.take(air).outside(s.take(&t.least_c), s.take(&t.most_c));
            off = off + heat + air;
        }
        off.sum() == 0.0
    }

    /// Finds the tables for the zones that hold, or makes them.
    #[inline(never)]
    fn look_who_holds(&mut self, response: &Table, version: usize) {
        let who = || {
            let all = self.state.iter().enumerate();
            all.filter(|(_, s)| s.holds()).map(|(z, _)| z)
        };
        // Said in one number, most sets differ at once.
        let mark = who().fold(0_u64, |mark, z| mark ^ 1 << (z % 64));
        let found = self.kept.iter().position(|k| {
            k.version == version && k.mark == mark && k.zones.iter().copied().eq(who())
        });
        self.now = found.unwrap_or(self.oldest);
        if found.is_none() {
            let zones: Vec<usize> = who().collect();
            self.oldest = (self.oldest + 1) % KEPT;
            let kept = &mut self.kept[self.now];
            kept.mark = mark;
            kept.invert(zones, response, version, self.state.len());
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
        self.set_terms(supply);
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
    /// Inverts the part of the matrix that belongs to these of so many zones.
    fn invert(&mut self, held: Vec<usize>, response: &Table, version: usize, zones: usize) {
        let n = held.len();
        let m = DMatrix::from_fn(n, n, |i, j| response.at(held[i], held[j]));
        let inverse = m.clone().cholesky().map_or_else(
            || m.try_inverse().unwrap_or_else(|| DMatrix::zeros(n, n)),
            |c| c.inverse(),
        );
        let mut place = vec![None; zones];
        for (i, z) in held.iter().enumerate() {
            place[*z] = Some(i);
        }
        let of = |z: usize| place.get(z).copied().flatten();
        let octs = zones.div_ceil(SIDE);
        self.heat_of_gap
            .fill(octs, zones, |z, column| match (of(z), of(column)) {
                (Some(i), Some(j)) => inverse[(i, j)],
                _ => 0.0,
            });
        self.air_of_gap
            .fill(octs, zones, |z, column| match of(column) {
                Some(j) if z < zones => (0..n)
                    .map(|k| response.at(z, held[k]) * inverse[(k, j)])
                    .sum(),
                _ => 0.0,
            });
        (self.zones, self.version) = (held, version);
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
        let mut free = [[0.0; SIDE]];
        free[0][..2].copy_from_slice(&free_c);
        t.offer(supply);
        assert!(t.solve::<_, 1>(pulp::Scalar512b, &free, &two(), 1, supply));
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
