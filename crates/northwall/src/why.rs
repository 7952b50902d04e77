//! `northwall why`: formula, inputs and source of a number.

use std::path::Path;

use plan::{Leaf, NoFigure, Plan, Why};
use units::show_plain_si;

use crate::arguments::Usual;
use crate::files;
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, command_line, cut, ends, heading, typed, typed_path, wrapped};
use crate::view::{ListedView, WhyAnswer, WhyView};

pub fn answer(path: &Path, key: &str, down: &str, usual: &Usual) -> Result<Report, Refusal> {
    let steps = steps(down)?;
    let loaded = files::load(path, usual)?;
    let mut plan = plan::plan(&loaded.job, &loaded.catalogue, &loaded.weather);
    if key.starts_with("bills") || key.starts_with("review") {
        crate::bills::figures(&loaded, path, &mut plan)?;
    }
    if key.starts_with("bands") {
        if loaded.job.has_bills() {
            // what the bills tell is what the houses are held against
            let _ = crate::bills::of_job(&loaded, path, &mut plan);
        }
        let choices = loaded.job.choices();
        crate::bands::figures(&loaded, path, &choices, &mut plan)
            .map_err(|why| Fault::flag("KEY", why).got(key))?;
    }
    let say = Say::for_job(&loaded.job);
    match plan::why(&plan, key) {
        Ok(tree) => {
            let answer = WhyAnswer::Figure(Box::new(view(&tree, say)));
            Ok(Report::new(text(&tree, path, say, steps), &answer))
        }
        Err(none) if !none.beginning.is_empty() => Ok(listed(&plan, &none, say)),
        Err(none) => Err(unknown(&none)),
    }
}

fn steps(down: &str) -> Result<usize, Refusal> {
    if down == "all" {
        return Ok(usize::MAX);
    }
    down.parse().ok().filter(|n| *n > 0).ok_or_else(|| {
        Fault::flag("--down", "this is not a number of steps")
            .got(down)
            .mend("write a whole number from 1, or all")
            .into()
    })
}

fn unknown(none: &NoFigure) -> Refusal {
    let mend = if none.near.is_empty() {
        "ask for a beginning, such as loads or season; without a key all are listed".to_owned()
    } else {
        format!("did you mean {}?", none.near.join(", "))
    };
    Fault::flag("KEY", "the plan has no figure of this name")
        .got(none.key.clone())
        .mend(mend)
        .into()
}

fn listed(plan: &Plan, none: &NoFigure, say: Say) -> Report {
    let mut out = String::new();
    let mut figures = Vec::new();
    for (key, what) in &none.beginning {
        let shown = plan
            .value(key)
            .map_or(String::new(), |(v, d)| say.figure(v, d));
        out.push_str(&ends(&format!("  {key}"), &shown));
        out.push_str(&format!("      \x1b[2m{}\x1b[0m\n", cut(what, 74)));
        figures.push(ListedView {
            key: key.clone(),
            what: what.clone(),
            shown,
        });
    }
    if none.more > 0 {
        out.push_str(&format!("  and {} more that begin so\n", none.more));
    }
    let view = WhyAnswer::List {
        beginning: none.key.clone(),
        figures,
        more: none.more,
    };
    Report::new(out, &view)
}

fn value(w: &Why, say: Say) -> String {
    say.figure(w.value, w.dim)
}

fn text(tree: &Why, path: &Path, say: Say, steps: usize) -> String {
    let mut out = heading(&format!("{} = {}", tree.key, value(tree, say)));
    out.push_str(&wrapped("  ", &tree.what));
    out.push('\n');
    let mut folded = Vec::new();
    body(tree, "  ", path, say, steps, &mut folded, &mut out);
    if let Some(first) = folded.first() {
        out.push_str(&format!(
            "\n  Deeper lie more, {} at the next step (--down all unfolds all). One of them:\n{}",
            folded.len(),
            command_line(&format!("why {} {}", typed_path(path), typed(first)))
        ));
    }
    out
}

