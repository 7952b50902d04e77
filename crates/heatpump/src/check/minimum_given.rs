//! # What it checks
//! Minimum output with its power is given, at one temperature at least.
//! # Why it matters on site
//! The minimum is the commonest hidden design error: without it nobody knows when the unit cycles.
//! # What to do
//! Get it from the extended table.
//! # Source
//! `common-practice`: trade finding 1.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::sheet::{Kind, Sheet};

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    if matches!(sheet.kind, Kind::Head(_)) || sheet.heating.is_empty() {
        return;
    }
    let given = sheet.heating.iter().filter(|p| p.min.is_some()).count();
    if given == sheet.heating.len() {
        return;
    }
    let (level, says) = if given == 0 {
        (
            Level::Ask,
            "no minimum heating output; cycling cannot be told",
        )
    } else {
        (
            Level::Note,
            "minimum heating output is missing at some temperatures; its ratio to the maximum is held",
        )
    };
    out.push(
        Say {
            rule: "sheet-minimum-missing",
            level,
            says: format!("{}: {says}", sheet.name),
            found: format!("{given} of {} points", sheet.heating.len()),
            required: "minimum output and its power".to_owned(),
            mend: "Add min and min_power".to_owned(),
            would_tell: if given == 0 {
                "The minimum column of the extended performance table.".to_owned()
            } else {
                String::new()
            },
            source: trade("finding 1, minimum output"),
        }
        .at(sheet, sheet.heating.first().map_or(1, |p| p.line)),
    );
}
