//! **What it checks** The sheet of an outdoor unit has a test point as cold as the design
//! temperature and as the hours its rooms call in.
//!
//! **Why it matters on site** Colder than its last point nobody has said what it gives. The year
//! counts it as nothing there, which may be harsher than the truth, and never guesses.
//!
//! **What to do** Ask for the extended performance table.
//!
//! **Source** Trade card F7: never extrapolate below the lowest tested point.

use reckon::{Finding, Level};

use super::{Say, counted, f, place_of_unit, trade};
use crate::input::Input;
use crate::keys;
use crate::regime::Regime;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for unit in &year.units {
        let Some((coldest_c, _)) = unit.span_c else {
            continue;
        };
        let stops = input
            .catalogue
            .get(&unit.sheet)
            .and_then(|s| s.limits.heating_cut_out_c)
            .unwrap_or(f64::NEG_INFINITY);
        let design_c = year.design.as_ref().map(|d| d.outdoor_c);
        let beyond = design_c.filter(|d| *d < coldest_c && *d >= stops);
        let hours = unit.hours_in(Regime::CannotTell);
        if beyond.is_none() && hours == 0 {
            continue;
        }
        let wanted =
            beyond.unwrap_or_else(|| year.outdoor_c.iter().copied().fold(coldest_c, f64::min));
        Say {
            rule: "sheet-ends-too-warm",
            level: Level::Ask,
            place: place_of_unit(&unit.name),
            says: format!(
                "Nobody has said what {} gives on the coldest nights",
                unit.sheet
            ),
            found: format!(
                "coldest test point {}; {} hours of the year are colder, counted as no heat",
                f(input, coldest_c),
                counted(hours)
            ),
            required: format!("a test point at {} or colder", f(input, wanted)),
            mend: "Ask the supplier for the extended performance table of the unit.".to_owned(),
            would_tell: format!("A heating test point at {} would tell.", f(input, wanted)),
            figures: vec![keys::of_unit(&year.choice, &unit.name, "hours-cannot-tell")],
            source: trade("trade card F7"),
        }
        .into(out);
    }
}
