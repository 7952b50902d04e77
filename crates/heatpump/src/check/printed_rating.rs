//! # What it checks
//! A printed seasonal rating lies within 25 % of what the sheet's own points give.
//! # Why it matters on site
//! Either the rating belongs to another pairing, or the points do; what is worked out for the house
//! rests on the points.
//! # What to do
//! Compare model and edition of the two pages.
//! # Source
//! `common-practice`: no source for the 25 %; fewer points than the procedure asks for alone move a
//! rating by a tenth or more.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::rating::sheet_ratings;
use crate::sheet::Sheet;
use crate::system::System;

/// Share of the worked-out value past which a printed one is remarked on.
const APART: f64 = 0.25;

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    let printed = &sheet.printed;
    // Most sheets typed in carry no rating: nothing is worked out for them.
    if [printed.hspf2, printed.seer2, printed.scop] == [None; 3] {
        return;
    }
    // A sheet whose points cannot be used has findings of its own.
    let Some(own) = System::alone(sheet)
        .ok()
        .and_then(|s| sheet_ratings(&s).ok())
    else {
        return;
    };
    for (name, key, printed, points) in [
        ("HSPF2", "printed.hspf2", printed.hspf2, own.hspf2),
        ("SEER2", "printed.seer2", printed.seer2, own.seer2),
        ("SCOP", "printed.scop", printed.scop, own.scop),
    ] {
        let (Some(printed), Some(points)) = (printed, points) else {
            continue;
        };
        if (printed / points - 1.0).abs() <= APART {
            continue;
        }
        out.push(
            Say {
                rule: "sheet-printed-rating",
                level: Level::Note,
                says: format!(
                    "{}: the printed {name} is not what its own points give",
                    sheet.name
                ),
                found: format!("{printed:.2} printed, {points:.2} from the points"),
                required: format!("within {:.0} %", APART * 100.0),
                mend: "See whether rating and points belong to the same pairing".to_owned(),
                would_tell: String::new(),
                source: trade("a rating against its own points"),
            }
            .at(sheet, sheet.line_of(key)),
        );
    }
}
