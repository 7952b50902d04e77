//! # What it checks
//! There is a heating point at the heating limit of the unit, within 2 K, and none that is colder.
//! # Why it matters on site
//! Between the last point and the limit the unit runs and nobody knows with what output: the coldest
//! night of the year is there. A limit that lost its minus makes the unit stop in mild frost.
//! # What to do
//! Get the output at the coldest working temperature.
//! # Source
//! `common-practice`: card F7, lowest tested point.

use reckon::{Finding, Level};

use super::{Say, Shown, f, trade};
use crate::sheet::{Sheet, TestPoint};

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let Some(coldest) = sheet.coldest() else {
        return;
    };
    let (found, level, would) = match sheet.limits.heating_cut_out_c {
        None => (
            format!(
                "no heating limit; the last point is {}",
                f(coldest.outdoor_c, shown)
            ),
            Level::Ask,
            "The operating range in the installation sheet.",
        ),
        Some(cut_c) if coldest.outdoor_c > cut_c + 2.0 => (
            format!(
                "the last point is {}, the limit {}",
                f(coldest.outdoor_c, shown),
                f(cut_c, shown)
            ),
            Level::Ask,
            "Capacity and power at the coldest working temperature.",
        ),
        Some(cut_c) if coldest.outdoor_c < cut_c - 2.0 => {
            beyond_the_limit(sheet, coldest, cut_c, shown, out);
            return;
        }
        Some(_) => return,
    };
    out.push(
        Say {
            rule: "sheet-coldest-missing",
            level,
            says: format!(
                "{}: what it gives below {} cannot be told",
                sheet.name,
                f(coldest.outdoor_c, shown)
            ),
            found,
            required: "a heating point at the coldest working temperature".to_owned(),
            mend: "Add the row; it is never guessed".to_owned(),
            would_tell: would.to_owned(),
            source: trade("F7, never past the lowest tested point"),
        }
        .at(sheet, coldest.line),
    );
}

fn beyond_the_limit(
    sheet: &Sheet,
    coldest: &TestPoint,
    cut_c: f64,
    shown: Shown,
    out: &mut Vec<Finding>,
) {
    out.push(
        Say {
            rule: "sheet-point-past-limit",
            level: Level::Fix,
            says: format!(
                "{}: a heating point lies colder than the unit works",
                sheet.name
            ),
            found: format!(
                "point {}, limit {}",
                f(coldest.outdoor_c, shown),
                f(cut_c, shown)
            ),
            required: "no point colder than heating_cut_out".to_owned(),
            mend: "Look at heating_cut_out and at the point again, at their signs too".to_owned(),
            would_tell: String::new(),
            source: trade("F7, never past the lowest tested point"),
        }
        .at(sheet, coldest.line),
    );
}
