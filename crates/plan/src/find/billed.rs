//! **What it checks** Bills and survey tell the same heat loss within 15 %.
//!
//! **Why it matters on site** Where they do not, one of them is wrong, and the units are sized by
//! the survey.
//!
//! **What to do** Look first at what needs to move least for how it is known.
//!
//! **Source** Trade cards, F6.

use jobfile::Job;
use reckon::{Finding, Level, Source, Verdict};
use review::{Closer, Reconciled};
use units::{Dim, show};

use super::Numbered;
use crate::{Billed, Plan};

/// What stands in the way of trusting the load, where bills and survey do not agree whatever the
/// band. None where they agree, where the band reaches across, or where either is missing.
pub fn check(job: &Job, billed: &Billed) -> Option<Finding> {
    let (both, survey, loss) = match (&billed.reconciled, &billed.survey, &billed.loss) {
        (Some(both), Some(survey), Ok(loss)) if both.verdict == Verdict::Fails => {
            (both, survey, loss)
        }
        _ => return None,
    };
    let say = |v: f64| show(v, Dim::Conductance, job.units);
    let less = if both.ratio.mid < 1.0 { "less" } else { "more" };
    let first = both.closers.first();
    Some(Finding {
        rule: "bills-and-survey".to_owned(),
        level: Level::Ask,
        place: place(job, first),
        says: format!("The bills tell {less} heat loss than the survey, whatever the band."),
        found: format!(
            "{} to {} by the bills, {:.0} to {:.0} % of the survey",
            say(loss.loss_w_per_k.low),
            say(loss.loss_w_per_k.high),
            both.ratio.low * 100.0,
            both.ratio.high * 100.0
        ),
        required: format!(
            "within {:.0} % of the {} of the survey",
            review::AGREE * 100.0,
            say(survey.loss_w_per_k)
        ),
        mend: mend(both),
        would_tell: first.map_or_else(String::new, |c| c.would_tell.clone()),
        figures: vec!["bills.load".to_owned()],
        source: Source::new("trade-cards", "F6"),
    })
}

/// The assumption that is the first to look at, else the heat loss of the house.
fn place(job: &Job, first: Option<&Closer>) -> String {
    match first {
        Some(c) if !c.place.is_empty() => c.place.clone(),
        _ if job.bill_files.is_empty() => "bill".to_owned(),
        _ => "bills".to_owned(),
    }
}

fn mend(both: &Reconciled) -> String {
    let named: Vec<String> = both
        .closers
        .iter()
        .take(3)
        .map(|c| format!("{} ({})", c.what, c.side.word()))
        .collect();
    if named.is_empty() {
        "No single assumption closes the gap: look at the survey's areas, and ask about wood and \
         rooms kept shut."
            .to_owned()
    } else {
        format!("Look at, in this order: {}.", named.join(", "))
    }
}

impl Plan {
    /// Takes a finding in that no stage of the plan made. It gets the number after the last, so
    /// those that drawings and papers refer to stay; it stands with those of its level.
    pub fn add_finding(&mut self, finding: Finding) {
        let number = self.findings.iter().map(|f| f.number).max().unwrap_or(0) + 1;
        let at = self
            .findings
            .partition_point(|f| f.finding.level <= finding.level);
        self.findings.insert(at, Numbered { number, finding });
    }
}
