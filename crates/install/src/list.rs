//! What to bring: cut list, tools, gases, weights; and what as-built values changed.

use heatpump::{HeadKind, Kind};
use jobfile::AsBuiltValue;
use reckon::{Level, Source};
use serde::Serialize;
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, both, card, sheet};

/// One thing to bring.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Item {
    /// What.
    pub what: String,
    /// How much, in words.
    pub amount: String,
    /// For which head or unit.
    pub of: String,
}

/// The list.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct List {
    /// Material.
    pub cut: Vec<Item>,
    /// Tools.
    pub tools: Vec<Item>,
    /// Things to lift.
    pub lifts: Vec<Item>,
    /// Cautions of the day.
    pub cautions: Vec<&'static str>,
}

const CALIBRATED: Rule = Rule {
    name: "tool-calibration",
    level: Level::Fix,
    what: "calibration of the tool",
    mend: "Have it calibrated, or bring another.",
    tell: "Name the tool with calibrated_until in a [[tool]], and the install_day in [codes].",
};
const PERMIT: Rule = Rule {
    name: "permits",
    level: Level::Fix,
    what: "permits",
    mend: "Get them before the day.",
    tell: "Write permits in [codes].",
};
const LIFT: Rule = Rule {
    name: "lift-weight",
    level: Level::Fix,
    what: "weight for two people",
    mend: "A hoist or a lift; nobody carries it up a ladder.",
    tell: "Read the weight from the sheet.",
};

/// Makes the list and judges tools and lifts.
pub(crate) fn list(input: &Input<'_>, desk: &mut Desk) -> List {
    let system = desk.system;
    let mut out = List::default();
    if input.job.equipment.outdoors.is_empty() {
        return out;
    }
    for head in &input.job.equipment.heads {
        cut(input, desk, &head.name, &mut out);
    }
    let most = desk.given(
        "list.two-people",
        "two people lift",
        45.0,
        Dim::Mass,
        Source::new("common-practice", "about 50 lb each"),
    );
    for (outdoor, unit) in input.outdoors() {
        let place = format!("outdoor.{}", outdoor.name);
        push(
            &mut out.cut,
            "whip, disconnect, surge device",
            "1 each",
            &outdoor.name,
        );
        push(
            &mut out.cut,
            "stand or bracket with rubber mounts",
            "1",
            &outdoor.name,
        );
        let Some(u) = unit else { continue };
        let weight = u.size.weight_kg.map(|kg| {
            desk.given(
                format!("list.{}.weight", outdoor.name),
                "weight",
                kg,
                Dim::Mass,
                sheet(&u.name, u.size.page.as_ref()),
            )
        });
        if let Some(kg) = u.size.weight_kg {
            push(
                &mut out.lifts,
                &u.name,
                &both(kg, Dim::Mass, system),
                &outdoor.name,
            );
        }
        desk.at_most(
            &LIFT,
            &place,
            weight.as_deref(),
            Some(&most),
            Source::new("common-practice", "about 50 lb each"),
        );
        let key = format!("charge.{}.to-weigh", outdoor.name);
        // less than a scale shows is nothing to bring
        if let Some(kg) = desk.book.value(&key).filter(|kg| kg.abs() >= 0.0005) {
            let word = if kg < 0.0 {
                "recovery cylinder, to take out"
            } else {
                "refrigerant, to add"
            };
            let name = u.refrigerant.as_deref().unwrap_or("refrigerant");
            push(
                &mut out.cut,
                &format!("{name}: {word}"),
                &both(kg.abs(), Dim::Mass, system),
                &outdoor.name,
            );
        }
        push(
            &mut out.cut,
            "circuit wire",
            &wire(input, desk, &outdoor.name),
            &outdoor.name,
        );
    }
    for head in &input.job.equipment.heads {
        let Some(u) = input.sheet(&head.unit) else {
            continue;
        };
        if let Some(kg) = u.size.weight_kg {
            let high = if matches!(u.kind, Kind::Head(HeadKind::FloorConsole)) {
                "to the floor"
            } else {
                "overhead"
            };
            push(
                &mut out.lifts,
                &u.name,
                &format!("{}, {high}", both(kg, Dim::Mass, system)),
                &head.name,
            );
        }
    }
    tools(input, desk, &mut out);
    let n = input.job.installation.codes.permits.len();
    let found = if n == 0 {
        "none named".to_owned()
    } else {
        input.job.installation.codes.permits.join(", ")
    };
    desk.must(
        &PERMIT,
        "codes",
        (n > 0).then_some(true),
        &found,
        "building and electrical, as the town asks",
        card("step 16"),
    );
    out.cautions = vec![
        "Pressure: nitrogen only through a regulator with relief; nobody in front of a cap.",
        "Refrigerant in a small room burns or takes the air away: windows open, no flame.",
        "Electricity: lock out, test, then touch. Capacitors keep their charge.",
        "Ladders: three points; nothing heavy carried up by hand.",
        "Combustion intakes and flues stay free; no unit blows at one.",
        "Old walls: asbestos and lead are looked at before the drill.",
        "The unit's own installation sheet, the local code and the licensed trades come first.",
    ];
    out
}

