//! Condensate: fall piece by piece, lift, trap, frost, how much runs, where it ends.

use jobfile::Drain;
use reckon::{Level, Verdict};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet, yes_no};

const GIVEN: Rule = Rule {
    name: "drain-route",
    level: Level::Fix,
    what: "route of the drain",
    mend: "Add a [[drain]] for the head.",
    tell: "Walk the route with tape and level: a [[drain]], piece by piece.",
};
const UPHILL: Rule = Rule {
    name: "drain-uphill",
    level: Level::Stop,
    what: "fall of a piece",
    mend: "Water does not run uphill: another route, or a pump.",
    tell: "Measure the fall of this piece.",
};
const FALL: Rule = Rule {
    name: "drain-fall",
    level: Level::Fix,
    what: "slope of a piece, 1 % is 1/8 in to the foot",
    mend: "At least 1/8 in to the foot, better 1/4: else water stands in it.",
    tell: "Measure the fall of this piece.",
};
const LIFT: Rule = Rule {
    name: "drain-lift",
    level: Level::Stop,
    what: "lift against the pump",
    mend: "A stronger pump or a lower route.",
    tell: "Rise of the pumped pieces, and the lift from the pump's sheet.",
};
const RATE: Rule = Rule {
    name: "drain-rate",
    level: Level::Fix,
    what: "what runs at design against the pump",
    mend: "A larger pump.",
    tell: "The pump's rate from its sheet.",
};
const SWITCH: Rule = Rule {
    name: "drain-overflow",
    level: Level::Fix,
    what: "overflow switch of the pump",
    mend: "Wire the switch so that it stops the unit.",
    tell: "Look at the pump.",
};
const FROST: Rule = Rule {
    name: "drain-frost",
    level: Level::Fix,
    what: "piece that can freeze",
    mend: "Keep it inside, insulate and warm it, or end it short of the cold.",
    tell: "Say for each piece whether it can freeze.",
};
const ENDS: Rule = Rule {
    name: "drain-end",
    level: Level::Stop,
    what: "where it ends",
    mend: "Gravel, ground away from walks, or a trapped sewer connection as the plumbing code asks.",
    tell: "Say where it ends.",
};
const TRAP: Rule = Rule {
    name: "drain-trap",
    level: Level::Fix,
    what: "trap into a sewer",
    mend: "A trap that keeps its water; none where the sheet says none.",
    tell: "Look.",
};

/// Judges the drains of all heads.
pub(crate) fn judge(input: &Input<'_>, desk: &mut Desk) {
    for head in &input.job.equipment.heads {
        let place = format!("head.{}", head.name);
        let all = &input.job.installation.drains;
        match all.iter().find(|d| d.head == head.name) {
            Some(d) => one(input, desk, d, &head.unit),
            None => desk.must(
                &GIVEN,
                &place,
                None,
                "not measured",
                "every piece",
                card("F26"),
            ),
        }
    }
}

