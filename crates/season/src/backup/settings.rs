//! What to set, and why.

use house::describe::Use;
use jobfile::{Carrier, HeaterKind};

use super::Needed;
use crate::input::Input;
use crate::line::Crossing;
use crate::year::Year;

/// Coldest a lockout of the units may be set to without taking heat that a cold-climate unit
/// gives, C (trade card F10: no cut-out warmer than about -15 C).
const NO_CUT_OUT_ABOVE_C: f64 = -15.0;
/// How far below the heads a heater's thermostat stands, K (trade card F10: 3 to 5).
const BELOW_K: (f64, f64) = (3.0, 5.0);

/// A value to set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Set {
    /// A room temperature, C.
    Room(f64),
    /// So many K below the heads.
    Below(f64),
    /// Between so many K below the heads.
    BelowBetween(f64, f64),
    /// Locked out above an outdoor temperature, C.
    OffAbove(f64),
    /// Never switched off by outdoor temperature.
    Never,
    /// Off, or none.
    Off,
}

/// A line of the settings table.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// Control.
    pub control: String,
    /// Set to.
    pub set: Set,
    /// As the job has it, where it says.
    pub job_has: Option<Set>,
    /// Why.
    pub why: String,
}

/// The table.
pub(super) fn settings(input: &Input<'_>, year: &Year, needed: Option<&Needed>) -> Vec<Setting> {
    let mut all = Vec::new();
    for room in year.rooms.iter().filter(|r| r.heads > 0 && r.heated) {
        let heated = input
            .model
            .zones
            .get(room.zone)
            .and_then(|z| z.heated.as_ref());
        let most = heated.map(|s| {
            s.by_hour_c
                .iter()
                .flatten()
                .copied()
                .fold(f64::NEG_INFINITY, f64::max)
        });
        if let Some(c) = most.filter(|c| c.is_finite()) {
            all.push(Setting {
                control: format!("head, {}", room.name),
                set: Set::Room(c),
                job_has: None,
                why: "set and leave, on heat and not on auto: coming back from a set-back costs \
                      more than it saves, and calls the backup"
                    .to_owned(),
            });
        }
    }
    for heater in input.job.heaters_beside() {
        let word = if input
            .job
            .existing
            .as_ref()
            .is_some_and(|e| e.name == heater.name)
        {
            format!("the {}", heater.kind.word())
        } else {
            heater.name.clone()
        };
        let own = matches!(heater.kind, HeaterKind::Baseboard | HeaterKind::Stove);
        all.push(Setting {
            control: format!(
                "{} of {word}",
                if own { "thermostats" } else { "thermostat" }
            ),
            set: Set::BelowBetween(BELOW_K.0, BELOW_K.1),
            job_has: Some(Set::Below(heater.set_below_k)),
            why: "independent of the heads and lower, so that it answers only when they fall short"
                .to_owned(),
        });
        all.push(lockout(year, heater, &word, needed));
        if heater.hot_water {
            all.push(Setting {
                control: format!("hot water of {word}"),
                set: Set::Never,
                job_has: None,
                why: "the lockout must stop its heating alone, not the hot water".to_owned(),
            });
        }
    }
    all.push(Setting {
        control: "cut-out of the units by outdoor temperature".to_owned(),
        set: Set::Never,
        job_has: input.job.habits.off_below_c.map(Set::OffAbove),
        why: format!(
            "none warmer than about 5 F ({NO_CUT_OUT_ABOVE_C:.0} C) for a cold-climate unit; where the \
             backup is cheaper its own thermostat does it better"
        ),
    });
    let shut = input.job.habits.bedroom_doors == Some(house::describe::Stands::Closed);
    let left =
        |r: &&crate::year::RoomYear| r.used_for == Use::Sleeping && r.heads == 0 && r.heaters == 0;
    if shut && let Some(room) = year.rooms.iter().find(left) {
        all.push(Setting {
            control: format!("door of {}", room.name),
            set: Set::Off,
            job_has: None,
            why: "shut at night and without heat of its own: it floats; see the coldest hour"
                .to_owned(),
        });
    }
    all
}

/// The heater is locked out above the temperature at which the units just carry the house, or above
/// which they are the cheaper heat, whichever is colder.
fn lockout(year: &Year, heater: &jobfile::Heater, word: &str, needed: Option<&Needed>) -> Setting {
    let job_has = heater.locked_out_above_c.map(Set::OffAbove);
    let control = format!("lockout of {word}");
    let rooms_without = year
        .rooms
        .iter()
        .any(|r| r.heated && r.heads == 0 && r.heaters > 0);
    let mild = year.balance.at_c().map(|c| c + 3.0);
    if rooms_without {
        return Setting {
            control,
            set: Set::Off,
            job_has,
            why: "it also heats rooms without a head: locked out, they would go cold".to_owned(),
        };
    }
    match (mild, year.balance) {
        (Some(c), _) => Setting {
            control,
            set: Set::OffAbove(c),
            job_has,
            why: "a little milder than where the units just carry the house".to_owned(),
        },
        (None, Crossing::ColderThan(c)) => Setting {
            control,
            set: Set::OffAbove(c.max(needed.map_or(c, |n| n.design_c))),
            job_has,
            why: "the units carry the house down to the coldest point of their sheets".to_owned(),
        },
        _ => Setting {
            control,
            set: Set::Off,
            job_has,
            why: if heater.carrier == Carrier::Electricity {
                "no temperature at which the units carry the house was found".to_owned()
            } else {
                "no temperature at which the units carry the house was found: it must be free to \
                 answer"
                    .to_owned()
            },
        },
    }
}
