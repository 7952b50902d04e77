//! Days joined to months, so that daily and hourly meters are fitted as bills are.

use crate::calendar::{civil, iso};
use crate::{Note, Period};

/// Use of one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Day {
    /// The day.
    pub on: i32,
    /// Energy, J.
    pub energy_j: f64,
    /// Line or entry.
    pub line: usize,
}

/// Fewest days of a piece of a month: less says more about the week than about the house.
const FEWEST: i32 = 10;

/// Months of days that follow each other; a gap cuts a month in two.
pub(crate) fn months(days: &[Day], notes: &mut Vec<Note>) -> Vec<Period> {
    let mut out: Vec<Period> = Vec::new();
    let mut month = (0, 0);
    for d in days {
        let (y, m, _) = civil(d.on);
        match out.last_mut() {
            Some(p) if p.to == d.on && month == (y, m) => {
                p.to += 1;
                p.energy_j += d.energy_j;
            }
            _ => out.push(Period {
                from: d.on,
                to: d.on + 1,
                energy_j: d.energy_j,
                estimated: false,
                line: d.line,
            }),
        }
        month = (y, m);
    }
    out.retain(|p| {
        let keep = p.days() >= FEWEST;
        if !keep {
            notes.push(Note::new(
                Some(p.line),
                format!(
                    "{} days from {} stand alone and were left out",
                    p.days(),
                    iso(p.from)
                ),
            ));
        }
        keep
    });
    out
}
