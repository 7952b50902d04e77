//! **What it checks** Everything the year buys has a price.
//!
//! **Why it matters on site** Without it there is no yearly cost, and no honest comparison.
//!
//! **What to do** Take it from the last bill, with its date.
//!
//! **Source** Trade card F9, capability 10 (prices with units and date).

use reckon::{Finding, Level};

use super::{Say, trade};
use crate::input::Input;
use crate::keys;
use crate::year::Year;

pub(super) fn check(_input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for bought in year.bought.iter().filter(|b| b.cost.is_none()) {
        let word = bought.carrier.word();
        Say {
            rule: "no-price",
            level: Level::Ask,
            place: format!("prices.{word}"),
            says: format!("There is no price of {word}, so the year has no cost"),
            found: format!(
                "{} {} a year, no price",
                units::whole(bought.amount()),
                bought.sold_in.name
            ),
            required: format!("a price of {word} with its unit"),
            mend: format!(
                "Write {word} = \"… /{}\" under [prices].",
                bought.sold_in.name
            ),
            would_tell: "The last bill would tell.".to_owned(),
            figures: vec![keys::of_house(&year.choice, &format!("energy-{word}"))],
            source: trade("trade card F9"),
        }
        .into(out);
    }
}
