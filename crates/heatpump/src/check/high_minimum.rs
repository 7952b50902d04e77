//! # What it checks
//! Minimum heating output at the mildest point is not over 30 % of rated.
//! # Why it matters on site
//! Such a unit goes on and off through mild weather, which is most hours of the year.
//! # What to do
//! Compare with the house's need at 40 F before choosing it.
//! # Source
//! `common-practice`: trade finding 1.

use reckon::{Finding, Level};

use super::{Say, Shown, btu, f, trade};
use crate::sheet::Sheet;

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let Some(point) = sheet
        .heating
        .iter()
        .rev()
        .find(|p| p.min.is_some() && p.rated.is_some())
    else {
        return;
    };
    let (Some(min), Some(rated)) = (point.min, point.rated) else {
        return;
    };
    if min.capacity_w > 0.30 * rated.capacity_w && min.capacity_w <= rated.capacity_w {
        out.push(
            Say {
                rule: "sheet-high-minimum",
                level: Level::Note,
                says: format!("{}: it does not turn down far", sheet.name),
                found: format!(
                    "{} least, {} rated at {}",
                    btu(min.capacity_w, shown),
                    btu(rated.capacity_w, shown),
                    f(point.outdoor_c, shown)
                ),
                required: "30 % of rated or less is usual for one head".to_owned(),
                mend: "See the hours it cycles in the year".to_owned(),
                would_tell: String::new(),
                source: trade("finding 1, minimum output"),
            }
            .at(sheet, point.line),
        );
    }
}
