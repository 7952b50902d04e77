//! From line lengths to added charge, total, the smallest room, the label and the ledger.
//!
//! Long because: one chain from line length to label, its rules beside it; to be divided by rule.

use heatpump::Sheet;
use jobfile::{AsBuiltValue, HeadChoice, OutdoorChoice};
use reckon::{Level, Source, Verdict};
use units::Dim;

use crate::desk::{Desk, Rule, both, card, sheet};
use crate::rules::{Rules, source};
use crate::{Input, lines};

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
const ROOM: Rule = Rule {
    name: "room-area",
    level: Level::Stop,
    what: "floor of the room against refrigerant that may escape into it",
    mend: "A smaller system, a higher head, another room, or detection and circulation as the \
           unit's sheet asks. Refrigerant in a small room can burn and takes the air away.",
    tell: "Use the table of the unit's own sheet for this edition, with its sensor and fan.",
};
const EDITION: Rule = Rule {
    name: "room-area-edition",
    level: Level::Ask,
    what: "edition of the rule on refrigerant and rooms",
    mend: "Write room_area in [codes].",
    tell: "Ask the building office which edition is in force; the default is used until then.",
};
const SENSOR: Rule = Rule {
    name: "refrigerant-sensor",
    level: Level::Ask,
    what: "detector and circulation above the free limit",
    mend: "Test the sensor and put it down.",
    tell: "The unit's sheet says whether a detector and a fan that starts by it are asked.",
};
const LEGAL: Rule = Rule {
    name: "refrigerant-legal",
    level: Level::Stop,
    what: "refrigerant by date of manufacture",
    mend: "Another unit. State rules may be stricter.",
    tell: "Read the date of manufacture from the plate.",
};
const LEDGER: Rule = Rule {
    name: "refrigerant-ledger",
    level: Level::Fix,
    what: "weighed against needed",
    mend: "Weigh again; find where the difference went. Venting is illegal at any size.",
    tell: "Weigh the cylinder before and after: a [[weighing]].",
};
const SAME: Rule = Rule {
    name: "wrong-refrigerant",
    level: Level::Stop,
    what: "refrigerant of the cylinder",
    mend: "Recover it all; only the refrigerant of the plate goes in.",
    tell: "Read the cylinder and the plate.",
};

/// Judges charge; gives the label texts.
pub(crate) fn judge(input: &Input<'_>, rules: &Rules, desk: &mut Desk) -> Vec<String> {
    let mut labels = Vec::new();
    for (outdoor, unit) in input.outdoors() {
        let Some(unit) = unit else { continue };
        let place = format!("outdoor.{}", outdoor.name);
        legal(input, rules, desk, unit, &place);
        let total = total(input, desk, outdoor, unit, &place);
        rooms(input, rules, desk, outdoor, unit, total.is_some());
        ledger(input, desk, outdoor, unit, &place);
        if total.is_some() {
            labels.push(label(input, desk, outdoor, unit));
        }
    }
    labels
}

fn key_of(outdoor: &OutdoorChoice, what: &str) -> String {
    format!("charge.{}.{what}", outdoor.name)
}

