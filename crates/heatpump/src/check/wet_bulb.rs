//! # What it checks
//! The outdoor wet bulb of a test point is not over its dry bulb.
//! # Why it matters on site
//! Such a row was read from the wrong column.
//! # What to do
//! Look at the two temperatures again.
//! # Source
//! `common-practice`: no air has it.

use reckon::{Finding, Level};

use super::{Say, Shown, f, points, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    for (duty, points) in points(sheet) {
        for point in points
            .iter()
            .filter(|p| p.wet_bulb_c.is_some_and(|w| w > p.outdoor_c))
        {
            out.push(
                Say {
                    rule: "sheet-wet-bulb",
                    level: Level::Fix,
                    says: format!(
                        "{}: {} at {} has its wet bulb over its dry bulb",
                        sheet.name,
                        duty.word(),
                        f(point.outdoor_c, shown)
                    ),
                    found: point.wet_bulb_c.map(|c| f(c, shown)).unwrap_or_default(),
                    required: format!("at most {}", f(point.outdoor_c, shown)),
                    mend: format!("Look at line {}", point.line),
                    would_tell: String::new(),
                    source: trade("moist air"),
                }
                .at(sheet, point.line),
            );
        }
    }
}
