//! The verdict of a pressure test, after any number of readings.

use physics::nitrogen::{density_kg_per_m3, ideal_pressure_after_pa, pressure_after_pa};
use reckon::Verdict;
use serde::Serialize;

use super::checked::checked;
use super::known::{Doubts, expected_wait_s, grams_per_year};
use super::{PROVEN, PressureReading, PressureTest, VISIBLE};
use crate::leak_scale::{LeakRatio, TestGas, leak_ratio};
use crate::line::line;
use crate::stamp::span;
use crate::wrong::Wrong;

/// Whether the loss was steady.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bend {
    /// Both halves alike, within their doubts.
    Steady,
    /// Not enough readings to tell.
    NotSeen,
    /// The halves differ: warming, cooling or settling, not only a leak.
    Bent,
}

/// What a pressure test has told so far.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PressureAnswer {
    /// Holds, fails, cannot tell.
    pub verdict: Verdict,
    /// The verdict in a sentence or two.
    pub says: String,
    /// What would tell, or what to do.
    pub would_tell: String,
    /// Readings used, after settling.
    pub readings: usize,
    /// Length of the part used, s.
    pub length_s: f64,
    /// Loss of gas, share per second; negative is a gain.
    pub loss_per_s: f64,
    /// Its doubts.
    pub doubts: Doubts,
    /// Loss as refrigerant, g a year: lower bound of the scaling, upper bound.
    pub leak_g_per_year: (f64, f64),
    /// Smallest leak this test could have seen, g a year.
    pub visible_g_per_year: f64,
    /// Leak worth a call-back, g a year.
    pub worth_g_per_year: f64,
    /// kg of refrigerant for each kg of nitrogen.
    pub ratio: LeakRatio,
    /// First pressure used, Pa above the air, and temperature, C.
    pub begin: (f64, f64),
    /// Last pressure, Pa above the air, and temperature, C.
    pub end: (f64, f64),
    /// What the last would be without a leak, Pa above the air: real gas, and the trade's rule.
    pub end_without_leak_pa: (f64, f64),
    /// Whole length wanted to see the leak worth a call-back, s; `None`: no wait up to 14 days.
    pub wait_s: Option<f64>,
    /// Steadiness.
    pub bend: Bend,
    /// What to know about instruments and readings.
    pub notes: Vec<String>,
    /// Gas left, share of the first, by reading used: for the curve.
    pub curve: Vec<(f64, f64)>,
}

