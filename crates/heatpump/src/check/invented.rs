//! # What it checks
//! Whether the data are marked as invented.
//! # Why it matters on site
//! Invented units are for learning the tool; nobody can buy one.
//! # What to do
//! Use a sheet of a unit you can buy in a real job.
//! # Source
//! `common-practice`.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    if sheet.invented {
        out.push(
            Say {
                rule: "sheet-invented",
                level: Level::Note,
                says: format!("{}: invented data, for demonstration", sheet.name),
                found: "invented = true".to_owned(),
                required: "a real sheet in a real job".to_owned(),
                mend: "Use the sheet of the unit you will order".to_owned(),
                would_tell: String::new(),
                source: trade("catalogue of invented units"),
            }
            .at(sheet, sheet.line_of("invented")),
        );
    }
}
