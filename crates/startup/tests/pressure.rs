//! The pressure test against outside values and simulated days.

mod support;

use physics::nitrogen::{density_kg_per_m3, ideal_pressure_after_pa, pressure_after_pa};
use reckon::Verdict;
use startup::leak_scale::{TestGas, YEAR_S, leak_ratio};
use startup::pressure::{
    PressureReading, PressureTest, expected_wait_s, judge, stages, visible_after,
};
use support::{Dice, PSI, pressure_test, step};

/// Published course example (secondary): 150 psig at 95 F falls to 144.06 psig at 75 F, by the
/// trade's rule. Tolerance: the digits printed, with 14.7 psi of air.
#[test]
fn the_published_example() {
    let air = 14.7 * PSI;
    let p = ideal_pressure_after_pa(
        150.0 * PSI + air,
        35.0,
        75.0_f64.mul_add(5.0 / 9.0, -160.0 / 9.0),
    );
    assert!(p.is_ok_and(|p| ((p - air) / PSI - 144.06).abs() < 0.01));
}

/// Reference library: nitrogen, CoolProp 8.0.0, every row. The fit's bound is 1e-5.
#[test]
fn nitrogen_as_the_reference_has_it() {
    let text = include_str!("../../../checks/values/physics_nitrogen.csv");
    let mut rows = 0;
    for line in text.lines().skip(2) {
        let v: Vec<f64> = line.split(',').filter_map(|x| x.parse().ok()).collect();
        let [p1, t1, t2, p2] = v.as_slice() else {
            panic!("row {line}")
        };
        let got = pressure_after_pa(*p1, *t1, *t2).expect("in range");
        assert!((got / p2 - 1.0).abs() < 2e-5, "{line}: {got}");
        rows += 1;
    }
    assert!(rows > 20);
}

/// One simulated day: true leak, g a year at the larger bound; readings with all their errors.
fn simulate(
    test: &PressureTest,
    dice: &mut Dice,
    grams: f64,
    hours: f64,
    every_s: f64,
) -> Vec<PressureReading> {
    let gauge_pa = dice.even(450.0, 600.0) * PSI;
    let begin_c = dice.even(-5.0, 30.0);
    let swing_k = dice.even(-8.0, 4.0);
    let p0 = gauge_pa + test.air_pa;
    let rho0 = density_kg_per_m3(p0, begin_c).expect("in range");
    let ratio = leak_ratio(
        TestGas::Nitrogen,
        p0,
        test.air_pa,
        test.refrigerant,
        test.service_c,
    )
    .expect("in range");
    let per_s = grams / 1000.0 / YEAR_S / ratio.high() / test.volume.m3 / rho0;
    // limits are two standard deviations
    let gauge_bias = 0.5 * test.gauge.accuracy * dice.normal();
    let thermo_bias = 0.5 * test.thermometer.accuracy * dice.normal();
    let drift = 0.5 * test.gauge.stability * dice.normal();
    let n = (hours * 3600.0 / every_s) as usize + 1;
    let length = hours * 3600.0;
    // the wander is a random walk whose ends differ by sqrt(2) of its standard deviation
    let walk = 0.5 * test.wander_k * std::f64::consts::SQRT_2 / (n as f64).sqrt();
    let mut wander = 0.0;
    (0..n)
        .map(|i| {
            let t = i as f64 * every_s;
            let x = t / length;
            let true_c = begin_c + swing_k * x;
            let rho = rho0 * (1.0 - per_s * t);
            // pressure of that density: bisection on the density function
            let (mut low, mut high) = (0.5 * p0, 1.5 * p0);
            for _ in 0..50 {
                let mid = 0.5 * (low + high);
                if density_kg_per_m3(mid, true_c).expect("in range") < rho {
                    low = mid;
                } else {
                    high = mid;
                }
            }
            wander += walk * dice.normal();
            let p = low - test.air_pa + gauge_bias + drift * x + test.gauge.scatter * dice.normal();
            let c = true_c + thermo_bias + wander + test.thermometer.scatter * dice.normal();
            PressureReading {
                at_s: t,
                gauge_pa: step(p, test.gauge.resolution),
                line_c: Some(step(c, test.thermometer.resolution)),
            }
        })
        .collect()
}

/// The stated rates, over 900 days: a tight system is not called leaking, a leak larger than the
/// one stated as visible is never said to hold, and such a leak is found.
#[test]
fn three_verdicts_at_their_stated_rates() {
    let mut test = pressure_test();
    test.worth_g_per_year = 400.0;
    let mut dice = Dice::new(6);
    let (mut tight, mut accused) = (0, 0);
    let (mut above, mut found, mut wrongly_held) = (0, 0, 0);
    let mut seen = [0_usize; 3];
    for case in 0..900 {
        let hours = dice.log(0.5, 30.0);
        let every = hours * 3600.0 / dice.even(8.0, 60.0);
        let grams = if case % 3 == 0 {
            0.0
        } else {
            dice.log(5.0, 20_000.0)
        };
        let readings = simulate(&test, &mut dice, grams, hours + 0.2, every);
        let Ok(answer) = judge(&test, &readings) else {
            continue;
        };
        seen[answer.verdict as usize] += 1;
        if grams == 0.0 {
            tight += 1;
            accused += usize::from(answer.verdict == Verdict::Fails);
        }
        if grams > answer.visible_g_per_year {
            above += 1;
            found += usize::from(answer.verdict == Verdict::Fails);
            wrongly_held += usize::from(answer.verdict == Verdict::Holds);
        }
        if answer.verdict == Verdict::Holds {
            assert!(answer.visible_g_per_year <= test.worth_g_per_year);
        }
    }
    println!("tight {tight} accused {accused}; above {above} found {found}; verdicts {seen:?}");
    assert!(
        tight >= 250 && above >= 150,
        "the cases cover both: {tight} {above}"
    );
    // stated: 3 standard deviations, 2 in 1,000; of 300 cases 3 are already one in ten thousand
    assert!(
        accused <= 2,
        "{accused} tight systems of {tight} called leaking"
    );
    assert_eq!(wrongly_held, 0);
    // stated: 998 of 1,000; bent or settling days may be put off instead, but not one in fifty
    assert!(found as f64 >= 0.98 * above as f64, "{found} of {above}");
    assert!(
        seen.iter().all(|n| *n >= 20),
        "all three verdicts: {seen:?}"
    );
}

