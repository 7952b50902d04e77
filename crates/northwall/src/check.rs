//! `northwall check`: the whole plan on one screen.

use std::path::Path;

use plan::{Numbered, Plan};
use reckon::{Level, Verdict};
use units::Dim;

use crate::arguments::Usual;
use crate::files::{self, Loaded};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::{Say, command_line, ends, heading, typed, typed_path, wrapped, wrapped_to};
use crate::view::{CheckBillsView, CheckView, FindingView, VERSION, WaitView};

const CAUTION: &str =
    "The unit's own installation sheet, the local code and the licensed trades come first.";

pub fn answer(path: &Path, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(path, usual)?;
    let mut plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let say = Say::for_job(&loaded.job);
    let bills = bills(&loaded, path, &mut plan, say);
    let view = view(&plan, &loaded, bills);
    let mut report = Report::new(text(&plan, &view, &loaded, path, say), &view);
    if view.stops > 0 {
        report.code = crate::STOPPED;
    }
    if usual.svg.is_some() {
        report.svg = crate::draw::capacity(&plan, &loaded, say)
            .or_else(|| crate::draw::storeys(&plan, &loaded, say));
    }
    Ok(report)
}

/// What the job's bills say beside the survey; where they do not agree, also a finding.
fn bills(loaded: &Loaded, path: &Path, plan: &mut Plan, say: Say) -> Option<CheckBillsView> {
    let none = |why: String| CheckBillsView {
        says: format!("no heat loss: {why}"),
        ..CheckBillsView::default()
    };
    let billed = match crate::bills::of_job(loaded, path, plan)? {
        Ok(billed) => billed,
        Err(why) => return Some(none(why)),
    };
    if let Some(finding) = plan::bills_finding(&loaded.job, &billed) {
        plan.add_finding(finding);
    }
    let loss = match &billed.loss {
        Ok(loss) => loss,
        Err(why) => return Some(none(why.says.clone())),
    };
    let load = loss.load_w;
    let beside = match &billed.reconciled {
        Some(r) => {
            let words = match r.verdict {
                Verdict::Holds => "agrees with the survey",
                Verdict::Fails => "does not agree with the survey",
                Verdict::CannotTell => "cannot tell whether the survey agrees",
            };
            format!(
                "; {words}: {:.0} to {:.0} % of it",
                r.ratio.low * 100.0,
                r.ratio.high * 100.0
            )
        }
        None => "; there is no survey to set it beside".to_owned(),
    };
    Some(CheckBillsView {
        says: format!(
            "{} to {} at {} ({}){beside}",
            say.load_number(load.low),
            say.load(load.high),
            say.temperature(plan.site.heating.used_c),
            crate::bills::heats(loss)
        ),
        load_w: Some(load.into()),
        loss_w_per_k: Some(loss.loss_w_per_k.into()),
        of_survey: billed.reconciled.as_ref().map(|r| r.ratio.into()),
        agree: billed.reconciled.as_ref().map(|r| r.verdict.words()),
    })
}

fn view(plan: &Plan, loaded: &Loaded, bills: Option<CheckBillsView>) -> CheckView {
    CheckView {
        northwall: VERSION,
        job: plan.name.clone(),
        stage: plan.stage,
        station: plan.site.station.name.clone(),
        headline: plan.headline().into(),
        waiting: plan
            .waits()
            .into_iter()
            .map(|w| WaitView {
                what: w.what.clone(),
                place: w.place.clone(),
                how: w.how.clone(),
            })
            .collect(),
        stops: plan.count(Level::Stop),
        fixes: plan.count(Level::Fix),
        asks: plan.count(Level::Ask),
        notes: plan.count(Level::Note),
        findings: plan
            .findings
            .iter()
            .map(|f| FindingView::new(f.number, &f.finding, plan.place_in_job(&f.finding.place).1))
            .collect(),
        bills,
        weather_notes: loaded.notes.clone(),
        caution: CAUTION,
    }
}

fn text(plan: &Plan, view: &CheckView, loaded: &Loaded, path: &Path, say: Say) -> String {
    let mut out = heading(ends(&plan.name, plan.stage).trim_end());
    out.push_str(&crate::loads::site_line(plan, say));
    out.push('\n');
    headline(plan, view, loaded, say, &mut out);
    for wait in &view.waiting {
        out.push_str(&wrapped(
            "  ",
            &format!("Waits for {}. {}", wait.what, wait.how),
        ));
    }
    if !view.waiting.is_empty() {
        out.push('\n');
    }
    let counts = [
        (view.stops, "stop", "stops"),
        (view.fixes, "fix", "fixes"),
        (view.asks, "ask", "asks"),
        (view.notes, "note", "notes"),
    ];
    let words: Vec<String> = counts
        .iter()
        .filter(|(n, ..)| *n > 0)
        .map(|(n, one, many)| format!("{n} {}", if *n == 1 { one } else { many }))
        .collect();
    out.push_str(&heading(&if words.is_empty() {
        "Nothing found to stop for".to_owned()
    } else {
        words.join(", ")
    }));
    let mut invented = Vec::new();
    for f in &plan.findings {
        // The same remark on every sheet of a demonstration is one remark.
        if f.finding.rule == "sheet-invented" {
            let unit = f.finding.says.split(':').next().unwrap_or("");
            invented.push(format!("{} {unit}", f.number));
        } else {
            finding(f, plan, &mut out);
        }
    }
    if !invented.is_empty() {
        let list = invented.join(", ");
        out.push_str(&wrapped(
            "  ",
            &format!("· invented data, for demonstration: {list}"),
        ));
    }
    for note in &view.weather_notes {
        out.push_str(&wrapped("  ", &format!("Weather: {note}")));
    }
    out.push('\n');
    let key = plan.findings.iter().find_map(|f| f.finding.figures.first());
    let key = key.map_or("loads.house.heating", String::as_str);
    out.push_str(&format!(
        "Ask on:\n{}",
        command_line(&format!("why {} {}", typed_path(path), typed(key)))
    ));
    out.push_str(&wrapped("", CAUTION));
    out
}

