//! Simulated days on which the thermometer is not the gas: tubes that warm late, a part of them
//! indoors, sun that comes and goes, a thermometer with a lag of its own that feels the air besides,
//! gas still warm from filling, gauges and thermometers off within their calibration, or past it.
//!
//! The simulation is three lumps and a density; the verdict knows nothing of lumps. It knows only
//! the limit that the fitter states for how far the thermometer strays from the gas.

mod support;

use physics::nitrogen::density_kg_per_m3;
use reckon::Verdict;
use startup::leak_scale::{TestGas, YEAR_S, leak_ratio};
use startup::pressure::{PressureAnswer, PressureReading, PressureTest, judge};
use support::{Dice, PSI, pressure_test, step};

/// Temperatures of one day: the gas outdoors, the gas indoors, what the thermometer has.
#[allow(clippy::struct_field_names)] // the unit is in the name
struct Lumps {
    outdoors_c: f64,
    indoors_c: f64,
    thermometer_c: f64,
}

/// What a day is like.
struct DayLike {
    base_c: f64,
    swing_k: f64,
    phase: f64,
    sun_k: f64,
    sun_at: [(f64, f64); 3],
    indoors_share: f64,
    tube_s: f64,
    thermometer_s: f64,
    feels_air: f64,
}

impl DayLike {
    fn new(dice: &mut Dice) -> Self {
        let sun = |dice: &mut Dice| {
            let from = dice.even(0.0, 86_400.0);
            (from, from + dice.even(600.0, 9_000.0))
        };
        Self {
            base_c: dice.even(-5.0, 25.0),
            swing_k: dice.even(0.0, 6.0),
            phase: dice.even(0.0, std::f64::consts::TAU),
            sun_k: dice.even(0.0, 8.0),
            sun_at: [sun(dice), sun(dice), sun(dice)],
            indoors_share: dice.even(0.0, 0.7),
            tube_s: dice.log(200.0, 1_500.0),
            thermometer_s: dice.log(30.0, 400.0),
            feels_air: dice.even(0.0, 0.25),
        }
    }

    fn air_c(&self, t: f64) -> f64 {
        let sun = self.sun_at.iter().any(|(a, b)| t >= *a && t < *b);
        let daily = libm::sin(t * 2.0 * std::f64::consts::PI / 86_400.0 + self.phase);
        self.base_c + self.swing_k * daily + if sun { self.sun_k } else { 0.0 }
    }

    fn advance(&self, l: &mut Lumps, t: f64, dt: f64) {
        let air = self.air_c(t);
        l.outdoors_c += (air - l.outdoors_c) * dt / self.tube_s;
        l.indoors_c += (20.0 - l.indoors_c) * dt / self.tube_s;
        let near = l.outdoors_c + self.feels_air * (air - l.outdoors_c);
        l.thermometer_c += (near - l.thermometer_c) * dt / self.thermometer_s;
    }

    /// One temperature that gas of this density would have.
    fn gas_c(&self, l: &Lumps) -> f64 {
        let f = self.indoors_share;
        1.0 / (f / (l.indoors_c + 273.15) + (1.0 - f) / (l.outdoors_c + 273.15)) - 273.15
    }
}

/// Pressure of a mean density over two lumps, Pa absolute: bisection.
fn pressure_pa(rho: f64, f: f64, l: &Lumps, near: f64) -> f64 {
    let (mut low, mut high) = (0.5 * near, 1.6 * near);
    for _ in 0..46 {
        let mid = 0.5 * (low + high);
        let mean = f * density_kg_per_m3(mid, l.indoors_c).expect("in range")
            + (1.0 - f) * density_kg_per_m3(mid, l.outdoors_c).expect("in range");
        if mean < rho {
            low = mid;
        } else {
            high = mid;
        }
    }
    low
}

