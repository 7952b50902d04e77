//! `[[as_built]]`: what was built, over what was planned. Both stay in the file.

use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Family, Kind, Table, may, must};
use crate::tree::{Lines, Node, Raw, shorten};
use crate::{AsBuilt, AsBuiltValue, Problem, path};

pub(super) static TABLE: Table = Table {
    name: "as_built",
    about: "One thing as it was built: a value of the job by its path (`set`, `to`), or a line \
            length, a charge or a serial number",
    label: &[],
    assumed: false,
    fields: &[
        must("who", Kind::Text, "Who put it down"),
        must("when", Kind::Day, "Day"),
        may(
            "set",
            Kind::Text,
            "Path of a value of this job: window.living south.width",
        ),
        may(
            "to",
            Kind::Any,
            "What it is as built, written as at that path",
        ),
        may(
            "head",
            Kind::Ref(Family::Head),
            "Head that a length or a serial number is of",
        ),
        may(
            "outdoor",
            Kind::Ref(Family::Outdoor),
            "Outdoor unit a charge or a serial number is of",
        ),
        may(
            "line_length",
            Kind::Q(Dim::Length, 0.1, 200.0),
            "Length of the lines to the head",
        ),
        may(
            "charge",
            Kind::Q(Dim::Mass, -20.0, 20.0),
            "Refrigerant added beyond the factory charge; below zero if taken out",
        ),
        may("serial", Kind::Text, "Serial number"),
        may("note", Kind::Text, "Remark"),
    ],
};

/// Lays the as-built values over the tree, before it is looked at. Gives the paths set and what
/// was planned there, as written.
pub(crate) fn overlay(
    root: &mut Node,
    lines: &Lines<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<(String, Option<String>)> {
    let Some(Raw::List(rows)) = root.get("as_built").map(|n| n.raw.clone()) else {
        return Vec::new();
    };
    let mut planned = Vec::new();
    for (i, row) in rows.iter().enumerate() {
        let (Some(set), Some(to)) = (row.get("set"), row.get("to")) else {
            continue;
        };
        let Some(target) = set.text().map(str::trim) else {
            continue;
        };
        let done = if target.split('.').next() == Some("as_built") {
            Err(Says::new("as-built values cannot be as built in turn")
                .got(format!("\"{target}\""))
                .allowed("a path of the plan")
                .mend("change the earlier entry"))
        } else {
            path::set(root, target, to)
        };
        match done {
            Ok(old) => {
                let was = old.map(|n| n.text().map_or_else(|| lines.written(&n.span), shorten));
                planned.push((target.to_owned(), was));
            }
            Err(says) => {
                problems.push(says.at(&format!("as_built.{}.set", i + 1), lines.span(&set.span)));
            }
        }
    }
    planned
}

pub(super) fn read(row: &Row, desk: &mut Desk) -> Option<AsBuilt> {
    let mut entry = AsBuilt {
        path: String::new(),
        value: AsBuiltValue::Serial(String::new()),
        planned: None,
        who: row.words("who"),
        when: row.words("when"),
        note: row.words("note"),
    };
    let head = row.text("head").map(|h| format!("head.{h}"));
    let outdoor = row.text("outdoor").map(|o| format!("outdoor.{o}"));
    let kinds: Vec<&str> = ["set", "line_length", "charge", "serial"]
        .into_iter()
        .filter(|k| row.has(k))
        .collect();
    match (kinds.as_slice(), head, outdoor) {
        (["set"], None, None) if row.has("to") => {
            entry.path = row.words("set");
            let written = row
                .cell("to")
                .map(|c| c.written.clone())
                .unwrap_or_default();
            entry.value = AsBuiltValue::Replaces(written);
        }
        (["line_length"], Some(head), None) => {
            entry.path = format!("{head}.line_length");
            entry.value = AsBuiltValue::LineLength(row.si_or_0("line_length"));
        }
        (["charge"], None, Some(outdoor)) => {
            entry.path = format!("{outdoor}.charge");
            entry.value = AsBuiltValue::Charge(row.si_or_0("charge"));
        }
        (["serial"], Some(unit), None) | (["serial"], None, Some(unit)) => {
            entry.path = format!("{unit}.serial");
            entry.value = AsBuiltValue::Serial(row.words("serial"));
        }
        _ => {
            let got: Vec<&str> = row.cells.iter().map(|(k, _)| *k).collect();
            let says = Says::new("this does not say what was built")
                .got(got.join(", "))
                .allowed(
                    "`set` with `to`; `head` with `line_length`; `outdoor` with `charge`; \
                     `head` or `outdoor` with `serial`",
                )
                .mend("one thing in each [[as_built]]");
            desk.problems.push(says.at(&row.path, row.span));
            return None;
        }
    }
    Some(entry)
}
