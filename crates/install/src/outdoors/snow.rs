//! The base above snow and drip.

use jobfile::OutdoorPlace;
use reckon::Level;
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card};
use crate::rules::{Rules, source};

const BASE: Rule = Rule {
    name: "base-height",
    level: Level::Fix,
    what: "base above the ground, for snow and drip",
    mend: "A higher stand or bracket.",
    tell: "Snow depth in [place], and the height of the base.",
};

/// Snow of the place and room for drip.
pub(super) fn judge(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    p: &OutdoorPlace,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
    let of = source(&rules.siting.snow.source, &rules.siting.snow.place);
    if let Some(m) = p.base_m {
        desk.measured(
            key("base"),
            "base above the ground",
            m,
            Dim::Length,
            format!("{place}.base"),
        );
    }
    let drip = p.drip_m.unwrap_or(rules.siting.snow.drip_m);
    desk.given(
        key("drip"),
        "for drip and ice",
        drip,
        Dim::Length,
        of.clone(),
    );
    if let Some(m) = input.job.place.snow_depth_m {
        desk.measured(
            key("snow"),
            "snow depth",
            m,
            Dim::Length,
            "place.snow_depth".into(),
        );
        desk.reckon(
            key("base-least"),
            "base for snow and drip",
            Dim::Length,
            "s + d",
            &[("s", &key("snow")), ("d", &key("drip"))],
            card("F13"),
        );
    }
    desk.at_least(
        &BASE,
        place,
        Some(&key("base")),
        Some(&key("base-least")),
        of,
    );
}