fn one(input: &Input<'_>, desk: &mut Desk, d: &Drain, unit: &str) {
    let place = format!("drain.{}", d.head);
    let key = |what: &str| format!("drain.{}.{what}", d.head);
    let zero = desk.given(key("level"), "level", 0.0, Dim::SmallLength, card("F26"));
    let least = desk.given(
        key("slope-least"),
        "least slope, 1/8 in to the foot",
        1.0 / 96.0,
        Dim::Share,
        card("F26"),
    );
    let mut lift = Vec::new();
    for (i, p) in d.pieces.iter().enumerate() {
        let k = key(&format!("piece-{}", i + 1));
        let at = format!("{place}.pieces");
        desk.measured(
            format!("{k}.length"),
            &format!("length, {}", p.name),
            p.length_m,
            Dim::Length,
            at.clone(),
        );
        if let Some(f) = p.fall_m {
            let what = format!("fall, {}", p.name);
            desk.measured(format!("{k}.fall"), &what, f, Dim::SmallLength, at);
        }
        let there = format!("{place}, {}", p.name);
        if p.pumped {
            if p.fall_m.is_some() {
                desk.reckon(
                    format!("{k}.rise"),
                    format!("rise, {}", p.name),
                    Dim::Length,
                    "max(-f, 0)",
                    &[("f", &format!("{k}.fall"))],
                    card("F26"),
                );
            }
            lift.push(format!("{k}.rise"));
        } else {
            let fall = format!("{k}.fall");
            desk.at_least(&UPHILL, &there, Some(&fall), Some(&zero), card("F26"));
            let slope = format!("{k}.slope");
            desk.reckon(
                slope.clone(),
                format!("slope, {}", p.name),
                Dim::Share,
                "f / L",
                &[("f", &fall), ("L", &format!("{k}.length"))],
                card("F26"),
            );
            desk.at_least(&FALL, &there, Some(&slope), Some(&least), card("F26"));
        }
        let word = match p.freezes {
            Some(true) => "can freeze",
            Some(false) => "cannot",
            None => "not said",
        };
        desk.must(
            &FROST,
            &there,
            p.freezes.map(|f| !f),
            word,
            "not in the cold",
            card("F26"),
        );
    }
    rate(input, desk, d, unit);
    if !lift.is_empty() {
        let known = lift.iter().all(|k| desk.book.get(k).is_some());
        if known {
            desk.add_up(&key("lift"), "lift", Dim::Length, &lift, card("F26"));
        }
        if let Some(m) = d.pump_lift_m {
            desk.measured(
                key("pump-lift"),
                "lift of the pump",
                m,
                Dim::Length,
                format!("{place}.pump_lift"),
            );
        }
        if let Some(m) = d.pump_kg_per_s {
            desk.measured(
                key("pump-rate"),
                "what the pump moves",
                m,
                Dim::WaterFlow,
                format!("{place}.pump_rate"),
            );
        }
        desk.at_most(
            &LIFT,
            &place,
            known.then_some(key("lift").as_str()),
            Some(&key("pump-lift")),
            card("F26"),
        );
        desk.at_most(
            &RATE,
            &place,
            Some(&key("rate")),
            Some(&key("pump-rate")),
            card("F26"),
        );
        desk.must(
            &SWITCH,
            &place,
            d.overflow_switch,
            yes_no(d.overflow_switch),
            "there, wired to stop the unit",
            card("F26"),
        );
    }
    let end = d.ends.as_deref();
    let verdict = end.map_or(Verdict::CannotTell, |e| {
        if matches!(e, "walk" | "gutter") {
            Verdict::Fails
        } else {
            Verdict::Holds
        }
    });
    desk.say(
        &ENDS,
        &place,
        verdict,
        end.unwrap_or("not said").to_owned(),
        "not a walk, not a gutter that freezes".into(),
        Vec::new(),
        card("F26"),
    );
    if end == Some("sewer") {
        desk.must(&TRAP, &place, d.trap, yes_no(d.trap), "there", card("F26"));
    }
}

/// Water at the head's most cooling.
fn rate(input: &Input<'_>, desk: &mut Desk, d: &Drain, unit: &str) {
    let key = |what: &str| format!("drain.{}.{what}", d.head);
    let head = input.sheet(unit).and_then(|s| s.head.as_ref());
    let Some((head, most)) = head.and_then(|h| Some((h, h.cooling_max_w?))) else {
        return;
    };
    let on = input
        .job
        .equipment
        .heads
        .iter()
        .find(|h| h.name == d.head)
        .map(|h| h.on.as_str());
    let outdoor = input
        .outdoors()
        .find(|(o, _)| Some(o.name.as_str()) == on)
        .and_then(|(_, u)| u);
    let shr = outdoor.and_then(|u| {
        u.cooling
            .iter()
            .filter_map(|p| p.sensible_share)
            .reduce(f64::min)
    });
    let of = match (shr, outdoor) {
        (Some(_), Some(u)) => sheet(&u.name, None),
        _ => card("F26: usual sensible share 0.75"),
    };
    desk.given(
        key("cooling"),
        "most cooling",
        most,
        Dim::Power,
        sheet(unit, head.page.as_ref()),
    );
    desk.given(
        key("sensible"),
        "sensible share",
        shr.unwrap_or(0.75),
        Dim::Share,
        of,
    );
    desk.given(
        key("vapour-heat"),
        "heat of condensing",
        1060.0 * 2326.0,
        Dim::LatentHeat,
        card("F26, 1,060 Btu/lb"),
    );
    desk.reckon(
        key("rate"),
        "water at the most cooling",
        Dim::WaterFlow,
        "Q * (1 - s) / h",
        &[
            ("Q", &key("cooling")),
            ("s", &key("sensible")),
            ("h", &key("vapour-heat")),
        ],
        card("F26"),
    );
}
