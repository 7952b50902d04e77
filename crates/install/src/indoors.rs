//! Heads: free space, structure, reach of the jet and its rise or drop, the worst glass, draught
//! at seats, the sensor's height, access for service.
//!
//! Long because: all that is judged of a head, its rules beside it; to be divided by rule.

use heatpump::{HeadKind, Kind, Sheet};
use jobfile::{HeadChoice, HeadPlace};
use reckon::{Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet};

const SPACE: Rule = Rule {
    name: "head-space",
    level: Level::Stop,
    what: "free space around the head",
    mend: "Move the head as its sheet asks.",
    tell: "Measure, and read the sheet.",
};
const BAY: Rule = Rule {
    name: "head-bay",
    level: Level::Stop,
    what: "room between joists",
    mend: "Another place or another kind of head: joists are not cut.",
    tell: "Measure between the joists, and read the head's size.",
};
const FIXED: Rule = Rule {
    name: "head-fixed",
    level: Level::Fix,
    what: "what the head is fixed to",
    mend: "Studs or blocking behind the plate.",
    tell: "Find the studs.",
};
const JOINT: Rule = Rule {
    name: "head-joint",
    level: Level::Fix,
    what: "reaching the joints",
    mend: "A hatch, or joints where they can be reached: flares leak first.",
    tell: "Say whether the joints can be reached without opening anything.",
};
const HAZARD: Rule = Rule {
    name: "old-wall",
    level: Level::Stop,
    what: "asbestos and lead before drilling",
    mend: "No drilling until it was tested.",
    tell: "Age of the house; test what is painted or sprayed.",
};
const REACH: Rule = Rule {
    name: "jet-reach",
    level: Level::Fix,
    what: "reach of the jet against the far side of the room",
    mend: "A head with more throw, or one that blows the long way.",
    tell: "Place and direction of the head ([[head_place]]), and the throw from its sheet.",
};
const RISE: Rule = Rule {
    name: "jet-rise",
    level: Level::Note,
    what: "rise of the warm jet over half its throw",
    mend: "Louvre down in heating; a floor console mixes best.",
    tell: "Air flow and throw from the head's sheet.",
};
const GLASS: Rule = Rule {
    name: "worst-glass",
    level: Level::Note,
    what: "largest cold glass of the room against the way the head blows",
    mend: "Put the head at or beside this glass, or blow at it.",
    tell: "Say where the head hangs and which way it blows.",
};
const DRAUGHT: Rule = Rule {
    name: "seat-draught",
    level: Level::Fix,
    what: "air speed where somebody sits or sleeps",
    mend: "Turn the louvre away, or move the head.",
    tell: "Say where people sit: seats in [[head_place]].",
};
const SENSOR: Rule = Rule {
    name: "sensor-height",
    level: Level::Note,
    what: "height of the head, whose sensor reads the air there",
    mend: "A wall sensor at 5 ft, or a higher setting: tell the owner the offset.",
    tell: "Measure the height of the outlet.",
};

/// Constant of the jet's fall or rise: dy/d = c Ar (x/d)^3, round free jet.
const BEND: f64 = 0.065;

/// Judges every head.
pub(crate) fn judge(input: &Input<'_>, desk: &mut Desk) {
    let none = HeadPlace::default();
    for head in &input.job.equipment.heads {
        let all = &input.job.installation.heads;
        let p = all.iter().find(|p| p.head == head.name).unwrap_or(&none);
        let place = format!("head.{}", head.name);
        let unit = input.sheet(&head.unit);
        space(desk, head, p, unit, &place);
        air(input, desk, head, p, unit, &place);
        glass(input, desk, head, p, &place);
    }
}

fn space(desk: &mut Desk, head: &HeadChoice, p: &HeadPlace, unit: Option<&Sheet>, place: &str) {
    let key = |what: &str| format!("indoors.{}.{what}", head.name);
    let at = |what: &str| format!("head_place.{}.{what}", head.name);
    for (k, v) in [
        ("above", p.above_m),
        ("side", p.side_m),
        ("front", p.front_m),
        ("bay", p.bay_m),
        ("height", p.height_m),
    ] {
        if let Some(m) = v {
            desk.measured(key(k), k, m, Dim::Length, at(k));
        }
    }
    let Some(u) = unit else { return };
    let of = sheet(&u.name, u.size.page.as_ref());
    for (k, what, need) in [
        ("above", "free space above", u.size.clear_above_m),
        ("side", "free space at the side", u.size.clear_side_m),
        ("front", "free space in front", u.size.clear_front_m),
    ] {
        let rule = Rule { what, ..SPACE };
        let need = need.map(|m| {
            desk.given(
                key(&format!("{k}.required")),
                "required",
                m,
                Dim::Length,
                of.clone(),
            )
        });
        desk.at_least(&rule, place, Some(&key(k)), need.as_deref(), of.clone());
    }
    let in_ceiling = matches!(
        u.kind,
        Kind::Head(HeadKind::CeilingCassette | HeadKind::SlimDuct)
    );
    if in_ceiling {
        let need = u.size.width_m.map(|m| {
            desk.given(
                key("bay.required"),
                "width of the head",
                m,
                Dim::Length,
                of.clone(),
            )
        });
        desk.at_least(&BAY, place, Some(&key("bay")), need.as_deref(), of);
    }
    let good = p.fixed_to.as_deref().map(|f| f != "board only");
    desk.must(
        &FIXED,
        place,
        good,
        p.fixed_to.as_deref().unwrap_or("not known"),
        "studs, joists, blocking, masonry or floor",
        card("A.4"),
    );
    let word = |y: Option<bool>| y.map_or("not said", |y| if y { "yes" } else { "no" });
    desk.must(
        &JOINT,
        place,
        p.joint_reach,
        word(p.joint_reach),
        "yes",
        card("A.4"),
    );
    desk.must(
        &HAZARD,
        place,
        p.hazard_checked,
        word(p.hazard_checked),
        "looked at",
        Source::new("common-practice", "old walls"),
    );
}

