//! The verdict of a vacuum hold.

use reckon::Verdict;
use serde::Serialize;

use super::ice::{Ice, ice};
use super::rise::{Cause, Rise, rise};
use super::{GaugePlace, MICRON_PA, VacuumReading, VacuumTest};
use crate::leak_scale::{TestGas, YEAR_S, leak_ratio};
use crate::pressure::digits;
use crate::stamp::span;
use crate::wrong::{Wrong, within};

/// What a vacuum hold has told so far.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VacuumAnswer {
    /// Holds, fails, cannot tell.
    pub verdict: Verdict,
    /// The verdict in words.
    pub says: String,
    /// What would tell, or what to do.
    pub would_tell: String,
    /// What the shape of the rise says.
    pub shape: String,
    /// The fits, with five readings or more.
    pub rise: Option<Rise>,
    /// What the coldest tube means.
    pub ice: Ice,
    /// Length of the hold, s.
    pub length_s: f64,
    /// Highest reading within the hold, Pa, and its limit of error.
    pub highest_pa: (f64, f64),
    /// The straight part as a leak of refrigerant, g a year: lower and upper bound.
    pub straight_g_per_year: Option<(f64, f64)>,
    /// What to know about gauge and readings.
    pub notes: Vec<String>,
}

fn checked(test: &VacuumTest, readings: &[VacuumReading]) -> Result<(), Wrong> {
    test.criterion.checked()?;
    within("volume under vacuum", "m3", test.volume.m3, 2e-5, 0.05)?;
    within("air pressure", "Pa", test.air_pa, 55_000.0, 110_000.0)?;
    within(
        "share of error of the vacuum gauge",
        "of 1",
        test.gauge_share,
        0.0,
        0.5,
    )?;
    within(
        "step of the vacuum gauge",
        "micron",
        test.gauge.resolution / MICRON_PA,
        0.0,
        500.0,
    )?;
    let mut before = f64::NEG_INFINITY;
    for (i, r) in readings.iter().enumerate() {
        let n = i + 1;
        if r.at_s.is_nan() || r.at_s <= before {
            return Err(Wrong::new(
                format!("time of reading {n}"),
                "not after the one before",
                "times that go forward: was the clock set back, or a reading put in twice?",
            ));
        }
        before = r.at_s;
        let microns = r.pa / MICRON_PA;
        if !(1.0..=100_000.0).contains(&microns) {
            return Err(Wrong::new(
                format!("pressure of reading {n}"),
                format!("{microns:.3} micron"),
                "1 to 100,000 micron: micron, mbar or Pa mixed up?",
            ));
        }
    }
    Ok(())
}

