//! `test pressure`.

use serde_json::Value;
use startup::Wrong;
use startup::caution::Step;
use startup::draw;
use startup::pressure::{
    PressureAnswer, PressureReading, PressureTest, Stage, expected_doubts, expected_wait_s, judge,
    judge_either, stages, too_soon, visible_after,
};
use startup::stamp::span;
use units::Dim;

use super::{How, day_of, logged, number};
use crate::day::guided::{Guide, Held, Judged, Taken};
use crate::day::page::{item, para};
use crate::day::setup::{log, pressure_test};
use crate::day::view::{NORTHWALL, PressureToldView, PressureView, StageView};
use crate::day::{Day, joints, record};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{Say, heading};

fn one(says: &Value) -> PressureReading {
    PressureReading {
        at_s: number(says, "at_s").unwrap_or(f64::NAN),
        gauge_pa: number(says, "pa").unwrap_or(f64::NAN),
        line_c: number(says, "line_c"),
    }
}

fn psi(say: Say, pa: f64) -> String {
    if say.system == units::System::Us {
        format!("{:.1} psi", pa / 6_894.757_293_168_361)
    } else {
        format!("{:.1} kPa", pa / 1000.0)
    }
}

/// What the newest readings say, for the keyboard.
fn newest(test: &PressureTest, kept: &[Value]) -> Judged {
    let readings: Vec<PressureReading> = kept.iter().map(one).collect();
    let over = readings.last().is_some_and(|r| r.gauge_pa > test.plate_pa);
    match judge(test, &readings) {
        Ok(a) => Judged {
            says: format!("{}. {} {}", a.verdict.words(), a.says, a.would_tell),
            whole_s: a.wait_s.map(|w| w + test.settle_s),
            odd: false,
        },
        Err(e) if over => Judged::says(format!("STOP. {e}.")),
        // what cannot be is said at once, not after the gas has settled
        Err(e) if of_reading(&e) => Judged::refused(&e, readings.len()),
        Err(e) => Judged::says(too_soon(test, &readings).unwrap_or_else(|| e.to_string())),
    }
}

fn of_reading(e: &Wrong) -> bool {
    e.what.contains(" of reading ")
}

/// The answer, or in words why there is none yet; in a logger file what cannot be is refused.
fn so_far(
    day: &Day,
    how: &How<'_>,
    test: &PressureTest,
    readings: &[PressureReading],
    shortest_s: Option<&[f64]>,
) -> Result<Result<PressureAnswer, String>, Refusal> {
    match judge_either(test, readings, shortest_s) {
        Ok(a) => Ok(Ok(a)),
        Err(e) if how.record.is_none() => Err(day.wrong("readings", &e)),
        Err(e) if of_reading(&e) => Ok(Err(e.to_string())),
        Err(e) => Ok(Err(
            too_soon(test, readings).unwrap_or_else(|| e.to_string())
        )),
    }
}

/// Steps, as the guided mode shows them.
fn guide(steps: &[Stage], say: Say) -> Vec<Held> {
    steps
        .iter()
        .map(|s| Held {
            says: format!(
                "{}, hold {}: {}",
                say.of(s.gauge_pa, Dim::Pressure),
                span(s.hold_s),
                s.says
            ),
            hold_s: s.hold_s,
        })
        .collect()
}

/// One of several leaks, g in two digits: more they do not deserve.
fn grams(seen: &[f64], at: usize) -> String {
    units::significant(seen.get(at).copied().unwrap_or(f64::NAN), 2)
}

