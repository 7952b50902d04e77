//! # What it checks
//! An outdoor unit for several heads has a combination table, its rows rise, and the minimum with one
//! head calling is given.
//! # Why it matters on site
//! The heads share what the outdoor unit gives, and its least: both depend on what is connected.
//! # What to do
//! Get the combination table of the engineering sheet.
//! # Source
//! `common-practice`: card D3, multi-zone against singles.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let Some(multi) = &sheet.multi else { return };
    let line = sheet.line_of("multi");
    if multi.combinations.is_empty() {
        out.push(
            Say {
                rule: "sheet-combination-missing",
                level: Level::Ask,
                says: format!(
                    "{}: no combination table; full output is taken for any heads",
                    sheet.name
                ),
                found: "nothing".to_owned(),
                required: "output for each sum of heads".to_owned(),
                mend: "Add [[multi.combination]] rows".to_owned(),
                would_tell: "The combination table of this outdoor unit.".to_owned(),
                source: trade("D3, combination data"),
            }
            .at(sheet, line),
        );
    }
    if multi.heating_min_one_w.is_none() {
        out.push(
            Say {
                rule: "sheet-one-head-minimum-missing",
                level: Level::Ask,
                says: format!(
                    "{}: nothing says how low it goes with one head calling",
                    sheet.name
                ),
                found: "no heating_min_one".to_owned(),
                required: "minimum output with one head calling".to_owned(),
                mend: "Write multi.heating_min_one".to_owned(),
                would_tell: "The minimum of the combination table for one head.".to_owned(),
                source: trade("D3, smallest single call"),
            }
            .at(sheet, line),
        );
    }
    for pair in multi.combinations.windows(2) {
        let [small, large] = pair else { continue };
        if small.heating_max_w > 1.001 * large.heating_max_w {
            out.push(
                Say {
                    rule: "sheet-combination-order",
                    level: Level::Fix,
                    says: format!(
                        "{}: more heads give less in the combination table",
                        sheet.name
                    ),
                    found: format!(
                        "{} for {}, {} for {}",
                        btu(small.heating_max_w, shown),
                        btu(small.total_w, shown),
                        btu(large.heating_max_w, shown),
                        btu(large.total_w, shown)
                    ),
                    required: "output not falling with the sum of heads".to_owned(),
                    mend: format!("Look at lines {} and {}", small.line, large.line),
                    would_tell: String::new(),
                    source: trade("D3, combination data"),
                }
                .at(sheet, large.line),
            );
        }
    }
}
