//! Outdoor units: free space, distances, snow, water and ice, what carries them, sound.

mod bracket;
mod snow;
mod sound;
mod space;
mod water;
pub(crate) mod yard;

use heatpump::Sheet;
use jobfile::{OutdoorChoice, OutdoorPlace};
use units::Dim;

use crate::Input;
use crate::desk::Desk;
use crate::rules::Rules;

/// Judges every outdoor unit and everyone who hears them.
/// Gives where they stand on the plan.
pub(crate) fn judge(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
) -> Vec<(String, yard::Spot)> {
    let none = OutdoorPlace::default();
    let mut spots = Vec::new();
    for (outdoor, unit) in input.outdoors() {
        let all = &input.job.installation.outdoors;
        let p = all.iter().find(|p| p.outdoor == outdoor.name);
        let p = p.unwrap_or(&none);
        let spot = yard::spot(input, p, unit);
        one(input, rules, desk, outdoor, unit, p, spot.as_ref());
        // hangs on the year, not on the position
        let key = |what: &str| format!("outdoors.{}.{what}", outdoor.name);
        let place = format!("outdoor.{}", outdoor.name);
        water::judge(input, desk, p, &outdoor.name, &key, &place);
        spots.extend(spot.map(|s| (outdoor.name.clone(), s)));
    }
    sound::judge_all(input, desk, &spots);
    spots
}

/// Judges what is heard of units at these spots.
pub(crate) fn hear(input: &Input<'_>, desk: &mut Desk, spots: &[(String, yard::Spot)]) {
    sound::judge_all(input, desk, spots);
}

/// Judges an outdoor unit at a place: its own, or one that is tried.
pub(crate) fn one(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    unit: Option<&Sheet>,
    p: &OutdoorPlace,
    spot: Option<&yard::Spot>,
) {
    let place = format!("outdoor.{}", outdoor.name);
    let key = |what: &str| format!("outdoors.{}.{what}", outdoor.name);
    let p = &yard::filled(input, p, unit, spot);
    let typed = input.job.installation.outdoors.iter();
    let typed = typed.filter(|t| t.outdoor == outdoor.name);
    let typed: Vec<_> = typed.flat_map(|t| &t.distances).map(|(k, _)| *k).collect();
    for (k, m) in &p.distances {
        let at = if typed.contains(k) {
            format!("outdoor_place.{}.{k}", outdoor.name)
        } else {
            "landmark".to_owned()
        };
        desk.measured(key(k), k, *m, Dim::Length, at);
    }
    space::judge(input, rules, desk, p, unit, &key, &place);
    snow::judge(input, rules, desk, p, &key, &place);
    bracket::judge(desk, p, unit, &key, &place);
}
