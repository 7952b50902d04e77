//! From texts with units to the tests of the start-up day, and their verdicts.

mod rests_on;

pub use rests_on::{InstrumentIn, RestsOn};

use physics::refrigerant::Refrigerant;
use physics::tube::Tube;
use serde_json::{Value, json};
use startup::Wrong;
use startup::caution::{Step, cautions};
use startup::instrument::Instrument;
use startup::pressure::{self, PressureReading, PressureTest, stages};
use startup::record::{Chain, Record};
use startup::stamp::read_day;
use startup::vacuum::{self, Criterion, GaugePlace, VacuumReading, VacuumTest};
use startup::volume::{Volume, under_test};
use units::Dim;

use crate::given::short;
use crate::refused::Refused;
use crate::tests::{ReadingIn, ReadingView, StepView, TestView};

enum Test {
    Pressure(PressureTest, f64),
    Vacuum(VacuumTest),
}

/// A text with its unit, in SI.
pub fn value(place: &str, text: &str, dim: Dim) -> Result<f64, Refused> {
    units::parse(text, dim).map_err(|e| Refused::bad(format!("{place}: {e}")).got(short(text)))
}

fn needed(place: &str, text: Option<&String>, dim: Dim) -> Result<f64, Refused> {
    let text = text.ok_or_else(|| Refused::bad(format!("{place} is missing")))?;
    value(place, text, dim)
}

fn or(place: &str, text: Option<&String>, dim: Dim, usual: f64) -> Result<f64, Refused> {
    text.map_or(Ok(usual), |t| value(place, t, dim))
}

/// What the start-up crate cannot use.
pub fn wrong(e: Wrong) -> Refused {
    Refused::bad(e.what).got(e.got).allowed(e.usable)
}

fn instrument(place: &str, from: &InstrumentIn, dim: Dim) -> Result<Instrument, Refused> {
    let accuracy = value(&format!("{place}.accuracy"), &from.accuracy, dim)?;
    let step = value(&format!("{place}.step"), &from.step, dim)?;
    let mut made = Instrument::new(&from.id, accuracy, step);
    if let Some(day) = &from.calibrated {
        let day = read_day(day).map_err(|e| Refused::bad(format!("{place}.calibrated: {e}")))?;
        made.calibrated_day = Some(day);
    }
    Ok(made)
}

/// A refrigerant by its name.
pub fn refrigerant(text: &str) -> Result<Refrigerant, Refused> {
    let said = text.replace(['-', ' '], "").to_uppercase();
    Refrigerant::ALL
        .into_iter()
        .find(|r| r.name().replace('-', "") == said)
        .ok_or_else(|| {
            let names = Refrigerant::ALL.map(|r| r.name().to_owned());
            Refused::bad("this refrigerant is not known")
                .got(short(text))
                .allowed(names.join(", "))
        })
}

fn tubes(on: &RestsOn) -> Result<Vec<(Tube, f64)>, Refused> {
    on.lines
        .iter()
        .map(|l| {
            let outside_m = value("lines.tube", &l.tube, Dim::SmallLength)?;
            let tube = Tube::ALL
                .into_iter()
                .find(|t| (t.outside_m() - outside_m).abs() < 1e-4)
                .ok_or_else(|| {
                    Refused::bad("there is no such coil tube")
                        .got(short(&l.tube))
                        .allowed("1/4, 3/8, 1/2, 5/8, 3/4, 7/8 in outside")
                })?;
            Ok((tube, value("lines.length", &l.length, Dim::Length)?))
        })
        .collect()
}

fn volume(on: &RestsOn) -> Result<Volume, Refused> {
    let others = on
        .volumes
        .iter()
        .map(|v| {
            Ok((
                value("volumes.volume", &v.volume, Dim::Volume)?,
                or("volumes.within", v.within.as_ref(), Dim::Share, 0.3)?,
            ))
        })
        .collect::<Result<Vec<_>, Refused>>()?;
    under_test(&tubes(on)?, &others).map_err(wrong)
}

