//! Ground-fault protection by edition and day.

use jobfile::Circuit;
use reckon::Level;

use crate::Input;
use crate::desk::{Desk, Rule, card};
use crate::rules::{ElectricalEdition, source};

const FAULT: Rule = Rule {
    name: "ground-fault",
    level: Level::Stop,
    what: "ground-fault protection",
    mend: "As the edition asks; a plain class A device may trip on the unit's own leakage.",
    tell: "Say which protection is planned, the edition, and the day of installation.",
};

/// What the edition asks against what is planned.
pub(super) fn judge(
    input: &Input<'_>,
    desk: &mut Desk,
    c: &Circuit,
    name: &str,
    edition: Option<&ElectricalEdition>,
    place: &str,
) {
    let Some(e) = edition else {
        desk.must(
            &FAULT,
            place,
            None,
            "edition not known here",
            "as the edition asks",
            card("F18"),
        );
        return;
    };
    let of = source(&e.source, &e.place);
    let day = input.job.installation.codes.install_day.as_deref();
    let has = c.ground_fault.as_deref();
    let exempt = match (&e.exempt_until, day) {
        (Some(until), Some(day)) => Some(day < until.as_str()),
        (Some(_), None) => None,
        (None, _) => Some(false),
    };
    let fits = match (name, has) {
        // the plain device trips on leakage the equipment standard allows
        ("2026", Some("class a high frequency" | "class c")) => Some(true),
        ("2026", Some("class a")) | (_, None) => None,
        (_, Some("none")) => Some(false),
        (_, Some(_)) => Some(name != "2026"),
    };
    let good = match (e.ground_fault_needed, exempt, fits) {
        (true, _, Some(true)) | (true, Some(true), _) => Some(true),
        (true, Some(false), fits) => fits,
        (false, ..) | (true, None, _) => None,
    };
    let found = format!(
        "{}, installed {}",
        has.unwrap_or("not said"),
        day.unwrap_or("on a day not named")
    );
    desk.must(
        &FAULT,
        place,
        good,
        &found,
        &format!("{name}: {}", e.ground_fault),
        of,
    );
}
