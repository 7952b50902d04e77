//! Sound of all units where somebody hears them, by day and by night: by the plan with every wall
//! that throws it back, or by a measured distance.

use jobfile::Listener;
use physics::sound::reflect::{Wall, ways};
use reckon::{Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet};

use super::yard::{self, Spot};

const DAY: Rule = Rule {
    name: "sound-day",
    level: Level::Fix,
    what: "sound by day",
    mend: "Farther away, out of the corner, or a quieter unit.",
    tell: "Sound power from the sheet, the distance, what is around, and the bylaw's limit.",
};
const NIGHT: Rule = Rule {
    name: "sound-night",
    level: Level::Fix,
    what: "sound by night",
    mend: "Farther away, night setting, or a quieter unit.",
    tell: "Sound power from the sheet, the distance, what is around, and the bylaw's limit.",
};

/// A house wall with windows throws back so much of the sound (ISO 9613-2, table 4).
const HOUSE_THROWS_BACK: f64 = 0.8;

/// Units by name where they stand on the plan.
pub(crate) type Spots = [(String, Spot)];

/// Judges every listener.
pub(crate) fn judge_all(input: &Input<'_>, desk: &mut Desk, spots: &Spots) {
    let listeners = &input.job.installation.listeners;
    for listener in listeners {
        judge(input, desk, listener, spots);
    }
    if listeners.is_empty() && !input.job.equipment.outdoors.is_empty() {
        desk.must(
            &NIGHT,
            "listener",
            None,
            "nobody named",
            "each lot line and window",
            card("F14"),
        );
    }
}

/// Judges one listener.
fn judge(input: &Input<'_>, desk: &mut Desk, l: &Listener, spots: &Spots) {
    let key = |what: &str| format!("sound.{}.{what}", l.name);
    let place = format!("listener.{}", l.name);
    for (when, rule, limit) in [("day", &DAY, l.day_db), ("night", &NIGHT, l.night_db)] {
        // by the plan all units are heard; by the tape those that were measured
        let units: Vec<(String, Option<f64>)> = match l.at_m {
            Some(_) => input
                .outdoors()
                .map(|(o, _)| (o.name.clone(), None))
                .collect(),
            None => l.hears.iter().map(|(o, m)| (o.clone(), Some(*m))).collect(),
        };
        let mut parts = Vec::new();
        for (outdoor, typed) in &units {
            let k = match typed {
                Some(m) => heard(input, desk, l, outdoor, *m, when),
                None => by_plan(input, desk, l, outdoor, when, spots),
            };
            let Some(k) = k else { break };
            parts.push(k);
        }
        let complete = !parts.is_empty() && parts.len() == units.len();
        let k = key(when);
        if complete {
            let iso = || Source::new("iso-9613-2", "sum by energy");
            desk.add_up(
                &format!("{k}.energy"),
                "sound of all units, as energy",
                Dim::Ratio,
                &parts,
                iso(),
            );
            let extra = if l.tonal { 5.0 } else { 0.0 } + if l.facade { 3.0 } else { 0.0 };
            desk.given(
                format!("{k}.extra"),
                "added for hum (5) and for a wall behind the listener (3)",
                extra,
                Dim::Sound,
                card("F14"),
            );
            desk.reckon(
                k.clone(),
                format!("sound by {when}"),
                Dim::Sound,
                "10 * ln(E) / ln(10) + x",
                &[("E", &format!("{k}.energy")), ("x", &format!("{k}.extra"))],
                iso(),
            );
        }
        let of = l.source.clone().map_or_else(
            || card("F14: no bylaw named"),
            |s| Source::job(format!("{place}: {s}")),
        );
        // a limit nobody can name is not a limit
        let limit = limit
            .filter(|_| l.source.is_some())
            .map(|db| desk.given(format!("{k}.limit"), "limit", db, Dim::Sound, of.clone()));
        desk.at_most(
            rule,
            &place,
            complete.then_some(k.as_str()),
            limit.as_deref(),
            of,
        );
    }
}

