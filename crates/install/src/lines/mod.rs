//! Refrigerant lines: lengths with fittings, height with its sign, pressure lost, velocity, and
//! which tube holds the test pressure.

mod gas;
mod made;
mod plan;
mod route;

use heatpump::Sheet;
use jobfile::{AsBuiltValue, HeadChoice, Line};
use reckon::{Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet};
use crate::outdoors::yard::Spot;

pub(crate) use gas::refrigerant;

/// A right-angle bend of drawn tube as so many diameters of straight tube.
const BEND_DIAMETERS: f64 = 20.0;

const TOTAL: Rule = Rule {
    name: "lines-total",
    level: Level::Stop,
    what: "all lines of the unit together",
    mend: "Fewer heads on this unit, or shorter routes.",
    tell: "Measure every line and read the total from the unit's sheet.",
};
const BETWEEN: Rule = Rule {
    name: "heads-height",
    level: Level::Stop,
    what: "height between the heads of one unit",
    mend: "Put the heads that lie far apart in height on units of their own.",
    tell: "Say the rise of every piece, and read the limit from the unit's sheet.",
};
const GIVEN: Rule = Rule {
    name: "line-route",
    level: Level::Fix,
    what: "route of the lines",
    mend: "Add a [[line]] for the head.",
    tell: "Walk the route with a tape: a [[line]] for the head, piece by piece.",
};

/// Judges all lines.
pub(crate) fn judge(input: &Input<'_>, desk: &mut Desk, spots: &[(String, Spot)]) {
    for (outdoor, unit) in input.outdoors() {
        let mut runs = Vec::new();
        let mut rises = Vec::new();
        for head in input.heads_on(&outdoor.name) {
            let place = format!("head.{}", head.name);
            let lines = &input.job.installation.lines;
            let line = lines.iter().find(|l| l.head == head.name);
            let Some(line) = line else {
                desk.must(
                    &GIVEN,
                    &place,
                    None,
                    "not measured",
                    "every piece",
                    card("F15"),
                );
                continue;
            };
            let place = format!("line.{}", head.name);
            one(input, desk, line, head, unit, &place);
            let spot = spots.iter().find(|(name, _)| *name == outdoor.name);
            plan::judge(input, desk, line, spot.map(|s| s.1.foot_m), &place);
            runs.push(format!("lines.{}.length", head.name));
            rises.push(desk.book.value(&format!("lines.{}.rise", head.name)));
        }
        let place = format!("outdoor.{}", outdoor.name);
        let total = format!("lines.{}.total", outdoor.name);
        let all = input.heads_on(&outdoor.name).count();
        let known = !runs.is_empty() && runs.len() == all;
        if known {
            desk.add_up(
                &total,
                "all lines of the unit",
                Dim::Length,
                &runs,
                card("F15"),
            );
        }
        let Some(unit) = unit else { continue };
        if all > 1 {
            let of = sheet(&unit.name, unit.lines.page.as_ref());
            let most = limit(desk, outdoor, unit.lines.total_m, "total-limit", &of);
            desk.at_most(
                &TOTAL,
                &place,
                known.then_some(total.as_str()),
                most.as_deref(),
                of.clone(),
            );
            let between = format!("lines.{}.between", outdoor.name);
            let known: Vec<f64> = rises.iter().flatten().copied().collect();
            let complete = known.len() == all;
            if complete {
                let high = known.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                let low = known.iter().copied().fold(f64::INFINITY, f64::min);
                let (h, l) = (format!("{between}.high"), format!("{between}.low"));
                desk.given(h.clone(), "highest head", high, Dim::Length, card("F15"));
                desk.given(l.clone(), "lowest head", low, Dim::Length, card("F15"));
                desk.reckon(
                    between.clone(),
                    "height between heads",
                    Dim::Length,
                    "H - L",
                    &[("H", &h), ("L", &l)],
                    card("F15"),
                );
            }
            let most = limit(
                desk,
                outdoor,
                unit.lines.height_between_heads_m,
                "between-limit",
                &of,
            );
            desk.at_most(
                &BETWEEN,
                &place,
                complete.then_some(between.as_str()),
                most.as_deref(),
                of,
            );
        }
    }
}

fn limit(
    desk: &mut Desk,
    outdoor: &jobfile::OutdoorChoice,
    value: Option<f64>,
    name: &str,
    of: &Source,
) -> Option<String> {
    let key = format!("lines.{}.{name}", outdoor.name);
    value.map(|v| desk.given(key, "limit of the sheet", v, Dim::Length, of.clone()))
}

fn one(
    input: &Input<'_>,
    desk: &mut Desk,
    line: &Line,
    head: &HeadChoice,
    unit: Option<&Sheet>,
    place: &str,
) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let mut lengths = Vec::new();
    for (i, piece) in line.pieces.iter().enumerate() {
        let k = key(&format!("piece-{}", i + 1));
        desk.measured(
            k.clone(),
            &piece.name,
            piece.length_m,
            Dim::Length,
            format!("{place}.pieces"),
        );
        lengths.push(k);
    }
    desk.add_up(
        &key("planned"),
        "length as planned",
        Dim::Length,
        &lengths,
        card("F15"),
    );
    let built = input.job.as_built.iter().rev().find_map(|b| match b.value {
        AsBuiltValue::LineLength(m) if b.path == format!("head.{}.line_length", head.name) => {
            Some(m)
        }
        _ => None,
    });
    let length = key("length");
    match built {
        Some(m) => desk.measured(
            length.clone(),
            "length as built",
            m,
            Dim::Length,
            "as_built".into(),
        ),
        None => {
            desk.reckon(
                length.clone(),
                "length of the line",
                Dim::Length,
                "L",
                &[("L", &key("planned"))],
                card("F15"),
            );
        }
    }
    let bends: u32 = line.pieces.iter().map(|p| p.bends).sum();
    let gas_m = line.gas_m.or(unit.and_then(|u| u.lines.gas_m));
    desk.measured(
        key("bends"),
        "bends",
        f64::from(bends),
        Dim::Count,
        format!("{place}.pieces"),
    );
    desk.given(
        key("bend"),
        "a bend in diameters",
        BEND_DIAMETERS,
        Dim::Ratio,
        Source::new("crane-410", "right-angle bend of small radius, from memory"),
    );
    let with = key("with-fittings");
    if let Some(gas) = gas_m {
        desk.given(
            key("gas"),
            "gas tube outside",
            gas,
            Dim::SmallLength,
            Source::job(format!("{place}.gas")),
        );
        desk.reckon(
            with.clone(),
            "length with fittings",
            Dim::Length,
            "L + n * k * D",
            &[
                ("L", &length),
                ("n", &key("bends")),
                ("k", &key("bend")),
                ("D", &key("gas")),
            ],
            card("F15"),
        );
    }
    let rise: Option<f64> = line.pieces.iter().map(|p| p.rise_m).sum();
    if let Some(rise) = rise {
        desk.measured(
            key("rise"),
            "head above the outdoor unit (below zero: under it)",
            rise,
            Dim::Length,
            format!("{place}.pieces"),
        );
    }
    route::judge(desk, line, unit, rise, place);
    gas::judge(input, desk, line, head, unit, gas_m, place);
    made::judge(desk, line, gas_m, place);
}
