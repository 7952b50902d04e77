//! # What it checks
//! Maximum heating does not rise by more than 5 % from one point to a colder one, and COP at
//! maximum does not rise by more than 5 %. Points inside the frost band (17 to 42 F) are passed
//! over: defrosting makes a real dip there, but none so deep that a colder point gives a third more.
//! # Why it matters on site
//! A row typed at the wrong temperature makes the unit look strong where it is weak.
//! # What to do
//! Look whether two rows are swapped, or a row belongs to another unit.
//! # Source
//! `common-practice`: card F7.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, f, trade};
use crate::frost::{FROST_COLD_C, FROST_WARM_C};
use crate::sheet::{Running, Sheet, TestPoint};

/// A point in the frost band under which a colder one may give at most so many times as much.
const DEEPEST_DIP: f64 = 1.33;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    too_deep_a_dip(sheet, shown, out);
    let dry: Vec<_> = sheet
        .heating
        .iter()
        .filter(|p| p.outdoor_c <= FROST_COLD_C + 0.1 || p.outdoor_c >= FROST_WARM_C - 0.1)
        .filter_map(|p| Some((p, p.max?)))
        .collect();
    for pair in dry.windows(2) {
        let [(cold, at_cold), (warm, at_warm)] = pair else {
            continue;
        };
        if at_cold.capacity_w > 1.05 * at_warm.capacity_w {
            let rise = Rise {
                more: "more",
                required: "at most 5 % more when colder",
                look: "",
                line: cold.line,
            };
            out.push(rise.finding(sheet, (cold, at_cold), (warm, at_warm), shown));
        }
        if at_cold.cop() > 1.05 * at_warm.cop() {
            out.push(
                Say {
                    rule: "sheet-cop-rises-when-colder",
                    level: Level::Fix,
                    says: format!(
                        "{}: COP at maximum is better at {} than at {}",
                        sheet.name,
                        f(cold.outdoor_c, shown),
                        f(warm.outdoor_c, shown)
                    ),
                    found: format!("{:.2} against {:.2}", at_cold.cop(), at_warm.cop()),
                    required: "at most 5 % better when colder".to_owned(),
                    mend: format!("Look at lines {} and {}", cold.line, warm.line),
                    would_tell: String::new(),
                    source: trade("F7, monotony"),
                }
                .at(sheet, cold.line),
            );
        }
    }
}

/// A point of the frost band far under its colder neighbour: a minus was lost, or a row swapped.
fn too_deep_a_dip(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let all: Vec<_> = sheet
        .heating
        .iter()
        .filter_map(|p| Some((p, p.max?)))
        .collect();
    for pair in all.windows(2) {
        let [(cold, at_cold), (warm, at_warm)] = pair else {
            continue;
        };
        let frost = warm.outdoor_c > FROST_COLD_C + 0.1 && warm.outdoor_c < FROST_WARM_C - 0.1;
        if frost && at_cold.capacity_w > DEEPEST_DIP * at_warm.capacity_w {
            let rise = Rise {
                more: "far more",
                required: "at most a third more when colder, for frost",
                look: ", at their signs too",
                line: warm.line,
            };
            out.push(rise.finding(sheet, (cold, at_cold), (warm, at_warm), shown));
        }
    }
}

/// How a rise of the maximum is told.
struct Rise {
    more: &'static str,
    required: &'static str,
    look: &'static str,
    line: usize,
}

impl Rise {
    fn finding(
        self,
        sheet: &Sheet,
        (cold, at_cold): (&TestPoint, &Running),
        (warm, at_warm): (&TestPoint, &Running),
        shown: Shown,
    ) -> Finding {
        Say {
            rule: "sheet-rises-when-colder",
            level: Level::Fix,
            says: format!(
                "{}: maximum heating is {} at {} than at {}",
                sheet.name,
                self.more,
                f(cold.outdoor_c, shown),
                f(warm.outdoor_c, shown)
            ),
            found: format!(
                "{} against {}",
                btu(at_cold.capacity_w, shown),
                btu(at_warm.capacity_w, shown)
            ),
            required: self.required.to_owned(),
            mend: format!("Look at lines {} and {}{}", cold.line, warm.line, self.look),
            would_tell: String::new(),
            source: trade("F7, capacity rising as it gets colder"),
        }
        .at(sheet, self.line)
    }
}