fn total(
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
        both(trim.abs(), Dim::Mass)
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
            both(trim, Dim::Mass),
            "nothing to take out, or taken out as the sheet says".into(),
            vec![key("trim")],
            of(unit),
        );
    }
    // what the sheet says about short lines decides what is done; the trim itself stays signed;
    // until the sheet is read nothing is taken out: the larger charge is the careful one for rooms
    let rule = if charge.remove_below_free == Some(true) {
        "t"
    } else {
        "max(t, 0)"
    };
    desk.reckon(
        key("to-weigh"),
        "to weigh in (below zero: out)",
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
            format!("trim of the liquid line to {}, kg/m", head.name),
            rate.kg_per_m,
            Dim::Ratio,
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

fn rooms(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    unit: &Sheet,
    known: bool,
) {
    let key = |what: &str| key_of(outdoor, what);
    let place = format!("outdoor.{}", outdoor.name);
    let wanted = input.job.installation.codes.room_area.as_deref();
    let name = wanted.unwrap_or(&rules.room_area.default);
    let edition = rules.room_area.edition.get(name);
    let Some(edition) = edition else {
        desk.must(
            &EDITION,
            &place,
            None,
            name,
            "an edition of data/rules/room_area.toml",
            card("F16"),
        );
        desk.must(
            &ROOM,
            &place,
            None,
            "edition not known here",
            "the unit's own table",
            card("F16"),
        );
        return;
    };
    let of = source(
        &edition.source,
        &format!("{}: {}", edition.name, edition.place),
    );
    if wanted.is_none() {
        desk.must(
            &EDITION,
            &place,
            None,
            &format!("default: {}", edition.name),
            "the edition in force",
            of.clone(),
        );
    }
    let Some(fluid) = lines::refrigerant(Some(unit)) else {
        desk.must(
            &ROOM,
            &place,
            None,
            "refrigerant not known here",
            "its flammability limit",
            of,
        );
        return;
    };
    let Some(lfl) = fluid.lower_flammability_kg_per_m3() else {
        desk.must(
            &ROOM,
            &place,
            Some(true),
            &format!("{} does not burn", fluid.name()),
            "no area by this rule",
            of,
        );
        return;
    };
    let Some(free) = edition.free_volumes_m3.filter(|_| known) else {
        let found = if known {
            "this edition's rule is not established here"
        } else {
            "total charge not known"
        };
        desk.must(&ROOM, &place, None, found, "the unit's own table", of);
        return;
    };
    desk.given(
        key("lfl"),
        "lower flammability limit",
        lfl,
        Dim::Density,
        Source::new("ashrae-34", "table 4-1 and 4-2, second hand"),
    );
    desk.given(
        key("free-volume"),
        "volume of the free limit",
        free,
        Dim::Volume,
        of.clone(),
    );
    let limit = desk.reckon(
        key("free-limit"),
        "charge without an area rule",
        Dim::Mass,
        "V * LFL",
        &[("V", &key("free-volume")), ("LFL", &key("lfl"))],
        of.clone(),
    );
    let total = desk.book.value(&key("total"));
    if let (Some(limit), Some(total)) = (limit, total)
        && total <= limit
    {
        desk.say(
            &ROOM,
            &place,
            Verdict::Holds,
            both(total, Dim::Mass),
            format!("no area asked up to {}", both(limit, Dim::Mass)),
            vec![key("total"), key("free-limit")],
            of,
        );
        return;
    }
    desk.must(
        &SENSOR,
        &place,
        None,
        "not said",
        "as the unit's sheet asks",
        of.clone(),
    );
    for head in input.heads_on(&outdoor.name) {
        room(input, rules, desk, outdoor, head, &of);
    }
}

fn room(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    head: &HeadChoice,
    of: &Source,
) {
    let key = |what: &str| format!("charge.{}.{what}", head.name);
    let place = format!("room.{}", head.room);
    let unit = input.sheet(&head.unit);
    let typed = unit.and_then(|s| s.head.as_ref()?.release_height_m);
    let height = typed.or_else(|| {
        rules
            .room_area
            .release_height_m
            .get(unit?.kind.words())
            .copied()
    });
    let need = height.and_then(|h| {
        let from = match typed {
            Some(_) => sheet(
                &head.unit,
                unit.and_then(|u| u.head.as_ref()?.page.as_ref()),
            ),
            None => of.clone(),
        };
        desk.given(key("release"), "release height", h, Dim::Length, from);
        desk.reckon(
            key("area"),
            "least floor for this charge",
            Dim::Area,
            "(m / (2.5 * LFL^1.25 * h))^2",
            &[
                ("m", &key_of(outdoor, "total")),
                ("LFL", &key_of(outdoor, "lfl")),
                ("h", &key("release")),
            ],
            of.clone(),
        )?;
        Some(key("area"))
    });
    let zone = input
        .model
        .and_then(|m| m.zones.iter().find(|z| z.name == head.room));
    let floor = zone.map(|z| {
        desk.given(
            key("floor"),
            "floor of the room",
            z.floor_m2,
            Dim::Area,
            Source::job(format!("{place}.outline")),
        )
    });
    desk.at_least(&ROOM, &place, floor.as_deref(), need.as_deref(), of.clone());
}

fn legal(input: &Input<'_>, rules: &Rules, desk: &mut Desk, unit: &Sheet, place: &str) {
    let name = unit.refrigerant.as_deref().unwrap_or("not on the sheet");
    let Some(rule) = rules.legality.rule.iter().find(|r| r.refrigerant == name) else {
        let known = lines::refrigerant(Some(unit)).is_some().then_some(true);
        desk.must(
            &LEGAL,
            place,
            known,
            name,
            "no rule by date known here",
            card("finding 5"),
        );
        return;
    };
    let of = source(&rule.source, &format!("{}: {}", rule.name, rule.place));
    let day = input.job.installation.codes.install_day.as_deref();
    let good = match (unit.year, day) {
        (Some(y), _) if y >= rule.made_before_year => Some(false),
        // before the rule is in force the older text holds, which is not established here
        (Some(_), Some(day)) if day >= rule.effective.as_str() => Some(true),
        _ => None,
    };
    let made = unit
        .year
        .map_or("year not on the sheet".to_owned(), |y| y.to_string());
    let found = format!(
        "{name}, made {made}, installed {}",
        day.unwrap_or("on a day not named")
    );
    desk.must(
        &LEGAL,
        place,
        good,
        &found,
        &format!(
            "made before {}, installed from {}",
            rule.made_before_year, rule.effective
        ),
        of,
    );
}

fn ledger(input: &Input<'_>, desk: &mut Desk, outdoor: &OutdoorChoice, unit: &Sheet, place: &str) {
    let key = |what: &str| key_of(outdoor, what);
    let mut parts = Vec::new();
    for (i, w) in input.job.installation.weighings.iter().enumerate() {
        if w.outdoor != outdoor.name {
            continue;
        }
        let same = unit.refrigerant.as_deref().map(|r| r == w.refrigerant);
        desk.must(
            &SAME,
            place,
            same,
            &w.refrigerant,
            unit.refrigerant.as_deref().unwrap_or("the plate's"),
            card("F16"),
        );
        let (b, a, k) = (
            key(&format!("w{}.before", i + 1)),
            key(&format!("w{}.after", i + 1)),
            key(&format!("w{}", i + 1)),
        );
        let at = format!("weighing.{} {}", w.cylinder, w.day);
        desk.measured(
            b.clone(),
            "cylinder before",
            w.before_kg,
            Dim::Mass,
            at.clone(),
        );
        desk.measured(a.clone(), "cylinder after", w.after_kg, Dim::Mass, at);
        desk.reckon(
            k.clone(),
            format!("out of cylinder {}", w.cylinder),
            Dim::Mass,
            "b - a",
            &[("b", &b), ("a", &a)],
            card("F16"),
        );
        parts.push(k);
    }
    if parts.is_empty() {
        if input.job.stage >= jobfile::Stage::Installed {
            desk.must(
                &LEDGER,
                place,
                None,
                "no weighing",
                "cylinder before and after",
                card("D 24"),
            );
        }
        return;
    }
    desk.add_up(
        &key("weighed"),
        "weighed into the system",
        Dim::Mass,
        &parts,
        card("D 24"),
    );
    let apart = desk.reckon(
        key("apart"),
        "weighed less needed",
        Dim::Mass,
        "abs(w - n)",
        &[("w", &key("weighed")), ("n", &key("to-weigh"))],
        card("D 24"),
    );
    let most = desk.given(
        key("apart-most"),
        "most difference",
        0.045359237,
        Dim::Mass,
        card("D 24, 0.1 lb"),
    );
    desk.at_most(
        &LEDGER,
        place,
        apart.map(|_| key("apart")).as_deref(),
        Some(&most),
        card("D 24, 0.1 lb"),
    );
}

fn label(input: &Input<'_>, desk: &Desk, outdoor: &OutdoorChoice, unit: &Sheet) -> String {
    let w = |what: &str| desk.words(&key_of(outdoor, what));
    let added = if desk.book.get(&key_of(outdoor, "built")).is_some() {
        "built"
    } else {
        "to-weigh"
    };
    format!(
        "{} | {} | factory charge {} | added {} | total {} | installed {}",
        outdoor.name,
        unit.refrigerant
            .as_deref()
            .unwrap_or("refrigerant not on the sheet"),
        w("factory"),
        w(added),
        w("total"),
        input
            .job
            .installation
            .codes
            .install_day
            .as_deref()
            .unwrap_or("(day)"),
    )
}
