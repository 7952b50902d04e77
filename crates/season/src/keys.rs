//! Keys of the figures of a year.

use reckon::in_key;

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
pub(crate) fn of_unit(choice: &str, unit: &str, what: &str) -> String {
    format!("{}.unit.{}.{what}", of_choice(choice), in_key(unit))
}

/// `season.<choice>.heater.<heater>.<what>`.
pub(crate) fn of_heater(choice: &str, heater: &str, what: &str) -> String {
    format!("{}.heater.{}.{what}", of_choice(choice), in_key(heater))
}