/// Judges a pressure test from its readings, in order of time.
///
/// # Equation
/// `b` the least-squares slope of gas left, `s` its doubts: fails `b > 3 s`; holds `|b| <= 3 s` and
/// `6 s r V (1 + u) k <= worth`; cannot tell otherwise
/// # Symbols
/// `b`, `s` share of the gas per second; `r` density at the beginning, kg/m3; `V` volume, m3; `u`
/// its limit of error; `k` larger bound of `leak_ratio`; `worth` g a year.
/// # Range
/// Two readings or more; nitrogen from 5 to 900 psi above the air, -40 to 60 C.
/// # Source
/// `common-practice`: an estimate with its covariance; three standard deviations to claim a leak,
/// three more so that a leak of the visible size is claimed 998 times of 1,000.
/// # Example
/// `crates/startup/tests/pressure.rs`.
/// # Errors
/// Readings or limits that cannot be used, each with its number.
pub fn judge(test: &PressureTest, readings: &[PressureReading]) -> Result<PressureAnswer, Wrong> {
    checked(test, readings)?;
    let Some(first) = readings.first() else {
        return Err(Wrong::new("readings", "none", "two or more"));
    };
    let used: Vec<(f64, f64, f64)> = readings
        .iter()
        .filter(|r| r.at_s - first.at_s >= test.settle_s)
        .filter_map(|r| Some((r.at_s, r.gauge_pa + test.air_pa, r.line_c?)))
        .collect();
    let (Some(&(t0, p0, c0)), Some(&(t1, p1, c1))) = (used.first(), used.last()) else {
        return Err(not_yet(test, readings, first));
    };
    if used.len() < 2 {
        return Err(not_yet(test, readings, first));
    }
    let rho0 = density_kg_per_m3(p0, c0)?;
    let mut gas = Vec::with_capacity(used.len());
    for (t, p, c) in &used {
        gas.push((t - t0, density_kg_per_m3(*p, *c)? / rho0));
    }
    let heat: Vec<(f64, f64)> = used.iter().map(|(t, _, c)| (t - t0, *c)).collect();
    let (Some(fit), Some(warmth)) = (line(&gas), line(&heat)) else {
        return Err(not_yet(test, readings, first));
    };
    let length_s = t1 - t0;
    let kelvin = 0.5 * (c0 + c1) + 273.15;
    // Few readings say little about their own scatter: then the instruments' word stands.
    let scatter = if used.len() >= 6 { fit.scatter } else { 0.0 };
    let range_k = warmth.slope * length_s;
    let doubts = Doubts::of(
        test,
        (p0, kelvin),
        scatter,
        (fit.spread_s2, fit.reach_s),
        length_s,
        range_k,
    );
    let sigma = doubts.all();
    let loss = -fit.slope;
    let ratio = leak_ratio(
        TestGas::Nitrogen,
        p0,
        test.air_pa,
        test.refrigerant,
        test.service_c,
    )?;
    let grams = |share: f64, k: f64| grams_per_year(test, share, rho0, k);
    let leak = (grams(loss, ratio.low()), grams(loss, ratio.high()));
    let visible = grams(VISIBLE * sigma, ratio.high()) * (1.0 + test.volume.share);
    let between = length_s / (used.len() as f64 - 1.0);
    let wait_s = expected_wait_s(test, p0 - test.air_pa, c0, between, scatter)?;
    let bend = bend(test, &gas, (p0, kelvin), scatter);
    let (doubt, help) = doubts.largest();
    let worth = test.worth_g_per_year;
    let longer = match wait_s {
        Some(w) if w > length_s => format!(
            "Go on to {} in all ({} more), reading as often as now; the largest doubt is {doubt}.",
            span(w),
            span(w - length_s)
        ),
        Some(_) => format!("Take more readings; the largest doubt is {doubt}: {help}."),
        None => format!("No wait up to 14 days does it with these instruments: {help}."),
    };
    // Sun and settling move a thermometer by some kelvin, which is a share of a percent or two; and
    // a large leak slows by itself as the pressure falls.
    let explained = loss.abs() * length_s < 0.03 || loss < 0.0;
    let (verdict, says, would_tell) = if bend == Bend::Bent
        && explained
        && loss.abs() > PROVEN * sigma
    {
        (
            Verdict::CannotTell,
            "The loss is not steady: the gas is still settling, or sun or draught is on the \
             lines. A leak loses at an even rate."
                .to_owned(),
            format!("Shade and insulate the thermometer and the lines, and go on. {longer}"),
        )
    } else if loss > PROVEN * sigma {
        (
            Verdict::Fails,
            format!(
                "Gas is lost: as refrigerant {} to {} g a year, at least {} g.",
                digits(leak.0),
                digits(leak.1),
                digits(grams(loss - PROVEN * sigma, ratio.low()))
            ),
            "Find it with bubble solution, joint by joint, hoses and core tools first; let the \
             pressure off, mend, test again."
                .to_owned(),
        )
    } else if loss < -PROVEN * sigma {
        (
            Verdict::CannotTell,
            "There seems to be more gas than at the beginning, which cannot be: the thermometer \
             does not follow the gas, or the regulator is still open."
                .to_owned(),
            "Shut the regulator, move the thermometer to the line under insulation, start again."
                .to_owned(),
        )
    } else if visible <= worth {
        (
            Verdict::Holds,
            format!(
                "No leak of {} g a year or more. Smaller ones this test could not have seen.",
                digits(visible)
            ),
            "Bubble solution on each joint besides.".to_owned(),
        )
    } else {
        (
            Verdict::CannotTell,
            format!(
                "No leak is seen, but one under {} g a year would not be, and {} g is worth a call-back.",
                digits(visible),
                digits(worth)
            ),
            longer,
        )
    };
    let real = pressure_after_pa(p0, c0, c1)? - test.air_pa;
    let rule = ideal_pressure_after_pa(p0, c0, c1)? - test.air_pa;
    Ok(PressureAnswer {
        verdict,
        says,
        would_tell,
        readings: used.len(),
        length_s,
        loss_per_s: loss,
        doubts,
        leak_g_per_year: leak,
        visible_g_per_year: visible,
        worth_g_per_year: worth,
        ratio,
        begin: (p0 - test.air_pa, c0),
        end: (p1 - test.air_pa, c1),
        end_without_leak_pa: (real, rule),
        wait_s,
        bend,
        notes: notes(test, readings, used.len()),
        curve: gas,
    })
}

