//! What a year of electricity costs by a tariff.

use jobfile::Tariff;

/// Hours of a year.
const HOUR_S: f64 = 3600.0;

/// A year's bill of electricity.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Charged {
    /// For what was used.
    pub energy: f64,
    /// For the largest hour of each month.
    pub demand: f64,
    /// Whatever is used.
    pub fixed: f64,
}

impl Charged {
    /// Everything.
    pub fn all(&self) -> f64 {
        self.energy + self.demand + self.fixed
    }
}

/// Bill of a year, month by month: hours in a period at its price, the rest of the month by steps,
/// or at the flat price where there are none.
///
/// **Equation** sum over months of (period price x its use) + (steps over the rest) + demand charge
/// x largest hour + fixed
///
/// **Symbols**
/// - used: W by hour, everything the meter sees
/// - steps: from the first up, each to its end
///
/// **Range** as many months and hours of the day as hours
///
/// **Source** `common-practice`: how such bills are made; the panel's meter may average over a
/// quarter of an hour, so a demand charge is at least this
///
/// **Example** 1,000 kWh in a month, 0.18 up to 800 kWh and 0.24 above: 192
pub fn charged(
    tariff: &Tariff,
    flat_per_j: f64,
    used_w: &[f64],
    month: &[u8],
    of_day: &[u8],
) -> Charged {
    let mut stepped_j = [0.0; 13];
    let mut most_w = [0.0_f64; 13];
    let mut seen = [false; 13];
    let mut energy = 0.0;
    for ((w, m), h) in used_w.iter().zip(month).zip(of_day) {
        let at = usize::from(*m).min(12);
        seen[at] = true;
        most_w[at] = most_w[at].max(*w);
        match tariff.periods.iter().find(|p| p.holds(*m, usize::from(*h))) {
            Some(period) => energy += period.per_j * w * HOUR_S,
            None => stepped_j[at] += w * HOUR_S,
        }
    }
    for j in stepped_j {
        energy += stepped(tariff, flat_per_j, j);
    }
    Charged {
        energy,
        demand: tariff.demand_per_w * most_w.iter().sum::<f64>(),
        fixed: tariff.fixed_a_month * seen.iter().filter(|s| **s).count() as f64,
    }
}

fn stepped(tariff: &Tariff, flat_per_j: f64, used_j: f64) -> f64 {
    if tariff.tiers.is_empty() {
        return flat_per_j * used_j;
    }
    let (mut from, mut cost) = (0.0, 0.0);
    for tier in &tariff.tiers {
        let to = tier.up_to_j.unwrap_or(f64::INFINITY);
        cost += (used_j.min(to) - from).max(0.0) * tier.per_j;
        from = to;
    }
    cost
}

#[cfg(test)]
mod tests {
    use super::charged;
    use jobfile::{PricePeriod, Tariff, Tier};

    const KWH: f64 = 3.6e6;

    /// 1,000 kWh in each of two months of 500 hours, at 2 kW.
    fn two_months() -> (Vec<f64>, Vec<u8>, Vec<u8>) {
        let month = (0..1000).map(|h| if h < 500 { 1 } else { 2 }).collect();
        let of_day = (0..1000_u32).map(|h| (h % 24) as u8).collect();
        (vec![2000.0; 1000], month, of_day)
    }

    #[test]
    fn steps_periods_and_demand() {
        // Worked by hand, exact but for rounding of 1,000 terms.
        let (w, month, of_day) = two_months();
        let flat = charged(&Tariff::default(), 0.20 / KWH, &w, &month, &of_day);
        assert!((flat.all() - 400.0).abs() < 1e-9);
        let tariff = Tariff {
            fixed_a_month: 12.0,
            tiers: vec![
                Tier {
                    up_to_j: Some(800.0 * KWH),
                    per_j: 0.18 / KWH,
                },
                Tier {
                    up_to_j: None,
                    per_j: 0.24 / KWH,
                },
            ],
            demand_per_w: 9.5e-3,
            ..Tariff::default()
        };
        let got = charged(&tariff, 0.0, &w, &month, &of_day);
        assert!((got.energy - 2.0 * (144.0 + 48.0)).abs() < 1e-9, "{got:?}");
        assert!((got.demand - 2.0 * 19.0).abs() < 1e-12 && got.fixed == 24.0);
        let peak = Tariff {
            periods: vec![PricePeriod {
                name: "peak".to_owned(),
                on: std::array::from_fn(|h| (16..21).contains(&h)),
                months: vec![2],
                per_j: 0.40 / KWH,
            }],
            ..Tariff::default()
        };
        let got = charged(&peak, 0.10 / KWH, &w, &month, &of_day);
        let hours = (500..1000).filter(|h| (16..21).contains(&(h % 24))).count() as f64;
        let want = 2.0 * (hours * 0.40 + (1000.0 - hours) * 0.10);
        assert!((got.energy - want).abs() < 1e-9, "{got:?} {want}");
    }
}
