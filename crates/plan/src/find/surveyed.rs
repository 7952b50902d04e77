//! **What it checks** What the load rests on was looked at: leakage tested, build-ups and glass
//! seen or read from a label.
//!
//! **Why it matters on site** An assumed wall or an assumed leak can be off by half, and the load
//! with it; the customer pays for the unit that follows.
//!
//! **What to do** Look, or test, before ordering.
//!
//! **Source** Common practice, no source.

use house::describe::Leakage;
use jobfile::Job;
use reckon::{Finding, Known, Level, Source};

pub(super) fn check(job: &Job, out: &mut Vec<Finding>) {
    let tested = matches!(
        job.house.leakage,
        Leakage::BlowerDoor {
            known: Known::Seen,
            ..
        } | Leakage::Fixed { .. }
    );
    if !tested {
        out.push(Finding {
            rule: "leakage-not-tested".to_owned(),
            level: Level::Ask,
            place: "leakage".to_owned(),
            says: "The air leakage is assumed, not tested.".to_owned(),
            found: "assumed".to_owned(),
            required: "a blower-door test, at least one point".to_owned(),
            mend: "Test, and type blower_door under [leakage] with `seen`.".to_owned(),
            would_tell: "A blower-door test, an hour's work, would tell.".to_owned(),
            figures: Vec::new(),
            source: Source::new("common-practice", "trade card F2"),
        });
    }
    for given in job
        .given
        .iter()
        .filter(|g| g.known == Known::Assumed && g.path != "leakage")
    {
        if !given.path.starts_with("construction") {
            continue;
        }
        out.push(Finding {
            rule: "build-up-not-seen".to_owned(),
            level: Level::Ask,
            place: given.path.clone(),
            says: format!("Nobody has looked at this: {}.", given.what),
            found: "assumed".to_owned(),
            required: "seen, or read from a label".to_owned(),
            mend: "Look (hatch, borescope, outlet hole), then write `seen = \"how\"`.".to_owned(),
            would_tell: "A look inside would tell.".to_owned(),
            figures: Vec::new(),
            source: Source::new("common-practice", "survey"),
        });
    }
}
