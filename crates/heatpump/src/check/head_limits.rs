//! # What it checks
//! A head has its most and its least output, in order.
//! # Why it matters on site
//! A head open at its least overheats a small bedroom; shut, it still bleeds some heat.
//! # What to do
//! Get both from the sheet of the head.
//! # Source
//! `common-practice`: card D3, head minimum.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let Some(head) = &sheet.head else { return };
    let line = sheet.line_of("head");
    match (head.heating_min_w, head.heating_max_w) {
        (Some(min), Some(max)) if min > max => out.push(
            Say {
                rule: "sheet-head-order",
                level: Level::Fix,
                says: format!("{}: the head's least output is over its most", sheet.name),
                found: format!("{} and {}", btu(min, shown), btu(max, shown)),
                required: "least <= most".to_owned(),
                mend: "Look at the head table again".to_owned(),
                would_tell: String::new(),
                source: trade("D3, head limits"),
            }
            .at(sheet, line),
        ),
        (Some(_), Some(_)) => {}
        _ => out.push(
            Say {
                rule: "sheet-head-limits-missing",
                level: Level::Ask,
                says: format!(
                    "{}: the head's least or most heating is missing",
                    sheet.name
                ),
                found: "nothing".to_owned(),
                required: "heating_min and heating_max".to_owned(),
                mend: "Write both under [head]".to_owned(),
                would_tell: "The capacity table of the head.".to_owned(),
                source: trade("D3, head limits"),
            }
            .at(sheet, line),
        ),
    }
}
