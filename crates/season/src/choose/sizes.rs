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

#[cfg(test)]
mod tests {
    use heatpump::{Running, Sheet};

    use super::super::measure::Measure;
    use super::{best, bins, most_at_w};

    fn loon_12() -> Sheet {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../catalogue/loon-12.toml");
        let text = std::fs::read_to_string(path).expect("a sheet");
        heatpump::read_sheet("loon-12.toml", &text).expect("reads")
    }

    #[test]
    fn the_most_lies_straight_between_points_and_level_beyond() {
        let mut sheet = loon_12();
        let mut point = sheet.heating[0].clone();
        let gives = |w: f64| {
            Some(Running {
                capacity_w: w,
                electric_w: 1000.0,
            })
        };
        sheet.heating.clear();
        for (outdoor_c, rated, max) in [
            (-20.0, Some(2000.0), Some(3000.0)),
            // says neither, so it is as if it were not there
            (-15.0, None, None),
            (-10.0, None, Some(4000.0)),
            (8.0, Some(5800.0), None),
        ] {
            point.outdoor_c = outdoor_c;
            point.rated = rated.and_then(gives);
            point.max = max.and_then(gives);
            sheet.heating.push(point.clone());
        }
        for (c, want) in [
            (-30.0, 3000.0),
            (-20.0, 3000.0),
            (-17.5, 3250.0),
            (-10.0, 4000.0),
            // a third of the way from -10 to 8
            (-4.0, 4600.0),
            (8.0, 5800.0),
            (20.0, 5800.0),
        ] {
            let got = most_at_w(&sheet, c);
            // Products of small whole numbers: rounding of the last bit.
            assert!((got - want).abs() < 1e-9, "{c} C: {got}");
        }
        sheet.heating.clear();
        assert_eq!(most_at_w(&sheet, 0.0), 0.0);
    }

    #[test]
    fn a_span_is_halved_at_its_mean() {
        let outdoor_c = [0.2, -0.5, 0.4, 0.7, 5.5, 0.8, 0.9, 3.0];
        let need_w = [100.0, 70.0, 200.0, 600.0, 50.0, 300.0, 0.0, -400.0];
        // 0 to 1 C: mean of the four hours that ask is 300, which belongs to the lesser half; what
        // asks nothing or is cooled does not count.
        assert_eq!(
            bins(&outdoor_c, &need_w),
            [
                (-0.5, 1.0, 70.0),
                (0.5, 3.0, 200.0),
                (0.5, 1.0, 600.0),
                (5.5, 1.0, 50.0)
            ]
        );
        assert!(bins(&[20.0], &[0.0]).is_empty());
    }

    #[test]
    fn the_best_in_each_aim_come_first() {
        let pair = |cost: f64, comfort_k_h: f64, equipment: f64| Measure {
            cost: Some(cost),
            comfort_k_h,
            equipment: Some(equipment),
            ..Measure::default()
        };
        let all = [
            (10, pair(1000.0, 0.0, 3000.0)),
            (11, pair(500.0, 100.0, 3000.0)),
            // as 10, and dearer to run
            (12, pair(1200.0, 0.0, 3000.0)),
            (13, pair(2000.0, 300.0, 1000.0)),
        ];
        assert_eq!(best(&all, 9), [10, 11, 13]);
        // One place: the cheapest to run; two: and the one that is never short.
        assert_eq!(best(&all, 1), [11]);
        assert_eq!(best(&all, 2), [10, 11]);
    }
}