fn made(on: &RestsOn, day: i64) -> Result<Test, Refused> {
    let altitude_m = or("elevation", on.elevation.as_ref(), Dim::Length, 0.0)?;
    let air_pa = physics::standard_air::pressure_pa(altitude_m)
        .map_err(|e| Refused::bad(format!("elevation: {e}")))?;
    let (volume, refrigerant) = (volume(on)?, refrigerant(&on.refrigerant)?);
    let gauge = instrument("gauge", &on.gauge, Dim::Pressure)?;
    match on.kind.as_str() {
        "pressure" => {
            let from = on.thermometer.as_ref();
            let from = from.ok_or_else(|| Refused::bad("thermometer is missing"))?;
            let target = needed("target", on.target.as_ref(), Dim::Pressure)?;
            let test = PressureTest {
                volume,
                plate_pa: needed("plate", on.plate.as_ref(), Dim::Pressure)?,
                air_pa,
                gauge,
                thermometer: instrument("thermometer", from, Dim::TemperatureDifference)?,
                wander_k: or(
                    "wander",
                    on.wander.as_ref(),
                    Dim::TemperatureDifference,
                    1.0,
                )?,
                refrigerant,
                service_c: 20.0,
                worth_g_per_year: 1000.0 * needed("worth", on.worth.as_ref(), Dim::Mass)?,
                settle_s: 600.0,
                day,
            };
            Ok(Test::Pressure(test, target))
        }
        "vacuum" => Ok(Test::Vacuum(VacuumTest {
            criterion: Criterion {
                reach_pa: needed("reach", on.reach.as_ref(), Dim::Pressure)?,
                limit_pa: needed("limit", on.limit.as_ref(), Dim::Pressure)?,
                hold_s: needed("hold", on.hold.as_ref(), Dim::Hours)?,
                source: on.source.clone().unwrap_or_default(),
            },
            gauge,
            gauge_share: or("gauge.share", on.gauge.share.as_ref(), Dim::Share, 0.05)?,
            place: match on.gauge_at.as_deref() {
                None => GaugePlace::NotSaid,
                Some("system") => GaugePlace::System,
                Some("pump") => GaugePlace::Pump,
                Some(other) => {
                    return Err(Refused::bad("gauge_at: this place is not known")
                        .got(short(other))
                        .allowed("system, pump"));
                }
            },
            coldest_c: match &on.coldest {
                Some(t) => Some(value("coldest", t, Dim::Temperature)?),
                None => None,
            },
            coldest_k: 1.0,
            volume,
            air_pa,
            refrigerant,
            service_c: 20.0,
            pressure_test_g_per_year: match &on.pressure_test_saw {
                Some(t) => Some(1000.0 * value("pressure_test_saw", t, Dim::Mass)?),
                None => None,
            },
            day,
        })),
        other => Err(Refused::bad("this kind of test is not known")
            .got(short(other))
            .allowed("pressure, vacuum")),
    }
}

/// Whether a test can be made of it.
pub fn checked(on: &RestsOn, day: i64) -> Result<(), Refused> {
    if let Test::Pressure(test, target) = made(on, day)? {
        let tubes: Vec<Tube> = tubes(on)?.into_iter().map(|l| l.0).collect();
        stages(target, test.plate_pa, &tubes).map_err(wrong)?;
    }
    Ok(())
}

/// A reading as it is recorded.
pub fn reading(kind: &str, test: &str, r: &ReadingIn) -> Result<Value, Refused> {
    let at = crate::given::at(Some(&r.at))?;
    let pa = value("pressure", &r.pressure, Dim::Pressure)?;
    let line_c = match (&r.line, kind) {
        (Some(t), _) => Some(value("line", t, Dim::Temperature)?),
        (None, "pressure") => {
            return Err(Refused::bad("the temperature of the lines is missing")
                .mend("write it like 70.1 F"));
        }
        (None, _) => None,
    };
    let typed = match &r.line {
        Some(line) => format!("{}, {}", short(&r.pressure), short(line)),
        None => short(&r.pressure),
    };
    Ok(json!({
        "test": test, "at": at.written(), "at_s": at.epoch_s, "pa": pa, "line_c": line_c,
        "typed": typed,
    }))
}

fn standing(records: &[Record], kind: &str, name: &str) -> Vec<ReadingView> {
    let chain = Chain {
        records: records.to_vec(),
        unfinished: 0,
    };
    let number = |v: &Value, key: &str| v.get(key).and_then(Value::as_f64);
    let text = |v: &Value, key: &str| {
        let t = v.get(key).and_then(Value::as_str);
        t.unwrap_or_default().to_owned()
    };
    let wanted = format!("{kind}-reading");
    let mut all: Vec<ReadingView> = chain
        .standing()
        .into_iter()
        .filter(|r| r.kind == wanted && text(&r.says, "test") == name)
        .filter_map(|r| {
            Some(ReadingView {
                n: r.n,
                at: text(&r.says, "at"),
                at_s: number(&r.says, "at_s")?,
                pressure_pa: number(&r.says, "pa")?,
                line_c: number(&r.says, "line_c"),
                typed: text(&r.says, "typed"),
                who: r.who.clone(),
            })
        })
        .collect();
    all.sort_by(|a, b| a.at_s.total_cmp(&b.at_s));
    all
}

