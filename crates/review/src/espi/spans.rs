//! Readings in time: what stands twice, which days are whole.

use std::collections::BTreeMap;

use crate::calendar::{civil, iso};
use crate::runs::{Day, months};
use crate::{Note, Period, Refused};

/// Seconds of a day.
pub(super) const DAY_S: i64 = 86_400;
/// Readings at least so long are days or bills, and begin at midnight.
pub(super) const LONG_S: i64 = 20 * 3600;
/// Seconds of a day that must be covered: one hour may lack, at the clock change.
const COVERED_S: i64 = 23 * 3600;

/// One reading made whole.
#[derive(Clone, Copy)]
pub(super) struct Span {
    pub start_s: i64,
    pub long_s: i64,
    pub energy_j: f64,
    pub estimate: bool,
    pub line: usize,
}

/// Takes out readings that stand twice. Where clocks go back and the feed counts clock time, the
/// hour from one to two stands twice with its own values: both count.
pub(super) fn doubles(
    spans: &mut Vec<Span>,
    zone_s: i64,
    notes: &mut Vec<Note>,
) -> Result<(), Refused> {
    let mut kept: Vec<Span> = Vec::with_capacity(spans.len());
    let (mut same, mut clock) = (0, 0);
    for s in spans.iter() {
        let Some(last) = kept.last_mut() else {
            kept.push(*s);
            continue;
        };
        if s.start_s == last.start_s {
            if s.energy_j == last.energy_j && s.long_s == last.long_s {
                same += 1;
            } else if clocks_go_back(s.start_s + zone_s) && s.long_s <= 3600 {
                last.energy_j += s.energy_j;
                clock += 1;
            } else {
                return Err(Refused::new(
                    "two readings of one time differ",
                    format!(
                        "{:.3} and {:.3} kWh on {}",
                        last.energy_j / units::constants::KWH_J,
                        s.energy_j / units::constants::KWH_J,
                        iso(day(s.start_s + zone_s))
                    ),
                    "one reading for each time",
                    "one may be a correction: ask the utility for the corrected feed",
                )
                .at(s.line));
            }
        } else if s.start_s < last.start_s + last.long_s && s.long_s < LONG_S {
            return Err(Refused::new(
                "two readings overlap",
                format!("{} s", last.start_s + last.long_s - s.start_s),
                "each begins where the one before ends, or later",
                "the feed mixes two interval lengths: ask for one of them",
            )
            .at(s.line));
        } else {
            kept.push(*s);
        }
    }
    if same > 0 {
        notes.push(Note::new(
            None,
            format!("{same} readings stand twice; counted once"),
        ));
    }
    if clock > 0 {
        notes.push(Note::new(
            None,
            format!("{clock} readings stand twice where clocks go back; both were counted"),
        ));
    }
    *spans = kept;
    Ok(())
}

fn day(local_s: i64) -> i32 {
    local_s.div_euclid(DAY_S) as i32
}

/// Whether this is the night on which clocks go back in some country: a Sunday from 24 October to
/// 7 November, before three in the morning.
fn clocks_go_back(local_s: i64) -> bool {
    let d = day(local_s);
    let sunday = (d + 4).rem_euclid(7) == 0;
    let (_, month, of_month) = civil(d);
    let season = month == 10 && of_month >= 24 || month == 11 && of_month <= 7;
    sunday && season && local_s.rem_euclid(DAY_S) < 3 * 3600
}

/// Readings of a day or longer begin and end at a midnight, which daylight saving moves by an
/// hour: the nearest one is meant.
pub(super) fn long_ones(spans: &[Span], zone_s: i64, notes: &mut Vec<Note>) -> (Vec<Period>, bool) {
    let nearest = |s: i64| day(s + zone_s + DAY_S / 2);
    let all: Vec<Period> = spans
        .iter()
        .map(|s| {
            let from = nearest(s.start_s);
            Period {
                from,
                to: nearest(s.start_s + s.long_s).max(from + 1),
                energy_j: s.energy_j,
                estimated: s.estimate,
                line: s.line,
            }
        })
        .collect();
    if all.iter().filter(|p| p.days() == 1).count() * 2 > all.len() {
        let days: Vec<Day> = all
            .iter()
            .filter(|p| p.days() == 1 && !p.estimated)
            .map(|p| Day {
                on: p.from,
                energy_j: p.energy_j,
                line: p.line,
            })
            .collect();
        let out = all.len() - days.len();
        if out > 0 {
            notes.push(Note::new(
                None,
                format!("{out} days are estimates or longer; left out"),
            ));
        }
        return (months(&days, notes), true);
    }
    (all, false)
}

/// Days whose hours are all there, local standard time.
pub(super) fn whole_days(spans: &[Span], zone_s: i64, notes: &mut Vec<Note>) -> Vec<Day> {
    let mut days: BTreeMap<i32, (f64, i64, usize)> = BTreeMap::new();
    for s in spans {
        // an interval across midnight is shared by time
        let mut at = s.start_s + zone_s;
        let end = at + s.long_s;
        while at < end {
            let d = day(at);
            let upto = end.min((i64::from(d) + 1) * DAY_S);
            let sum = days.entry(d).or_insert((0.0, 0, s.line));
            sum.0 += s.energy_j * (upto - at) as f64 / s.long_s as f64;
            sum.1 += upto - at;
            at = upto;
        }
    }
    let all = days.len();
    let whole: Vec<Day> = days
        .into_iter()
        .filter(|(_, (_, covered, _))| *covered >= COVERED_S)
        .map(|(day, (energy_j, _, line))| Day {
            on: day,
            energy_j,
            line,
        })
        .collect();
    let thin = all - whole.len();
    if thin > 0 {
        notes.push(Note::new(
            None,
            format!("{thin} days lack readings for more than an hour and count as missing"),
        ));
    }
    whole
}