/// Energy of one unit at a listener, as a key.
fn heard(
    input: &Input<'_>,
    desk: &mut Desk,
    l: &Listener,
    outdoor: &str,
    m: f64,
    when: &str,
) -> Option<String> {
    let key = |what: &str| format!("sound.{}.{when}.{outdoor}.{what}", l.name);
    let power = power(input, desk, &key("power"), outdoor, when)?;
    let place = input
        .job
        .installation
        .outdoors
        .iter()
        .find(|p| p.outdoor == outdoor)?;
    let q = match place.around.as_deref()? {
        "ground" => 2.0,
        "wall" => 4.0,
        _ => 8.0,
    };
    desk.given(
        key("around"),
        "what throws it back: 2 ground, 4 wall, 8 corner",
        q,
        Dim::Ratio,
        Source::job(format!("outdoor_place.{outdoor}.around")),
    );
    desk.measured(
        key("distance"),
        "distance",
        m,
        Dim::Length,
        format!("listener.{}", l.name),
    );
    let iso = || Source::new("iso-9613-2", "geometrical divergence with the solid angle");
    desk.reckon(
        key("level"),
        "sound there",
        Dim::Sound,
        "Lw + 10 * ln(Q / (4 * 3.141592653589793 * r^2)) / ln(10)",
        &[
            ("Lw", &power),
            ("Q", &key("around")),
            ("r", &key("distance")),
        ],
        iso(),
    )?;
    desk.reckon(
        key("energy"),
        "sound of the unit, as energy",
        Dim::Ratio,
        "10^(L / 10)",
        &[("L", &key("level"))],
        iso(),
    )?;
    Some(key("energy"))
}

/// Sound power of a unit, as a key.
fn power(
    input: &Input<'_>,
    desk: &mut Desk,
    key: &str,
    outdoor: &str,
    when: &str,
) -> Option<String> {
    let unit = input.outdoors().find(|(o, _)| o.name == outdoor)?.1?;
    let s = &unit.sound;
    // by night in winter it heats; the quiet setting is no promise
    let db = match when {
        "night" => s.power_heating_db,
        _ => s
            .power_heating_db
            .into_iter()
            .chain(s.power_cooling_db)
            .reduce(f64::max),
    }?;
    let of = sheet(&unit.name, s.page.as_ref());
    Some(desk.given(key, "sound power", db, Dim::Sound, of))
}

/// Walls that throw sound back: those of the house that look at the unit, and fences and
/// neighbours' walls of the job.
fn throwing_back(input: &Input<'_>, from: [f64; 2]) -> Vec<Wall> {
    let all = yard::walls(input);
    let low = yard::low_storey(input, &all);
    let mut out: Vec<Wall> = all
        .iter()
        .filter(|w| Some(w.storey) == low)
        .filter(|w| {
            let d = [from[0] - w.ends_m[0][0], from[1] - w.ends_m[0][1]];
            d[0] * w.out[0] + d[1] * w.out[1] > 0.0
        })
        .map(|w| Wall {
            ends_m: w.ends_m,
            throws_back: HOUSE_THROWS_BACK,
        })
        .collect();
    for m in &input.job.installation.landmarks {
        if let (Some(to), "wall") = (m.to_m, m.what.as_str()) {
            out.push(Wall {
                ends_m: [m.at_m, to],
                throws_back: m.throws_back.unwrap_or(1.0),
            });
        }
    }
    out
}

/// Energy of one unit at a listener by all ways of its sound on the plan, as a key.
fn by_plan(
    input: &Input<'_>,
    desk: &mut Desk,
    l: &Listener,
    outdoor: &str,
    when: &str,
    spots: &Spots,
) -> Option<String> {
    let key = |what: &str| format!("sound.{}.{when}.{outdoor}.{what}", l.name);
    let (_, spot) = spots.iter().find(|(name, _)| name == outdoor)?;
    let to = l.at_m?;
    let power = power(input, desk, &key("power"), outdoor, when)?;
    let walls = throwing_back(input, spot.middle_m);
    let all = ways(spot.middle_m, to, &walls);
    let direct = all.first()?.length_m.max(0.5);
    let open: f64 = all
        .iter()
        .map(|w| w.left / w.length_m.max(0.5).powi(2))
        .sum();
    let at = || Source::job(format!("listener.{}.at", l.name));
    desk.given(
        key("distance"),
        "distance on the plan",
        direct,
        Dim::Length,
        at(),
    );
    desk.followed(
        key("ways"),
        format!(
            "share by all ways, 1/m2: direct and {} off walls",
            all.len() - 1
        ),
        (open, Dim::Ratio),
        &[("r", key("distance"))],
        "sum of what each wall leaves over the square of the way's length",
        Source::new(
            "iso-9613-2",
            "7.5, image sources; house walls throw back 0.8",
        ),
    );
    let iso = || {
        Source::new(
            "iso-9613-2",
            "geometrical divergence over hard ground, factor 2",
        )
    };
    desk.reckon(
        key("energy"),
        "sound of the unit, as energy",
        Dim::Ratio,
        "10^(Lw / 10) * 2 * G / (4 * 3.141592653589793)",
        &[("Lw", &power), ("G", &key("ways"))],
        iso(),
    )?;
    Some(key("energy"))
}
