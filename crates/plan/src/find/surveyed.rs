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
use house::model::{Behind, Model};
use jobfile::Job;
use reckon::{Finding, Known, Level, Source};

/// Windows named one by one in a finding; beyond, how many more.
const NAMED: usize = 3;

pub(super) fn check(job: &Job, model: Option<&Model>, out: &mut Vec<Finding>) {
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
    for given in assumed(job, "construction") {
        let words = (
            "assumed",
            "Look (hatch, borescope, outlet hole), then write `seen = \"how\"`.",
        );
        out.push(unseen(&given.path, &given.what, words));
    }
    for name in model.map_or(Vec::new(), |m| stood_in(job, m)) {
        let table = if name.contains(' ') {
            format!("\"{name}\"")
        } else {
            name.to_owned()
        };
        let mend = format!(
            "Look (hatch, borescope, outlet hole), then describe it: [construction.{table}] with \
             `like` or `layers`, and `seen = \"how\"`."
        );
        let words = ("not described; a usual one stands in", mend.as_str());
        out.push(unseen(
            &format!("construction.{name}"),
            &format!("build-up of the {name}"),
            words,
        ));
    }
    let glass: Vec<&str> = assumed(job, "window").map(|g| g.path.as_str()).collect();
    if let Some(first) = glass.first() {
        let of = |path: &&str| path.trim_start_matches("window.").to_owned();
        let mut names = glass.iter().take(NAMED).map(of).collect::<Vec<_>>();
        if glass.len() > NAMED {
            names.push(format!("{} more", glass.len() - NAMED));
        }
        let words = (
            "assumed",
            "Tape, and the label or a lighter held to the glass; then write `seen = \"how\"` or \
             `known = \"label\"`.",
        );
        let what = format!("size and glass of {}", names.join(", "));
        out.push(unseen(first, &what, words));
    }
}

/// What a table of the job says is assumed.
fn assumed<'a>(job: &'a Job, table: &'a str) -> impl Iterator<Item = &'a jobfile::Given> {
    job.given
        .iter()
        .filter(move |g| g.known == Known::Assumed && g.path.split('.').next() == Some(table))
}

/// Build-ups nobody described through which a heated room loses heat: the usual ones stand in.
fn stood_in<'a>(job: &Job, model: &'a Model) -> Vec<&'a str> {
    let heated = |zone: usize| model.zones.get(zone).is_some_and(|z| z.heated.is_some());
    let mut names: Vec<&str> = Vec::new();
    for surface in &model.surfaces {
        let loses = match surface.behind {
            Behind::Zone(other) => heated(other) != heated(surface.zone),
            Behind::Outdoor { .. } | Behind::Ground(_) => heated(surface.zone),
            Behind::Adiabatic => false,
        };
        let Some(built) = model.constructions.get(surface.construction) else {
            continue;
        };
        let described = job.house.constructions.iter().any(|c| c.name == built.name)
            || built.name.starts_with("door leaf");
        if loses && !described && !names.contains(&built.name.as_str()) {
            names.push(&built.name);
        }
    }
    names
}

fn unseen(place: &str, what: &str, (found, mend): (&str, &str)) -> Finding {
    Finding {
        rule: "build-up-not-seen".to_owned(),
        level: Level::Ask,
        place: place.to_owned(),
        says: format!("Nobody has looked at this: {what}."),
        found: found.to_owned(),
        required: "seen, or read from a label".to_owned(),
        mend: mend.to_owned(),
        would_tell: "A look would tell.".to_owned(),
        figures: Vec::new(),
        source: Source::new("common-practice", "survey"),
    }
}