fn rests(w: &Why, path: &Path) -> String {
    let known = w.known.map_or(String::new(), |k| format!(", {}", k.word()));
    match &w.leaf {
        Leaf::Job { path: place, line } => {
            let at = line.map_or(String::new(), |l| format!(" line {l},"));
            format!("{}{at} {place}{known}", path.display())
        }
        Leaf::Sheet { place } => format!("data sheet, {place}{known}"),
        Leaf::Weather { place } => format!("weather, {place}{known}"),
        Leaf::Publication { key, title, place } => {
            let title = if title.is_empty() { key } else { title };
            format!("{title}, {place}{known}")
        }
    }
}

fn body(
    w: &Why,
    margin: &str,
    path: &Path,
    say: Say,
    left: usize,
    folded: &mut Vec<String>,
    out: &mut String,
) {
    if w.formula.is_empty() {
        out.push_str(&hanging(margin, "from ", &rests(w, path)));
        return;
    }
    // what does not come out in the units printed has the SI numbers beside
    let plain = !w.holds_as_printed(say.system);
    let beside = |w: &Why| {
        let si = plain.then(|| show_plain_si(w.value, w.dim)).flatten();
        let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
        si.filter(|si| unit(si) != unit(&value(w, say)))
            .map_or(String::new(), |si| format!(" ({si})"))
    };
    let worked = if plain {
        format!(", worked in SI{}", beside(w))
    } else {
        String::new()
    };
    let formula = format!("{}{worked}", said(&w.formula));
    out.push_str(&hanging(margin, "= ", &formula));
    if w.formula.starts_with("over the year") || w.inputs.is_empty() {
        out.push_str(&hanging(margin, "from ", &rests(w, path)));
    } else {
        out.push_str(&hanging(margin, "by ", &rests(w, path)));
    }
    for input in &w.inputs {
        let head = format!("{} = {}{}", input.symbol, value(input, say), beside(input));
        out.push_str(&hanging(margin, "├ ", &format!("{head}   {}", input.what)));
        let deeper = format!("{margin}│   ");
        if left == 1 && !input.formula.is_empty() {
            folded.push(input.key.clone());
        } else if input.again {
            out.push_str(&format!("{deeper}as above: {}\n", input.key));
        } else {
            body(input, &deeper, path, say, left - 1, folded, out);
        }
    }
}

/// The formula in words where it takes all its inputs: `sum()` names none of them.
fn said(formula: &str) -> String {
    [
        ("sum()", "the sum of what follows"),
        ("max()", "the greatest of what follows"),
        ("min()", "the least of what follows"),
    ]
    .into_iter()
    .fold(formula.to_owned(), |text, (call, words)| {
        text.replace(call, words)
    })
}

/// Text with its first line marked and the rest under it.
fn hanging(margin: &str, mark: &str, text: &str) -> String {
    let bar = if mark.starts_with('├') { "│ " } else { "" };
    let rest = format!(
        "{margin}{bar}{}",
        " ".repeat(mark.chars().count() - bar.chars().count())
    );
    let body = wrapped(&rest, text);
    format!("{margin}{mark}{}", body.get(rest.len()..).unwrap_or(&body))
}

fn view(w: &Why, say: Say) -> WhyView {
    let quantity = serde_json::to_value(w.dim).ok();
    WhyView {
        key: w.key.clone(),
        symbol: w.symbol.clone(),
        what: w.what.clone(),
        value: Some(w.value).filter(|v| v.is_finite()),
        quantity: quantity
            .and_then(|q| q.as_str().map(str::to_owned))
            .unwrap_or_default(),
        shown: value(w, say),
        formula: w.formula.clone(),
        source: format!("{}, {}", w.source.key, w.source.place),
        line: match &w.leaf {
            Leaf::Job { line, .. } => *line,
            _ => None,
        },
        known: w.known.map(reckon::Known::word),
        again: w.again,
        inputs: w.inputs.iter().map(|i| view(i, say)).collect(),
    }
}