fn air(
    input: &Input<'_>,
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
    unit: Option<&Sheet>,
    place: &str,
) {
    let key = |what: &str| format!("indoors.{}.{what}", head.name);
    let room = input.job.house.rooms.iter().find(|r| r.name == head.room);
    let data = unit.and_then(|u| u.head.as_ref());
    let throw = data.and_then(|d| {
        d.throw_m.map(|t| {
            desk.given(
                key("throw"),
                "throw of the sheet",
                t,
                Dim::Length,
                sheet(&head.unit, d.page.as_ref()),
            )
        })
    });
    let ahead = p
        .at_m
        .zip(p.blows_deg)
        .zip(room)
        .and_then(|((at, deg), room)| ahead_m(at, deg, &room.outline));
    if let Some(m) = ahead {
        desk.measured(
            key("ahead"),
            "room ahead of the head",
            m,
            Dim::Length,
            format!("head_place.{}.at", head.name),
        );
        desk.reckon(
            key("ahead-most"),
            "reach asked: three quarters of it",
            Dim::Length,
            "0.75 * x",
            &[("x", &key("ahead"))],
            Source::new(
                "common-practice",
                "throw at least three quarters of the room",
            ),
        );
    }
    let far = Source::new(
        "common-practice",
        "throw at least three quarters of the room",
    );
    desk.at_least(
        &REACH,
        place,
        throw.as_deref(),
        ahead.map(|_| key("ahead-most")).as_deref(),
        far,
    );
    let jet = || {
        Source::new(
            "ashrae-fundamentals-2017",
            "nonisothermal free jet, constants from memory; terminal speed 0.25 m/s at the throw",
        )
    };
    desk.given(
        key("terminal"),
        "speed at the throw",
        0.25,
        Dim::AirSpeed,
        jet(),
    );
    let rise = (|| {
        let d = data?;
        // the outlet of a cassette or a duct is not one jet
        let one = matches!(
            unit?.kind,
            Kind::Head(HeadKind::Wall | HeadKind::FloorConsole)
        );
        let width = unit?.size.width_m.filter(|_| one)?;
        let of = sheet(&head.unit, d.page.as_ref());
        let flow = *d.air_m3_per_s.last()?;
        let slot = || {
            Source::new(
                "common-practice",
                "outlet 0.06 m high over 0.8 of the width",
            )
        };
        for (k, what, v, dim, of) in [
            (
                "air",
                "air at the highest speed",
                flow,
                Dim::VolumeFlow,
                of.clone(),
            ),
            (
                "heat",
                "most heat",
                d.heating_max_w?,
                Dim::Power,
                of.clone(),
            ),
            ("width", "width of the head", width, Dim::Length, of),
            (
                "slot",
                "height of the outlet",
                0.06,
                Dim::SmallLength,
                slot(),
            ),
            (
                "jet-constant",
                "bend of a free jet",
                BEND,
                Dim::Ratio,
                jet(),
            ),
        ] {
            desk.given(key(k), what, v, dim, of);
        }
        let k = |w: &str| key(w);
        desk.reckon(
            k("warmer"),
            "air out of the head over the room",
            Dim::TemperatureDifference,
            "Q / (1206 * q)",
            &[("Q", &k("heat")), ("q", &k("air"))],
            card("F24"),
        )?;
        desk.reckon(
            k("outlet"),
            "outlet",
            Dim::Area,
            "0.8 * w * h",
            &[("w", &k("width")), ("h", &k("slot"))],
            slot(),
        )?;
        desk.reckon(
            k("rise"),
            "rise of the warm jet at half its throw",
            Dim::Length,
            "c * 9.81 * T / 294 / (q / A)^2 * (X / 2)^3 / sqrt(A)",
            &[
                ("c", &k("jet-constant")),
                ("T", &k("warmer")),
                ("q", &k("air")),
                ("A", &k("outlet")),
                ("X", &k("throw")),
            ],
            jet(),
        )?;
        Some(key("rise"))
    })();
    let most = desk.given(key("rise-most"), "usual most", 0.6, Dim::Length, jet());
    desk.at_most(&RISE, place, rise.as_deref(), Some(&most), jet());
    for (i, seat) in p.seats_m.iter().enumerate() {
        let k = key(&format!("seat-{}", i + 1));
        let speed = p.at_m.map(|at| {
            let x = libm::hypot(seat[0] - at[0], seat[1] - at[1]);
            desk.measured(
                format!("{k}.away"),
                "seat to head",
                x.max(0.3),
                Dim::Length,
                format!("head_place.{}.seats", head.name),
            );
            // straight in the jet: the worst the louvre can do
            desk.reckon(
                k.clone(),
                "air speed at the seat, in the middle of the jet",
                Dim::AirSpeed,
                "vt * X / x",
                &[
                    ("vt", &key("terminal")),
                    ("X", &key("throw")),
                    ("x", &format!("{k}.away")),
                ],
                jet(),
            )
        });
        let facing = p.at_m.zip(p.blows_deg).map(|(at, deg)| {
            let (e, n) = (seat[0] - at[0], seat[1] - at[1]);
            let (de, dn) = (libm::sin(deg.to_radians()), libm::cos(deg.to_radians()));
            let size = libm::hypot(e, n).max(1e-9);
            (e * de + n * dn) / size > 0.94
        });
        let most = desk.given(
            key("draught-most"),
            "most in the seated zone",
            0.20,
            Dim::AirSpeed,
            card("F12"),
        );
        if facing == Some(false) {
            desk.must(
                &DRAUGHT,
                place,
                Some(true),
                "outside the jet",
                "not more than 20 degrees off, or slow",
                card("F12"),
            );
        } else {
            desk.at_most(
                &DRAUGHT,
                place,
                speed.flatten().map(|_| k.as_str()),
                Some(&most),
                card("F12"),
            );
        }
    }
    if p.seats_m.is_empty() {
        desk.must(
            &DRAUGHT,
            place,
            None,
            "no seats named",
            "0.20 m/s at most",
            card("F12"),
        );
    }
    let high = desk.given(
        key("sensor-most"),
        "height of a room sensor",
        1.8,
        Dim::Length,
        card("A.4"),
    );
    desk.at_most(
        &SENSOR,
        place,
        Some(&key("height")),
        Some(&high),
        card("A.4"),
    );
}

