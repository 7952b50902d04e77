//! # What it checks
//! More output takes more electricity at every outdoor temperature.
//! # Why it matters on site
//! If not, part load is paid with the wrong COP all winter.
//! # What to do
//! Look at the power columns of the row again.
//! # Source
//! `common-practice`: card F7.

use reckon::{Finding, Level};

use super::{Say, Shown, f, levels, points, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    for (duty, points) in points(sheet) {
        for point in points {
            let mut last: Option<(&str, f64, f64)> = None;
            for (word, run) in levels(point) {
                if let Some((before, capacity_w, electric_w)) = last
                    && capacity_w < run.capacity_w
                    && electric_w > run.electric_w
                {
                    out.push(
                        Say {
                            rule: "sheet-power-order",
                            level: Level::Fix,
                            says: format!(
                                "{}: {} at {} gives more at {word} than at {before} and takes less",
                                sheet.name,
                                duty.word(),
                                f(point.outdoor_c, shown)
                            ),
                            found: format!(
                                "{before} {electric_w:.0} W, {word} {:.0} W",
                                run.electric_w
                            ),
                            required: "electric power rising with output".to_owned(),
                            mend: format!("Look at the power columns of line {}", point.line),
                            would_tell: String::new(),
                            source: trade("F7, order of powers"),
                        }
                        .at(sheet, point.line),
                    );
                }
                last = Some((word, run.capacity_w, run.electric_w));
            }
        }
    }
}
