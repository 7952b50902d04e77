//! Leakage of the house each hour, from a blower-door test.

use physics::leak::{Flue, Storeys};

use crate::describe::Shelter;
use crate::drive::Drive;
use crate::model::Model;

/// Steps of the table of x^n over the square root of x.
const STEPS: usize = 512;
/// Reach of the table: square root of 100.
const REACH: f64 = 10.0;

/// Leakage of one house. Stack air comes in low: rooms below the middle of the leaks take it,
/// rooms above take none of it. Wind air comes in everywhere alike.
#[derive(Debug, Clone)]
pub struct Leakage {
    /// Whole-house coefficient, m3/(s Pa^n).
    c_m3_per_s_pa_n: f64,
    /// Whole-house coefficient times heat capacity, W/(K Pa^n).
    c_w_per_k: f64,
    stack: f64,
    wind: f64,
    /// Exponent.
    n: f64,
    /// x^n over sqrt(x).
    power: Vec<f64>,
    /// Share of stack air per zone.
    stack_share: Vec<f64>,
    /// Share of wind air per zone; with it a zone's air counts in the air that makes the stack.
    wind_share: Vec<f64>,
}

/// Height of a usual storey, m: leaks over this height count as one.
const STOREY_M: f64 = 2.8;

impl Leakage {
    /// Prepares the leakage of a house.
    ///
    /// **Equation** Qs = c Cs |dT|^n, Qw = c Cw (s U)^(2n), Q = sqrt(Qs^2 + Qw^2)
    ///
    /// **Symbols** c leakage coefficient, m3/(s Pa^n); Cs (Pa/K)^n and Cw (Pa s2/m2)^n stack and
    /// wind factors; s U sheltered wind, m/s; dT inside minus outside, K
    ///
    /// **Range** up to three storeys; no flue
    ///
    /// **Source** ashrae-fundamentals-2017: chapter 16, enhanced model
    ///
    /// **Example** 2,160 cfm at 50 Pa, n 0.65, two storeys, 41.7 K: 150 cfm of stack air (tested below,
    /// against 153 of the trade's card).
    ///
    /// **Departures** Which room the stack air enters is ours: by its leaks and the pressure at
    /// the height of its middle, below the middle of all leaks.
    pub fn new(model: &Model, drive: &Drive) -> Self {
        Self::plain(model, drive.air_j_per_m3k)
    }

    /// As [`Leakage::new`], from the heat capacity of a cubic metre of air, J/(m3 K).
    pub fn plain(model: &Model, air_j_per_m3k: f64) -> Self {
        let leak = model.leak;
        let height = (leak.top_m - leak.bottom_m).max(0.0);
        let storeys = match height / STOREY_M {
            n if n < 1.5 => Storeys::One,
            n if n < 2.5 => Storeys::Two,
            _ => Storeys::Three,
        };
        let zones = &model.zones;
        let middle = 0.5 * (leak.top_m + leak.bottom_m);
        let pull = |m: f64| {
            if m < middle {
                libm::pow((middle - m) / height.max(0.1), leak.n)
            } else {
                0.0
            }
        };
        let mut stack_share: Vec<f64> = zones
            .iter()
            .map(|z| z.leak_share * pull(z.middle_m))
            .collect();
        let sum: f64 = stack_share.iter().sum();
        if sum > 1e-9 {
            for s in &mut stack_share {
                *s /= sum;
            }
        } else {
            // One storey: every room has low and high leaks of its own.
            stack_share = zones.iter().map(|z| z.leak_share).collect();
        }
        let no_wind = model.shelter == Shelter::NoWind;
        Self {
            c_m3_per_s_pa_n: leak.c_m3_per_s_pa_n,
            c_w_per_k: leak.c_m3_per_s_pa_n * air_j_per_m3k,
            stack: storeys.stack_factor(Flue::Without),
            wind: if no_wind {
                0.0
            } else {
                storeys.wind_factor(Flue::Without)
            },
            n: leak.n,
            power: (0..=STEPS)
                .map(|i| {
                    let root = i as f64 * REACH / STEPS as f64;
                    libm::pow(root * root, leak.n)
                })
                .collect(),
            stack_share,
            wind_share: zones.iter().map(|z| z.leak_share).collect(),
        }
    }

    /// Whole-house coefficient, m3/(s Pa^n).
    pub fn c_m3_per_s_pa_n(&self) -> f64 {
        self.c_m3_per_s_pa_n
    }

