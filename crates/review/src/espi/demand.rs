//! The highest demand of interval readings: what a panel by measurement rests on.

use std::collections::BTreeMap;

use super::spans::{DAY_S, LONG_S, Span};

/// The highest demand that interval readings tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Mean power of the highest interval, W.
    pub peak_w: f64,
    /// Its beginning, seconds since 1970.
    pub at_s: i64,
    /// Longest interval among the readings, s: a longer one hides a shorter peak.
    pub interval_s: i64,
    /// Days with readings for at least 23 hours.
    pub days: u32,
    /// Part of the readings is estimated.
    pub estimates: bool,
}

/// Demand of readings in order of time, without doubles; `None` where they are days or bills.
///
/// # Equation
/// `P = max(E_i / t_i)`
/// # Symbols
/// `E` energy of an interval, J; `t` its length, s; `P` W.
/// # Range
/// Intervals shorter than 20 hours.
/// # Source
/// `nec`, 220.87 (second hand): the highest average of 15 minutes over a year.
/// # Example
/// `the_highest_quarter_of_an_hour` in `crates/review/tests/green_button.rs`.
pub(super) fn demand(spans: &[Span], zone_s: i64) -> Option<Demand> {
    let short: Vec<&Span> = spans.iter().filter(|s| s.long_s < LONG_S).collect();
    let mean = |s: &Span| s.energy_j / s.long_s as f64;
    let peak = short
        .iter()
        .copied()
        .reduce(|a, b| if mean(b) > mean(a) { b } else { a })?;
    let mut covered: BTreeMap<i64, i64> = BTreeMap::new();
    for s in &short {
        *covered
            .entry((s.start_s + zone_s).div_euclid(DAY_S))
            .or_default() += s.long_s;
    }
    let whole = covered.values().filter(|s| **s >= DAY_S - 3600).count();
    Some(Demand {
        peak_w: mean(peak),
        at_s: peak.start_s,
        interval_s: short.iter().map(|s| s.long_s).max()?,
        days: u32::try_from(whole).unwrap_or(u32::MAX),
        estimates: short.iter().any(|s| s.estimate),
    })
}
