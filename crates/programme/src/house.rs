//! One house: a pure function of its row, the catalogue and the weather.

use climate::Weather;
use jobfile::edit::{Act, together};
use jobfile::{Job, Problem};
use plan::{Catalogue, near};

use crate::line::{Line, Numbers, State};
use crate::rows::Row;

/// Faults named in one row; the rest is counted.
const MOST_NAMED: usize = 8;

/// The job of a row: its text with what the row sets.
///
/// # Errors
/// What is wrong, in words, for [`refused`].
pub fn job(text: &str, row: &Row) -> Result<Job, String> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let acts: Vec<Act<'_>> = row.sets.iter().map(|(p, v)| Act::Set(p, v)).collect();
    let changed = if acts.is_empty() {
        Ok(None)
    } else {
        together(text, &acts).map(Some)
    };
    changed
        .and_then(|changed| jobfile::read(changed.as_deref().unwrap_or(text)))
        .map_err(|problems| in_words(&problems))
}

/// Problems in one text, each as the job file's own message says it.
fn in_words(problems: &[Problem]) -> String {
    let mut all: Vec<String> = problems
        .iter()
        .take(MOST_NAMED)
        .map(ToString::to_string)
        .collect();
    if problems.len() > MOST_NAMED {
        all.push(format!("and {} more", problems.len() - MOST_NAMED));
    }
    all.join("\n")
}

/// A row that cannot be used, and why.
pub fn refused(at: u64, id: &str, state: State, says: impl Into<String>) -> Line {
    Line {
        row: at,
        id: id.to_owned(),
        state,
        says: Some(says.into()),
        name: None,
        station: None,
        design_outdoor_c: None,
        heating_load_w: None,
        cooling_load_w: None,
        year: None,
        now: None,
        currency: None,
    }
}

/// Loads and year of a house. Pure: the same row, sheets and weather give the same line, to the
/// bit, on any machine.
pub fn house(at: u64, row: &Row, job: &Job, catalogue: &Catalogue, weather: &Weather) -> Line {
    let choices = job.choices();
    let choice = match &row.option {
        None => choices.first(),
        Some(name) => match choices.iter().find(|c| c.name == *name) {
            Some(choice) => Some(choice),
            None => return no_option(at, row, name, job),
        },
    };
    let found = plan::loads_and_year(job, catalogue, weather, choice);
    let mut line = refused(at, &row.id, State::Done, "");
    let mut waits: Vec<String> = Vec::new();
    for w in found.waits() {
        let says = format!("{} ({}): {}", w.what, w.place, w.how);
        if !waits.contains(&says) {
            waits.push(says);
        }
    }
    if let Err(why) = &found.now {
        waits.push(format!("what heats now, by itself: {why}"));
    }
    line.says = (!waits.is_empty()).then(|| waits.join("\n"));
    if line.says.is_some() {
        line.state = State::Waits;
    }
    let finite = |v: f64| Some(v).filter(|v| v.is_finite());
    line.name = Some(job.name.clone());
    line.station = Some(weather.station.name.trim().to_owned());
    line.design_outdoor_c = finite(found.site.heating.used_c);
    let loads = found.loads.done();
    line.heating_load_w = loads.and_then(|l| finite(l.heating.heat_w));
    line.cooling_load_w = loads.and_then(|l| finite(l.cooling.sensible_w));
    line.year = found.year.done().map(Numbers::of);
    line.now = match &found.now {
        Ok(now) => now.as_ref().map(Numbers::of),
        Err(_) => None,
    };
    line.currency = Some(job.prices.currency.clone());
    line
}

fn no_option(at: u64, row: &Row, name: &str, job: &Job) -> Line {
    let names: Vec<&str> = job.options.iter().map(|o| o.name.as_str()).collect();
    let mend = near(name, names.iter().copied()).map_or_else(
        || {
            if names.is_empty() {
                "the job has no [[option]]; leave the cell empty".to_owned()
            } else {
                format!("its options: {}", names.join(", "))
            }
        },
        |near| format!("did you mean \"{near}\"?"),
    );
    refused(
        at,
        &row.id,
        State::Refused,
        format!("option: the job has no option \"{name}\"; {mend}"),
    )
}
