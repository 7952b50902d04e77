//! What carries the unit, and the load on the wall.

use jobfile::OutdoorPlace;
use reckon::{Level, Source};
use units::Dim;

use crate::desk::{Desk, Rule, card, sheet, yes_no};

const FIXED: Rule = Rule {
    name: "bracket-wall",
    level: Level::Stop,
    what: "what the bracket is fixed to",
    mend: "Masonry or blocking; else a stand on its own pad. Ladders and weights: two people.",
    tell: "Find what is behind the siding.",
};
const BEDROOM: Rule = Rule {
    name: "bracket-bedroom",
    level: Level::Fix,
    what: "bracket on a bedroom wall",
    mend: "A stand, or another wall: it hums.",
    tell: "Ask which room is behind.",
};
const PULL: Rule = Rule {
    name: "bracket-pull",
    level: Level::Stop,
    what: "pull of one fixing, snow on the unit",
    mend: "More or stronger fixings, or a stand.",
    tell: "Number of fixings, their distance, what one holds (its sheet), weight and depth of the unit.",
};

/// A bracket: what it is fixed to, who sleeps behind it, and the pull of one fixing.
pub(super) fn judge(
    desk: &mut Desk,
    p: &OutdoorPlace,
    unit: Option<&heatpump::Sheet>,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
    if p.on != "bracket" {
        return;
    }
    desk.must(
        &FIXED,
        place,
        p.fixed_to
            .as_deref()
            .map(|f| matches!(f, "masonry" | "blocking")),
        p.fixed_to.as_deref().unwrap_or("not known"),
        "masonry or blocking",
        card("F13"),
    );
    desk.must(
        &BEDROOM,
        place,
        p.bedroom_wall.map(|b| !b),
        yes_no(p.bedroom_wall),
        "no",
        card("F13"),
    );
    pull(desk, p, unit, key, place);
}

/// Pull of the upper fixings: the unit's weight hangs out from the wall.
fn pull(
    desk: &mut Desk,
    p: &OutdoorPlace,
    unit: Option<&heatpump::Sheet>,
    key: &dyn Fn(&str) -> String,
    place: &str,
) {
    let statics = || {
        Source::new(
            "common-practice",
            "moments about the lower fixings; weight in the middle of the depth, a gap behind as measured; half of the fixings are above",
        )
    };
    let done = (|| {
        let unit = unit?;
        let of = sheet(&unit.name, unit.size.page.as_ref());
        desk.given(
            key("weight"),
            "weight of the unit",
            unit.size.weight_kg?,
            Dim::Mass,
            of.clone(),
        );
        desk.given(
            key("depth"),
            "depth",
            unit.size.depth_m?,
            Dim::SmallLength,
            of,
        );
        desk.given(
            key("span"),
            "between upper and lower fixings",
            p.fixing_span_m?,
            Dim::Length,
            Source::job(format!("{place}.fixing_span")),
        );
        desk.given(
            key("upper"),
            "upper fixings",
            f64::from(p.fixings?) / 2.0,
            Dim::Count,
            Source::job(format!("{place}.fixings")),
        );
        snow(desk, unit, key);
        let all = if desk.book.get(&key("snow-weight")).is_some() {
            let both = [key("weight"), key("snow-weight")];
            desk.add_up(
                &key("carried"),
                "unit and the snow on it",
                Dim::Mass,
                &both,
                statics(),
            );
            key("carried")
        } else {
            key("weight")
        };
        desk.reckon(
            key("pull"),
            "pull of one upper fixing, as a weight",
            Dim::Mass,
            "m * (g + d / 2) / (a * n)",
            &[
                ("m", &all),
                ("g", &key("rear")),
                ("d", &key("depth")),
                ("a", &key("span")),
                ("n", &key("upper")),
            ],
            statics(),
        )?;
        Some(key("pull"))
    })();
    let most = p.fixing_pull_n.map(|n| {
        desk.given(
            key("pull-most"),
            "one fixing holds, as a weight",
            n / 9.80665,
            Dim::Mass,
            Source::job(format!("{place}.fixing_pull")),
        )
    });
    desk.at_most(&PULL, place, done.as_deref(), most.as_deref(), statics());
}

/// Snow on the casing, as deep as on the ground: nobody sweeps it.
fn snow(desk: &mut Desk, unit: &heatpump::Sheet, key: &dyn Fn(&str) -> String) {
    let of = || Source::new("asce-7", "7.7.1, density of snow as deep as on the ground");
    let deep = desk.book.value(&key("snow"));
    let dense = deep.and_then(|d| physics::snow::density_of_depth_kg_per_m3(d).ok());
    let (Some(dense), Some(width)) = (dense, unit.size.width_m) else {
        return;
    };
    desk.followed(
        key("snow-density"),
        "density of the snow",
        (dense, Dim::Density),
        &[("d", key("snow"))],
        "14 lb/ft3 over 1 - 0.13 d, d in feet; 30 at the most",
        of(),
    );
    desk.given(
        key("unit-width"),
        "width",
        width,
        Dim::Length,
        sheet(&unit.name, unit.size.page.as_ref()),
    );
    desk.reckon(
        key("snow-weight"),
        "snow on the unit",
        Dim::Mass,
        "r * s * w * d",
        &[
            ("r", &key("snow-density")),
            ("s", &key("snow")),
            ("w", &key("unit-width")),
            ("d", &key("depth")),
        ],
        of(),
    );
}
