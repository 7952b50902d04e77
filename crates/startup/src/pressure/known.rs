//! How well the loss of gas is known, doubt by doubt.

use serde::Serialize;

use super::{PressureTest, VISIBLE};
use crate::leak_scale::{TestGas, YEAR_S, leak_ratio};
use crate::wrong::Wrong;

/// Doubts of the loss, each one standard deviation, as share of the gas per second.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Doubts {
    /// Scatter from reading to reading: more readings help.
    pub scatter: f64,
    /// Steps of gauge and thermometer: neither time between readings nor number helps, only length.
    pub step: f64,
    /// The thermometer is not the gas.
    pub wander: f64,
    /// The gauge's own error moves.
    pub drift: f64,
    /// What is left of the constant errors of both, because the temperature changed.
    pub bias: f64,
}

/// End-to-end wander of a random walk taken into a least-squares slope is at most this much more.
/// Source: `common-practice`, variance 6/5 of the end-to-end estimate.
const WALK: f64 = 1.0955;

impl Doubts {
    /// All together.
    pub fn all(self) -> f64 {
        let Self {
            scatter,
            step,
            wander,
            drift,
            bias,
        } = self;
        (scatter * scatter + step * step + wander * wander + drift * drift + bias * bias).sqrt()
    }

    /// The largest, in words, with what would make it smaller.
    pub fn largest(self) -> (&'static str, &'static str) {
        [
            (
                self.scatter,
                "scatter of the readings",
                "take more readings",
            ),
            (
                self.step,
                "the steps of gauge and thermometer",
                "use a gauge that shows smaller steps",
            ),
            (
                self.wander,
                "the thermometer, which is not the gas",
                "strap it to the line under insulation, out of sun and draught",
            ),
            (
                self.drift,
                "drift of the gauge",
                "use a gauge with a better stability",
            ),
            (
                self.bias,
                "constant errors while the temperature changed",
                "end the test at the temperature it began with",
            ),
        ]
        .into_iter()
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(("nothing", ""), |x| (x.1, x.2))
    }

    /// Doubts of a slope through readings.
    ///
    /// # Equation
    /// scatter `s / sqrt(Sxx)`; step `h Sx / (Sxx sqrt(3))`; wander and drift `1.0955 w sqrt(2) / D`;
    /// bias `(g/p + k/T) |dT| / (T D)`
    /// # Symbols
    /// `s` scatter of one reading, share; `Sxx` sum of squared, `Sx` of absolute times about their
    /// mean; `h` half a step of both, share; `w` standard deviation of wander or drift, share; `D`
    /// length, s; `g`, `k` constant errors of gauge and thermometer; `dT` change of temperature
    /// over the test, K; `p` Pa absolute; `T` K.
    /// # Range
    /// Positive length.
    /// # Source
    /// `common-practice`: propagation of errors; limits are two standard deviations. A constant
    /// error of the gauge cancels but for the change of temperature; steps do not average out
    /// when the reading hardly moves, so their bound is taken as evenly spread.
    pub(crate) fn of(
        test: &PressureTest,
        at: (f64, f64),
        scatter: f64,
        (spread_s2, reach_s): (f64, f64),
        length_s: f64,
        change_k: f64,
    ) -> Self {
        let (pa, kelvin) = at;
        let gauge = test.gauge.today(test.day);
        let thermo = test.thermometer.today(test.day);
        let stated = libm::hypot(gauge.scatter / pa, thermo.scatter / kelvin);
        let half = 0.5 * (gauge.resolution / pa + thermo.resolution / kelvin);
        let ends = WALK * std::f64::consts::SQRT_2 / length_s;
        Self {
            scatter: stated.max(scatter) / spread_s2.sqrt(),
            step: half * reach_s / spread_s2 / 3.0_f64.sqrt(),
            wander: ends * 0.5 * (test.wander_k + thermo.stability) / kelvin,
            drift: ends * 0.5 * gauge.stability / pa,
            bias: 0.5 * (gauge.accuracy / pa + thermo.accuracy / kelvin) * change_k.abs()
                / kelvin
                / length_s,
        }
    }
}

/// Sums of evenly spaced readings: squared and absolute times about the mean.
fn even(length_s: f64, readings: f64) -> (f64, f64) {
    let n = readings.max(2.0);
    (
        length_s * length_s * n * (n + 1.0) / (12.0 * (n - 1.0)),
        length_s * n / 4.0 * n / (n - 1.0),
    )
}

/// Grams a year of refrigerant for a loss of gas, share per second, at the larger bound.
pub(crate) fn grams_per_year(
    test: &PressureTest,
    share_per_s: f64,
    density_kg_per_m3: f64,
    ratio: f64,
) -> f64 {
    share_per_s * density_kg_per_m3 * test.volume.m3 * ratio * YEAR_S * 1000.0
}

