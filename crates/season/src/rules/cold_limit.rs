//! **What it checks** The design temperature is not below the temperature at which the unit stops.
//!
//! **Why it matters on site** Below its limit the unit gives nothing at all.
//!
//! **What to do** A unit that works colder, or a backup that carries the whole load.
//!
//! **Source** The unit's own sheet; trade card F7.

use reckon::{Finding, Level, Source};

use super::{Say, f, place_of_unit};
use crate::input::Input;
use crate::keys;
use crate::regime::Regime;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    let Some(design) = &year.design else { return };
    for unit in &year.units {
        let Some(sheet) = input.catalogue.get(&unit.sheet) else {
            continue;
        };
        let Some(limit_c) = sheet.limits.heating_cut_out_c else {
            continue;
        };
        if design.outdoor_c >= limit_c {
            continue;
        }
        let backed = unit
            .heads
            .iter()
            .all(|h| year.room(&h.room).is_some_and(|r| r.heaters > 0));
        Say {
            rule: "stops-before-design",
            level: if backed { Level::Fix } else { Level::Stop },
            place: place_of_unit(&unit.name),
            says: format!("{} stops before the design night", unit.name),
            found: format!(
                "stops below {}; {} hours of the year are colder",
                f(limit_c),
                unit.hours_in(Regime::CutOut)
            ),
            required: format!("works at {}", f(design.outdoor_c)),
            mend: "Choose a unit that works colder, or a backup for the whole load.".to_owned(),
            would_tell: String::new(),
            figures: vec![keys::of_unit(&year.choice, &unit.name, "hours-cut-out")],
            source: Source::new("sheet", format!("{}, limits", unit.sheet)),
        }
        .into(out);
    }
}
