//! What changes of the code slipped past the other tests: words, units, signs and edges.

mod support;

use reckon::Verdict;
use startup::Stamp;
use startup::call_back::Cause;
use startup::instrument::Instrument;
use startup::joints::read_nitrogen_m3_per_s;
use startup::pressure::{PressureReading, judge, too_soon};
use startup::stamp::{read_clock, read_day};
use startup::vacuum::{self, rise};
use support::{Dice, MICRON, PSI, pressure_test};

#[test]
fn every_cause_of_a_call_back_has_words_of_its_own() {
    let mut words: Vec<&str> = Cause::ALL.iter().map(|c| c.words()).collect();
    assert!(words.iter().all(|w| w.len() > 5));
    words.sort_unstable();
    words.dedup();
    assert_eq!(words.len(), Cause::ALL.len());
}

/// 1 cubic foot is 0.028316846592 m3 (NIST SP 811).
#[test]
fn nitrogen_is_read_in_its_units() {
    let near = |text: &str, want: f64| {
        let got = read_nitrogen_m3_per_s(text).expect(text);
        assert!((got - want).abs() < 1e-12, "{text}: {got}");
    };
    near("3 ft3/h", 3.0 * 0.028_316_846_592 / 3600.0);
    near("2.5 scfh", 2.5 * 0.028_316_846_592 / 3600.0);
    near("1.5 L/min", 1.5e-3 / 60.0);
    near("none", 0.0);
    for bad in ["", "L/min", "1.5", "1.5 gal/h", "1.2.3 L/min", "-1 L/min"] {
        assert!(read_nitrogen_m3_per_s(bad).is_err(), "{bad}");
    }
}

#[test]
fn times_of_day_have_whole_parts_and_days_are_those_of_the_place() {
    assert_eq!(read_clock("10:30:05.5").ok(), Some(37_805.5));
    assert_eq!(read_clock("12:05 AM").ok(), Some(300.0));
    for bad in ["10:30:+5", "10:30:-0", "10:30:inf", "10:30:.5", "10:30:"] {
        assert!(read_clock(bad).is_err(), "{bad}");
    }
    let late = Stamp::read("2026-01-01T23:30:00-05:00", None).expect("a time");
    assert_eq!(Some(late.day()), read_day("2026-01-01").ok());
    let early = Stamp::read("2026-01-02T00:30:00+09:00", None).expect("a time");
    assert_eq!(Some(early.day()), read_day("2026-01-02").ok());
}

#[test]
fn an_instrument_calibrated_today_is_in_order() {
    let gauge = |day| Instrument::new("gauge 1", 10.0, 1.0).calibrated(day);
    assert_eq!(gauge(20_000).standing(20_000).0, Verdict::Holds);
    assert_eq!(gauge(20_001).standing(20_000).0, Verdict::CannotTell);
    let due = gauge(20_000);
    assert_eq!(due.standing(20_000 + due.good_for_days).0, Verdict::Holds);
    let (verdict, says) = due.standing(20_003 + due.good_for_days);
    assert_eq!(verdict, Verdict::Fails);
    assert!(says.contains("3 days ago"), "{says}");
}

/// One reading when the pressure is put on, then so many that count, to and fro by `noise` psi.
fn readings(count: u32, every_s: f64, noise: f64) -> Vec<PressureReading> {
    let one = |at_s: f64, psi: f64| PressureReading {
        at_s,
        gauge_pa: psi * PSI,
        line_c: Some(20.0),
    };
    let to_and_fro = |i: u32| if i.is_multiple_of(2) { noise } else { -noise };
    let counted = (0..count).map(|i| one(600.0 + f64::from(i) * every_s, 550.0 + to_and_fro(i)));
    [one(0.0, 550.0)].into_iter().chain(counted).collect()
}

