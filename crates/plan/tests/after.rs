//! A plan made after an edit takes over the years the edit does not touch. Held against the plan
//! made anew for edits of values of the demo's job that do not change the house: all those of the
//! tables a year reads, and one in nine of the rest; with `NORTHWALL_EDITS=all`, all.
//! Expected values: our own plan without a plan before (consistency, not an outside source).

mod support;

use jobfile::Job;
use plan::{Before, Catalogue, Plan, Stage, Years, plan, plan_after};
use support::{catalogue, read, weather};

struct Demo {
    text: String,
    job: Job,
    catalogue: Catalogue,
    weather: climate::Weather,
}

fn demo() -> Demo {
    let text = read("jobs/lake-street/job.toml");
    let job = jobfile::read(&text).expect("reads");
    Demo {
        text,
        job,
        catalogue: catalogue(),
        weather: weather(),
    }
}

impl Demo {
    fn before<'a>(&'a self, plan: &'a Plan) -> Before<'a> {
        Before {
            job: &self.job,
            catalogue: &self.catalogue,
            weather: &self.weather,
            plan,
        }
    }

    fn again(&self, job: &Job, plan: &Plan) -> Plan {
        let before = self.before(plan);
        plan_after(
            job,
            &self.catalogue,
            &self.weather,
            Years::All,
            Some(&before),
        )
    }
}

fn the_same(line: &str, a: &Plan, b: &Plan) {
    assert_eq!(a.season, b.season, "the years differ after: {line}");
    assert_eq!(a.ideal, b.ideal, "the ideal year differs after: {line}");
    assert_eq!(a.loads, b.loads, "the loads differ after: {line}");
    let install = |p: &Plan| format!("{:?}", p.install);
    assert_eq!(install(a), install(b), "the installation differs: {line}");
    assert_eq!(a.findings, b.findings, "findings differ after: {line}");
    assert!(a.book.iter().eq(b.book.iter()), "figures differ: {line}");
}

/// A line with its first number an eighth larger, if it has one in a value.
fn larger(line: &str) -> Option<String> {
    let (key, value) = line.split_once('=')?;
    if key.trim_start().starts_with('#') {
        return None;
    }
    let value = value.split('#').next()?;
    let from = value.find(|c: char| c.is_ascii_digit())?;
    let rest = value.get(from..)?;
    let long = rest
        .find(|c: char| !(c.is_ascii_digit() || c == '.'))
        .unwrap_or(rest.len());
    let number: f64 = rest.get(..long)?.parse().ok()?;
    let (lead, tail) = (value.get(..from)?, rest.get(long..)?);
    Some(format!("{key}={lead}{}{tail}", number * 1.125))
}

/// Tables of a job that a year with equipment may read, beside the house.
const READ_BY_A_YEAR: [&str; 9] = [
    "place", "head", "outdoor", "existing", "backup", "prices", "habits", "option", "tariff",
];

#[test]
fn an_edit_gives_the_plan_it_would_give_anew() {
    let demo = demo();
    let first = plan(&demo.job, &demo.catalogue, &demo.weather);
    let Stage::Done(model) = &first.model else {
        panic!("the demo has a house")
    };
    let lines: Vec<&str> = demo.text.lines().collect();
    let all = std::env::var("NORTHWALL_EDITS").is_ok_and(|v| v == "all");
    let (mut held, mut of_house, mut table) = (0, 0, "");
    for (i, line) in lines.iter().enumerate() {
        if line.starts_with('[') {
            table = line.trim_matches(['[', ']', ' ']);
        }
        let first_part = table.split(['.', ']']).next().unwrap_or("");
        if !(all || READ_BY_A_YEAR.contains(&first_part) || i % 9 == 0) {
            continue;
        }
        let mut edits: Vec<Option<String>> = vec![larger(line)];
        if line.contains('=') && !line.contains('[') {
            edits.push(None);
        }
        for edit in edits {
            let mut text = lines.clone();
            match &edit {
                Some(new) => text[i] = new,
                None => {
                    text.remove(i);
                }
            }
            let Ok(job) = jobfile::read(&text.join("\n")) else {
                continue;
            };
            // A changed house takes nothing over but what does not need a house.
            if house::geometry::model(&job.house).ok().as_ref() != Some(model) {
                of_house += 1;
                continue;
            }
            let says = edit.unwrap_or_else(|| format!("without {line}"));
            let anew = plan(&job, &demo.catalogue, &demo.weather);
            the_same(&says, &demo.again(&job, &first), &anew);
            held += 1;
        }
    }
    println!("{held} edits held, {of_house} of the house");
    assert!(held > 60 && of_house > 10, "{held} {of_house}");
}

