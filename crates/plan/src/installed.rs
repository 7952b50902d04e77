//! The stage of the installation, after the season.

use house::model::Model;
use install::{Input, Installation};
use jobfile::Job;
use reckon::{Book, Finding};
use season::Comparison;

use crate::{Catalogue, Stage, Wait};

/// What it rests on.
pub(crate) struct Before<'a> {
    pub job: &'a Job,
    pub catalogue: &'a Catalogue,
    pub model: &'a Stage<Model>,
    pub season: &'a Stage<Comparison>,
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
    let chosen = years.and_then(|y| y.iter().find(|(name, _)| name == "chosen"));
    let input = Input {
        job: before.job,
        catalogue: before.catalogue.sheets(),
        model: before.model.done(),
        year: chosen.and_then(|(_, year)| year.as_ref().ok()),
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
