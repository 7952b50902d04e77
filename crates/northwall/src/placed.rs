//! `northwall place`: positions judged, and with `--suggest` better ones named.

use std::path::Path;

use install::{Position, Suggested};

use crate::arguments::{PlaceChart, Usual};
use crate::files;
use crate::installation::{self, Part};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading, wrapped};
use crate::view::{SuggestView, SuggestedView, VERSION};

pub fn answer(
    path: &Path,
    suggest: bool,
    chart: PlaceChart,
    usual: &Usual,
) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let mut report = if suggest {
        let found = plan::suggested(&plan, &loaded.job, &loaded.catalogue, &loaded.weather)
            .map_err(|defect| Fault::flag("--suggest", defect))?;
        let mut text = heading(&plan.name);
        for s in &found {
            suggested(s, Say::for_job(&loaded.job), &mut text);
        }
        if found.is_empty() {
            text.push_str(&wrapped(
                "  ",
                "Waits for heads and outdoor units: an [[outdoor]] and a [[head]] for each.",
            ));
        }
        text.push_str(&wrapped("", installation::CAUTION));
        let view = SuggestView {
            northwall: VERSION,
            job: plan.name.clone(),
            suggested: found.iter().map(SuggestedView::from).collect(),
        };
        Report::new(text, &view)
    } else {
        installation::judged_report(&plan, Part::Place)
    };
    if usual.svg.is_some() {
        let say = Say::for_job(&loaded.job);
        report.svg = match chart {
            PlaceChart::Plan => plan::draw::placed(&plan, &loaded.job, say.system),
            PlaceChart::Wall => plan::draw::wall(&plan, &loaded.job, say.system),
        };
    }
    Ok(report)
}

fn suggested(s: &Suggested, say: Say, out: &mut String) {
    out.push_str(&heading(&format!("{}: {} positions tried", s.of, s.tried)));
    for (i, p) in s.best.iter().enumerate() {
        let word = if i == 0 { "Best" } else { "Next" };
        position(word, p, say, out);
    }
    match (&s.yours, s.your_rank) {
        (Some(p), Some(rank)) => {
            let before = rank - 1;
            let word = if before == 0 {
                "Yours, as good as any".to_owned()
            } else {
                format!("Yours, {before} are better")
            };
            position(&word, p, say, out);
        }
        _ => out.push_str(&wrapped("  ", "Yours: not on the plan, so not compared.")),
    }
    for o in &s.open {
        out.push_str(&wrapped("  ", &format!("? {o}")));
    }
}

fn position(word: &str, p: &Position, say: Say, out: &mut String) {
    let counts: Vec<String> = [
        (p.stops, "stop", "stops"),
        (p.fixes, "fix", "fixes"),
        (p.notes, "note", "notes"),
        (p.asks, "ask", "asks"),
    ]
    .iter()
    .filter(|(n, ..)| *n > 0)
    .map(|(n, one, many)| format!("{n} {}", if *n == 1 { one } else { many }))
    .collect();
    let counts = if counts.is_empty() {
        "nothing against it".to_owned()
    } else {
        counts.join(", ")
    };
    let line = p.line_m.map_or(String::new(), |m| {
        format!("; about {} of line", say.of(m, units::Dim::Length))
    });
    out.push_str(&wrapped("  ", &format!("{word}: {}", p.says)));
    out.push_str(&wrapped("      ", &format!("{counts}{line}")));
    for w in &p.for_it {
        out.push_str(&wrapped("      ", &format!("+ {w}")));
    }
    for w in &p.against {
        out.push_str(&wrapped("      ", &format!("- {w}")));
    }
    if !p.lacks.is_empty() {
        let all = p.lacks.join("; ");
        out.push_str(&wrapped("      ", &format!("Behind the best: {all}")));
    }
}