fn not_yet(test: &PressureTest, readings: &[PressureReading], first: &PressureReading) -> Wrong {
    let last = readings.last().map_or(first.at_s, |r| r.at_s);
    let left = (test.settle_s - (last - first.at_s)).max(0.0);
    Wrong::new(
        "readings after settling",
        format!("{} in all", readings.len()),
        format!(
            "two or more, {} after the pressure was put on; the gas is still warm ({} left)",
            span(test.settle_s),
            span(left)
        ),
    )
}

/// Why readings so far are none that count yet, in words; `None` when they are.
pub fn too_soon(test: &PressureTest, readings: &[PressureReading]) -> Option<String> {
    let (first, last) = (readings.first()?, readings.last()?);
    let count = readings
        .iter()
        .filter(|r| r.at_s - first.at_s >= test.settle_s)
        .count();
    let left = test.settle_s - (last.at_s - first.at_s);
    match count {
        _ if left > 0.0 => Some(format!(
            "Compressed gas is warm: readings count {} after the first, {} from now.",
            span(test.settle_s),
            span(left)
        )),
        0 | 1 => Some("The gas has settled: one more reading that counts.".to_owned()),
        _ => None,
    }
}

/// Compares the two halves of the test.
fn bend(test: &PressureTest, gas: &[(f64, f64)], at: (f64, f64), scatter: f64) -> Bend {
    let half = gas.len() / 2;
    let (Some(a), Some(b)) = (gas.get(..half), gas.get(half..)) else {
        return Bend::NotSeen;
    };
    if a.len() < 4 || b.len() < 4 {
        return Bend::NotSeen;
    }
    let (Some(x), Some(y)) = (line(a), line(b)) else {
        return Bend::NotSeen;
    };
    let length = |p: &[(f64, f64)]| match (p.first(), p.last()) {
        (Some(f), Some(l)) => l.0 - f.0,
        _ => 0.0,
    };
    let doubt = |l: &crate::line::Line, d: f64| {
        Doubts::of(test, at, scatter, (l.spread_s2, l.reach_s), d, 0.0).all()
    };
    let together = libm::hypot(doubt(&x, length(a)), doubt(&y, length(b)));
    if (x.slope - y.slope).abs() > PROVEN * together {
        Bend::Bent
    } else {
        Bend::Steady
    }
}

fn notes(test: &PressureTest, readings: &[PressureReading], used: usize) -> Vec<String> {
    let mut notes = vec![
        test.gauge.standing(test.day).1,
        test.thermometer.standing(test.day).1,
    ];
    let left_out = readings.len() - used;
    if left_out > 0 {
        notes.push(format!(
            "{left_out} of the readings, in the first {}, are left out: compressed gas is warm",
            span(test.settle_s)
        ));
    }
    let gaps: Vec<f64> = readings
        .windows(2)
        .filter_map(|w| match w {
            [a, b] => Some(b.at_s - a.at_s),
            _ => None,
        })
        .collect();
    let mut sorted = gaps.clone();
    sorted.sort_by(f64::total_cmp);
    if let Some(middle) = sorted.get(sorted.len() / 2).filter(|_| gaps.len() >= 4) {
        let most = sorted.last().copied().unwrap_or(0.0);
        if most > 10.0 * middle {
            notes.push(format!(
                "a gap of {} without readings: what happened in it is not known",
                span(most)
            ));
        }
    }
    notes
}

/// Two digits, no more than such an estimate deserves.
pub(crate) fn digits(x: f64) -> String {
    if !x.is_finite() {
        return "?".to_owned();
    }
    let a = x.abs();
    if a >= 100.0 {
        let step = libm::pow(10.0, libm::floor(libm::log10(a)) - 1.0);
        format!("{:.0}", libm::round(x / step) * step)
    } else if a >= 10.0 {
        format!("{x:.0}")
    } else if a >= 1.0 {
        format!("{x:.1}")
    } else {
        format!("{x:.2}")
    }
}
