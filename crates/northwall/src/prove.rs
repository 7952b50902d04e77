//! `northwall prove`: outside checks.

use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use plan::prove::Check;
use reckon::Verdict;

use crate::arguments::Usual;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading, wrapped};
use crate::view::ProofView;

pub fn answer(only: Option<&str>, usual: &Usual) -> Result<Report, Refusal> {
    let bar = ProgressBar::new(1);
    if let Ok(style) = ProgressStyle::with_template("  {bar:30} {msg}") {
        bar.set_style(style);
    }
    bar.enable_steady_tick(Duration::from_millis(200));
    let mut checks = plan::prove::prove(&mut |done, of, what| {
        bar.set_length(of as u64);
        bar.set_position(done as u64);
        bar.set_message(what.to_owned());
    });
    bar.finish_and_clear();
    if let Some(only) = only {
        checks.retain(|c| c.id.contains(only));
        if checks.is_empty() {
            return Err(Fault::flag("--only", "no check has an id like this")
                .got(only)
                .mend("northwall prove lists them all")
                .into());
        }
    }
    let views: Vec<ProofView> = checks
        .iter()
        .map(|c| ProofView {
            id: c.id.clone(),
            what: c.what.clone(),
            source: c.source.clone(),
            expected: c.expected.clone(),
            got: c.got.clone(),
            verdict: c.verdict.words(),
            known: c.known,
            remark: c.remark.clone(),
        })
        .collect();
    let mut report = Report::new(text(&checks), &views);
    if checks
        .iter()
        .any(|c| c.verdict == Verdict::Fails && !c.known)
    {
        report.code = crate::STOPPED;
    }
    if usual.svg.is_some() {
        let profiles = plan::prove::day_profiles();
        report.svg = Some(plan::draw::profiles(&profiles, Say::new(usual.si).system));
    }
    Ok(report)
}

fn text(checks: &[Check]) -> String {
    let mut out = String::new();
    let mut source = "";
    for c in checks {
        if c.source != source {
            source = &c.source;
            out.push_str(&heading(source));
        }
        let (shape, colour) = match c.verdict {
            Verdict::Holds => ("✓", "\x1b[32m"),
            Verdict::Fails => ("■", "\x1b[31m"),
            Verdict::CannotTell => ("◌", "\x1b[36m"),
        };
        out.push_str(&format!(
            "  {colour}{shape} {:<12}\x1b[0m{}\n",
            c.verdict.words(),
            c.what
        ));
        let both = format!("expected {}; got {}", c.expected, c.got);
        out.push_str(&wrapped("                ", &both));
        let plain = c.remark.is_empty() || c.remark == "inside the range of the six programs";
        if !plain {
            out.push_str(&wrapped("                ", &c.remark));
        }
    }
    let count = |v: Verdict| checks.iter().filter(|c| c.verdict == v).count();
    out.push_str(&format!(
        "\n{} checks: {} hold, {} fail ({} of them known, with the reason), {} cannot tell\n",
        checks.len(),
        count(Verdict::Holds),
        count(Verdict::Fails),
        checks.iter().filter(|c| c.known).count(),
        count(Verdict::CannotTell)
    ));
    out
}
