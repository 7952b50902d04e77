//! Lengths, height and tube against the sheet.

use heatpump::Sheet;
use jobfile::Line;
use reckon::Level;
use units::Dim;

use crate::desk::{Desk, Rule, card, sheet};

const LONGEST: Rule = Rule {
    name: "line-too-long",
    level: Level::Stop,
    what: "length with fittings",
    mend: "Move the unit or the head nearer, or choose a unit that may run farther.",
    tell: "Measure the route piece by piece, and read the longest run from the unit's sheet.",
};
const SHORTEST: Rule = Rule {
    name: "line-too-short",
    level: Level::Fix,
    what: "length without fittings, for noise and charge",
    mend: "Lead the line longer, with a wide loop where the sheet allows one.",
    tell: "Read the shortest run from the unit's sheet.",
};
const HEIGHT: Rule = Rule {
    name: "line-height",
    level: Level::Stop,
    what: "height between outdoor unit and head",
    mend: "Bring the two nearer in height.",
    tell: "Say the rise of every piece, below zero where it falls towards the head.",
};
const SIZE: Rule = Rule {
    name: "line-size",
    level: Level::Fix,
    what: "tube against the sheet",
    mend: "Use the size of the sheet, or the adaptor it names.",
    tell: "Read both tube sizes from the unit's sheet.",
};

/// Length, height and size of one line.
pub(super) fn judge(
    desk: &mut Desk,
    line: &Line,
    unit: Option<&Sheet>,
    rise: Option<f64>,
    place: &str,
) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let of = unit.map_or_else(|| card("F15"), |u| sheet(&u.name, u.lines.page.as_ref()));
    let lim = unit.map(|u| &u.lines);
    let mut put = |name: &str, v: Option<f64>| {
        v.map(|v| desk.given(key(name), "limit of the sheet", v, Dim::Length, of.clone()))
    };
    let longest = put("longest", lim.and_then(|l| l.longest_m));
    let shortest = put("shortest", lim.and_then(|l| l.shortest_m));
    let (most, way) = match rise {
        Some(r) if r >= 0.0 => (
            lim.and_then(|l| l.height_outdoor_below_m),
            "outdoor unit below",
        ),
        Some(_) => (
            lim.and_then(|l| l.height_outdoor_above_m),
            "outdoor unit above",
        ),
        None => (None, ""),
    };
    let height = put("height-limit", most);
    desk.at_most(
        &LONGEST,
        place,
        Some(&key("with-fittings")),
        longest.as_deref(),
        of.clone(),
    );
    desk.at_least(
        &SHORTEST,
        place,
        Some(&key("length")),
        shortest.as_deref(),
        of.clone(),
    );
    let size = key("height");
    let found = rise.map(|_| {
        desk.reckon(
            size.clone(),
            format!("height, {way}"),
            Dim::Length,
            "abs(H)",
            &[("H", &key("rise"))],
            card("F15"),
        );
        size.as_str()
    });
    desk.at_most(&HEIGHT, place, found, height.as_deref(), of.clone());
    let system = desk.system;
    for (name, ours, theirs) in [
        ("liquid", line.liquid_m, lim.and_then(|l| l.liquid_m)),
        ("gas", line.gas_m, lim.and_then(|l| l.gas_m)),
    ] {
        // not said: the sheet's size is taken
        let Some(ours) = ours else { continue };
        let same = theirs.map(|t| (t - ours).abs() < 2e-4);
        let words = |m: f64| crate::desk::both(m, Dim::SmallLength, system);
        let needed = theirs.map_or("the sheet's size".to_owned(), words);
        desk.must(
            &SIZE,
            place,
            same,
            &format!("{name} {}", words(ours)),
            &needed,
            of.clone(),
        );
    }
}
