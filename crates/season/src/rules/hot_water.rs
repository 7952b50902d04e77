//! **What it checks** A heater that is taken out does not also make the hot water.
//!
//! **Why it matters on site** Taking the boiler takes the hot water: found on the day, it is a
//! second job nobody priced.
//!
//! **What to do** Price a water heater in the same quote.
//!
//! **Source** Trade step 5 (38 % of the gas retrofits of one pilot).

use reckon::{Finding, Level};

use super::{Say, trade};
use crate::input::Input;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, _year: &Year, out: &mut Vec<Finding>) {
    let Some(existing) = &input.job.existing else {
        return;
    };
    if existing.stays || !existing.hot_water {
        return;
    }
    Say {
        rule: "hot-water-lost",
        level: Level::Fix,
        place: "existing.hot_water".to_owned(),
        says: format!(
            "The {} goes and takes the hot water with it",
            existing.kind.word()
        ),
        found: "hot water is made by what is taken out".to_owned(),
        required: "something else that makes it".to_owned(),
        mend: "Plan and price a water heater.".to_owned(),
        would_tell: String::new(),
        figures: Vec::new(),
        source: trade("trade step 5"),
    }
    .into(out);
}
