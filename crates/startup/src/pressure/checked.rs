//! What cannot be used, reading by reading.

use units::constants::PSI_PA as PSI;

use super::{PressureReading, PressureTest};
use crate::wrong::{Wrong, pressure, within};

/// Refuses limits and readings that cannot be.
pub(super) fn checked(test: &PressureTest, readings: &[PressureReading]) -> Result<(), Wrong> {
    within("volume under test", "m3", test.volume.m3, 2e-5, 0.05)?;
    within("air pressure", "Pa", test.air_pa, 55_000.0, 110_000.0)?;
    within("plate pressure", "psi", test.plate_pa / PSI, 20.0, 1000.0)?;
    within("gauge step", "psi", test.gauge.resolution / PSI, 0.0, 30.0)?;
    within(
        "gauge accuracy",
        "psi",
        test.gauge.accuracy / PSI,
        0.01,
        50.0,
    )?;
    within(
        "thermometer step",
        "K",
        test.thermometer.resolution,
        0.0,
        3.0,
    )?;
    within(
        "thermometer accuracy",
        "K",
        test.thermometer.accuracy,
        0.01,
        6.0,
    )?;
    within("wander of the thermometer", "K", test.wander_k, 0.02, 20.0)?;
    within(
        "leak worth a call-back",
        "g a year",
        test.worth_g_per_year,
        0.1,
        20_000.0,
    )?;
    within("settling time", "s", test.settle_s, 0.0, 86_400.0)?;
    let mut before: Option<f64> = None;
    let mut last: Option<&PressureReading> = None;
    for (i, r) in readings.iter().enumerate() {
        let n = i + 1;
        if !r.at_s.is_finite() {
            return Err(Wrong::new(
                format!("time of reading {n}"),
                "not a number",
                "seconds",
            ));
        }
        if before.is_some_and(|b| r.at_s < b) {
            return Err(Wrong::new(
                format!("time of reading {n}"),
                "earlier than the one before",
                "times that go forward: was the clock set back?",
            ));
        }
        if before == Some(r.at_s) {
            return Err(Wrong::new(
                format!("time of reading {n}"),
                "that of the one before",
                "one reading at a time: take one of the two out",
            ));
        }
        before = Some(r.at_s);
        if !(5.0 * PSI..=900.0 * PSI).contains(&r.gauge_pa) {
            return Err(Wrong::new(
                format!("pressure of reading {n}"),
                pressure(r.gauge_pa),
                "5 to 900 psi (34 to 6205 kPa) above the air: psi, bar or kPa mixed up?",
            ));
        }
        if r.gauge_pa > test.plate_pa {
            return Err(Wrong::new(
                format!("pressure of reading {n}"),
                pressure(r.gauge_pa),
                format!(
                    "at most {}, the plate's: let pressure off now, slowly, and start again lower",
                    pressure(test.plate_pa)
                ),
            ));
        }
        match r.line_c {
            None => {
                return Err(Wrong::new(
                    format!("temperature of reading {n}"),
                    "missing",
                    "the temperature of the lines with every reading: 10 F move 600 psi by 13 psi (10 C move 4000 kPa by 150 kPa)",
                ));
            }
            Some(c) => {
                within(&format!("temperature of reading {n}"), "C", c, -40.0, 60.0)?;
            }
        }
        if let Some(last) = last {
            jumped(n, last, r)?;
        }
        last = Some(r);
    }
    Ok(())
}

/// Lines do not warm faster, K an hour, and this much is given besides for a short time.
const WARMS: (f64, f64) = (20.0, 12.0);
/// More than this share gone from one reading to the next is no leak, but a unit or a valve.
const GONE: f64 = 0.3;

/// A reading that cannot follow the one before.
fn jumped(n: usize, last: &PressureReading, now: &PressureReading) -> Result<(), Wrong> {
    let (was, is) = (last.gauge_pa, now.gauge_pa);
    if (is / was - 1.0).abs() > GONE {
        return Err(Wrong::new(
            format!("pressure of reading {n}"),
            format!("{} after {}", pressure(is), pressure(was)),
            "a change under 30 %: psi, bar or kPa mixed up? If gas was let off or put in, begin a \
             new test",
        ));
    }
    if let (Some(was), Some(is)) = (last.line_c, now.line_c) {
        let hours = (now.at_s - last.at_s) / 3600.0;
        if (is - was).abs() > WARMS.1 + WARMS.0 * hours {
            let f = |c: f64| c * 1.8 + 32.0;
            return Err(Wrong::new(
                format!("temperature of reading {n}"),
                format!(
                    "{:.1} F ({is:.1} C) after {:.1} F ({was:.1} C)",
                    f(is),
                    f(was)
                ),
                "what lines can warm or cool in that time: F and C mixed up, or the thermometer \
                 fallen off?",
            ));
        }
    }
    Ok(())
}
