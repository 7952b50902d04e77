//! What the record of the start-up day says, for the inspector: each test with its figures, the joints,
//! the charge, the first run. Nothing is judged anew here.

use reckon::Verdict;
use serde_json::Value;
use startup::record::Record;
use startup::stamp::span;
use units::Dim;

use crate::block::{Block, Fact};
use crate::desk::Input;
use crate::parts::{self, fact};
use crate::words::Words;

/// Kinds of record that belong to the work.
pub(crate) const WORK: [&str; 5] = [
    "joint",
    "pressure-verdict",
    "vacuum-verdict",
    "charge",
    "baseline",
];

/// What a record is of, in words: `pressure test`, `first run, living`.
pub(crate) fn named(words: &Words, r: &Record) -> String {
    let what = words.say(&format!("record.{}", r.kind));
    let [unit, name] = test_of(r).unwrap_or(["", ""]);
    // a test that nobody named is the first
    let name = if name == "1" { "" } else { name };
    let all = [what.as_str(), unit, name].into_iter();
    all.filter(|t| !t.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Which test of its kind a record is of: the outdoor unit, and the name of the test, the place of
/// the joint or the head that ran. A joint or a run that does not say which is of none.
pub(crate) fn test_of(r: &Record) -> Option<[&str; 2]> {
    let name = match r.kind.as_str() {
        "joint" => r.says.get("place")?.as_str()?,
        "run" | "baseline" => r.says.get("head")?.as_str()?,
        _ => text(&r.says, "/test"),
    };
    Some([unit_of(r), name])
}

/// The outdoor unit a record is of; nothing where it does not say. The command writes `on`, the
/// interface of the server `outdoor`.
pub(crate) fn unit_of(r: &Record) -> &str {
    let names = ["/on", "/outdoor"].map(|at| text(&r.says, at));
    names.into_iter().find(|t| !t.is_empty()).unwrap_or("")
}

/// Readings of a test that no verdict in the record covers.
pub(crate) struct Unjudged<'a> {
    pub test: &'a str,
    pub many: usize,
    /// Numbers of the first and the last of these records.
    pub first: u64,
    pub last: u64,
}

/// Tests of a kind of verdict whose readings none was kept on, or not since the last of them. The
/// interface keeps readings and makes the verdict anew each time it is asked, so the record has
/// none.
pub(crate) fn unjudged<'a>(input: &Input<'a>, kind: &str) -> Vec<Unjudged<'a>> {
    let Some(of) = kind.strip_suffix("-verdict") else {
        return Vec::new();
    };
    let verdicts = input.standing(kind);
    let mut out: Vec<Unjudged<'a>> = Vec::new();
    for r in input.standing(&format!("{of}-reading")) {
        let (unit, test) = (unit_of(r), text(&r.says, "/test"));
        let covers = |v: &&Record| {
            v.n > r.n && text(&v.says, "/test") == test && (unit.is_empty() || unit_of(v) == unit)
        };
        if verdicts.iter().any(covers) {
            continue;
        }
        if let Some(u) = out.iter_mut().find(|u| u.test == test) {
            (u.many, u.first, u.last) = (u.many + 1, u.first.min(r.n), u.last.max(r.n));
        } else {
            out.push(Unjudged {
                test,
                many: 1,
                first: r.n,
                last: r.n,
            });
        }
    }
    out
}

/// The last word on each test of a kind, in the order of the first. A test made again takes the
/// place of the one before; a correction takes the place of what it corrects, however late.
pub(crate) fn last<'a>(input: &Input<'a>, kind: &str) -> Vec<&'a Record> {
    let mut out: Vec<&Record> = Vec::new();
    for r in input.standing(kind) {
        let same = |o: &&mut &Record| test_of(r).is_some() && test_of(o) == test_of(r);
        match out.iter_mut().find(same) {
            Some(before) => *before = r,
            None => out.push(r),
        }
    }
    out
}

/// The verdict of a record. What says nothing of itself cannot be told.
pub(crate) fn verdict(r: &Record) -> Verdict {
    match r.kind.as_str() {
        "joint" => said(&r.says, "/verdict"),
        "charge" => charged(&r.says),
        _ => said(&r.says, "/answer/verdict"),
    }
}

/// A charge holds when it was weighed right, the ledger does not say otherwise, and the valves
/// were opened after the tests held.
fn charged(says: &Value) -> Verdict {
    let opened = !text(says, "/opened").is_empty();
    let mut all = vec![said(says, "/weighed/verdict")];
    if says.get("ledger").is_some_and(|l| !l.is_null()) {
        all.push(said(says, "/ledger/verdict"));
    }
    let before = says.get("before").and_then(Value::as_array);
    let early = (before.into_iter().flatten()).any(|b| said(b, "/verdict") != Verdict::Holds);
    all.push(match (opened, early) {
        (true, true) => Verdict::Fails,
        (true, false) => Verdict::Holds,
        (false, _) => Verdict::CannotTell,
    });
    let has = |v| all.contains(&v);
    match (has(Verdict::Fails), has(Verdict::CannotTell)) {
        (true, _) => Verdict::Fails,
        (false, true) => Verdict::CannotTell,
        (false, false) => Verdict::Holds,
    }
}

