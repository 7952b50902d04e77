//! Charge to add or take out, and the total.

use heatpump::Sheet;
use jobfile::{AsBuiltValue, OutdoorChoice};
use reckon::{Level, Source, Verdict};
use units::Dim;

use super::key_of;
use crate::Input;
use crate::desk::{Desk, Rule, card, sheet};

const TRIM: Rule = Rule {
    name: "charge-trim",
    level: Level::Fix,
    what: "charge to add or take out",
    mend: "Never guess by pressure: weigh it.",
    tell: "Needs every line's length, its liquid tube, and the sheet's rate and free length.",
};
const TAKE_OUT: Rule = Rule {
    name: "charge-take-out",
    level: Level::Fix,
    what: "lines shorter than the factory charge is for",
    mend: "Take the charge out as the sheet says, into a recovery cylinder, weighed.",
    tell: "Read on the sheet whether charge is taken out for short lines.",
};
const MOST: Rule = Rule {
    name: "charge-most",
    level: Level::Stop,
    what: "total charge",
    mend: "Shorter lines or fewer heads.",
    tell: "Read the most charge from the unit's sheet.",
};

/// Total charge, kg; none where a length, tube or rate is missing.
pub(super) fn total(
    input: &Input<'_>,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    unit: &Sheet,
    place: &str,
) -> Option<f64> {
    let key = |what: &str| key_of(outdoor, what);
    let done = trim(input, desk, outdoor, unit);
    let of = |u: &Sheet| sheet(&u.name, u.charge.as_ref().and_then(|c| c.page.as_ref()));
    let Some(trim) = done else {
        desk.must(&TRIM, place, None, "not known", "by the sheet", of(unit));
        desk.at_most(&MOST, place, None, None, of(unit));
        return None;
    };
    let charge = unit.charge.as_ref()?;
    let found = format!(
        "{} {}",
        if trim < 0.0 { "take out" } else { "add" },
        desk.both(trim.abs(), Dim::Mass)
    );
    desk.say(
        &TRIM,
        place,
        Verdict::Holds,
        found,
        "weighed in".into(),
        vec![key("trim")],
        of(unit),
    );
    if trim < 0.0 {
        let says = charge.remove_below_free;
        let verdict = match says {
            Some(false) => Verdict::Holds,
            Some(true) => Verdict::Fails,
            None => Verdict::CannotTell,
        };
        desk.say(
            &TAKE_OUT,
            place,
            verdict,
            desk.both(trim, Dim::Mass),
            "nothing to take out, or taken out as the sheet says".into(),
            vec![key("trim")],
            of(unit),
        );
    }
    // what the sheet says about short lines decides what is done; the trim itself stays signed;
    // until the sheet is read nothing is taken out: the larger charge is the careful one for rooms
    let (what, rule) = if charge.remove_below_free == Some(true) {
        ("to weigh in (below zero: out)", "t")
    } else {
        ("to weigh in; nothing is taken out", "max(t, 0)")
    };
    desk.reckon(
        key("to-weigh"),
        what,
        Dim::Mass,
        rule,
        &[("t", &key("trim"))],
        of(unit),
    );
    let built = input.job.as_built.iter().rev().find_map(|b| match b.value {
        AsBuiltValue::Charge(kg) if b.path == format!("{place}.charge") => Some(kg),
        _ => None,
    });
    let added = match built {
        Some(kg) => {
            desk.measured(
                key("built"),
                "added as built",
                kg,
                Dim::Mass,
                "as_built".into(),
            );
            key("built")
        }
        None => key("to-weigh"),
    };
    let all = desk.reckon(
        key("total"),
        "charge in the system",
        Dim::Mass,
        "m0 + m",
        &[("m0", &key("factory")), ("m", &added)],
        card("F16"),
    )?;
    let most = charge
        .most_kg
        .map(|m| desk.given(key("most"), "most charge", m, Dim::Mass, of(unit)));
    desk.at_most(&MOST, place, Some(&key("total")), most.as_deref(), of(unit));
    Some(all)
}

/// Signed trim of all lines of a unit, kg.
fn trim(input: &Input<'_>, desk: &mut Desk, outdoor: &OutdoorChoice, unit: &Sheet) -> Option<f64> {
    let key = |what: &str| key_of(outdoor, what);
    let charge = unit.charge.as_ref()?;
    let of = sheet(&unit.name, charge.page.as_ref());
    desk.given(
        key("factory"),
        "charge from the factory",
        charge.factory_kg,
        Dim::Mass,
        of.clone(),
    );
    desk.given(
        key("free"),
        "length the factory charge is for",
        charge.free_length_m?,
        Dim::Length,
        of.clone(),
    );
    let all = format!("lines.{}.total", outdoor.name);
    desk.book.get(&all)?;
    let mut parts = Vec::new();
    for head in input.heads_on(&outdoor.name) {
        let line = input
            .job
            .installation
            .lines
            .iter()
            .find(|l| l.head == head.name)?;
        let liquid = line.liquid_m.or(unit.lines.liquid_m)?;
        let rate = charge
            .rates
            .iter()
            .find(|r| (r.liquid_line_m - liquid).abs() < 2e-4)?;
        let r = key(&format!("rate.{}", head.name));
        desk.given(
            r.clone(),
            format!("trim of the liquid line to {}", head.name),
            rate.kg_per_m,
            Dim::MassPerLength,
            of.clone(),
        );
        let k = key(&format!("trim.{}", head.name));
        // the free length is of the whole system: each line takes its share by length
        desk.reckon(
            k.clone(),
            format!("trim of the line to {}", head.name),
            Dim::Mass,
            "r * (L - L0 * L / La)",
            &[
                ("r", &r),
                ("L", &format!("lines.{}.length", head.name)),
                ("L0", &key("free")),
                ("La", &all),
            ],
            Source::new("trade-cards", "F16"),
        )?;
        parts.push(k);
    }
    desk.add_up(
        &key("trim"),
        "charge to add (below zero: to take out)",
        Dim::Mass,
        &parts,
        card("F16"),
    );
    desk.book.value(&key("trim"))
}