fn push(to: &mut Vec<Item>, what: &str, amount: &str, of: &str) {
    to.push(Item {
        what: what.to_owned(),
        amount: amount.to_owned(),
        of: of.to_owned(),
    });
}

fn wire(input: &Input<'_>, desk: &Desk, outdoor: &str) -> String {
    let circuit = input
        .job
        .installation
        .circuits
        .iter()
        .find(|c| c.outdoor == outdoor);
    let gauge = circuit
        .and_then(|c| c.wire)
        .map_or("gauge not said".to_owned(), |w| format!("{w} AWG"));
    format!("{}, {gauge}", desk.words(&format!("wires.{outdoor}.run")))
}

fn cut(input: &Input<'_>, desk: &mut Desk, head: &str, out: &mut List) {
    let system = desk.system;
    let length = format!("lines.{head}.length");
    let key = |what: &str| format!("list.{head}.{what}");
    let spare = desk.reckon(
        key("line-set"),
        "line set with a twentieth spare",
        Dim::Length,
        "1.05 * L",
        &[("L", &length)],
        card("F17"),
    );
    let amount = spare.map_or("route not measured".to_owned(), |m| {
        both(m, Dim::Length, system)
    });
    let line = input.job.installation.lines.iter().find(|l| l.head == head);
    push(&mut out.cut, "line set, insulated apart", &amount, head);
    push(&mut out.cut, "cable to the head, 4 x 14 AWG", &amount, head);
    push(
        &mut out.cut,
        "flare nuts and flares, by torque",
        "4, and 2 spare nuts",
        head,
    );
    push(
        &mut out.cut,
        "sleeve 65 to 75 mm, sealant both sides",
        "1",
        head,
    );
    if let Some(line) = line {
        for p in &line.pieces {
            push(
                &mut out.cut,
                &format!("cover: {}", p.name),
                &both(p.length_m, Dim::Length, system),
                head,
            );
        }
        desk.given(
            "list.strap",
            "between straps",
            1.2192,
            Dim::Length,
            card("F17, 4 to 6 ft"),
        );
        if let Some(n) = desk.reckon(
            key("straps"),
            "straps",
            Dim::Count,
            "ceil(L / s + 2)",
            &[("L", &length), ("s", "list.strap")],
            card("F17"),
        ) {
            push(&mut out.cut, "straps", &format!("{n:.0}"), head);
        }
        if line.fire_wall == Some(true) {
            push(
                &mut out.cut,
                "listed firestop",
                line.firestop.as_deref().unwrap_or("not chosen"),
                head,
            );
        }
        nitrogen(desk, line, head, out);
    }
    let drain = input
        .job
        .installation
        .drains
        .iter()
        .find(|d| d.head == head);
    let m: f64 = drain.map_or(0.0, |d| d.pieces.iter().map(|p| p.length_m).sum());
    let amount = if drain.is_some() {
        both(m * 1.05, Dim::Length, system)
    } else {
        "route not measured".to_owned()
    };
    push(&mut out.cut, "drain hose or pipe", &amount, head);
}