/// A verdict as a record writes it, with a stroke or without.
fn said(says: &Value, at: &str) -> Verdict {
    match text(says, at) {
        "holds" => Verdict::Holds,
        "fails" => Verdict::Fails,
        _ => Verdict::CannotTell,
    }
}

/// The record, test by test; one line where none was given.
pub(crate) fn blocks(input: &Input<'_>) -> Vec<Block> {
    let words = input.words();
    let mut out = vec![parts::heading(words.say("inspector.records"))];
    for r in last(input, "pressure-verdict") {
        out.push(of(input, "inspector.pressure", r));
        out.push(facts(pressure(input, &r.says)));
    }
    for r in last(input, "vacuum-verdict") {
        out.push(of(input, "inspector.vacuum-test", r));
        out.push(facts(vacuum(input, &r.says)));
    }
    for r in last(input, "charge") {
        out.push(of(input, "inspector.charge", r));
        out.push(facts(charge(input, &r.says)));
    }
    joints(input, &mut out);
    for (kind, key) in [("baseline", "inspector.baseline"), ("run", "inspector.run")] {
        for r in last(input, kind) {
            let head = r.says.get("head").and_then(Value::as_str);
            let named = head.map_or(words.say(key), |h| format!("{}, {h}", words.say(key)));
            out.push(Block::Place {
                text: made(input, &named, r),
            });
            out.push(run(input, &r.says));
        }
    }
    if out.len() == 1 {
        out.push(Block::Para {
            text: words.say("inspector.no-records"),
        });
    }
    out
}

fn facts(rows: Vec<Fact>) -> Block {
    Block::Facts { rows }
}

fn of(input: &Input<'_>, key: &str, r: &Record) -> Block {
    Block::Place {
        text: made(input, &input.words().say(key), r),
    }
}

/// Which record, when, who.
fn made(input: &Input<'_>, what: &str, r: &Record) -> String {
    let at = r.at.get(..16).unwrap_or(&r.at).replace('T', " ");
    let n = r.n.to_string();
    let values = [
        ("what", what),
        ("n", n.as_str()),
        ("at", &at),
        ("who", &r.who),
    ];
    input.words().fill("inspector.made", &values)
}

fn text<'v>(v: &'v Value, at: &str) -> &'v str {
    v.pointer(at).and_then(Value::as_str).unwrap_or("")
}

fn number(v: &Value, at: &str) -> Option<f64> {
    v.pointer(at).and_then(Value::as_f64)
}

fn word(input: &Input<'_>, v: Verdict) -> String {
    input.words().say(parts::verdict_key(v))
}

fn sentence(input: &Input<'_>, says: &Value, at: &str) -> String {
    let word = match says.pointer(at) {
        None | Some(Value::Null) => return String::new(),
        Some(_) => word(input, said(says, &format!("{at}/verdict"))),
    };
    [word.as_str(), text(says, &format!("{at}/says"))]
        .into_iter()
        .filter(|t| !t.is_empty())
        .collect::<Vec<_>>()
        .join(". ")
}

fn notes(says: &Value, at: &str) -> String {
    let all = says.pointer(at).and_then(Value::as_array);
    let all: Vec<&str> = all
        .into_iter()
        .flatten()
        .filter_map(Value::as_str)
        .collect();
    all.join("; ")
}

/// Rows that say something.
fn kept(input: &Input<'_>, rows: Vec<(&str, Option<String>)>) -> Vec<Fact> {
    rows.into_iter()
        .filter_map(|(key, says)| Some((key, says.filter(|s| !s.is_empty())?)))
        .map(|(key, says)| fact(input.words().say(key), says))
        .collect()
}

fn pressure(input: &Input<'_>, says: &Value) -> Vec<Fact> {
    let show = |at: &str, dim| number(says, at).map(|x| input.show(x, dim));
    let end = |at: &str| {
        let pa = show(&format!("/answer/{at}/0"), Dim::Pressure)?;
        let c = show(&format!("/answer/{at}/1"), Dim::Temperature)?;
        Some(input.words().fill("inspector.at", &[("a", &pa), ("b", &c)]))
    };
    let held = number(says, "/answer/length_s").map(|s| {
        let many = number(says, "/answer/readings").map_or(String::new(), |n| format!("{n:.0}"));
        let values = [("time", span(s)), ("many", many)];
        let values: Vec<(&str, &str)> = values.iter().map(|(k, v)| (*k, v.as_str())).collect();
        input.words().fill("inspector.held-says", &values)
    });
    let leak = number(says, "/answer/visible_g_per_year").map(|g| {
        let worth = number(says, "/answer/worth_g_per_year").unwrap_or(f64::NAN);
        let values = [("g", format!("{g:.0}")), ("worth", format!("{worth:.0}"))];
        let values: Vec<(&str, &str)> = values.iter().map(|(k, v)| (*k, v.as_str())).collect();
        input.words().fill("inspector.visible-says", &values)
    });
    kept(
        input,
        vec![
            ("inspector.result", Some(sentence(input, says, "/answer"))),
            ("inspector.held", held),
            ("inspector.began", end("begin")),
            ("inspector.ended", end("end")),
            (
                "inspector.tight",
                show("/answer/end_without_leak_pa/0", Dim::Pressure),
            ),
            ("inspector.visible", leak),
            ("inspector.notes", Some(notes(says, "/answer/notes"))),
        ],
    )
}

