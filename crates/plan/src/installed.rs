//! The stage of the installation, after the season.

use climate::Weather;
use house::model::Model;
use install::{Input, Installation};
use jobfile::Job;
use reckon::{Book, Finding};
use season::Comparison;

use crate::{Catalogue, Loads, Plan, Stage, Wait};

/// What it rests on.
pub(crate) struct Before<'a> {
    pub job: &'a Job,
    pub catalogue: &'a Catalogue,
    pub model: &'a Stage<Model>,
    pub loads: &'a Stage<Loads>,
    pub season: &'a Stage<Comparison>,
    pub weather: &'a Weather,
    pub design_c: f64,
}

/// Runs the stage: waits for the first word about the installation, since before that every rule
/// could only say that it cannot tell.
pub(crate) fn stage(
    before: &Before<'_>,
    book: &mut Book,
    findings: &mut Vec<Finding>,
) -> Stage<Installation> {
    if before.job.equipment.heads.is_empty() {
        return Stage::Waiting(before.season.waits().to_vec());
    }
    if before.job.installation == jobfile::Installation::default() {
        return Stage::Waiting(vec![Wait::new(
            "places, lines, drains and circuits",
            "line",
            "Walk the routes with a tape: [[outdoor_place]], [[line]], [[drain]], [[circuit]].",
        )]);
    }
    let years = before.season.done().map(|s| s.years.as_slice());
    let chosen = years.and_then(|y| y.iter().find(|(name, _)| name == jobfile::CHOSEN));
    let input = Input {
        job: before.job,
        catalogue: before.catalogue.sheets(),
        model: before.model.done(),
        year: chosen.and_then(|(_, year)| year.as_ref().ok()),
        glass: before.loads.done().map_or(&[], |l| &l.glass),
        winter_wind_deg: winter_wind_deg(before.weather),
        design_c: before.design_c,
    };
    match install::installation(&input) {
        Ok(mut done) => {
            book.take_in(std::mem::take(&mut done.book));
            findings.append(&mut done.findings);
            Stage::Done(done)
        }
        Err(defect) => Stage::Waiting(vec![Wait::new(
            defect,
            "line",
            "This is a defect of the program: please report it.",
        )]),
    }
}

/// Positions suggested for heads and outdoor units, each judged as the person's own.
///
/// # Errors
/// A rule file or formula of the program that does not read: a defect, in words.
pub fn suggested(
    plan: &Plan,
    job: &Job,
    catalogue: &Catalogue,
    weather: &Weather,
) -> Result<Vec<install::Suggested>, String> {
    install::suggest(&Input {
        job,
        catalogue: catalogue.sheets(),
        model: plan.model.done(),
        year: plan.year(),
        glass: plan.loads.done().map_or(&[], |l| &l.glass),
        winter_wind_deg: winter_wind_deg(weather),
        design_c: plan.site.heating.used_c,
    })
}

/// Wind slower than this drives no snow, m/s.
const DRIFTING_M_PER_S: f64 = 3.0;

/// Where the wind of the freezing hours comes from, compass degrees: the mean direction of the
/// moving air. None where it comes from everywhere alike.
fn winter_wind_deg(weather: &Weather) -> Option<f64> {
    let (mut east, mut north, mut all) = (0.0, 0.0, 0.0);
    let wind = weather.wind_speed_m_per_s.iter().zip(&weather.wind_dir_deg);
    for (t, (v, deg)) in weather.dry_bulb_c.iter().zip(wind) {
        if *t < 0.0 && *v > DRIFTING_M_PER_S {
            east += v * libm::sin(deg.to_radians());
            north += v * libm::cos(deg.to_radians());
            all += v;
        }
    }
    // a fifth of one direction is little more than chance
    (libm::hypot(east, north) > 0.2 * all)
        .then(|| libm::atan2(east, north).to_degrees().rem_euclid(360.0))
}
