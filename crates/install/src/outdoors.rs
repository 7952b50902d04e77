//! Outdoor units: free space, distances, snow, water and ice, what carries them, sound.
//!
//! Long because: all that is judged of an outdoor unit, its rules beside it; to be divided by rule.

use jobfile::{Listener, OutdoorPlace};
use reckon::{Figure, Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet, yes_no};
use crate::rules::{Rules, source};

/// Share of the heat taken from frosting air that is frost. Common practice between 0.1 and 0.25.
const FROST_SHARE: f64 = 0.2;
/// Outdoor temperatures between which the coil frosts, C.
const FROST_BAND_C: (f64, f64) = (-10.0, 5.5);

const SPACE: Rule = Rule {
    name: "outdoor-space",
    level: Level::Stop,
    what: "free space around the unit",
    mend: "Move the unit as its sheet asks.",
    tell: "Measure, and read the sheet.",
};
const DISTANCE: Rule = Rule {
    name: "outdoor-distance",
    level: Level::Stop,
    what: "distance",
    mend: "Move the unit.",
    tell: "Measure; where no value is established, write a [[requirement]] with its source.",
};
const BASE: Rule = Rule {
    name: "base-height",
    level: Level::Fix,
    what: "base above the ground, for snow and drip",
    mend: "A higher stand or bracket.",
    tell: "Snow depth in [place], and the height of the base.",
};
const ROOF: Rule = Rule {
    name: "roof-drip",
    level: Level::Fix,
    what: "what falls from the roof",
    mend: "Away from valley and eave, or a cover with the clearance of the sheet.",
    tell: "Look up: eave, valley, covered, or nothing.",
};
const WIND: Rule = Rule {
    name: "winter-wind",
    level: Level::Fix,
    what: "blowing against the winter wind",
    mend: "Turn it or fit a baffle.",
    tell: "Ask where the winter wind comes from.",
};
const WALK: Rule = Rule {
    name: "ice-on-walk",
    level: Level::Stop,
    what: "its water where people walk",
    mend: "Move the unit or lead the water away: it freezes there all winter.",
    tell: "Look where the water runs.",
};
const ICE: Rule = Rule {
    name: "ice-sheet",
    level: Level::Note,
    what: "ice if all of the winter's water stays",
    mend: "Gravel that drains, or a larger area; chip nothing off the pan.",
    tell: "The area the water spreads over, and a season.",
};
const FIXED: Rule = Rule {
    name: "bracket-wall",
    level: Level::Stop,
    what: "what the bracket is fixed to",
    mend: "Masonry or blocking; else a stand on its own pad. Ladders and weights: two people.",
    tell: "Find what is behind the siding.",
};
const BEDROOM: Rule = Rule {
    name: "bracket-bedroom",
    level: Level::Fix,
    what: "bracket on a bedroom wall",
    mend: "A stand, or another wall: it hums.",
    tell: "Ask which room is behind.",
};
const PULL: Rule = Rule {
    name: "bracket-pull",
    level: Level::Stop,
    what: "pull of one fixing",
    mend: "More or stronger fixings, or a stand.",
    tell: "Number of fixings, their distance, what one holds (its sheet), weight and depth of the unit.",
};
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

