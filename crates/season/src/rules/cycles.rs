//! **What it checks** An outdoor unit does not give more than a tenth of its heat while going on
//! and off.
//!
//! **Why it matters on site** Below its least output a unit starts, overshoots and stops: its COP
//! falls, it is heard, and it wears. It is the commonest hidden fault of a large unit on small
//! rooms.
//!
//! **What to do** A smaller unit, fewer heads on one outdoor unit, or one outdoor unit for each
//! head.
//!
//! **Source** Trade finding 1 and card F8; the tenth is common practice, no source (the card's
//! good choices give 2 %, its poor ones 61 %).

use reckon::{Finding, Level};

use super::{Say, counted, f, percent, place_of_unit, trade};
use crate::input::Input;
use crate::keys;
use crate::line::Crossing;
use crate::regime::Regime;
use crate::year::Year;

/// Share of heat given while cycling that is too much.
const TOO_MUCH: f64 = 0.10;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for unit in &year.units {
        if unit.heat_j <= 0.0 {
            continue;
        }
        let share = unit.heat_in_j(Regime::Cycling) / unit.heat_j;
        if share <= TOO_MUCH {
            continue;
        }
        let hours = unit.hours_in(Regime::Cycling);
        let above = match unit.cycles_above {
            Crossing::At(c) => format!(" whenever it is warmer than about {}", f(input, c)),
            Crossing::ColderThan(c) => format!(" at all temperatures down to {}", f(input, c)),
            Crossing::WarmerThan(_) | Crossing::None => String::new(),
        };
        Say {
            rule: "unit-cycles",
            level: Level::Fix,
            place: place_of_unit(&unit.name),
            says: format!("{} goes on and off{above}", unit.name),
            found: format!(
                "{} hours of the year, {} of its heat",
                counted(hours),
                percent(share)
            ),
            required: format!("{} of its heat or less", percent(TOO_MUCH)),
            mend: if unit.heads.len() > 1 {
                "Compare one outdoor unit for each head, or a smaller outdoor unit.".to_owned()
            } else {
                "Choose a unit with a smaller least output.".to_owned()
            },
            would_tell: String::new(),
            figures: ["cycling-share", "hours-cycling", "cycles-above"]
                .into_iter()
                .filter(|what| *what != "cycles-above" || unit.cycles_above.at_c().is_some())
                .map(|what| keys::of_unit(&year.choice, &unit.name, what))
                .collect(),
            source: trade("trade finding 1, card F8"),
        }
        .into(out);
    }
}