    /// Stack factor, (Pa/K)^n.
    pub fn stack_factor(&self) -> f64 {
        self.stack
    }

    /// Wind factor, (Pa s2/m2)^n.
    pub fn wind_factor(&self) -> f64 {
        self.wind
    }

    /// Shares of stack air and of wind air that enter a zone.
    pub fn shares(&self, zone: usize) -> (f64, f64) {
        let at = |v: &[f64]| v.get(zone).copied().unwrap_or(0.0);
        (at(&self.stack_share), at(&self.wind_share))
    }

    /// x^n for x from 0 to 100 by table; beyond, along the last step.
    #[inline(always)]
    fn power(&self, root: f64) -> f64 {
        let x = root * (STEPS as f64 / REACH);
        let i = (x as usize).min(STEPS - 1);
        self.power[i] + (x - i as f64) * (self.power[i + 1] - self.power[i])
    }

    /// Wind air of the whole house, W/K.
    #[inline(always)]
    pub fn wind_w_per_k(&self, wind_m_per_s: f64) -> f64 {
        self.c_w_per_k * self.wind * self.power(wind_m_per_s)
    }

    /// Outdoor air entering each zone, W/K.
    pub fn flow_w_per_k(&self, air_c: &[f64], outdoor_c: f64, wind_m_per_s: f64, into: &mut [f64]) {
        let of_wind = self.wind_w_per_k(wind_m_per_s);
        let inside: f64 = self.wind_share.iter().zip(air_c).map(|(w, t)| w * t).sum();
        let (stack, wind) = self.whole_w_per_k(inside - outdoor_c, of_wind);
        for ((q, ss), ws) in into.iter_mut().zip(&self.stack_share).zip(&self.wind_share) {
            *q = stack * ss + wind * ws;
        }
    }

    /// Outdoor air entering the whole house, W/K, with the rooms `warmer_k` than outdoors and so
    /// much wind air: what comes in by stack and what by wind, their sum being that of both
    /// together.
    #[inline(always)]
    pub fn whole_w_per_k(&self, warmer_k: f64, of_wind_w_per_k: f64) -> (f64, f64) {
        if self.c_w_per_k <= 0.0 {
            return (0.0, 0.0);
        }
        let wind = of_wind_w_per_k;
        let stack = self.c_w_per_k * self.stack * self.power(warmer_k.abs().sqrt());
        let all = (stack * stack + wind * wind).sqrt();
        let share = all / (stack + wind).max(1e-12);
        (share * stack, share * wind)
    }

    /// As [`Leakage::flow_w_per_k`] without its table: for few hours that are reported by figures.
    pub fn steady_w_per_k(
        &self,
        air_c: &[f64],
        outdoor_c: f64,
        wind_m_per_s: f64,
        into: &mut [f64],
    ) {
        let inside: f64 = self.wind_share.iter().zip(air_c).map(|(w, t)| w * t).sum();
        let warmer_k = (inside - outdoor_c).abs();
        let stack = self.c_w_per_k * self.stack * libm::pow(warmer_k, self.n);
        let wind = self.c_w_per_k * self.wind * libm::pow(wind_m_per_s, 2.0 * self.n);
        let all = (stack * stack + wind * wind).sqrt();
        let share = all / (stack + wind).max(1e-12);
        for ((q, ss), ws) in into.iter_mut().zip(&self.stack_share).zip(&self.wind_share) {
            *q = share * (stack * ss + wind * ws);
        }
    }

    /// What stands in the matrix at first: a usual winter hour (20 K, 3 m/s).
    pub fn nominal_w_per_k(&self, zones: usize) -> Vec<f64> {
        let mut into = vec![0.0; zones];
        self.flow_w_per_k(&vec![20.0; zones], 0.0, 3.0, &mut into);
        into
    }
}

#[cfg(test)]
mod tests {
    use physics::leak::{Flue, Storeys};

    /// Trade card F4: 2,160 cfm at 50 Pa, two storeys of 5.5 m, 70 F inside and -5 F outside:
    /// 153 cfm with leaks spread evenly. The enhanced model's factor for two storeys must come
    /// within 5 % of it.
    #[test]
    fn stack_of_the_card() {
        let c = 2160.0 / libm::pow(50.0, 0.65);
        let dt = (70.0 - -5.0) / 1.8;
        let cfm = c * Storeys::Two.stack_factor(Flue::Without) * libm::pow(dt, 0.65);
        assert!((cfm / 153.0 - 1.0).abs() < 0.05, "{cfm} cfm");
    }
}
