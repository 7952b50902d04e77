//! How far what a fit says may lie from the truth.

use super::candidates::ends_c;
use super::solve::degree_days;
use super::{Fit, Observation};
use crate::Band;

/// Scatter of real months about a typical year, as a share of a slope or a sum that rests on a
/// typical year's temperatures: about one year in ten has 10 % more or fewer degree days.
pub const TYPICAL_SHARE: f64 = 0.12;

impl Fit {
    /// Band of `c0 base + c1 heating + c2 cooling`, where the coefficients may depend on the
    /// balance points (C; `NAN` without that branch).
    ///
    /// **Equation** the values q for which the least sum of squares at q is within the limit:
    /// `S(q) <= S (1 + F(1, n - p) / (n - p))`
    ///
    /// **Symbols**
    /// - S(q): least weighted sum of squares over all parameters that give q
    /// - F: 90 % quantile of the F distribution, the square of Student's t at 95 %
    /// - n, p: bills and parameters, balance points counted
    ///
    /// **Range** n above p; errors of bills independent, alike by days
    ///
    /// **Source** `bates-watts-1988`, 6.1 (profile likelihood), at each balance point in closed
    /// form
    ///
    /// **Example** see the recovery test: 9 of 10 bands hold the truth
    ///
    /// The ends are then moved by [`super::uneven`]: by the ratio of the error that allows for uneven
    /// scatter to the usual one; and, where the temperatures are a typical year's, by
    /// [`TYPICAL_SHARE`].
    pub fn band(&self, terms: impl Fn(f64, f64) -> [f64; 3]) -> Band {
        let Band { low, mid, high } = self.band_if_even(&terms);
        let stretch = self.stretch(&terms);
        let (down, up) = ((mid - low) * stretch, (high - mid) * stretch);
        if !self.typical {
            return Band {
                low: mid - down,
                mid,
                high: mid + up,
            };
        }
        let wide = TYPICAL_SHARE * mid.abs();
        let more = |d: f64| (d * d + wide * wide).sqrt();
        Band {
            low: mid - more(down),
            mid,
            high: mid + more(up),
        }
    }

    /// As [`Fit::band`] if all bills scattered alike: the profile alone.
    pub fn band_if_even(&self, terms: &impl Fn(f64, f64) -> [f64; 3]) -> Band {
        let value = |h: Option<f64>, c: Option<f64>| {
            let t = terms(h.unwrap_or(f64::NAN), c.unwrap_or(f64::NAN));
            let part = |c: f64, v: f64| if v == 0.0 { 0.0 } else { c * v };
            part(t[0], self.base_w)
                + part(t[1], self.heating_w_per_k)
                + part(t[2], self.cooling_w_per_k)
        };
        let mid = value(self.heating_c, self.cooling_c);
        let (mut low, mut high) = (mid, mid);
        for g in &self.region {
            let t = terms(
                g.heating_c.unwrap_or(f64::NAN),
                g.cooling_c.unwrap_or(f64::NAN),
            );
            let (centre, reach) = g.reach(t, self.limit);
            low = low.min(centre - reach);
            high = high.max(centre + reach);
        }
        Band { low, mid, high }
    }

    /// Uneven over usual error of a quantity.
    fn stretch(&self, terms: &impl Fn(f64, f64) -> [f64; 3]) -> f64 {
        let Some(uneven) = &self.uneven else {
            return 1.0;
        };
        let (h, c) = (
            self.heating_c.unwrap_or(f64::NAN),
            self.cooling_c.unwrap_or(f64::NAN),
        );
        let beta = [self.base_w, self.heating_w_per_k, self.cooling_w_per_k];
        let at = |h: f64, c: f64| -> f64 {
            let t = terms(h, c);
            (0..3)
                .map(|i| if beta[i] == 0.0 { 0.0 } else { t[i] * beta[i] })
                .sum()
        };
        let t = terms(h, c);
        // a step of the fine grid either way
        let d = 0.25 / 1.8;
        let by_h = (at(h + d, c) - at(h - d, c)) / (2.0 * d);
        let by_c = (at(h, c + d) - at(h, c - d)) / (2.0 * d);
        uneven.stretch([t[0], t[1], t[2], by_h, by_c])
    }

    /// Band of the heating slope, W/K.
    pub fn heating_slope(&self) -> Band {
        self.band(|_, _| [0.0, 1.0, 0.0])
    }

    /// Band of the base, W.
    pub fn base(&self) -> Band {
        self.band(|_, _| [1.0, 0.0, 0.0])
    }

    /// Band of the heating balance point, C; no further than the ends of the search.
    pub fn balance_c(&self) -> Option<Band> {
        let mid = self.heating_c?;
        let of = || self.region.iter().filter_map(|g| g.heating_c);
        let low = of().fold(mid, f64::min);
        let high = of().fold(mid, f64::max);
        let stretch = self
            .uneven
            .as_ref()
            .map_or(1.0, |u| u.stretch([0.0, 0.0, 0.0, 1.0, 0.0]));
        Some(Band {
            low: (mid - (mid - low) * stretch).max(ends_c().0),
            mid,
            high: (mid + (high - mid) * stretch).min(ends_c().1),
        })
    }

    /// Whether the balance point is held by the bills, and not by the end of the grid.
    pub fn balance_is_held(&self) -> bool {
        let (low, high) = ends_c();
        self.balance_c()
            .is_none_or(|b| b.low > low + 0.2 && b.high < high - 0.2)
    }

    /// Energy of a year of days, J, with its band: all of it, and the part that follows the cold.
    pub fn year(&self, year: &crate::YearOfDays) -> (Band, Band) {
        let days = year.mean_c.len() as f64;
        let sums = year.sums();
        let of = |b: f64, t: f64, heating: bool| {
            if t.is_nan() {
                0.0
            } else {
                sums.degree_days(t, heating) * b
            }
        };
        let all = self.band(|h, c| [days, of(1.0, h, true), of(1.0, c, false)]);
        let heating = self.band(|h, _| [0.0, of(1.0, h, true), 0.0]);
        (all.times(86_400.0), heating.times(86_400.0))
    }

    /// Use the model gives for one bill, W.
    pub fn fitted_w(&self, o: &Observation) -> f64 {
        let of = |t: Option<f64>, slope: f64, sign: f64| {
            t.map_or(0.0, |t| slope * degree_days(&o.days_c, t, sign))
        };
        self.base_w
            + of(self.heating_c, self.heating_w_per_k, 1.0)
            + of(self.cooling_c, self.cooling_w_per_k, -1.0)
    }

    /// Bills that truly heat: with at least a kelvin of heating degree days a day.
    pub fn heating_periods(&self) -> usize {
        self.heating_c.map_or(0, |t| {
            self.observations
                .iter()
                .filter(|o| degree_days(&o.days_c, t, 1.0) >= 1.0)
                .count()
        })
    }

    /// Bills behind it.
    pub fn bills(&self) -> usize {
        self.observations.len()
    }
}
