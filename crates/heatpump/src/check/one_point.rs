//! # What it checks
//! An outdoor unit has at least two heating points with an output it vouches for.
//! # Why it matters on site
//! Rated capacity at 47 F alone hides both ends: how little it can give, and how it stands at night.
//! # What to do
//! Get the extended performance table.
//! # Source
//! `common-practice`: card F7, one point only.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::sheet::{Kind, Sheet};

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    if matches!(sheet.kind, Kind::Head(_)) {
        return;
    }
    let usable = sheet
        .heating
        .iter()
        .filter(|p| p.max.or(p.rated).is_some())
        .count();
    if usable < 2 {
        out.push(
            Say {
                rule: "sheet-one-point",
                level: Level::Ask,
                says: format!(
                    "{}: {usable} heating point(s); capacity cannot be told",
                    sheet.name
                ),
                found: format!("{usable} usable point(s)"),
                required: "two or more, the coldest among them".to_owned(),
                mend: "Add the rows of the extended performance table".to_owned(),
                would_tell: "The extended heating performance table of this unit.".to_owned(),
                source: trade("F7, one-point data"),
            }
            .at(sheet, sheet.heating.first().map_or(1, |p| p.line)),
        );
    }
}