/// What a test of a given length, with evenly spaced readings, could see at least.
struct Foreseen<'t> {
    test: &'t PressureTest,
    at: (f64, f64),
    density_kg_per_m3: f64,
    ratio: f64,
    between_s: f64,
    scatter: f64,
}

impl<'t> Foreseen<'t> {
    fn new(
        test: &'t PressureTest,
        gauge_pa: f64,
        line_c: f64,
        between_s: f64,
        scatter: f64,
    ) -> Result<Self, Wrong> {
        let pa = gauge_pa + test.air_pa;
        let ratio = leak_ratio(
            TestGas::Nitrogen,
            pa,
            test.air_pa,
            test.refrigerant,
            test.service_c,
        )?;
        Ok(Self {
            test,
            at: (pa, line_c + 273.15),
            density_kg_per_m3: physics::nitrogen::density_kg_per_m3(pa, line_c)?,
            ratio: ratio.high(),
            between_s,
            scatter,
        })
    }

    fn doubts(&self, length_s: f64) -> Doubts {
        let n = libm::floor(length_s / self.between_s.max(1.0)) + 1.0;
        let spread = even(length_s, n);
        Doubts::of(self.test, self.at, self.scatter, spread, length_s, 0.0)
    }

    fn g_per_year(&self, length_s: f64) -> f64 {
        let s = self.doubts(length_s).all();
        grams_per_year(self.test, VISIBLE * s, self.density_kg_per_m3, self.ratio)
            * (1.0 + self.test.volume.share)
    }
}

/// Smallest leak that tests of these lengths could see, g a year: what an hour tells, and a night.
///
/// # Equation
/// `6 s(D) r V (1 + u) k`, as in [`expected_wait_s`]
/// # Symbols
/// `D` length, s; the others as in [`expected_wait_s`].
/// # Range
/// Lengths of a minute or more; the temperature at the end as at the beginning.
/// # Source
/// `common-practice`: as [`Doubts`].
/// # Example
/// `a_longer_test_sees_more` in `crates/startup/tests/pressure.rs`.
/// # Errors
/// Pressure or temperature outside what nitrogen is known for.
pub fn visible_after(
    test: &PressureTest,
    gauge_pa: f64,
    line_c: f64,
    between_s: f64,
    lengths_s: &[f64],
) -> Result<Vec<f64>, Wrong> {
    let foreseen = Foreseen::new(test, gauge_pa, line_c, between_s, 0.0)?;
    Ok(lengths_s
        .iter()
        .map(|length_s| foreseen.g_per_year(length_s.max(60.0)))
        .collect())
}

/// Doubts that a test of a given length will have: which is the largest, and what would shorten it.
///
/// # Errors
/// Pressure or temperature outside what nitrogen is known for.
pub fn expected_doubts(
    test: &PressureTest,
    gauge_pa: f64,
    line_c: f64,
    between_s: f64,
    length_s: f64,
) -> Result<Doubts, Wrong> {
    Ok(Foreseen::new(test, gauge_pa, line_c, between_s, 0.0)?.doubts(length_s.max(60.0)))
}

/// How long a test must last before it can see the leak worth a call-back.
///
/// # Equation
/// the least `D` with `6 s(D) r V (1 + u) k <= worth`
/// # Symbols
/// `s(D)` the [`Doubts`] of a test of that length with evenly spaced readings, 1/s; `r` density,
/// kg/m3; `V` volume, m3, `u` its limit of error; `k` larger bound of [`leak_ratio`].
/// # Range
/// 1 minute to 14 days; `None` when even that does not do.
/// # Source
/// `common-practice`: as [`Doubts`].
/// # Example
/// `the_wait_is_long_enough` in `crates/startup/tests/pressure.rs`: 60 simulated days.
/// # Errors
/// Pressure or temperature outside what nitrogen is known for.
pub fn expected_wait_s(
    test: &PressureTest,
    gauge_pa: f64,
    line_c: f64,
    between_s: f64,
    scatter: f64,
) -> Result<Option<f64>, Wrong> {
    let foreseen = Foreseen::new(test, gauge_pa, line_c, between_s, scatter)?;
    let seen = |d: f64| foreseen.g_per_year(d);
    let (mut low, mut high) = (60.0, 14.0 * 86_400.0);
    if seen(high) > test.worth_g_per_year {
        return Ok(None);
    }
    if seen(low) <= test.worth_g_per_year {
        return Ok(Some(low));
    }
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if seen(mid) > test.worth_g_per_year {
            low = mid;
        } else {
            high = mid;
        }
    }
    Ok(Some(high))
}
