//! Free space around a head, what it is fixed to, its joints, and what is in an old wall.

use heatpump::{HeadKind, Kind, Sheet};
use jobfile::{HeadChoice, HeadPlace};
use reckon::{Level, Source};
use units::Dim;

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
const STUDS: Rule = Rule {
    name: "head-studs",
    level: Level::Fix,
    what: "room between studs for the sleeve",
    mend: "Move the hole along the plate, or lead the line out at the side: studs are not cut.",
    tell: "Find both studs, and measure between them: `bay`.",
};
/// A sleeve of 65 to 75 mm and a finger beside it, m. Common practice, trade card F15.
const SLEEVE_M: f64 = 0.09;
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
/// Free space by the sheet, and what is only found on site.
pub(super) fn judge(
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
    unit: Option<&Sheet>,
    place: &str,
) {
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
    let framed = !matches!(p.fixed_to.as_deref(), Some("masonry"));
    if u.kind == Kind::Head(HeadKind::Wall) && framed {
        let need = desk.given(
            key("studs.required"),
            "sleeve, and a finger beside it",
            SLEEVE_M,
            Dim::SmallLength,
            card("F15, sleeve 65 to 75 mm"),
        );
        desk.at_least(
            &STUDS,
            place,
            Some(&key("bay")),
            Some(&need),
            card("F15, sleeve 65 to 75 mm"),
        );
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