/// Judges a vacuum hold from its readings after the pump was shut off.
///
/// # Equation
/// fails: `p - u > limit` at any reading within the hold; holds: `p + u <= limit` at all of them and
/// at the one that ends it, gauge on the system, ice not hidden, no flattening that would pass the
/// limit; cannot tell otherwise. The hold begins with the first reading and ends with the first at
/// or after its time: nobody reads to the second, and what comes later says nothing of it. Straight
/// part as a leak: `q V M / (R T)` times `leak_ratio`.
/// # Symbols
/// `p` reading, `u` limit of error of the gauge, Pa; `q` slope, Pa/s; `V` m3; `M` molar mass of
/// air; `T` 293 K.
/// # Range
/// 1 to 100,000 micron.
/// # Source
/// `sheet` for the criterion; `common-practice` for the rest (trade card F23).
/// # Example
/// `crates/startup/tests/vacuum.rs`.
/// # Errors
/// Readings or limits that cannot be used.
pub fn judge(test: &VacuumTest, readings: &[VacuumReading]) -> Result<VacuumAnswer, Wrong> {
    checked(test, readings)?;
    let (Some(first), Some(last)) = (readings.first(), readings.last()) else {
        return Err(Wrong::new(
            "readings",
            "none",
            "one every minute after the pump is shut off",
        ));
    };
    let c = &test.criterion;
    let gauge = test.gauge.today(test.day);
    let doubt = |pa: f64| libm::hypot(gauge.accuracy, test.gauge_share * pa);
    let scatter = |pa: f64| {
        // a hundredth of the reading: such gauges repeat no better
        libm::hypot(
            libm::hypot(gauge.scatter, gauge.resolution / 12.0_f64.sqrt()),
            0.01 * pa,
        )
        .max(1e-3)
    };
    let points: Vec<(f64, f64, f64)> = readings
        .iter()
        .map(|r| (r.at_s, r.pa, scatter(r.pa)))
        .collect();
    let shapes = rise(&points);
    let ice = ice(test.coldest_c, test.coldest_k, c.limit_pa)?;
    let length_s = last.at_s - first.at_s;
    let in_time = |r: &VacuumReading| r.at_s - first.at_s <= c.hold_s;
    let ends = readings
        .iter()
        .position(|r| r.at_s - first.at_s >= c.hold_s);
    let hold = ends.map_or(readings, |n| readings.get(..=n).unwrap_or(readings));
    let highest = hold.iter().map(|r| r.pa).fold(0.0, f64::max);
    let is_over = |r: &VacuumReading| r.pa - doubt(r.pa) > c.limit_pa;
    let surely_over = hold.iter().any(|r| in_time(r) && is_over(r));
    let surely_under = hold.iter().all(|r| r.pa + doubt(r.pa) <= c.limit_pa);
    // over the limit, but read only when the time was up
    let late = hold.last().filter(|r| !in_time(r) && is_over(r));
    let over = ends.is_some();
    let microns = |pa: f64| format!("{:.0} micron", pa / MICRON_PA);
    let straight = shapes
        .as_ref()
        .map(Rise::best)
        .filter(|f| f.slope_pa_per_s > 0.0)
        .map(|f| straight_leak(test, f.slope_pa_per_s))
        .transpose()?;
    let shape = shape(test, shapes.as_ref(), straight, &ice, last.pa);
    let settles_over = shapes.as_ref().is_some_and(|s| {
        s.cause == Some(Cause::Moisture) && {
            let f = s.best();
            f.start_pa + f.flatten_pa - doubt(c.limit_pa) > c.limit_pa
        }
    });
    let source = &c.source;
    let (verdict, says, would_tell) = if surely_over {
        (
            Verdict::Fails,
            format!(
                "It rose to {} within {}; {source} allows {}.",
                microns(highest),
                span(length_s.min(c.hold_s)),
                microns(c.limit_pa)
            ),
            "By the shape: dry it by triple evacuation if it flattens; look for the leak with \
             nitrogen if it does not."
                .to_owned(),
        )
    } else if test.place != GaugePlace::System {
        (
            Verdict::CannotTell,
            "The gauge is not known to sit on the system; at the pump it reads lower than the lines are."
                .to_owned(),
            "Put it on the system, at the far port, valved off from pump and hoses, and hold again."
                .to_owned(),
        )
    } else if first.pa - doubt(first.pa) > c.reach_pa {
        (
            Verdict::CannotTell,
            format!(
                "The pump was shut off at {}; {source} asks for {} first.",
                microns(first.pa),
                microns(c.reach_pa)
            ),
            "Pull longer, then hold.".to_owned(),
        )
    } else if !over {
        (
            Verdict::CannotTell,
            format!(
                "{} of {} are over; highest {}.",
                span(length_s),
                span(c.hold_s),
                microns(highest)
            ),
            format!("Read on for {}.", span(c.hold_s - length_s)),
        )
    } else if let Some(r) = late {
        (
            Verdict::CannotTell,
            format!(
                "It was at {} after {}, past the {} of {source}: whether it passed {} within them \
                 nobody read.",
                microns(r.pa),
                span(r.at_s - first.at_s),
                span(c.hold_s),
                microns(c.limit_pa)
            ),
            "Pull down and hold again, with a reading when the time is up.".to_owned(),
        )
    } else if hold.len() < 5 {
        (
            Verdict::CannotTell,
            format!("{} readings are no curve.", hold.len()),
            "Five readings or more over the hold.".to_owned(),
        )
    } else if ice.water_would_show != Verdict::Holds {
        (
            Verdict::CannotTell,
            ice.says.clone(),
            if test.coldest_c.is_some() {
                "Warm the coldest tube above 32 F and hold again, or break with dry nitrogen three times."
                    .to_owned()
            } else {
                "A thermometer on the coldest tube, indoors and out.".to_owned()
            },
        )
    } else if !surely_under {
        (
            Verdict::CannotTell,
            format!(
                "{} is at the limit of {} within what the gauge can know.",
                microns(highest),
                microns(c.limit_pa)
            ),
            "Pull lower and hold again, or a gauge with smaller errors.".to_owned(),
        )
    } else if settles_over {
        (
            Verdict::CannotTell,
            "It is under the limit at the end of the hold, but the curve is that of water and heads over it."
                .to_owned(),
            "Hold on until it is flat, or triple evacuation.".to_owned(),
        )
    } else {
        (
            Verdict::Holds,
            format!(
                "Highest {} in {}, as {source} asks ({}). It is dry; small leaks do not show here.",
                microns(highest),
                span(c.hold_s),
                microns(c.limit_pa)
            ),
            String::new(),
        )
    };
    Ok(VacuumAnswer {
        verdict,
        says,
        would_tell,
        shape,
        rise: shapes,
        ice,
        length_s,
        highest_pa: (highest, doubt(highest)),
        straight_g_per_year: straight,
        notes: vec![test.gauge.standing(test.day).1],
    })
}