/// One day: readings, the true stray of the thermometer (its farthest from its own mean, K), and
/// the leak's share of the gas a second for one gram a year.
fn simulate(
    test: &PressureTest,
    dice: &mut Dice,
    grams: f64,
    hours: f64,
    many: usize,
    times_off: f64,
) -> (Vec<PressureReading>, f64) {
    let day = DayLike::new(dice);
    let p0 = dice.even(450.0, 560.0) * PSI + test.air_pa;
    let filled_k = dice.even(3.0, 15.0);
    let mut l = Lumps {
        outdoors_c: day.air_c(0.0) + filled_k,
        indoors_c: 20.0 + filled_k,
        thermometer_c: day.air_c(0.0) + 0.5 * filled_k,
    };
    let rho0 = density_kg_per_m3(p0, day.gas_c(&l)).expect("in range");
    let ratio = leak_ratio(
        TestGas::Nitrogen,
        p0,
        test.air_pa,
        test.refrigerant,
        test.service_c,
    )
    .expect("in range");
    let per_s = grams / 1000.0 / YEAR_S / ratio.high() / test.volume.m3 / rho0;
    let gauge_off = times_off * 0.5 * test.gauge.accuracy * dice.normal().clamp(-2.0, 2.0);
    let thermo_off = times_off * 0.5 * test.thermometer.accuracy * dice.normal().clamp(-2.0, 2.0);
    let drift = times_off * 0.5 * test.gauge.stability * dice.normal().clamp(-2.0, 2.0);
    let length = hours * 3600.0 + test.settle_s;
    let dt = 20.0;
    let steps = (length / dt) as usize;
    let each = (steps / many).max(1);
    let mut readings = Vec::new();
    let mut strays = Vec::new();
    for i in 0..=steps {
        let t = i as f64 * dt;
        if i % each == 0 {
            let rho = rho0 * (1.0 - per_s * t);
            let p = pressure_pa(rho, day.indoors_share, &l, p0) - test.air_pa;
            let seen = p + gauge_off + drift * t / length + test.gauge.scatter * dice.normal();
            let c = l.thermometer_c + thermo_off + test.thermometer.scatter * dice.normal();
            readings.push(PressureReading {
                at_s: t,
                gauge_pa: step(seen, test.gauge.resolution),
                line_c: Some(step(c, test.thermometer.resolution)),
            });
            if t >= test.settle_s {
                strays.push(l.thermometer_c - day.gas_c(&l));
            }
        }
        day.advance(&mut l, t, dt);
    }
    let mean = strays.iter().sum::<f64>() / strays.len() as f64;
    let most = strays.iter().map(|s| (s - mean).abs()).fold(0.0, f64::max);
    (readings, most)
}

#[derive(Debug, Default)]
struct Count {
    tight: usize,
    accused: usize,
    above: usize,
    found: usize,
    wrongly_held: usize,
    verdicts: [usize; 3],
    refused: usize,
}

impl Count {
    fn add(&mut self, grams: f64, a: &PressureAnswer) {
        self.verdicts[a.verdict as usize] += 1;
        if grams == 0.0 {
            self.tight += 1;
            self.accused += usize::from(a.verdict == Verdict::Fails);
        }
        if grams > a.visible_g_per_year {
            self.above += 1;
            self.found += usize::from(a.verdict == Verdict::Fails);
            self.wrongly_held += usize::from(a.verdict == Verdict::Holds);
        }
    }
}

/// Days with the stray stated as so many times the true one.
fn days(cases: usize, seed: u64, stated: f64) -> Count {
    let mut dice = Dice::new(seed);
    let mut count = Count::default();
    for case in 0..cases {
        let mut test = pressure_test();
        test.plate_pa = 700.0 * PSI;
        test.settle_s = 2_400.0;
        test.worth_g_per_year = dice.log(100.0, 3_000.0);
        let overdue = case % 4 == 3;
        if overdue {
            // a gauge past its day may be off twice as far; the verdict counts its limits twice
            test.gauge.calibrated_day = Some(test.day - 800);
            test.thermometer.calibrated_day = Some(test.day - 800);
        }
        let hours = dice.log(1.0, 30.0);
        let many = dice.even(12.0, 60.0) as usize;
        let grams = if case % 3 == 0 {
            0.0
        } else {
            dice.log(20.0, 40_000.0)
        };
        let off = if overdue { 2.0 } else { 1.0 };
        let (readings, stray) = simulate(&test, &mut dice, grams, hours, many, off);
        test.wander_k = (stated * stray).clamp(0.05, 15.0);
        match judge(&test, &readings) {
            Ok(a) => count.add(grams, &a),
            Err(_) => count.refused += 1,
        }
    }
    count
}

/// 700 days, the stray stated as it is.
#[test]
fn the_stated_rates_hold_with_a_thermometer_that_is_not_the_gas() {
    let c = days(700, 41, 1.0);
    println!("{c:?}");
    assert!(c.tight >= 200 && c.above >= 150, "{c:?}");
    assert!(c.refused <= 35, "few days are refused: {c:?}");
    assert_eq!(c.wrongly_held, 0, "{c:?}");
    // stated: 3 standard deviations either side. The stray is taken at its limit, which is 2.6 of
    // its own: so no tight system may be called leaking but by chance, 1 in 700
    assert!(c.accused <= 1, "{c:?}");
    assert!(c.found as f64 >= 0.98 * c.above as f64, "{c:?}");
    assert!(c.verdicts.iter().all(|n| *n >= 40), "{c:?}");
}

/// What understating it costs: with a third of the true stray systems are accused wrongly, and
/// that is why the tool asks for it.
#[test]
fn a_stray_stated_too_small_is_paid_for() {
    let honest = days(300, 43, 1.0);
    let third = days(300, 43, 1.0 / 3.0);
    println!("{honest:?}\n{third:?}");
    assert!(third.accused > honest.accused, "{third:?}");
}
