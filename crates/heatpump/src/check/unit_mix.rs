//! # What it checks
//! Capacities of one sheet are typed in one unit.
//! # Why it matters on site
//! Mixed columns are where slips hide.
//! # What to do
//! Type what the sheet prints in one of its columns throughout.
//! # Source
//! `common-practice`: finding 9, mixed units in sheets.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    let mut units: Vec<(&str, usize, &str)> = Vec::new();
    for (path, text) in &sheet.typed {
        let capacity = [".min", ".rated", ".max"]
            .iter()
            .any(|end| path.ends_with(end));
        let Some(unit) = text.trim().rsplit(' ').next().filter(|_| capacity) else {
            continue;
        };
        match units.iter_mut().find(|(u, ..)| *u == unit) {
            Some((_, count, _)) => *count += 1,
            None => units.push((unit, 1, path)),
        }
    }
    // The most used first, so that the odd one out is the one that is pointed at.
    units.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
    if let [(first, ..), (second, _, path), ..] = units.as_slice() {
        out.push(
            Say {
                rule: "sheet-units-mixed",
                level: Level::Note,
                says: format!(
                    "{}: capacities are typed in {first} and in {second}",
                    sheet.name
                ),
                found: format!("{second} at {path}"),
                required: "one unit throughout".to_owned(),
                mend: "Look at that row again".to_owned(),
                would_tell: String::new(),
                source: trade("finding 9, mixed units"),
            }
            .at(sheet, sheet.line_of(path)),
        );
    }
}