/// Six readings that count say how far they scatter; five do not, and the instruments' word stands.
#[test]
fn scatter_counts_from_six_readings_on() {
    let test = pressure_test();
    let scatter = |count: u32, noise: f64| {
        let a = judge(&test, &readings(count, 1200.0, noise)).expect("usable");
        a.doubts.scatter
    };
    // the first of the five is 2 psi higher, which is 0.4 % of the gas
    assert!((scatter(5, 2.0) / scatter(5, 0.0) - 1.0).abs() < 0.01);
    assert!(scatter(6, 2.0) > 1.5 * scatter(6, 0.0));
}

#[test]
fn readings_that_come_too_soon_are_told_what_they_wait_for() {
    let test = pressure_test();
    let one = |at_s| PressureReading {
        at_s,
        gauge_pa: 550.0 * PSI,
        line_c: Some(20.0),
    };
    let says = |times: &[f64]| {
        let all: Vec<_> = times.iter().map(|t| one(*t)).collect();
        too_soon(&test, &all)
    };
    assert_eq!(says(&[]), None);
    let warm = says(&[0.0, 240.0]).expect("too soon");
    assert!(warm.contains("is warm") && warm.contains("6 min"), "{warm}");
    let one_more = says(&[0.0, 700.0]).expect("too soon");
    assert!(one_more.contains("one more reading"), "{one_more}");
    assert_eq!(says(&[0.0, 700.0, 800.0]), None);
}

#[test]
fn a_gap_without_readings_is_noted_and_an_even_pace_is_not() {
    let test = pressure_test();
    let gap = |all: &[PressureReading]| {
        let a = judge(&test, all).expect("usable");
        a.notes.iter().any(|n| n.contains("a gap of"))
    };
    let mut all = readings(8, 600.0, 0.0);
    assert!(!gap(&all));
    for r in all.iter_mut().skip(6) {
        r.at_s += 3.0 * 3600.0;
    }
    assert!(gap(&all));
}

/// By the criterion that weighs the shapes, one constant more must earn its place: level readings
/// with nothing but their scatter are level first, and straight ones straight.
#[test]
fn a_shape_with_more_constants_must_earn_them() {
    let mut dice = Dice::new(7);
    let (mut level, mut straight) = (0, 0);
    for _ in 0..100 {
        let mut points = |slope: f64| -> Vec<(f64, f64, f64)> {
            (0..40)
                .map(|i| {
                    let t = f64::from(i) * 30.0;
                    (t, 40.0 + slope * t + 0.2 * dice.normal(), 0.2)
                })
                .collect()
        };
        let heaviest = |p: &[(f64, f64, f64)]| {
            let r = rise(p).expect("enough");
            let sum: f64 = r.fits.iter().map(|f| f.weight).sum();
            assert!((sum - 1.0).abs() < 1e-9);
            r.fits
                .iter()
                .max_by(|a, b| a.weight.total_cmp(&b.weight))
                .map(|f| f.cause)
        };
        level += usize::from(heaviest(&points(0.0)) == Some(vacuum::Cause::Neither));
        straight += usize::from(heaviest(&points(0.01)) == Some(vacuum::Cause::Straight));
    }
    assert!(level > 85 && straight > 85, "{level} {straight}");
}

/// A straight rise past half the vapour pressure of the coldest tube's water is a leak; far below
/// it may be either.
#[test]
fn a_straight_rise_is_told_by_how_near_it_comes_to_water() {
    let mut t = support::vacuum_test();
    let shape = |t: &vacuum::VacuumTest| {
        let readings: Vec<_> = (0..40)
            .map(|i| vacuum::VacuumReading {
                at_s: f64::from(i) * 30.0,
                pa: (300.0 + 8.0 * f64::from(i)) * MICRON,
            })
            .collect();
        vacuum::judge(t, &readings).expect("usable").shape
    };
    // water at 10 C would come to 9,200 micron
    assert!(shape(&t).contains("or water far below"), "{}", shape(&t));
    // at -20 C to 770 micron of ice
    t.coldest_c = Some(-20.0);
    assert!(
        shape(&t).contains("past half the vapour pressure"),
        "{}",
        shape(&t)
    );
}
