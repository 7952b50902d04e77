//! Which sizes are worth a year: a room's heat by outdoor temperature, and the pairs by it.

use std::collections::BTreeMap;

use heatpump::Sheet;

use super::measure::{Aim, Grain, Grains, Measure, unbeaten};
use crate::plant::Plant;

/// Heat a room asks, by outdoor temperature: C, hours, W.
pub(super) type Bins = Vec<(f64, f64, f64)>;

/// The most by the sheet's own points at a temperature, straight between them and level beyond;
/// only to look at the right sizes, W.
pub(super) fn most_at_w(sheet: &Sheet, outdoor_c: f64) -> f64 {
    let mut before: Option<(f64, f64)> = None;
    for point in &sheet.heating {
        let Some(most) = point.max.or(point.rated).map(|r| r.capacity_w) else {
            continue;
        };
        if point.outdoor_c >= outdoor_c {
            return match before {
                Some((c, w)) if point.outdoor_c > c => {
                    w + (outdoor_c - c) / (point.outdoor_c - c) * (most - w)
                }
                _ => most,
            };
        }
        before = Some((point.outdoor_c, most));
    }
    before.map_or(0.0, |(_, w)| w)
}

/// Heat asked in spans of 1 K, each in a lesser and a greater half.
pub(super) fn bins(outdoor_c: &[f64], need_w: &[f64]) -> Bins {
    let mut mean = BTreeMap::<i32, (f64, f64)>::new();
    let heats = || outdoor_c.iter().zip(need_w).filter(|(_, q)| **q > 0.0);
    for (c, q) in heats() {
        let m = mean.entry(libm::floor(*c) as i32).or_default();
        m.0 += 1.0;
        m.1 += q;
    }
    let mut halves = BTreeMap::<(i32, bool), (f64, f64)>::new();
    for (c, q) in heats() {
        let k = libm::floor(*c) as i32;
        let upper = mean.get(&k).is_some_and(|(n, sum)| *q * n > *sum);
        let half = halves.entry((k, upper)).or_default();
        half.0 += 1.0;
        half.1 += q;
    }
    halves
        .into_iter()
        .map(|((k, _), (n, sum))| (f64::from(k) + 0.5, n, sum / n))
        .collect()
}

/// A pair by the bins: heat not given (kWh) as comfort, hours cycling, electricity (kWh) as cost.
pub(super) fn by_bins(plant: &Plant, bins: &Bins) -> Option<Measure> {
    let heating = plant.units.first()?.heating.as_ref().ok()?;
    let mut measure = Measure {
        cost: Some(0.0),
        ..Measure::default()
    };
    let mut electric = 0.0;
    for (c, hours, w) in bins {
        let ran = heating.operate(*c, *w);
        electric += hours * ran.electric_w / 1000.0;
        measure.comfort_k_h += hours * (w - ran.delivered_w) / 1000.0;
        measure.cycling_h += if ran.mode == heatpump::Mode::Cycling {
            *hours
        } else {
            0.0
        };
    }
    measure.cost = Some(electric);
    Some(measure)
}

/// Up to `keep` of those that none beats: the best in each aim first.
pub(super) fn best(measured: &[(usize, Measure)], keep: usize) -> Vec<usize> {
    const AIMS: [Aim; 4] = [Aim::Cost, Aim::Comfort, Aim::Cycling, Aim::Equipment];
    let grain = Grain {
        comfort_k_h: 10.0,
        cycling_h: 50.0,
        cost: 25.0,
        ..Grain::default()
    };
    let grains: Vec<Grains> = measured
        .iter()
        .map(|(_, m)| Grains::of(m, &grain, &AIMS, |_| 0.0))
        .collect();
    let left = unbeaten(&grains);
    let mut kept: Vec<usize> = Vec::new();
    for rank in 0..left.len() {
        for aim in AIMS {
            let mut order = left.clone();
            order.sort_by(|a, b| {
                let by = |i: usize| measured[i].1.by(aim).unwrap_or(0.0);
                by(*a).total_cmp(&by(*b)).then(a.cmp(b))
            });
            if kept.len() < keep
                && let Some(i) = order.get(rank)
                && !kept.contains(i)
            {
                kept.push(*i);
            }
        }
    }
    kept.sort_unstable();
    kept.into_iter().map(|i| measured[i].0).collect()
}
