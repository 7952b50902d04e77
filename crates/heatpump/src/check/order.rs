//! # What it checks
//! Minimum, rated and maximum output rise in that order at every outdoor temperature.
//! # Why it matters on site
//! A swapped column turns the least into the most: the unit seems to turn down to nothing, or to
//! carry the coldest night.
//! # What to do
//! Look at the row of the sheet again.
//! # Source
//! `common-practice`: card F7.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, f, levels, points, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    for (duty, points) in points(sheet) {
        for point in points {
            let mut last: Option<(&str, f64)> = None;
            for (word, run) in levels(point) {
                if let Some((before, w)) = last
                    && w > run.capacity_w
                {
                    out.push(
                        Say {
                            rule: "sheet-order",
                            level: Level::Fix,
                            says: format!(
                                "{}: {} at {} has {before} over {word}",
                                sheet.name,
                                duty.word(),
                                f(point.outdoor_c, shown)
                            ),
                            found: format!(
                                "{before} {}, {word} {}",
                                btu(w, shown),
                                btu(run.capacity_w, shown)
                            ),
                            required: "minimum <= rated <= maximum".to_owned(),
                            mend: format!(
                                "Look at line {} against page {} of the sheet",
                                point.line,
                                point.page.as_deref().unwrap_or("?")
                            ),
                            would_tell: String::new(),
                            source: trade("F7, order of capacities"),
                        }
                        .at(sheet, point.line),
                    );
                }
                last = Some((word, run.capacity_w));
            }
        }
    }
}