/// Judges every outdoor unit and everyone who hears them.
pub(crate) fn judge(input: &Input<'_>, rules: &Rules, desk: &mut Desk) {
    let none = OutdoorPlace::default();
    for (outdoor, unit) in input.outdoors() {
        let all = &input.job.installation.outdoors;
        let p = all
            .iter()
            .find(|p| p.outdoor == outdoor.name)
            .unwrap_or(&none);
        let place = format!("outdoor.{}", outdoor.name);
        let key = |what: &str| format!("outdoors.{}.{what}", outdoor.name);
        for (k, m) in &p.distances {
            desk.measured(
                key(k),
                k,
                *m,
                Dim::Length,
                format!("outdoor_place.{}.{k}", outdoor.name),
            );
        }
        if let Some(u) = unit {
            let of = sheet(&u.name, u.size.page.as_ref());
            for (k, need) in [
                ("rear", u.size.clear_rear_m),
                ("side", u.size.clear_side_m),
                ("service_side", u.size.clear_service_m),
                ("front", u.size.clear_front_m),
                ("above", u.size.clear_above_m),
            ] {
                let mut of = of.clone();
                let need = required(input, k, need, &mut of);
                let rule = Rule {
                    what: name_of(k),
                    ..SPACE
                };
                compare(desk, &rule, &place, &key(k), need, of);
            }
        }
        for d in &rules.siting.distance {
            let mut of = source(&d.source, &d.place);
            let need = required(input, &d.key, d.at_least_m, &mut of);
            let level = match d.level.as_str() {
                "stop" => Level::Stop,
                "ask" => Level::Ask,
                _ => Level::Fix,
            };
            let rule = Rule {
                what: name_of(&d.key),
                level,
                ..DISTANCE
            };
            compare(desk, &rule, &place, &key(&d.key), need, of);
        }
        snow(input, rules, desk, p, &key, &place);
        desk.must(
            &ROOF,
            &place,
            p.roof_drip
                .as_deref()
                .map(|r| matches!(r, "nothing" | "covered")),
            p.roof_drip.as_deref().unwrap_or("not looked at"),
            "nothing, or covered",
            card("F13"),
        );
        desk.must(
            &WIND,
            &place,
            p.faces_wind.map(|f| !f),
            yes_no(p.faces_wind),
            "turned away or baffled",
            card("F13"),
        );
        desk.must(
            &WALK,
            &place,
            p.water_crosses_walk.map(|w| !w),
            yes_no(p.water_crosses_walk),
            "no",
            card("F13"),
        );
        water(input, desk, p, &outdoor.name, &key, &place);
        if p.on == "bracket" {
            desk.must(
                &FIXED,
                &place,
                p.fixed_to
                    .as_deref()
                    .map(|f| matches!(f, "masonry" | "blocking")),
                p.fixed_to.as_deref().unwrap_or("not known"),
                "masonry or blocking",
                card("F13"),
            );
            desk.must(
                &BEDROOM,
                &place,
                p.bedroom_wall.map(|b| !b),
                yes_no(p.bedroom_wall),
                "no",
                card("F13"),
            );
            pull(desk, p, unit, &key, &place);
        }
    }
    for listener in &input.job.installation.listeners {
        sound(input, desk, listener);
    }
    if input.job.installation.listeners.is_empty() && !input.job.equipment.outdoors.is_empty() {
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

fn name_of(key: &str) -> &'static str {
    match key {
        "rear" => "free space behind",
        "side" => "free space at the side",
        "service_side" => "free space at the service side",
        "front" => "free space in front",
        "above" => "free space above",
        "gas_regulator" => "to the vent of a gas regulator",
        "dryer" => "to a dryer outlet",
        "window" => "to a window that opens",
        "intake" => "to a combustion or fresh-air intake",
        "meter_space" => "clear space in front of meter and disconnect",
        "lot_line" => "to the lot line",
        _ => "distance",
    }
}

/// What the person brings with its source wins.
fn required(input: &Input<'_>, key: &str, own: Option<f64>, of: &mut Source) -> Option<f64> {
    let brought = input
        .job
        .installation
        .requirements
        .iter()
        .find(|r| r.of == key);
    match brought {
        Some(r) => {
            *of = Source::job(format!("requirement.{key}: {}", r.source));
            Some(r.at_least_m)
        }
        None => own,
    }
}

fn compare(desk: &mut Desk, rule: &Rule, place: &str, key: &str, need: Option<f64>, of: Source) {
    let need = need.map(|m| {
        desk.given(
            format!("{key}.required"),
            "required",
            m,
            Dim::Length,
            of.clone(),
        )
    });
    desk.at_least(rule, place, Some(key), need.as_deref(), of);
}

fn snow(
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

/// Water of a winter and the ice it would make.
fn water(
    input: &Input<'_>,
    desk: &mut Desk,
    p: &OutdoorPlace,
    name: &str,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
    let unit = input
        .year
        .and_then(|y| Some((y, y.units.iter().find(|u| u.name == name)?)));
    if let Some((year, unit)) = unit {
        // heating regimes: cycling, modulating, full
        let (mut frosting, mut heating) = (0.0, 0.0);
        for (r, t) in unit.by_hour.iter().zip(&year.outdoor_c) {
            if (1..=3).contains(r) {
                heating += 1.0;
                if *t > FROST_BAND_C.0 && *t < FROST_BAND_C.1 {
                    frosting += 1.0;
                }
            }
        }
        let mut put = |k: &str, what: &str, value: f64, dim: Dim, words: &'static str| {
            desk.book.put(Figure {
                key: key(k),
                what: what.to_owned(),
                value,
                dim,
                formula: words.into(),
                inputs: Vec::new(),
                source: Source::new("northwall", "season, hours of the outdoor unit"),
                known: None,
            });
        };
        put(
            "heat",
            "heat given by the unit",
            unit.heat_j,
            Dim::Heat,
            "over the year: heat of the unit, summed over hours",
        );
        put(
            "electric",
            "electricity for it",
            unit.electric.heating_j(),
            Dim::ElectricEnergy,
            "over the year: electricity of heating, summed over hours",
        );
        put(
            "hours-frosting",
            "heating hours between 14 and 42 F outdoors",
            frosting * 3600.0,
            Dim::Hours,
            "over the year: heating hours in the frosting band",
        );
        put(
            "hours-heating",
            "heating hours",
            heating * 3600.0,
            Dim::Hours,
            "over the year: hours in which the unit heats",
        );
        let of = || {
            Source::new(
                "common-practice",
                "share of frost 0.2 of the heat from the air, usual 0.1 to 0.25; 2.83 MJ to a kilogram of frost",
            )
        };
        desk.given(
            key("frost-share"),
            "share of that heat that is frost",
            FROST_SHARE,
            Dim::Share,
            of(),
        );
        desk.given(
            key("ice-heat"),
            "heat of frost, J/kg",
            2.834e6,
            Dim::Ratio,
            Source::new(
                "ashrae-fundamentals-2017",
                "chapter 1, sublimation near 0 C",
            ),
        );
        if heating > 0.0 {
            desk.reckon(
                key("water"),
                "meltwater of a year",
                Dim::Mass,
                "s * (Q - E) * f / h / c",
                &[
                    ("s", &key("frost-share")),
                    ("Q", &key("heat")),
                    ("E", &key("electric")),
                    ("f", &key("hours-frosting")),
                    ("h", &key("hours-heating")),
                    ("c", &key("ice-heat")),
                ],
                of(),
            );
        }
    }
    let area = p.ice_area_m2.map(|a| {
        desk.measured(
            key("ice-area"),
            "ground it spreads over",
            a,
            Dim::Area,
            format!("outdoor_place.{name}.ice_area"),
        );
        key("ice-area")
    });
    let thick = area.and_then(|a| {
        desk.given(
            key("ice-density"),
            "ice",
            917.0,
            Dim::Density,
            Source::new("from-memory", "ice at 0 C"),
        );
        desk.reckon(
            key("ice"),
            "ice if nothing drains or thaws",
            Dim::SmallLength,
            "m / (r * A)",
            &[("m", &key("water")), ("r", &key("ice-density")), ("A", &a)],
            card("F13"),
        )?;
        Some(key("ice"))
    });
    let most = desk.given(
        key("ice-most"),
        "usual most under a bracket",
        0.1524,
        Dim::SmallLength,
        Source::new("common-practice", "4 to 6 in of ice where it drains"),
    );
    desk.at_most(
        &ICE,
        place,
        thick.as_deref(),
        Some(&most),
        Source::new("common-practice", "4 to 6 in of ice where it drains"),
    );
}

/// Pull of the upper fixings: the unit's weight hangs out from the wall.
fn pull(
    desk: &mut Desk,
    p: &OutdoorPlace,
    unit: Option<&heatpump::Sheet>,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
    let statics = || {
        Source::new(
            "common-practice",
            "moments about the lower fixings; weight in the middle of the depth, a gap behind as measured; half of the fixings are above",
        )
    };
    let done = (|| {
        let unit = unit?;
        let of = sheet(&unit.name, unit.size.page.as_ref());
        desk.given(
            key("weight"),
            "weight",
            unit.size.weight_kg?,
            Dim::Mass,
            of.clone(),
        );
        desk.given(
            key("depth"),
            "depth",
            unit.size.depth_m?,
            Dim::SmallLength,
            of,
        );
        desk.given(
            key("span"),
            "between upper and lower fixings",
            p.fixing_span_m?,
            Dim::Length,
            Source::job(format!("{place}.fixing_span")),
        );
        desk.given(
            key("upper"),
            "upper fixings",
            f64::from(p.fixings?) / 2.0,
            Dim::Count,
            Source::job(format!("{place}.fixings")),
        );
        desk.reckon(
            key("pull"),
            "pull of one upper fixing, as a weight",
            Dim::Mass,
            "m * (g + d / 2) / (a * n)",
            &[
                ("m", &key("weight")),
                ("g", &key("rear")),
                ("d", &key("depth")),
                ("a", &key("span")),
                ("n", &key("upper")),
            ],
            statics(),
        )?;
        Some(key("pull"))
    })();
    let most = p.fixing_pull_n.map(|n| {
        desk.given(
            key("pull-most"),
            "one fixing holds, as a weight",
            n / 9.80665,
            Dim::Mass,
            Source::job(format!("{place}.fixing_pull")),
        )
    });
    desk.at_most(&PULL, place, done.as_deref(), most.as_deref(), statics());
}

fn sound(input: &Input<'_>, desk: &mut Desk, l: &Listener) {
    let key = |what: &str| format!("sound.{}.{what}", l.name);
    let place = format!("listener.{}", l.name);
    for (when, rule, limit) in [("day", &DAY, l.day_db), ("night", &NIGHT, l.night_db)] {
        let mut parts = Vec::new();
        for (outdoor, m) in &l.hears {
            let Some(k) = heard(input, desk, l, outdoor, *m, when) else {
                break;
            };
            parts.push(k);
        }
        let complete = !parts.is_empty() && parts.len() == l.hears.len();
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
    let unit = input.outdoors().find(|(o, _)| o.name == outdoor)?.1?;
    let s = &unit.sound;
    // by night in winter it heats; the quiet setting is no promise
    let power = match when {
        "night" => s.power_heating_db,
        _ => s
            .power_heating_db
            .into_iter()
            .chain(s.power_cooling_db)
            .reduce(f64::max),
    }?;
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
        key("power"),
        "sound power",
        power,
        Dim::Sound,
        sheet(&unit.name, s.page.as_ref()),
    );
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
            ("Lw", &key("power")),
            ("Q", &key("around")),
            ("r", &key("distance")),
        ],
        iso(),
    )?;
    desk.reckon(
        key("energy"),
        "as energy",
        Dim::Ratio,
        "10^(L / 10)",
        &[("L", &key("level"))],
        iso(),
    )?;
    Some(key("energy"))
}