fn vacuum(input: &Input<'_>, says: &Value) -> Vec<Fact> {
    kept(
        input,
        vec![
            ("inspector.result", Some(sentence(input, says, "/answer"))),
            (
                "inspector.shape",
                Some(text(says, "/answer/shape").to_owned()),
            ),
            (
                "inspector.ice",
                Some(text(says, "/answer/ice/says").to_owned()),
            ),
            ("inspector.notes", Some(notes(says, "/answer/notes"))),
        ],
    )
}

fn charge(input: &Input<'_>, says: &Value) -> Vec<Fact> {
    let mass = |at: &str| number(says, at).map(|kg| input.show(kg, Dim::Mass));
    let opened = text(says, "/opened").to_owned();
    kept(
        input,
        vec![
            ("inspector.result", Some(sentence(input, says, "/weighed"))),
            ("inspector.added", mass("/weighed/added_kg/0")),
            ("inspector.total", mass("/weighed/total_kg")),
            ("inspector.ledger", Some(sentence(input, says, "/ledger"))),
            ("inspector.opened", Some(opened)),
        ],
    )
}

/// The joints of the standing records: place, torque or nitrogen, what was wanted, who.
fn joints(input: &Input<'_>, out: &mut Vec<Block>) {
    let words = input.words();
    let nm = |v: Option<f64>| v.map(|n| format!("{n:.0} N m"));
    let mut rows = Vec::new();
    for r in last(input, "joint") {
        let wanted = nm(number(&r.says, "/sheet_nm/0")).zip(nm(number(&r.says, "/sheet_nm/1")));
        rows.push(vec![
            text(&r.says, "/place").to_owned(),
            nm(number(&r.says, "/torque_nm")).unwrap_or_else(|| words.say("inspector.brazed")),
            wanted.map_or(String::new(), |(a, b)| format!("{a} – {b}")),
            text(&r.says, "/initials").to_owned(),
            word(input, verdict(r)),
        ]);
    }
    if rows.is_empty() {
        return;
    }
    let head = ["place", "torque", "torque-sheet", "initials", "result"];
    let head = head.iter().map(|k| words.say(&format!("inspector.{k}")));
    out.push(Block::Place {
        text: words.say("inspector.joints"),
    });
    out.push(parts::table("l1 r r l l", head.collect(), rows));
}

fn run(input: &Input<'_>, says: &Value) -> Block {
    let words = input.words();
    let show = |x: f64, unit: &str| match unit {
        "K" => input.show(x, Dim::TemperatureDifference),
        "W" => units::load_number(x, input.system) + " " + units::load_unit(input.system),
        "V" => format!("{x:.0} V"),
        "A" => format!("{x:.1} A"),
        "kg/h" => input.show(x / 3600.0, Dim::WaterFlow),
        other => format!("{x:.1} {other}"),
    };
    let all = says.pointer("/answer/checks").and_then(Value::as_array);
    let mut rows = Vec::new();
    for c in all.into_iter().flatten() {
        let what = text(c, "/what");
        let unit = if what == "power" {
            "electric"
        } else {
            text(c, "/unit")
        };
        let show = |x: f64| {
            if unit == "electric" {
                format!("{x:.0} W")
            } else {
                show(x, unit)
            }
        };
        let expected = match (number(c, "/expected/0"), number(c, "/expected/1")) {
            (Some(a), Some(b)) if b >= 1e4 && unit == "kg/h" => {
                words.fill("inspector.at-least", &[("a", &show(a))])
            }
            (Some(0.0), Some(b)) => words.fill("inspector.at-most", &[("b", &show(b))]),
            (Some(a), Some(b)) => {
                words.fill("inspector.from-to", &[("a", &show(a)), ("b", &show(b))])
            }
            _ => String::new(),
        };
        rows.push(vec![
            what.to_owned(),
            number(c, "/got/0").map_or(String::new(), show),
            expected,
            text(c, "/says").to_owned(),
        ]);
    }
    let head = ["what", "found", "expected", "result"];
    let head = head.iter().map(|k| words.say(&format!("inspector.{k}")));
    parts::table("l1 r l l1", head.collect(), rows)
}
