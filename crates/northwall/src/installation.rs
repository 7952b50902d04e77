//! `northwall place`, `lines`, `wires`, `list`: the installation, part by part.

use std::path::Path;

use install::{Installation, Item, Judged};
use plan::Plan;
use reckon::Verdict;

use crate::arguments::Usual;
use crate::files;
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{Say, heading, wrapped};
use crate::view::{InstallationView, JudgedView, ListView, VERSION, WaitView};

/// Which part is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Indoors and outdoors.
    Place,
    /// Lines, charge, drain.
    Lines,
    /// Circuits and panel.
    Wires,
    /// Cut list and tools.
    List,
}

/// What stands under every answer.
pub const CAUTION: &str =
    "The unit's own installation sheet, the local code and the licensed trades come first.";

pub fn answer(path: &Path, part: Part, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let mut report = judged_report(&plan, part);
    if usual.svg.is_some() {
        report.svg = crate::draw::installation(&loaded, &plan, part, Say::for_job(&loaded.job));
    }
    Ok(report)
}

/// All that was judged of a part, in words and as JSON.
pub fn judged_report(plan: &Plan, part: Part) -> Report {
    let mut view = InstallationView {
        northwall: VERSION,
        job: plan.name.clone(),
        waiting: Vec::new(),
        judged: Vec::new(),
        labels: Vec::new(),
        changed: Vec::new(),
        list: None,
    };
    let Some(done) = plan.install.done() else {
        let mut text = heading(&plan.name);
        for w in plan.install.waits() {
            text.push_str(&wrapped("  ", &format!("Waits for {}. {}", w.what, w.how)));
            view.waiting.push(WaitView {
                what: w.what.clone(),
                place: w.place.clone(),
                how: w.how.clone(),
            });
        }
        return Report::new(text, &view);
    };
    let rows = judged(done, part);
    let mut text = heading(&plan.name);
    if part == Part::List {
        list(done, &mut text);
    } else {
        verdicts(rows, &mut text);
    }
    if part == Part::Lines {
        if !done.labels.is_empty() {
            text.push_str(&heading("Label"));
        }
        for label in &done.labels {
            text.push_str(&wrapped("  ", label));
        }
        for change in &done.changed {
            text.push_str(&wrapped("  ", &format!("As built: {change}")));
        }
    }
    // the cautions of the list end with it
    if part != Part::List {
        text.push_str(&wrapped("", CAUTION));
    }
    view.judged = rows.iter().map(JudgedView::from).collect();
    if part == Part::Lines {
        view.labels.clone_from(&done.labels);
        view.changed.clone_from(&done.changed);
    }
    if part == Part::List {
        view.list = Some(ListView::from(&done.list));
    }
    let mut report = Report::new(text, &view);
    let stops = plan
        .findings
        .iter()
        .filter(|f| f.finding.level == reckon::Level::Stop);
    let named = stops
        .into_iter()
        .any(|f| rows.iter().any(|r| r.rule == f.finding.rule));
    report.code = u8::from(named);
    report
}

fn judged(done: &Installation, part: Part) -> &[Judged] {
    match part {
        Part::Place => &done.place,
        Part::Lines => &done.lines,
        Part::Wires => &done.wires,
        Part::List => &[],
    }
}

fn verdicts(rows: &[Judged], out: &mut String) {
    let mut place = "";
    for r in rows {
        if r.place != place {
            place = &r.place;
            out.push_str(&heading(place));
        }
        let mark = match r.verdict {
            Verdict::Holds => "holds      ",
            Verdict::Fails => "FAILS      ",
            Verdict::CannotTell => "cannot tell",
        };
        let text = format!(
            "{mark}  {}: {}; required {} ({} {})",
            r.what, r.found, r.required, r.source.key, r.source.place
        );
        let mut lines = wrapped("  ", &text);
        if lines.matches('\n').count() > 1 {
            let tail = lines.split_off(lines.find('\n').map_or(0, |i| i + 1));
            lines.push_str(&wrapped("               ", &tail.replace('\n', " ")));
        }
        out.push_str(&lines);
        for (sign, words) in [("→", r.mend), ("?", r.would_tell)] {
            if !words.is_empty() {
                out.push_str(&wrapped("               ", &format!("{sign} {words}")));
            }
        }
    }
    let count = |v: Verdict| rows.iter().filter(|r| r.verdict == v).count();
    out.push_str(&format!(
        "\n{} hold, {} fail, {} cannot be told\n",
        count(Verdict::Holds),
        count(Verdict::Fails),
        count(Verdict::CannotTell)
    ));
}

fn list(done: &Installation, out: &mut String) {
    let list = &done.list;
    let mut part = |title: &str, items: &[Item]| {
        out.push_str(&heading(title));
        for i in items {
            let of = if i.of.is_empty() {
                String::new()
            } else {
                format!(" [{}]", i.of)
            };
            let amount = if i.amount.is_empty() {
                String::new()
            } else {
                format!(": {}", i.amount)
            };
            out.push_str(&wrapped("  ", &format!("- {}{amount}{of}", i.what)));
        }
    };
    part("Cut list", &list.cut);
    part("Tools", &list.tools);
    part("To lift", &list.lifts);
    out.push_str(&heading("Cautions"));
    for c in &list.cautions {
        out.push_str(&wrapped("  ", c));
    }
}
