//! The sensor of a head reads the air where it hangs.

use jobfile::HeadChoice;
use reckon::{Level, Source};
use units::Dim;

use crate::desk::{Desk, Rule, card};
use crate::rules::Indoors;

const SENSOR: Rule = Rule {
    name: "sensor-height",
    level: Level::Note,
    what: "how much too warm the head's sensor reads, by its height",
    mend: "A wall sensor at 5 ft, or a higher setting by as much: tell the owner the offset.",
    tell: "Measure the height of the outlet.",
};

pub(super) fn judge(rules: &Indoors, desk: &mut Desk, head: &HeadChoice, place: &str) {
    let key = |what: &str| format!("indoors.{}.{what}", head.name);
    let u = &rules.usual;
    let of = || Source::new("trade-cards", "A.4: people set 72 to 74 F to get 70");
    desk.given(
        key("sensor.upward"),
        "warmer for every metre up, K",
        u.warmer_upward_k_per_m,
        Dim::Ratio,
        of(),
    );
    desk.given(
        key("sensor.sitting"),
        "a sitting head",
        u.sitting_m,
        Dim::Length,
        of(),
    );
    let off = desk.reckon(
        key("sensor"),
        "too warm at the sensor",
        Dim::TemperatureDifference,
        "g * max(h - s, 0)",
        &[
            ("g", &key("sensor.upward")),
            ("h", &key("height")),
            ("s", &key("sensor.sitting")),
        ],
        of(),
    );
    let most = desk.given(
        key("sensor-most"),
        "most that goes unnoticed",
        u.sensor_off_k,
        Dim::TemperatureDifference,
        Source::new(rules.source.clone(), "a setting off by 2 F is noticed"),
    );
    let found = off.map(|_| key("sensor"));
    desk.at_most(&SENSOR, place, found.as_deref(), Some(&most), card("A.4"));
}