/// Nitrogen that fills the lines to the test pressure, as gas at the air's pressure.
fn nitrogen(desk: &mut Desk, line: &jobfile::Line, head: &str, out: &mut List) {
    let system = desk.system;
    let key = |what: &str| format!("list.{head}.{what}");
    let (l, d, p) = (
        format!("lines.{head}.length"),
        format!("lines.{head}.inside"),
        format!("lines.{head}.test"),
    );
    let done = desk.reckon(
        key("nitrogen"),
        "nitrogen for one filling of the gas line, at the air's pressure",
        Dim::Volume,
        "3.141592653589793 / 4 * D^2 * L * p / 101325",
        &[("D", &d), ("L", &l), ("p", &p)],
        card("F17, litres times bar"),
    );
    let amount = done.map_or("test pressure or tube not said".to_owned(), |m3| {
        both(m3, Dim::Volume, system)
    });
    push(
        &mut out.cut,
        "nitrogen for a filling, and as much to flow while brazing",
        &amount,
        &line.head,
    );
}

fn tools(input: &Input<'_>, desk: &mut Desk, out: &mut List) {
    let day = input.job.installation.codes.install_day.as_deref();
    for name in ["torque wrench", "digital gauge", "micron gauge", "scale"] {
        let all = &input.job.installation.tools;
        let until = all
            .iter()
            .find(|t| t.name == name)
            .and_then(|t| t.calibrated_until.as_deref());
        // days as typed sort as text
        let good = until.zip(day).map(|(u, d)| u >= d);
        let found = until.map_or("no date".to_owned(), |u| format!("until {u}"));
        let rule = Rule {
            what: name,
            ..CALIBRATED
        };
        desk.must(
            &rule,
            "tool",
            good,
            &found,
            &format!("to {} at least", day.unwrap_or("the day of installation")),
            card("F17"),
        );
        push(&mut out.tools, name, &found, "");
    }
    for name in [
        "flaring tool, deburrer, flare oil",
        "vacuum pump and core tools",
        "nitrogen regulator with relief",
        "thermometers, clamp meter, level",
        "bottle of water for the drain",
        "hole saw, stud finder",
    ] {
        push(&mut out.tools, name, "", "");
    }
}

/// What as-built values changed downstream, in sentences.
pub(crate) fn changed(input: &Input<'_>, desk: &Desk) -> Vec<String> {
    let system = desk.system;
    let mut out = Vec::new();
    for b in &input.job.as_built {
        match b.value {
            AsBuiltValue::LineLength(m) => {
                let head = b
                    .path
                    .trim_start_matches("head.")
                    .trim_end_matches(".line_length");
                let on = input
                    .job
                    .equipment
                    .heads
                    .iter()
                    .find(|h| h.name == head)
                    .map_or("", |h| h.on.as_str());
                out.push(format!(
                    "line to {head}: planned {}, built {} ({}, {}); trim of {on} is now {}, total {}",
                    desk.words(&format!("lines.{head}.planned")),
                    both(m, Dim::Length, system),
                    b.who,
                    b.when,
                    desk.words(&format!("charge.{on}.trim")),
                    desk.words(&format!("charge.{on}.total")),
                ));
            }
            AsBuiltValue::Charge(kg) => out.push(format!(
                "{}: added {} ({}, {})",
                b.path,
                both(kg, Dim::Mass, system),
                b.who,
                b.when
            )),
            _ => {}
        }
    }
    out
}
