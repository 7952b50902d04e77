//! `northwall bills`: what the bills say of the house, beside the survey. `northwall review`: the
//! second winter.

mod gather;
mod second;
mod shown;
mod views;

use std::path::Path;

use plan::{Billed, Plan};

use crate::arguments::{BillsGiven, Usual};
use crate::files::{self, Loaded};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::Say;
pub use gather::fault;
use gather::{Gathered, gather};

pub use second::answer as review;

pub fn answer(path: &Path, given: &BillsGiven, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let gathered = gather(&loaded, path, given)?;
    let mut plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let billed = billed(&loaded, &gathered, &mut plan);
    let say = Say::for_job(&loaded.job);
    let view = views::view(&plan, &gathered, &billed);
    let mut report = Report::new(shown::text(&plan, &gathered, &billed, path, say), &view);
    if usual.svg.is_some() {
        report.svg = billed.carriers.iter().find_map(|c| {
            let (fit, line) = (c.fit.as_ref().ok()?, c.line.as_ref().ok()?);
            Some(plan::draw::bill_line(
                &plan,
                c.bills.carrier,
                fit,
                line,
                say.system,
            ))
        });
    }
    Ok(report)
}

fn billed(loaded: &Loaded, gathered: &Gathered, plan: &mut Plan) -> Billed {
    let sets = gathered
        .sets
        .iter()
        .filter_map(|s| {
            s.bills
                .clone()
                .of_the_house(&loaded.job, gathered.installed)
        })
        .collect();
    let mut book = reckon::Book::new();
    let billed = plan::billed(
        &loaded.job,
        plan,
        sets,
        &gathered.days,
        &gathered.year,
        &mut book,
    );
    plan.book.take_in(book);
    billed
}

/// What the job's own bills tell beside a plan, or why they cannot be read, in words. None where
/// the job names no bills.
pub fn of_job(loaded: &Loaded, path: &Path, plan: &mut Plan) -> Option<Result<Billed, String>> {
    if !loaded.job.has_bills() {
        return None;
    }
    let gathered = match gather(loaded, path, &BillsGiven::default()) {
        Ok(gathered) => gathered,
        Err(why) => {
            let first = why.refused.first();
            return Some(Err(first.map_or_else(String::new, |f| {
                if f.file.is_empty() {
                    f.says.clone()
                } else {
                    format!("{}: {}", f.file, f.says)
                }
            })));
        }
    };
    Some(Ok(billed(loaded, &gathered, plan)))
}

/// What is bought that a heat loss is from, in words.
pub fn heats(loss: &review::HeatLoss) -> String {
    let from: Vec<&str> = loss.heats.iter().map(|h| h.carrier.word()).collect();
    from.join(", ")
}

/// Puts the figures of bills and review into a plan's book, for `why`.
pub fn figures(loaded: &Loaded, path: &Path, plan: &mut Plan) -> Result<(), Refusal> {
    let gathered = gather(loaded, path, &BillsGiven::default())?;
    let _ = billed(loaded, &gathered, plan);
    if gathered.installed.is_some() {
        let reviewed = second::reviewed(loaded, &gathered, plan);
        review::write_review(&reviewed.review, &mut plan.book)
            .map_err(|e| Fault::flag("review", e.to_string()))?;
    }
    Ok(())
}
