//! # What it checks
//! A COP that would be usual after multiplying or dividing by 3.412, or that is 2.9 to 4 times
//! under another level of the same row: Btu/h and W mixed up.
//! # Why it matters on site
//! It is the commonest slip in typing a sheet, and it is a factor of three and a half.
//! # What to do
//! Write the unit that stands over the column of the sheet.
//! # Source
//! `common-practice`: card F7; 1 W is 3.412 Btu/h.

use reckon::{Finding, Level};

use super::{Say, Shown, f, levels, points, trade};
use crate::capability::Duty;
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    const BTU_PER_WH: f64 = 3.412;
    for (duty, points) in points(sheet) {
        let most = if duty == Duty::Heating { 7.0 } else { 12.0 };
        for point in points {
            for (word, run) in levels(point) {
                let cop = run.cop();
                let (other, slip) = if cop > most {
                    (cop / BTU_PER_WH, "Btu/h typed as W")
                } else if cop < 1.0 {
                    (cop * BTU_PER_WH, "W typed as Btu/h")
                } else {
                    // Believable alone, but not beside another level of the same row.
                    let beside = levels(point).find(|(_, run)| {
                        run.cop() <= most && (2.9..4.0).contains(&(run.cop() / cop))
                    });
                    if let Some((name, run)) = beside {
                        out.push(said(
                            sheet,
                            point.line,
                            &format!(
                                "{word} {} at {} looks like W typed as Btu/h",
                                duty.word(),
                                f(point.outdoor_c, shown)
                            ),
                            format!("COP {cop:.2}; {name} COP {:.2}", run.cop()),
                        ));
                    }
                    continue;
                };
                if (1.0..=most).contains(&other) {
                    out.push(said(
                        sheet,
                        point.line,
                        &format!(
                            "{word} {} at {} looks like {slip}",
                            duty.word(),
                            f(point.outdoor_c, shown)
                        ),
                        format!("COP {cop:.2}; with the other unit {other:.2}"),
                    ));
                }
            }
        }
    }
}

fn said(sheet: &Sheet, line: usize, what: &str, found: String) -> Finding {
    Say {
        rule: "sheet-btu-or-watt",
        level: Level::Fix,
        says: [sheet.name.as_str(), ": ", what].concat(),
        found,
        required: "the unit over the column of the sheet".to_owned(),
        mend: format!("Look at the units of line {line}"),
        would_tell: String::new(),
        source: trade("F7, Btu/h and W"),
    }
    .at(sheet, line)
}