/// The waits foretold: after the time asked for, a tight system holds.
#[test]
fn the_wait_is_long_enough() {
    let test = pressure_test();
    let mut dice = Dice::new(7);
    for _ in 0..60 {
        let wait = expected_wait_s(&test, 550.0 * PSI, 15.0, 600.0, 0.0)
            .expect("in range")
            .expect("a wait does it");
        let readings = simulate(&test, &mut dice, 0.0, wait * 1.25 / 3600.0 + 0.2, 600.0);
        let a = judge(&test, &readings).expect("readings");
        assert_ne!(a.verdict, Verdict::Fails, "{}", a.says);
        assert!(a.visible_g_per_year < 1.1 * test.worth_g_per_year);
    }
}

/// What a length could see is what the wait was found by, and more time sees smaller leaks.
#[test]
fn a_longer_test_sees_more() {
    let test = pressure_test();
    let wait = expected_wait_s(&test, 550.0 * PSI, 15.0, 600.0, 0.0)
        .expect("in range")
        .expect("a wait does it");
    let seen = visible_after(
        &test,
        550.0 * PSI,
        15.0,
        600.0,
        &[600.0, 3600.0, 50_400.0, wait],
    )
    .expect("in range");
    assert!(seen.windows(2).all(|w| w[1] < w[0]), "{seen:?}");
    assert!(
        (seen[3] / test.worth_g_per_year - 1.0).abs() < 1e-6,
        "{seen:?}"
    );
}

/// Trade card F22, computed there: 1.5 L, 2.5 psi, 30 min: about 1,700 g a year, laminar, R-410A
/// at rest. Ours for a loss of 2.5 psi in 30 min, at the laminar bound; the card is an order of
/// magnitude, so within a third.
#[test]
fn the_trade_card_agrees() {
    let ratio = leak_ratio(
        TestGas::Nitrogen,
        600.0 * PSI + 101_325.0,
        101_325.0,
        physics::refrigerant::Refrigerant::R410A,
        20.0,
    )
    .expect("in range");
    let p = 600.0 * PSI + 101_325.0;
    let lost = density_kg_per_m3(p, 21.1).expect("in range")
        - density_kg_per_m3(p - 2.5 * PSI, 21.1).expect("in range");
    let grams = lost * 0.0015 * ratio.laminar * YEAR_S / 1800.0 * 1000.0;
    assert!((grams / 1700.0 - 1.0).abs() < 0.34, "{grams}");
}

/// A constant error of the gauge hardly matters: 10 psi of it, same temperature at both ends.
#[test]
fn a_constant_gauge_error_cancels() {
    let test = pressure_test();
    let readings = |bias: f64| -> Vec<PressureReading> {
        (0..40)
            .map(|i| PressureReading {
                at_s: f64::from(i) * 900.0,
                gauge_pa: (550.0 + bias) * PSI,
                line_c: Some(20.0),
            })
            .collect()
    };
    let a = judge(&test, &readings(0.0)).expect("a");
    let b = judge(&test, &readings(10.0)).expect("b");
    assert_eq!(a.verdict, b.verdict);
    assert!((a.visible_g_per_year / b.visible_g_per_year - 1.0).abs() < 0.05);
}

/// An overdue calibration widens what cannot be seen, and says so.
#[test]
fn an_overdue_gauge_counts_twice() {
    let mut test = pressure_test();
    let readings: Vec<PressureReading> = (0..30)
        .map(|i| PressureReading {
            at_s: f64::from(i) * 600.0,
            gauge_pa: 550.0 * PSI,
            line_c: Some(20.0),
        })
        .collect();
    let fresh = judge(&test, &readings).expect("fresh");
    test.gauge.calibrated_day = Some(20_000);
    test.thermometer.calibrated_day = None;
    let old = judge(&test, &readings).expect("old");
    assert!(old.visible_g_per_year > fresh.visible_g_per_year);
    assert!(
        old.notes
            .iter()
            .any(|n| n.contains("due for calibration 417 days ago"))
    );
    assert!(old.notes.iter().any(|n| n.contains("no calibration date")));
}

#[test]
fn stages_stop_at_the_target() {
    let s = stages(250.0 * PSI, 600.0 * PSI, &[]).expect("usable");
    let psi: Vec<f64> = s.iter().map(|x| x.gauge_pa / PSI).collect();
    assert_eq!(psi.len(), 2);
    assert!((psi[0] - 100.0).abs() < 1e-9 && (psi[1] - 250.0).abs() < 1e-9);
}
