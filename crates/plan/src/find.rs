//! Findings of the plan itself, and all findings in order with their numbers.

mod billed;
mod design_temperature;
mod prices;
mod sizes;
mod surveyed;

use house::model::Model;
use jobfile::Job;
use reckon::Finding;
use serde::Serialize;

use crate::Site;
pub use billed::check as bills_finding;
pub(crate) use sizes::beside as sizes_beside;

/// A finding with its number in the plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Numbered {
    /// From 1, loudest first.
    pub number: usize,
    /// The finding.
    #[serde(flatten)]
    pub finding: Finding,
}

/// What the plan has to say that no stage says.
pub(crate) fn own(job: &Job, site: &Site, model: Option<&Model>) -> Vec<Finding> {
    let mut out = Vec::new();
    design_temperature::check(site, job.units, &mut out);
    surveyed::check(job, model, &mut out);
    prices::check(job, &mut out);
    out
}

/// Sorts by level, place and rule, drops what is said twice, and numbers.
pub(crate) fn numbered(mut findings: Vec<Finding>) -> Vec<Numbered> {
    findings.sort_by(|a, b| {
        (a.level, &a.place, &a.rule, &a.says).cmp(&(b.level, &b.place, &b.rule, &b.says))
    });
    findings.dedup();
    findings
        .into_iter()
        .enumerate()
        .map(|(i, finding)| Numbered {
            number: i + 1,
            finding,
        })
        .collect()
}