/// `test pressure`.
pub fn answer(day: &Day, how: &How<'_>, say: Say) -> Result<Report, Refusal> {
    let now = day.now()?;
    let (mut test, target) = pressure_test(day, now.day())?;
    let tubes: Vec<_> = day.lines()?.into_iter().map(|l| l.0).collect();
    let steps =
        stages(target, test.plate_pa, &tubes).map_err(|e| day.wrong("pressure.target", &e))?;
    let wait =
        expected_wait_s(&test, target, 15.0, 600.0, 0.0).map_err(|e| day.wrong("pressure", &e))?;
    let mut text = heading("Pressure test");
    text.push_str(&day.cautions(Step::Pressure)?);
    let mut plan = para(&format!(
        "{:.2} L under test; plate {}.",
        test.volume.m3 * 1000.0,
        say.of(test.plate_pa, Dim::Pressure)
    ));
    for line in day.lines_words(say.system)? {
        plan.push_str(&item("- ", &line));
    }
    let listed = guide(&steps, say);
    // the guided mode says them one by one
    for (i, s) in listed.iter().enumerate().filter(|_| !how.live) {
        plan.push_str(&item(&format!("{}. ", i + 1), &s.says));
    }
    plan.push_str(&para(
        &wait.map_or(
            "With these instruments no wait up to 14 days could see the leak worth a call-back."
                .to_owned(),
            |w| {
                format!(
                    "Then {} with a reading every 10 min, to see a leak of {:.0} g a year.",
                    span(w),
                    test.worth_g_per_year
                )
            },
        ),
    ));
    let lengths = [3600.0, 4.0 * 3600.0, 14.0 * 3600.0];
    let seen = visible_after(&test, target, 15.0, 600.0, &lengths)
        .map_err(|e| day.wrong("pressure", &e))?;
    plan.push_str(&para(&format!(
        "Shorter tests see less: an hour {} g a year, four hours {} g, a night of 14 hours {} g.",
        grams(&seen, 0),
        grams(&seen, 1),
        grams(&seen, 2)
    )));
    let doubts = expected_doubts(&test, target, 15.0, 600.0, wait.unwrap_or(14.0 * 86_400.0))
        .map_err(|e| day.wrong("pressure", &e))?;
    let (doubt, help) = doubts.largest();
    plan.push_str(&para(&format!(
        "The largest doubt will be {doubt}. What shortens the test: {help}."
    )));
    let mut view = PressureView {
        northwall: NORTHWALL,
        volume_m3: test.volume.m3,
        volume_share: test.volume.share,
        plate_pa: test.plate_pa,
        target_pa: target,
        stages: steps
            .iter()
            .map(|s| StageView {
                gauge_pa: s.gauge_pa,
                hold_s: s.hold_s,
                says: s.says,
            })
            .collect(),
        wait_s: wait,
        sees: lengths.into_iter().zip(seen).collect(),
        worth_g_per_year: test.worth_g_per_year,
        told: None,
        says: String::new(),
        notes: joints::noted(day)?.into_iter().collect(),
        kept: None,
    };
    if how.plan_only() {
        text.push_str(&plan);
        for note in &view.notes {
            text.push_str(&para(note));
        }
        "Read with --live --record FILE, or --log FILE.".clone_into(&mut view.says);
        text.push_str(&para(&view.says));
        return Ok(Report::new(text, &view));
    }
    let (readings, line) = if let Some(path) = how.log {
        let log = log(day, path, true)?;
        let readings: Vec<PressureReading> = log
            .rows
            .iter()
            .map(|r| PressureReading {
                at_s: r.at_s,
                gauge_pa: r.values.first().copied().flatten().unwrap_or(f64::NAN),
                line_c: r.values.get(1).copied().flatten(),
            })
            .collect();
        (readings, logged(day, &log)?)
    } else {
        let guide = Guide {
            what: "pressure",
            example: "550.2 psi, 70.1 F",
            opening: format!("{text}{plan}"),
            steps: listed,
            // readings belong to the last step; a leaky one may be lower, once they have begun
            least_pa: Some(0.9 * target),
            wanted_s: wait.map(|w| w + test.settle_s),
        };
        let Taken { kept, line } = guide.readings(day, how, &|kept| newest(&test, kept))?;
        // what the cautions say was said before the first reading
        if how.live {
            text = heading("Pressure test");
        }
        (kept.iter().map(one).collect(), line)
    };
    view.notes.extend(line.notes);
    if let Some(began) = day_of(day, readings.first().map(|r| r.at_s))? {
        test.day = began;
    }
    match so_far(day, how, &test, &readings, line.shortest_s.as_deref())? {
        Err(says) => {
            text.push_str(&para(&format!("cannot tell yet. {says}")));
            text.push_str(&para(&format!("{} readings are kept.", readings.len())));
            view.says = says;
            notes(&view.notes, &mut text);
            Ok(Report::new(text, &view))
        }
        Ok(a) => {
            tell(&a, &test, say, &mut text);
            view.notes.splice(0..0, a.notes.iter().cloned());
            notes(&view.notes, &mut text);
            view.kept = how.keep(day, "pressure-verdict", &a)?;
            text.push_str(&record::told(view.kept.as_slice()));
            let svg = draw::pressure(&a);
            let fails = a.verdict == reckon::Verdict::Fails;
            a.says.clone_into(&mut view.says);
            view.told = Some(told(a));
            let mut report = Report::new(text, &view);
            report.svg = Some(svg);
            report.code = u8::from(fails);
            Ok(report)
        }
    }
}

fn notes(all: &[String], text: &mut String) {
    for note in all {
        text.push_str(&item("- ", note));
    }
}

fn tell(a: &PressureAnswer, test: &PressureTest, say: Say, text: &mut String) {
    text.push_str(&para(&format!("{}. {}", a.verdict.words(), a.says)));
    text.push_str(&para(&a.would_tell));
    text.push_str(&crate::day::curve::pressure(a));
    text.push_str(&item(
        "- ",
        &format!(
            "{} readings over {}: {} at {} to {} at {}; without a leak {} (as an ideal gas {}).",
            a.readings,
            span(a.length_s),
            psi(say, a.begin.0),
            say.of(a.begin.1, Dim::Temperature),
            psi(say, a.end.0),
            say.of(a.end.1, Dim::Temperature),
            psi(say, a.end_without_leak_pa.0),
            psi(say, a.end_without_leak_pa.1),
        ),
    ));
    text.push_str(&item("- ", &format!(
        "Volume {:.2} L within {:.0} %. For 1 g of nitrogen a hole passes {:.2} g (narrow and long) to {:.2} g (short) of refrigerant vapour.",
        test.volume.m3 * 1000.0,
        test.volume.share * 100.0,
        a.ratio.laminar,
        a.ratio.choked
    )));
}

fn told(a: PressureAnswer) -> PressureToldView {
    PressureToldView {
        verdict: a.verdict.words(),
        would_tell: a.would_tell,
        readings: a.readings,
        length_s: a.length_s,
        loss_per_s: a.loss_per_s,
        loss_doubt_per_s: a.doubts.all(),
        leak_g_per_year: a.leak_g_per_year,
        visible_g_per_year: a.visible_g_per_year,
        begin: a.begin,
        end: a.end,
        end_without_leak_pa: a.end_without_leak_pa,
        curve: a.curve,
    }
}
