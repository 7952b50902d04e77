//! # What it checks
//! The same COP at outdoor temperatures 15 K apart or more, or a COP equal to a printed seasonal
//! rating.
//! # Why it matters on site
//! A seasonal rating is a mean over a winter somewhere else: used as a COP it hides the cold.
//! # What to do
//! Write the power (or COP) of the test point; write the rating under [printed].
//! # Source
//! `common-practice`: card F7, HSPF used as COP.

use reckon::{Finding, Level};

use super::{Say, Shown, f, levels, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let ratings = [
        ("HSPF2", sheet.printed.hspf2),
        ("HSPF2 in W per W", sheet.printed.hspf2.map(|x| x / 3.412)),
        ("SCOP", sheet.printed.scop),
    ];
    for point in &sheet.heating {
        for (word, run) in levels(point) {
            for (name, rating) in ratings {
                if rating.is_some_and(|r| (run.cop() / r - 1.0).abs() < 0.0005) {
                    out.push(said(
                        sheet,
                        point.line,
                        &format!(
                            "{word} COP at {} is the printed {name}",
                            f(point.outdoor_c, shown)
                        ),
                        format!("COP {:.2}", run.cop()),
                    ));
                }
            }
        }
    }
    if let (Some(cold), Some(warm)) = (sheet.heating.first(), sheet.heating.last())
        && warm.outdoor_c - cold.outdoor_c >= 15.0
    {
        for (word, run) in levels(warm) {
            let same = levels(cold).find(|(w, _)| *w == word);
            if let Some((_, other)) = same
                && (run.cop() / other.cop() - 1.0).abs() < 0.01
            {
                out.push(said(
                    sheet,
                    cold.line,
                    &format!(
                        "{word} COP is the same at {} and at {}",
                        f(cold.outdoor_c, shown),
                        f(warm.outdoor_c, shown)
                    ),
                    format!("COP {:.2} and {:.2}", other.cop(), run.cop()),
                ));
            }
        }
    }
}

fn said(sheet: &Sheet, line: usize, what: &str, found: String) -> Finding {
    Say {
        rule: "sheet-seasonal-as-cop",
        level: Level::Fix,
        says: format!("{}: {what}: a seasonal rating used as COP?", sheet.name),
        found,
        required: "the COP of the test point".to_owned(),
        mend: "Write the electric power of the test point".to_owned(),
        would_tell: String::new(),
        source: trade("F7, HSPF used as COP"),
    }
    .at(sheet, line)
}
