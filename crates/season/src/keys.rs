//! Keys of the figures of a year.

use reckon::in_key;
use units::constants::F_STEP_K;

/// Key of a choice, or of what heats now: `season.chosen`, `season.boiler-alone`.
pub(crate) fn of_choice(choice: &str) -> String {
    format!("season.{}", in_key(choice))
}

/// `season.<choice>.house.<what>`.
pub fn of_house(choice: &str, what: &str) -> String {
    format!("{}.house.{what}", of_choice(choice))
}

/// `season.<choice>.room.<room>.<what>`.
pub(crate) fn of_room(choice: &str, room: &str, what: &str) -> String {
    format!("{}.room.{}.{what}", of_choice(choice), in_key(room))
}

/// `season.<choice>.unit.<unit>.<what>`.
pub fn of_unit(choice: &str, unit: &str, what: &str) -> String {
    format!("{}.unit.{}.{what}", of_choice(choice), in_key(unit))
}

/// `season.<choice>.heater.<heater>.<what>`.
pub(crate) fn of_heater(choice: &str, heater: &str, what: &str) -> String {
    format!("{}.heater.{}.{what}", of_choice(choice), in_key(heater))
}

/// A span of 5 F of outdoor temperature by its lower end: `outdoor.-5-to-0f`.
pub(crate) fn span(low_c: f64) -> String {
    let low_f = libm::round(low_c / F_STEP_K + 32.0);
    format!("outdoor.{low_f}-to-{}f", low_f + 5.0)
}

/// The same in words: `-5 to 0 F (-20.6 to -17.8 C) outdoors`.
pub(crate) fn span_words(low_c: f64) -> String {
    let (low_f, high_c) = (low_c / F_STEP_K + 32.0, low_c + 5.0 * F_STEP_K);
    let high_f = low_f + 5.0;
    format!("{low_f:.0} to {high_f:.0} F ({low_c:.1} to {high_c:.1} C) outdoors")
}

/// `season.<choice>.outdoor.<span>`: the beginning of what fell into a span of 5 F by its lower
/// end, C.
pub fn of_span(choice: &str, low_c: f64) -> String {
    format!("{}.{}", of_choice(choice), span(low_c))
}
