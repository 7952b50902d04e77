//! What values of a sheet can be at all, in SI, with the words that say so.

use super::table::Usable;

pub(super) const HEAT: Usable = Usable {
    lo: 50.0,
    hi: 60_000.0,
    words: "heat from 170 to 200,000 Btu/h",
};
pub(super) const POWER: Usable = Usable {
    lo: 0.0,
    hi: 30_000.0,
    words: "electric power from 0 W to 30 kW, as \"850 W\"",
};
pub(super) const OUTDOOR: Usable = Usable {
    lo: -60.0,
    hi: 60.0,
    words: "a temperature from -76 F to 140 F",
};
pub(super) const RUN: Usable = Usable {
    lo: 0.0,
    hi: 200.0,
    words: "a length from 0 to 650 ft",
};
pub(super) const SIZE: Usable = Usable {
    lo: 0.0,
    hi: 5.0,
    words: "a length from 0 to 16 ft",
};
pub(super) const TUBE: Usable = Usable {
    lo: 0.003,
    hi: 0.06,
    words: "a tube from 1/8 in to 2 in",
};
pub(super) const SHARE: Usable = Usable {
    lo: 0.0,
    hi: 1.0,
    words: "a plain number from 0 to 1",
};
