//! **What it checks** A heater that serves rooms with heads has its thermostat at least 3 F under
//! the heads' own.
//!
//! **Why it matters on site** At the same setting whichever thermostat feels the cold first takes
//! the load, which is the boiler's: the heat pump idles through the winter it was bought for. The
//! year here is reckoned as if the heads came first.
//!
//! **What to do** Set the backup 5 to 9 F lower, and leave it there.
//!
//! **Source** Trade card F10 (3 to 5 K lower, public guide).

use reckon::{Finding, Level};

use super::{Say, steps, trade};
use crate::input::Input;
use crate::keys;
use crate::year::Year;

/// Set less than this under the heads, the backup runs first, K (3 F).
const TOO_NEAR_K: f64 = 5.0 / 3.0;

pub(super) fn check(input: &Input<'_>, year: &Year, out: &mut Vec<Finding>) {
    for heater in input.job.heaters_beside() {
        let shares = year.rooms.iter().any(|r| {
            r.heads > 0 && r.heated && (heater.serves.is_empty() || heater.serves.contains(&r.name))
        });
        if !shares || heater.set_below_k >= TOO_NEAR_K {
            continue;
        }
        let below = steps(input, heater.set_below_k);
        let lower = match input.job.units {
            units::System::Us => "5 to 9 F",
            units::System::Si => "3 to 5 K",
        };
        let existing = input
            .job
            .existing
            .as_ref()
            .is_some_and(|e| e.name == heater.name);
        let words = if existing {
            format!("the {}", heater.kind.word())
        } else {
            heater.name.clone()
        };
        Say {
            rule: "backup-set-too-high",
            level: Level::Fix,
            place: if existing {
                "existing.set_below".to_owned()
            } else {
                format!("backup.{}.set_below", heater.name)
            },
            says: format!("With {words} set as high as the heads, the heads idle"),
            found: format!("{below} under the rooms' setting"),
            required: format!("{lower} under"),
            mend: format!("Set the thermostat of {words} {lower} lower."),
            would_tell: String::new(),
            figures: vec![keys::of_heater(&year.choice, &heater.name, "heat")],
            source: trade("trade card F10: backup thermostats 3 to 5 K lower"),
        }
        .into(out);
    }
}
