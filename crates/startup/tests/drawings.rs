//! The drawings of the day as they are written, and where their points lie.

mod support;

use startup::pressure::PressureReading;
use startup::vacuum::VacuumReading;
use support::{MICRON, PSI, pressure_test, vacuum_test};

/// Half an hour of settling and eight hours of a small loss.
#[test]
fn a_pressure_test_as_drawn() {
    let readings: Vec<_> = (0..50)
        .map(|i| PressureReading {
            at_s: f64::from(i) * 600.0,
            gauge_pa: (550.0 - 0.02 * f64::from(i)) * PSI,
            line_c: Some(20.0 - 0.01 * f64::from(i)),
        })
        .collect();
    let a = startup::pressure::judge(&pressure_test(), &readings).expect("usable");
    insta::assert_snapshot!(startup::draw::pressure(&a));
}

/// Cold enough for ice in the tube: its line is drawn under the limit.
#[test]
fn a_vacuum_hold_as_drawn() {
    let mut t = vacuum_test();
    t.coldest_c = Some(-24.0);
    let readings: Vec<_> = (0..=30)
        .map(|i| {
            let s = f64::from(i) * 40.0;
            VacuumReading {
                at_s: 1_000.0 + s,
                pa: (300.0 + 250.0 * (1.0 - libm::exp(-s / 300.0))) * MICRON,
            }
        })
        .collect();
    let a = startup::vacuum::judge(&t, &readings).expect("usable");
    let svg = startup::draw::vacuum(&a, &t.criterion, &readings);
    assert!(svg.contains("ice in the coldest tube rises no higher"));
    insta::assert_snapshot!(svg);
}
