//! **What it checks** Whether, at the job's prices, there is an outdoor temperature below which
//! the fuel that stays is the cheaper heat.
//!
//! **Why it matters on site** The owner pays both bills and will ask. Where the heat pump loses
//! everywhere, money is not the reason to buy it.
//!
//! **What to do** Show the temperature, and how it moves with a fifth more or less for the fuel.
//!
//! **Source** Trade card F9.

use reckon::{Finding, Level};

use super::{Say, f, trade};
use crate::input::Input;
use crate::keys;
use crate::line::Crossing;
use crate::year::Year;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for switch in year.switchover(&input.job.prices) {
        for (unit, above) in &switch.above {
            let says = match above {
                Crossing::At(c) => format!(
                    "Below about {} heat by {} costs less than by {unit}",
                    f(input, *c),
                    switch.words
                ),
                Crossing::WarmerThan(_) => format!(
                    "Heat by {} costs less than by {unit} in all heating weather",
                    switch.words
                ),
                Crossing::ColderThan(_) | Crossing::None => continue,
            };
            Say {
                rule: "fuel-cheaper",
                level: Level::Note,
                place: format!("prices.{}", switch.carrier.word()),
                says,
                found: format!(
                    "costs the same at COP {:.2}; {:.2} with the fuel a fifth dearer, {:.2} cheaper",
                    switch.break_even_cop, switch.fuel_dearer_cop, switch.fuel_cheaper_cop
                ),
                required: "told to the owner, with the date of the prices".to_owned(),
                mend: "Agree with the owner where the backup takes over.".to_owned(),
                would_tell: String::new(),
                figures: vec![keys::of_heater(
                    &year.choice,
                    &switch.heater,
                    "break-even-cop",
                )],
                source: trade("trade card F9"),
            }
            .into(out);
        }
    }
}