/// The straight part as a leak of refrigerant.
fn straight_leak(test: &VacuumTest, pa_per_s: f64) -> Result<(f64, f64), Wrong> {
    // air at 20 C: what comes in is at the room's temperature
    let kg_per_s = pa_per_s * test.volume.m3 * 0.028_965_5 / (8.314_462_618 * 293.15);
    let k = leak_ratio(
        TestGas::Air,
        test.air_pa,
        0.0,
        test.refrigerant,
        test.service_c,
    )?;
    let g = kg_per_s * YEAR_S * 1000.0;
    Ok((g * k.low(), g * k.high()))
}

/// What the shape can say. Water far below its own vapour pressure rises straight too, so a
/// straight line alone accuses nobody.
fn shape(
    test: &VacuumTest,
    rise: Option<&Rise>,
    straight: Option<(f64, f64)>,
    ice: &Ice,
    last_pa: f64,
) -> String {
    let Some(rise) = rise else {
        return "Fewer than five readings: no shape.".to_owned();
    };
    let grams = straight.map_or(String::new(), |(low, high)| {
        format!(
            "as a leak it would be {} to {} g a year",
            digits(low),
            digits(high)
        )
    });
    match rise.cause {
        None => {
            "The shape is not clear yet: leak, water or both. Ten more minutes of readings would tell more."
                .to_owned()
        }
        Some(Cause::Neither) => "Level: neither leak nor water can be seen.".to_owned(),
        Some(Cause::Moisture) => {
            let f = rise.best();
            let toward = f.start_pa + f.flatten_pa;
            let little = if toward <= test.criterion.limit_pa {
                ", under the limit: a little water"
            } else {
                ": water"
            };
            format!(
                "It flattens toward {:.0} micron{little}, or gas out of oil and seals.",
                toward / MICRON_PA
            )
        }
        Some(Cause::Both) => format!("It flattens onto a straight rise: water and perhaps a leak; {grams}."),
        Some(Cause::Straight) => match (test.pressure_test_g_per_year, straight) {
            (Some(seen), Some((low, _))) if seen < low => format!(
                "Straight; {grams}. The pressure test would have seen {} g a year, so this is \
                 water far below its vapour pressure, or a leak in hoses and valves on the gauge side.",
                digits(seen)
            ),
            _ if ice.vapour_pa.is_some_and(|pv| last_pa > 0.5 * pv) => format!(
                "Straight, and past half the vapour pressure of water: a leak; {grams}."
            ),
            _ => format!(
                "Straight: a leak, or water far below its vapour pressure; {grams}. The pressure \
                 test tells which."
            ),
        },
    }
}