fn headline(plan: &Plan, view: &CheckView, loaded: &Loaded, say: Say, out: &mut String) {
    let h = &view.headline;
    let mut line = |word: &str, value: String| {
        out.push_str(&format!("  {word:<18}{value}\n"));
    };
    if let (Some(w), Some(c)) = (h.heating_load_w, h.design_outdoor_c) {
        let cooling = h.cooling_load_w.map_or(String::new(), |w| {
            format!("; {} of cooling, sensible", say.load(w))
        });
        line(
            "House loses",
            format!("{} at {}{cooling}", say.load(w), say.temperature(c)),
        );
    }
    if let Some(bills) = &view.bills {
        let first = format!("  {:<18}", "By the bills");
        out.push_str(&wrapped_to(
            crate::say::WIDTH,
            &first,
            &" ".repeat(20),
            &bills.says,
        ));
    }
    let mut line = |word: &str, value: String| {
        out.push_str(&format!("  {word:<18}{value}\n"));
    };
    if let Some(kwh) = h.heating_need_kwh {
        line("Needs a year", say.of(kwh * 3.6e6, Dim::Heat));
    }
    if let Some(year) = plan.year() {
        let gives: Option<f64> = year
            .units
            .iter()
            .map(|u| u.at_design.map(|g| g.max_w))
            .sum();
        let c = say.temperature(plan.site.heating.used_c);
        line(
            "Units give",
            match gives {
                Some(w) => format!("{} at {c}", say.load(w)),
                None => format!("cannot tell at {c}: a sheet ends before it"),
            },
        );
        if let Some(share) = h.heads_share {
            let cop = h
                .seasonal_cop
                .map_or(String::new(), |c| format!(", seasonal COP {c:.2}"));
            line(
                "Heads carry",
                format!("{} of the heat{cop}", say.of(share, Dim::Share)),
            );
        }
        let cycling = year.hours_in(season::Regime::Cycling);
        line(
            "On and off",
            format!("{} unit hours of cycling", crate::say::Say::hours(cycling)),
        );
        let money = |v: f64| {
            format!(
                "{}{}",
                loaded.job.prices.currency,
                crate::say::Say::hours(v.round().max(0.0) as u32)
            )
        };
        if let Some(cost) = h.cost {
            let now = h
                .cost_now
                .map_or(String::new(), |c| format!("; as it is now {}", money(c)));
            line("Costs a year", format!("{}{now}", money(cost)));
        }
        if let Some(kg) = h.carbon_kg {
            let now = h.carbon_now_kg.map_or(String::new(), |c| {
                format!("; as it is now {}", say.of(c, Dim::Carbon))
            });
            line("Carbon a year", format!("{}{now}", say.of(kg, Dim::Carbon)));
        }
    }
    if let Some(cold) = plan.says_left_cold(say.system) {
        let first = format!("  {:<18}", "Left cold");
        let rest = " ".repeat(20);
        out.push_str(&wrapped_to(crate::say::WIDTH, &first, &rest, &cold));
    }
    out.push('\n');
}

/// Shape first, word second, colour third.
fn mark(level: Level) -> (&'static str, &'static str) {
    match level {
        Level::Stop => ("■", "\x1b[31m"),
        Level::Fix => ("□", "\x1b[33m"),
        Level::Ask => ("◌", "\x1b[36m"),
        Level::Note => ("·", "\x1b[2m"),
    }
}

/// A finding as a note in the margin.
pub fn finding(f: &Numbered, plan: &Plan, out: &mut String) {
    let (shape, colour) = mark(f.finding.level);
    let (path, line) = plan.place_in_job(&f.finding.place);
    let at = line.map_or(path.clone(), |l| format!("{path}, line {l}"));
    let word = f.finding.level.word();
    let left = format!("{shape} {} {word}", f.number);
    let gap = crate::say::WIDTH
        .saturating_sub(left.chars().count() + at.chars().count())
        .max(1);
    out.push_str(&format!("{colour}{left}\x1b[0m{}{at}\n", " ".repeat(gap)));
    out.push_str(&wrapped("    ", &f.finding.says));
    let both = [("found", &f.finding.found), ("wanted", &f.finding.required)];
    let facts: Vec<String> = both
        .iter()
        .filter(|(_, t)| !t.is_empty())
        .map(|(w, t)| format!("{w} {t}"))
        .collect();
    if f.finding.level != Level::Note && !facts.is_empty() {
        out.push_str(&wrapped("    ", &format!("{}.", facts.join("; "))));
    }
    if !f.finding.mend.is_empty() {
        out.push_str(&wrapped("    ", &format!("→ {}", f.finding.mend)));
    }
    if f.finding.level == Level::Ask && !f.finding.would_tell.is_empty() {
        out.push_str(&wrapped("    ", &format!("? {}", f.finding.would_tell)));
    }
}
