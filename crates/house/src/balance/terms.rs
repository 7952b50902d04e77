//! How a zone stands with its supply, and how long it may.

use super::supply::Supply;

/// How a zone stands with its supply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
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

impl State {
    /// It holds a setting; else its heat is given.
    pub fn holds(self) -> bool {
        matches!(self, Self::Hold | Self::BackupHold | Self::CoolHold)
    }

    /// What it gives or holds, and as long as what it stands.
    pub fn terms(self, s: &Supply) -> Terms {
        const ANY: [f64; 2] = [f64::NEG_INFINITY, f64::INFINITY];
        const NEVER: [f64; 2] = [f64::INFINITY, f64::NEG_INFINITY];
        let (heats, backs) = (s.heat_most_w > 0.0, s.backup_most_w > 0.0);
        let full_w = if heats { s.heat_most_w } else { 0.0 };
        let if_so = |so: bool, bounds: [f64; 2]| if so { bounds } else { NEVER };
        let backup_at_c = if backs { s.backup_to_c - EPS_K } else { ANY[0] };
        match self {
            Self::Off => {
                let heat_at_c = if heats { s.heat_to_c - EPS_K } else { ANY[0] };
                let cools = s.cool_most_w > 0.0;
                let cool_at_c = if cools { s.cool_to_c + EPS_K } else { ANY[1] };
                Terms::new(0.0, ANY, [heat_at_c.max(backup_at_c), cool_at_c])
            }
            Self::Hold => {
                let can = heats && s.heat_to_c.is_finite();
                Terms::new(s.heat_to_c, if_so(can, [0.0, s.heat_most_w]), ANY)
            }
            Self::Full => {
                let air = [backup_at_c, s.heat_to_c + EPS_K];
                Terms::new(s.heat_most_w, ANY, if_so(heats, air))
            }
            Self::BackupHold => {
                let can = backs && s.backup_to_c.is_finite();
                let heat = [full_w, full_w + s.backup_most_w];
                Terms::new(s.backup_to_c, if_so(can, heat), ANY)
            }
            Self::BackupFull => {
                let air = [ANY[0], s.backup_to_c + EPS_K];
                Terms::new(s.heat_most_w + s.backup_most_w, ANY, if_so(backs, air))
            }
            Self::CoolHold => {
                let can = s.cool_to_c.is_finite();
                Terms::new(s.cool_to_c, if_so(can, [-s.cool_most_w, 0.0]), ANY)
            }
            Self::CoolFull => {
                let air = [s.cool_to_c - EPS_K, ANY[1]];
                Terms::new(-s.cool_most_w, ANY, if_so(s.cool_most_w > 0.0, air))
            }
        }
    }

    /// The state after this one, when its heat or air contradicts it.
    pub fn next(self, s: &Supply, heat_w: f64, air_c: f64) -> Self {
        let (heats, backs) = (s.heat_most_w > 0.0, s.backup_most_w > 0.0);
        let full_w = if heats { s.heat_most_w } else { 0.0 };
        match self {
            Self::Off if heats && air_c < s.heat_to_c - EPS_K => Self::Hold,
            Self::Off if backs && air_c < s.backup_to_c - EPS_K => Self::BackupHold,
            Self::Off if s.cool_most_w > 0.0 && air_c > s.cool_to_c + EPS_K => Self::CoolHold,
            Self::Hold if !heats || heat_w < 0.0 || !s.heat_to_c.is_finite() => Self::Off,
            Self::Hold if heat_w > s.heat_most_w => Self::Full,
            Self::Full if !heats || air_c > s.heat_to_c + EPS_K => Self::Hold,
            Self::Full if backs && air_c < s.backup_to_c - EPS_K => Self::BackupHold,
            Self::BackupHold if !backs || heat_w < full_w || !s.backup_to_c.is_finite() => {
                if heats { Self::Full } else { Self::Off }
            }
            Self::BackupHold if heat_w > full_w + s.backup_most_w => Self::BackupFull,
            Self::BackupFull if !backs || air_c > s.backup_to_c + EPS_K => Self::BackupHold,
            Self::CoolHold if heat_w > 0.0 || !s.cool_to_c.is_finite() => Self::Off,
            Self::CoolHold if -heat_w > s.cool_most_w => Self::CoolFull,
            Self::CoolFull if s.cool_most_w <= 0.0 || air_c < s.cool_to_c - EPS_K => Self::CoolHold,
            stays => stays,
        }
    }
}

/// The terms on which a zone stands as it does.
#[derive(Debug, Clone, Copy)]
pub(super) struct Terms {
    /// The setting it holds, C, or the heat it is given, W.
    pub sets: f64,
    /// It stays so while heat and air lie between these, W and C.
    pub heat_w: [f64; 2],
    pub air_c: [f64; 2],
}

impl Terms {
    fn new(sets: f64, heat_w: [f64; 2], air_c: [f64; 2]) -> Self {
        Self {
            sets,
            heat_w,
            air_c,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The terms say the same as the moves: whoever would move is out of bounds, and no one else.
    #[test]
    fn terms_and_moves_agree() {
        let off = f64::NEG_INFINITY;
        let mut kinds = [0; 2];
        for heat_most_w in [0.0, 900.0] {
            for backup_most_w in [0.0, 700.0] {
                for (heat_to_c, backup_to_c) in [(20.0, 18.0), (off, 18.0), (20.0, off)] {
                    for (cool_to_c, cool_most_w) in [(26.0, 500.0), (f64::INFINITY, 0.0)] {
                        let s = Supply {
                            heat_to_c,
                            heat_most_w,
                            backup_to_c,
                            backup_most_w,
                            cool_to_c,
                            cool_most_w,
                        };
                        for state in [
                            State::Off,
                            State::Hold,
                            State::Full,
                            State::BackupHold,
                            State::BackupFull,
                            State::CoolHold,
                            State::CoolFull,
                        ] {
                            let t = state.terms(&s);
                            for heat_w in [-600.0, -100.0, 0.0, 300.0, 1000.0, 2000.0] {
                                for air_c in [10.0, 18.0, 19.0, 20.0, 25.0, 27.0] {
                                    let within = |x: f64, [a, b]: [f64; 2]| !(x < a || x > b);
                                    let stays = within(heat_w, t.heat_w) && within(air_c, t.air_c);
                                    let moves = state.next(&s, heat_w, air_c) != state;
                                    assert_eq!(stays, !moves, "{state:?} {s:?} {heat_w} {air_c}");
                                    kinds[usize::from(moves)] += 1;
                                }
                            }
                        }
                    }
                }
            }
        }
        assert!(kinds[0] > 1000 && kinds[1] > 1000, "{kinds:?}");
    }
}
