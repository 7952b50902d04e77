//! **What it checks** Neither the design temperature nor more than a day of the year is below the
//! temperature at which the unit stops.
//!
//! **Why it matters on site** Below its limit the unit gives nothing at all.
//!
//! **What to do** A unit that works colder, or a backup that carries the whole load.
//!
//! **Source** The unit's own sheet; trade card F7.

use reckon::{Finding, Level, Source};

use super::{Say, counted, f, place_of_unit};
use crate::input::Input;
use crate::keys;
use crate::regime::Regime;
use crate::year::Year;

/// Hours a year that are let pass.
const MOST_HOURS: u32 = 24;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    let design_c = year.design.as_ref().map(|d| d.outdoor_c);
    for unit in &year.units {
        let Some(sheet) = input.catalogue.get(&unit.sheet) else {
            continue;
        };
        let Some(limit_c) = sheet.limits.heating_cut_out_c else {
            continue;
        };
        let hours = unit.hours_in(Regime::CutOut);
        let at_design = design_c.filter(|c| *c < limit_c);
        if at_design.is_none() && hours <= MOST_HOURS {
            continue;
        }
        let wanted_c =
            at_design.unwrap_or_else(|| year.outdoor_c.iter().copied().fold(limit_c, f64::min));
        let backed = unit
            .heads
            .iter()
            .all(|h| year.room(&h.room).is_some_and(|r| r.heaters > 0));
        Say {
            rule: "stops-in-cold",
            level: match (backed, at_design) {
                (false, _) => Level::Stop,
                (true, Some(_)) => Level::Fix,
                (true, None) => Level::Note,
            },
            place: place_of_unit(&unit.name),
            says: if at_design.is_some() {
                format!("{} stops before the design night", unit.name)
            } else {
                format!("{} stops in the coldest weather", unit.name)
            },
            found: format!(
                "stops below {}; {} hours of the year are colder",
                f(input, limit_c),
                counted(hours)
            ),
            required: format!("works at {}", f(input, wanted_c)),
            mend: "Choose a unit that works colder, or a backup for the whole load.".to_owned(),
            would_tell: String::new(),
            figures: vec![keys::of_unit(&year.choice, &unit.name, "hours-cut-out")],
            source: Source::new("sheet", format!("{}, limits", unit.sheet)),
        }
        .into(out);
    }
}
