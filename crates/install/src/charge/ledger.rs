//! Legality by date of manufacture, and the ledger from cylinder to system.

use heatpump::Sheet;
use jobfile::OutdoorChoice;
use reckon::Level;
use units::Dim;

use super::key_of;
use crate::desk::{Desk, Rule, card};
use crate::rules::{Rules, source};
use crate::{Input, lines};

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

/// May this refrigerant still be installed.
pub(super) fn legal(input: &Input<'_>, rules: &Rules, desk: &mut Desk, unit: &Sheet, place: &str) {
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

/// What was weighed against what is needed.
pub(super) fn judge(
    input: &Input<'_>,
    desk: &mut Desk,
    outdoor: &OutdoorChoice,
    unit: &Sheet,
    place: &str,
) {
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