/// Way from the head to the wall it blows at, m; `None` outside the room.
fn ahead_m(at: [f64; 2], deg: f64, outline: &[[f64; 2]]) -> Option<f64> {
    let (e, n) = (libm::sin(deg.to_radians()), libm::cos(deg.to_radians()));
    let mut best: Option<f64> = None;
    for (i, a) in outline.iter().enumerate() {
        let b = outline.get((i + 1) % outline.len())?;
        let (we, wn) = (b[0] - a[0], b[1] - a[1]);
        let cross = e * wn - n * we;
        if cross.abs() < 1e-9 {
            continue;
        }
        let (re, rn) = (a[0] - at[0], a[1] - at[1]);
        let along = (re * wn - rn * we) / cross;
        let share = (re * n - rn * e) / cross;
        // half a foot: a head on a wall does not blow at that wall
        if along > 0.15 && (0.0..=1.0).contains(&share) {
            best = Some(best.map_or(along, |b: f64| b.min(along)));
        }
    }
    best
}

/// Which way the worst glass of the room lies.
fn glass(input: &Input<'_>, desk: &mut Desk, head: &HeadChoice, p: &HeadPlace, place: &str) {
    use house::describe::{Compass, Side};
    let key = |what: &str| format!("indoors.{}.{what}", head.name);
    let windows = input
        .job
        .house
        .windows
        .iter()
        .filter(|w| w.room == head.room);
    let Some(worst) =
        windows.max_by(|a, b| (a.width_m * a.height_m).total_cmp(&(b.width_m * b.height_m)))
    else {
        return;
    };
    let area = worst.width_m * worst.height_m;
    desk.given(
        key("glass"),
        "largest window",
        area,
        Dim::Area,
        Source::job(format!("window {}", head.room)),
    );
    let faces = match &worst.side {
        Side::Facing(Compass::North) => Some(0.0),
        Side::Facing(Compass::East) => Some(90.0),
        Side::Facing(Compass::South) => Some(180.0),
        Side::Facing(Compass::West) => Some(270.0),
        _ => None,
    };
    let off = faces.zip(p.blows_deg).map(|(f, b): (f64, f64)| {
        let d = (f - b).rem_euclid(360.0);
        d.min(360.0 - d)
    });
    // at it, or from under it into the room
    let good = off.map(|d| !(40.0..=140.0).contains(&d));
    let found = off.map_or("direction not said".to_owned(), |d| {
        format!("{d:.0} degrees off")
    });
    desk.must(
        &GLASS,
        place,
        good,
        &found,
        "washed by the jet, or the head stands at it",
        card("F12"),
    );
}
