//! # What it checks
//! The largest overcurrent device is not smaller than the minimum circuit ampacity; standby power is
//! stated.
//! # Why it matters on site
//! A breaker cannot satisfy both; and standby runs all year.
//! # What to do
//! Read the name plate on the unit.
//! # Source
//! `common-practice`: card F18, MCA <= OCPD <= MOCP.

use reckon::{Finding, Level};

use super::{Say, Shown, trade};
use crate::sheet::{Kind, Sheet};

pub(super) fn check(sheet: &Sheet, _: Shown, out: &mut Vec<Finding>) {
    let plate = &sheet.plate;
    if let (Some(mca), Some(mocp)) = (plate.mca_a, plate.mocp_a)
        && mocp < mca
    {
        out.push(
            Say {
                rule: "sheet-mocp-under-mca",
                level: Level::Fix,
                says: format!(
                    "{}: the largest breaker is under the circuit ampacity",
                    sheet.name
                ),
                found: format!("MCA {mca:.1} A, MOCP {mocp:.1} A"),
                required: "MCA <= MOCP".to_owned(),
                mend: "Read the name plate; the two may be swapped".to_owned(),
                would_tell: String::new(),
                source: trade("F18, branch circuit"),
            }
            .at(sheet, sheet.line_of("plate.mocp")),
        );
    }
    let outdoor = !matches!(sheet.kind, Kind::Head(_));
    if outdoor && plate.standby_w.is_none() {
        out.push(
            Say {
                rule: "sheet-standby-missing",
                level: Level::Ask,
                says: format!("{}: no standby power; it is counted as nothing", sheet.name),
                found: "nothing".to_owned(),
                required: "standby power in W".to_owned(),
                mend: "Write plate.standby".to_owned(),
                would_tell: "The electrical table, or a clamp meter with the unit waiting."
                    .to_owned(),
                source: trade("B.1, standby in the field"),
            }
            .at(sheet, sheet.line_of("plate")),
        );
    }
}
