//! Which sizes are worth a year: a room's heat by outdoor temperature, and the pairs by it.

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
    let span = |c: f64| libm::floor(c) as i32;
    let heats = || outdoor_c.iter().zip(need_w).filter(|(_, q)| **q > 0.0);
    let (least, most) = heats().fold((i32::MAX, i32::MIN), |(least, most), (c, _)| {
        (least.min(span(*c)), most.max(span(*c)))
    });
    if least > most {
        return Bins::new();
    }
    // Hours and heat of each span, and of its two halves.
    let at = |c: f64| (span(c) - least) as usize;
    let spans = at(f64::from(most)) + 1;
    let mut whole = vec![(0.0, 0.0); spans];
    for (c, q) in heats() {
        let (hours, sum) = &mut whole[at(*c)];
        (*hours, *sum) = (*hours + 1.0, *sum + q);
    }
    let mut halves = vec![[(0.0, 0.0); 2]; spans];
    for (c, q) in heats() {
        let (hours, sum) = whole[at(*c)];
        let (hours, sum) = &mut halves[at(*c)][usize::from(*q * hours > sum)];
        (*hours, *sum) = (*hours + 1.0, *sum + q);
    }
    let all = (least..=most).zip(halves);
    all.flat_map(|(c, halves)| halves.map(|(n, sum)| (f64::from(c) + 0.5, n, sum / n)))
        .filter(|(_, hours, _)| *hours > 0.0)
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
