//! # What it checks
//! The sheet says of at least one heating point from 17 to 42 F whether defrosting is included.
//! # Why it matters on site
//! Defrosting takes 5 to 15 % in that band, where most of the winter is. Without the word the loss is
//! taken off, which may be once too often.
//! # What to do
//! Look for "integrated" or "including defrost" in the notes under the table.
//! # Source
//! `common-practice`: card F7, frost band.

use reckon::{Finding, Level};

use super::{Say, Shown, f, trade};
use crate::frost::{FROST_COLD_C, FROST_WARM_C, FROST_WORST_C};
use crate::sheet::{Kind, Sheet};

pub(super) fn check(sheet: &Sheet, shown: Shown, out: &mut Vec<Finding>) {
    let heats = !matches!(sheet.kind, Kind::Head(_)) && !sheet.heating.is_empty();
    let said = sheet.heating.iter().any(|p| {
        p.defrost_included.is_some()
            && p.outdoor_c >= FROST_COLD_C - 0.1
            && p.outdoor_c <= FROST_WARM_C + 0.1
    });
    if !heats || said {
        return;
    }
    out.push(
        Say {
            rule: "sheet-defrost-not-stated",
            level: Level::Ask,
            says: format!(
                "{}: nothing says whether the figures include defrosting",
                sheet.name
            ),
            found: format!(
                "no defrost_included from {} to {}",
                f(FROST_COLD_C, shown),
                f(FROST_WARM_C, shown)
            ),
            required: "true or false".to_owned(),
            mend: "Write defrost_included in the heating points".to_owned(),
            would_tell: format!(
                "The notes under the heating table; until then 10 % is taken off at {}.",
                f(FROST_WORST_C, shown)
            ),
            source: trade("F7, frost band"),
        }
        .at(sheet, sheet.heating.first().map_or(1, |p| p.line)),
    );
}