/// The test with its verdict so far.
pub fn view(name: &str, on: RestsOn, records: &[Record]) -> Result<TestView, Refused> {
    let readings = standing(records, &on.kind, name);
    let first_s = readings.first().map(|r| r.at_s);
    let day = first_s.map_or_else(|| store::now_ms() / 86_400_000, |s| (s / 86_400.0) as i64);
    let length_s = readings
        .last()
        .zip(first_s)
        .map_or(0.0, |(last, first)| last.at_s - first);
    let test = made(&on, day)?;
    let burns = refrigerant(&on.refrigerant)?
        .lower_flammability_kg_per_m3()
        .is_some();
    let step = match test {
        Test::Pressure(..) => Step::Pressure,
        Test::Vacuum(_) => Step::Vacuum,
    };
    let mut out = TestView {
        test: name.to_owned(),
        kind: on.kind.clone(),
        steps: Vec::new(),
        cautions: cautions(step, burns)
            .into_iter()
            .map(str::to_owned)
            .collect(),
        verdict: "cannot tell".to_owned(),
        says: String::new(),
        would_tell: String::new(),
        length_s,
        wait_s: None,
        visible_g_per_year: None,
        worth_g_per_year: None,
        gas_left: Vec::new(),
        notes: Vec::new(),
        last_hash: records.last().map_or("northwall", |r| &r.hash).to_owned(),
        answer: Value::Null,
        readings,
        rests_on: on,
    };
    match test {
        Test::Pressure(test, target) => pressure_verdict(&mut out, &test, target)?,
        Test::Vacuum(test) => vacuum_verdict(&mut out, &test),
    }
    Ok(out)
}

/// Two people may read one gauge in one second, which is all that a time says: one of the two is
/// judged, or the test could never be. Both stay in the record.
fn one_a_moment<'r>(
    readings: &'r [ReadingView],
    counts: impl Fn(&'r ReadingView, &'r ReadingView) -> &'r ReadingView,
) -> impl Iterator<Item = &'r ReadingView> {
    readings
        .chunk_by(|a, b| a.at_s == b.at_s)
        .filter_map(move |same| same.iter().reduce(&counts))
}

fn pressure_verdict(out: &mut TestView, test: &PressureTest, target: f64) -> Result<(), Refused> {
    let tubes: Vec<Tube> = tubes(&out.rests_on)?.into_iter().map(|l| l.0).collect();
    let steps = stages(target, test.plate_pa, &tubes).map_err(wrong)?;
    out.steps = steps
        .into_iter()
        .map(|s| StepView {
            gauge_pa: s.gauge_pa,
            hold_s: s.hold_s,
            says: s.says.to_string(),
        })
        .collect();
    // which of two is the worse hangs on when it was: the one kept last
    let readings: Vec<PressureReading> = one_a_moment(&out.readings, |_, b| b)
        .map(|r| PressureReading {
            at_s: r.at_s,
            gauge_pa: r.pressure_pa,
            line_c: r.line_c,
        })
        .collect();
    out.worth_g_per_year = Some(test.worth_g_per_year);
    match pressure::judge(test, &readings) {
        Ok(a) => {
            out.answer = json!(a);
            a.verdict.words().clone_into(&mut out.verdict);
            out.says = a.says;
            out.would_tell = a.would_tell;
            out.wait_s = a.wait_s;
            out.visible_g_per_year = Some(a.visible_g_per_year).filter(|v| v.is_finite());
            out.gas_left = a.curve;
            out.notes = a.notes;
        }
        Err(e) => not_yet(out, &e),
    }
    if out.readings.len() < 2 {
        let wait = pressure::expected_wait_s(test, target, 15.0, 600.0, 0.0);
        out.wait_s = wait.ok().flatten();
    }
    Ok(())
}

fn vacuum_verdict(out: &mut TestView, test: &VacuumTest) {
    let readings: Vec<VacuumReading> = one_a_moment(&out.readings, |a, b| {
        // the worse of the two
        if a.pressure_pa > b.pressure_pa { a } else { b }
    })
    .map(|r| VacuumReading {
        at_s: r.at_s,
        pa: r.pressure_pa,
    })
    .collect();
    out.wait_s = Some(test.criterion.hold_s);
    match vacuum::judge(test, &readings) {
        Ok(a) => {
            out.answer = json!(a);
            a.verdict.words().clone_into(&mut out.verdict);
            [a.says, a.shape].join(" ").trim().clone_into(&mut out.says);
            out.would_tell = a.would_tell;
            out.notes = a.notes;
        }
        Err(e) => not_yet(out, &e),
    }
}

/// Readings that do not make a test yet are no fault: more of them will tell.
fn not_yet(out: &mut TestView, e: &Wrong) {
    out.says = format!("Nothing can be told yet: {}, {}.", e.what, e.got);
    out.would_tell = format!("Usable: {}.", e.usable);
    out.answer = json!({
        "verdict": reckon::Verdict::CannotTell, "says": out.says, "would_tell": out.would_tell,
    });
}
