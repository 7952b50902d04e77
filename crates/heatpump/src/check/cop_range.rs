//! # What it checks
//! No COP over 7 or under 1 in heating, none over 12 or under 1 in cooling.
//! # Why it matters on site
//! No such unit exists at a stated outdoor temperature; a slip here is money every hour.
//! # What to do
//! Look at capacity and power of the row; a COP under 1 is believed only with an electric heater on.
//! # Source
//! `common-practice`: card F7; the cooling limit is wider because the lift is small.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, f, levels, points, trade};
use crate::capability::Duty;
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    for (duty, points) in points(sheet) {
        let most = if duty == Duty::Heating { 7.0 } else { 12.0 };
        for point in points {
            for (word, run) in levels(point) {
                let cop = run.cop();
                if (1.0..=most).contains(&cop) {
                    continue;
                }
                out.push(
                    Say {
                        rule: "sheet-cop-impossible",
                        level: Level::Fix,
                        says: format!(
                            "{}: COP {cop:.2} at {word} {} at {}",
                            sheet.name,
                            duty.word(),
                            f(point.outdoor_c, shown)
                        ),
                        found: format!(
                            "{} for {:.0} W",
                            btu(run.capacity_w, shown),
                            run.electric_w
                        ),
                        required: format!("a COP from 1 to {most:.0}"),
                        mend: format!("Look at line {} again, units too", point.line),
                        would_tell: String::new(),
                        source: trade("F7, impossible COP"),
                    }
                    .at(sheet, point.line),
                );
            }
        }
    }
}
