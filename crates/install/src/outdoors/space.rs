//! Free space around an outdoor unit, distances to what is near, roof, wind and walks.

use heatpump::Sheet;
use jobfile::OutdoorPlace;
use reckon::{Level, Source};
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card, sheet, yes_no};
use crate::rules::{Rules, source};

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

/// Every distance of the unit's sheet and of the rule files.
pub(super) fn judge(
    input: &Input<'_>,
    rules: &Rules,
    desk: &mut Desk,
    p: &OutdoorPlace,
    unit: Option<&Sheet>,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
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
            compare(desk, &rule, place, &key(k), need, of);
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
        compare(desk, &rule, place, &key(&d.key), need, of);
    }
    desk.must(
        &ROOF,
        place,
        p.roof_drip
            .as_deref()
            .map(|r| matches!(r, "nothing" | "covered")),
        p.roof_drip.as_deref().unwrap_or("not looked at"),
        "nothing, or covered",
        card("F13"),
    );
    desk.must(
        &WIND,
        place,
        p.faces_wind.map(|f| !f),
        yes_no(p.faces_wind),
        "turned away or baffled",
        card("F13"),
    );
    desk.must(
        &WALK,
        place,
        p.water_crosses_walk.map(|w| !w),
        yes_no(p.water_crosses_walk),
        "no",
        card("F13"),
    );
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
