//! `test vacuum`.

use serde_json::Value;
use startup::caution::Step;
use startup::draw;
use startup::stamp::span;
use startup::vacuum::{
    MICRON_PA, VacuumAnswer, VacuumReading, VacuumTest, ice, judge, judge_either, triple,
};

use super::{How, day_of, logged, number};
use crate::day::guided::{Guide, Held, Judged, Taken};
use crate::day::page::{item, para};
use crate::day::record::Book;
use crate::day::setup::{log, vacuum_test};
use crate::day::view::{NORTHWALL, VacuumToldView, VacuumView};
use crate::day::{Day, record};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::heading;

fn one(says: &Value) -> VacuumReading {
    VacuumReading {
        at_s: number(says, "at_s").unwrap_or(f64::NAN),
        pa: number(says, "pa").unwrap_or(f64::NAN),
    }
}

fn newest(test: &VacuumTest, kept: &[Value]) -> Judged {
    let readings: Vec<VacuumReading> = kept.iter().map(one).collect();
    match judge(test, &readings) {
        Ok(a) => Judged {
            says: format!("{}. {} {}", a.verdict.words(), a.says, a.would_tell),
            whole_s: Some(test.criterion.hold_s),
            odd: false,
        },
        Err(e) => Judged::refused(&e, readings.len()),
    }
}

fn steps(test: &VacuumTest) -> Vec<Held> {
    let c = &test.criterion;
    // how long the pump takes is the pump's
    let step = |says| Held { says, hold_s: 0.0 };
    vec![
        step(format!(
            "Pull to {:.0} micron or lower, read at the system, as {} asks",
            c.reach_pa / MICRON_PA,
            c.source
        )),
        step(format!(
            "Shut off pump and hoses at the system. First reading at once, then one a minute, for {}: at most {:.0} micron",
            span(c.hold_s),
            c.limit_pa / MICRON_PA
        )),
    ]
}

/// What the pressure test of the same record could have seen, g a year, where it holds.
fn pressure_saw(day: &Day, how: &How<'_>) -> Result<Option<f64>, Refusal> {
    let Some(path) = how.record else {
        return Ok(None);
    };
    let book = Book::open(path, day.now()?, &day.file.who)?;
    Ok(book.standing("pressure-verdict").last().and_then(|r| {
        let answer = r.says.get("answer")?;
        (answer.get("verdict")?.as_str()? == "holds")
            .then(|| answer.get("visible_g_per_year")?.as_f64())
            .flatten()
    }))
}

/// `test vacuum`.
pub fn answer(day: &Day, how: &How<'_>) -> Result<Report, Refusal> {
    let now = day.now()?;
    let mut test = vacuum_test(day, now.day())?;
    if test.pressure_test_g_per_year.is_none() {
        test.pressure_test_g_per_year = pressure_saw(day, how)?;
    }
    let cold = ice(test.coldest_c, test.coldest_k, test.criterion.limit_pa)
        .map_err(|e| day.wrong("vacuum", &e))?;
    let mut text = heading("Vacuum");
    text.push_str(&day.cautions(Step::Vacuum)?);
    let listed = steps(&test);
    let three = triple(&test.criterion);
    let mut plan = para(&cold.says);
    for (i, s) in listed.iter().enumerate().filter(|_| !how.live) {
        plan.push_str(&item(&format!("{}. ", i + 1), &s.says));
    }
    let c = &test.criterion;
    let mut view = VacuumView {
        northwall: NORTHWALL,
        reach_pa: c.reach_pa,
        limit_pa: c.limit_pa,
        hold_s: c.hold_s,
        source: c.source.clone(),
        triple: three.clone(),
        water_would_show: cold.water_would_show.words(),
        vapour_pa: cold.vapour_pa,
        told: None,
        says: String::new(),
        notes: Vec::new(),
        kept: None,
    };
    if how.plan_only() {
        text.push_str(&plan);
        text.push_str(&para(
            "Where the sheet asks for triple evacuation, or the hold shows water:",
        ));
        for step in &three {
            text.push_str(&item("- ", step));
        }
        "Read with --live --record FILE, or --log FILE.".clone_into(&mut view.says);
        text.push_str(&para(&view.says));
        return Ok(Report::new(text, &view));
    }
    let (readings, line) = if let Some(path) = how.log {
        let log = log(day, path, false)?;
        let readings: Vec<VacuumReading> = log
            .rows
            .iter()
            .map(|r| VacuumReading {
                at_s: r.at_s,
                pa: r.values.first().copied().flatten().unwrap_or(f64::NAN),
            })
            .collect();
        (readings, logged(day, &log)?)
    } else {
        let guide = Guide {
            what: "vacuum",
            example: "480 micron",
            opening: format!("{text}{plan}"),
            steps: listed,
            least_pa: None,
            wanted_s: Some(test.criterion.hold_s),
        };
        let Taken { kept, line } = guide.readings(day, how, &|kept| newest(&test, kept))?;
        if how.live {
            text = heading("Vacuum");
        }
        (kept.iter().map(one).collect(), line)
    };
    if let Some(began) = day_of(day, readings.first().map(|r| r.at_s))? {
        test.day = began;
    }
    let judged = judge_either(&test, &readings, line.shortest_s.as_deref());
    view.notes.extend(line.notes);
    let a = match judged {
        Ok(a) => a,
        Err(e) if how.record.is_some() => {
            view.says = e.to_string();
            text.push_str(&para(&format!("cannot tell yet. {}", view.says)));
            text.push_str(&para(&format!("{} readings are kept.", readings.len())));
            return Ok(Report::new(text, &view));
        }
        Err(e) => return Err(day.wrong("readings", &e)),
    };
    text.push_str(&para(&format!("{}. {}", a.verdict.words(), a.says)));
    for line in [&a.would_tell, &a.shape] {
        if !line.is_empty() {
            text.push_str(&para(line));
        }
    }
    text.push_str(&crate::day::curve::vacuum(&a, &test.criterion, &readings));
    view.notes.splice(0..0, a.notes.iter().cloned());
    text.push_str(&item("- ", &a.ice.says));
    for note in &view.notes {
        text.push_str(&item("- ", note));
    }
    view.kept = how.keep(day, "vacuum-verdict", &a)?;
    text.push_str(&record::told(view.kept.as_slice()));
    a.says.clone_into(&mut view.says);
    let svg = draw::vacuum(&a, &test.criterion, &readings);
    let fails = a.verdict == reckon::Verdict::Fails;
    view.told = Some(told(a, &readings));
    let mut report = Report::new(text, &view);
    report.svg = Some(svg);
    report.code = u8::from(fails);
    Ok(report)
}

fn told(a: VacuumAnswer, readings: &[VacuumReading]) -> VacuumToldView {
    VacuumToldView {
        verdict: a.verdict.words(),
        would_tell: a.would_tell,
        shape: a.shape,
        length_s: a.length_s,
        highest_pa: a.highest_pa,
        straight_g_per_year: a.straight_g_per_year,
        curve: readings.iter().map(|r| (r.at_s, r.pa)).collect(),
    }
}
