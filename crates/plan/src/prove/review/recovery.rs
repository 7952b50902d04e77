//! Houses made up, billed and found again.

use ::review::{Bills, Period, YearOfDays, fit, observations};
use jobfile::Carrier;

use crate::prove::Check;

const OWN: &str = "invented houses on the shipped Chicago year";

/// Numbers from a seed: SplitMix64.
struct Dice(u64);

impl Dice {
    fn even(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        low + (high - low) * ((z ^ (z >> 31)) >> 11) as f64 / 9_007_199_254_740_992.0
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even(0.0, 1.0)).sum::<f64>() - 6.0
    }
}

/// Two hundred houses made up day by day, billed for two years, fitted: how often the bands hold
/// what made them. They say 90 %; the standard error of 200 is 2.1 %.
pub(super) fn checks() -> Vec<Check> {
    const HOUSES: u64 = 200;
    const FIRST: i32 = 19_600;
    let Some(year) = crate::shipped::weather("chicago-725300")
        .and_then(|b| climate::read_any(b).ok())
        .map(|w| YearOfDays::from_weather(&w.value))
    else {
        return Vec::new();
    };
    let (mut slopes, mut years) = (0, 0);
    for seed in 0..HOUSES {
        let mut dice = Dice(seed * 7919 + 1);
        let mut days = year.over(FIRST, FIRST + 880);
        days.typical = false;
        let shift = 0.8 * dice.normal();
        for t in days.mean_c.iter_mut().flatten() {
            *t += shift + 2.5 * dice.normal();
        }
        let (base, slope) = (dice.even(200.0, 900.0), dice.even(100.0, 450.0));
        let (balance, noise) = (dice.even(11.0, 19.5), dice.even(0.01, 0.06));
        let mut from = FIRST;
        let mut periods = Vec::new();
        for line in 0..24 {
            let to = from + 28 + dice.even(0.0, 6.0) as i32;
            let fuller = 1.0 + 0.05 * dice.normal();
            let used: f64 = days
                .measured(from, to)
                .iter()
                .map(|t| base * fuller + slope * (balance - t).max(0.0))
                .sum();
            let energy_j = used * 86_400.0 * (1.0 + noise * dice.normal()).max(0.2);
            periods.push(Period {
                from,
                to,
                energy_j,
                estimated: false,
                line,
            });
            from = to;
        }
        let Ok(bills) = Bills::from_exact(Carrier::Gas, periods, Vec::new()) else {
            continue;
        };
        let (seen, _) = observations(&bills, &days);
        let Ok(fit) = fit(seen, false, false) else {
            continue;
        };
        let truth = base * year.mean_c.len() as f64 + slope * year.heating_k_d(balance);
        slopes += u32::from(fit.heating_slope().holds(slope));
        years += u32::from(fit.year(&year).0.holds(truth * 86_400.0));
    }
    let share = |n: u32| f64::from(n) * 100.0 / HOUSES as f64;
    let row = |id: &str, what: &str, n: u32| {
        Check::new(id, what, OWN)
            .within(84.0, 98.0, share(n), 1, "% of 200")
            .remark("bands say 90 %")
    };
    vec![
        row(
            "bills-recovery-slope",
            "bands that hold the slope a house was made from",
            slopes,
        ),
        row(
            "bills-recovery-year",
            "bands that hold the use of a typical year",
            years,
        ),
    ]
}