/// That years are taken over at all is seen by a mark left in the plan before.
#[test]
fn years_are_taken_over_where_nothing_of_theirs_changed() {
    let demo = demo();
    let mut first = plan(&demo.job, &demo.catalogue, &demo.weather);
    let mark = 0.125;
    if let Stage::Done(ideal) = &mut first.ideal {
        ideal.closure = mark;
    }
    // The cooling loads belong to the house and its weather, as the ideal year does.
    if let Stage::Done(loads) = &mut first.loads {
        loads.cooling.days.clear();
    }
    if let Stage::Done(of) = &mut first.season {
        if let Some(year) = &mut of.baseline {
            year.closure = mark;
        }
        for (_, year) in &mut of.years {
            year.as_mut().expect("a year").closure = mark;
        }
    }
    let marks = |p: &Plan| -> (bool, Option<bool>, Vec<bool>) {
        let of = p.season.done().expect("years");
        let is = |y: &season::Year| y.closure == mark;
        let years = of.years.iter().map(|(_, y)| y.as_ref().is_ok_and(is));
        let ideal = p.ideal.done().expect("a year").closure == mark;
        let days = &p.loads.done().expect("loads").cooling.days;
        assert_eq!(
            ideal,
            days.is_empty(),
            "cooling loads go with the ideal year"
        );
        (ideal, of.baseline.as_ref().map(is), years.collect())
    };
    let all = demo.job.choices().len();
    // A note: everything stays.
    let mut job = demo.job.clone();
    job.name = "another name".to_owned();
    let (ideal, baseline, years) = marks(&demo.again(&job, &first));
    assert!(ideal && baseline == Some(true) && years == vec![true; all]);
    // Other heads: the years of the rest stay.
    let mut job = demo.job.clone();
    job.equipment.heads.truncate(1);
    let (ideal, baseline, years) = marks(&demo.again(&job, &first));
    assert!(ideal && baseline == Some(true));
    assert!(!years[0] && years[1..].iter().all(|y| *y), "{years:?}");
    // Another boiler: only the ideal year stays.
    let mut job = demo.job.clone();
    if let Some(boiler) = &mut job.existing {
        boiler.efficiency *= 0.9;
    }
    let (ideal, baseline, years) = marks(&demo.again(&job, &first));
    assert!(ideal && baseline == Some(false) && !years.contains(&true));
    // Another house: nothing stays.
    let mut job = demo.job.clone();
    job.house.rooms[1].heated = None;
    let (ideal, baseline, years) = marks(&demo.again(&job, &first));
    assert!(!ideal && baseline == Some(false) && !years.contains(&true));
    // Other weather: nothing stays.
    let elsewhere = plan::shipped::STATIONS
        .iter()
        .find(|s| !s.name.starts_with("chicago"))
        .expect("another station");
    let other = climate::read_any(elsewhere.bytes).expect("reads").value;
    assert_ne!(other.station, demo.weather.station);
    let before = demo.before(&first);
    let after = plan_after(
        &demo.job,
        &demo.catalogue,
        &other,
        Years::All,
        Some(&before),
    );
    let (ideal, baseline, years) = marks(&after);
    assert!(!ideal && baseline == Some(false) && !years.contains(&true));
}

#[test]
fn a_plan_with_and_without_the_years_of_the_options_finds_the_same() {
    let demo = demo();
    assert!(!demo.job.options.is_empty(), "the demo has options");
    let of = |years| plan_after(&demo.job, &demo.catalogue, &demo.weather, years, None);
    let (whole, chosen) = (of(Years::All), of(Years::Chosen));
    assert!(!whole.findings.is_empty());
    assert_eq!(
        format!("{:?}", whole.findings),
        format!("{:?}", chosen.findings)
    );
}
