//! `northwall season`: the year, room by room and unit by unit.

mod ideal;
mod shown;
mod views;

use std::path::Path;

use plan::Plan;
use season::Year;

use crate::arguments::{SeasonChart, Usual};
use crate::files::{self, Loaded};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::Say;

pub fn answer(
    path: &Path,
    ideal: bool,
    option: Option<&str>,
    chart: SeasonChart,
    usual: &Usual,
) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let plan = plan::plan(&loaded.job, &loaded.catalogue, &loaded.weather);
    let say = Say::for_job(&loaded.job);
    let year = if ideal {
        None
    } else {
        chosen(&plan, &loaded, option)?
    };
    let view = views::view(&plan, year, &loaded);
    let text = match year {
        Some(year) => shown::text(&plan, year, &loaded, say),
        None => ideal::text(&plan, &loaded, say),
    };
    let mut report = Report::new(text, &view);
    if usual.svg.is_some() {
        report.svg = match (chart, year) {
            (SeasonChart::Capacity, Some(_)) => crate::draw::capacity(&plan, &loaded, say),
            (SeasonChart::Capacity, None) | (SeasonChart::Year, _) => {
                crate::draw::year(&plan, year, &loaded, say)
            }
        };
    }
    Ok(report)
}

/// The year asked for: of an option by name, or of what is chosen. None where the job has no
/// heads at all.
fn chosen<'p>(
    plan: &'p Plan,
    loaded: &Loaded,
    option: Option<&str>,
) -> Result<Option<&'p Year>, Refusal> {
    let years = plan.season.done().map_or(&[][..], |s| s.years.as_slice());
    let Some(name) = option else {
        return match years.iter().find(|(n, _)| n == jobfile::CHOSEN) {
            Some((_, Ok(year))) => Ok(Some(year)),
            // What is wrong is a finding of `check`; the need can still be told.
            _ => Ok(None),
        };
    };
    match years.iter().find(|(n, _)| n == name) {
        Some((_, Ok(year))) => Ok(Some(year)),
        Some((_, Err(why))) => {
            Err(Fault::flag("--option", format!("this option has no year: {why}")).into())
        }
        None => {
            let names: Vec<&str> = loaded.job.options.iter().map(|o| o.name.as_str()).collect();
            let mend = match plan::near(name, names.iter().copied()) {
                Some(near) => format!("did you mean \"{near}\"?"),
                None => "name an option of the job".to_owned(),
            };
            Err(Fault::flag("--option", "the job has no such option")
                .got(format!("\"{name}\""))
                .allowed(if names.is_empty() {
                    "none: the job has no [[option]]".to_owned()
                } else {
                    names.join(", ")
                })
                .mend(mend)
                .into())
        }
    }
}
