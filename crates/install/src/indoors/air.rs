//! How far the air of a head carries: the throw against the room, how low warm air comes, and
//! where cold air comes down.

use jobfile::{HeadChoice, HeadPlace};
use reckon::{Level, Source};
use units::Dim;

use super::jets::{ALONG, Blown, Duty, source};
use super::room::{ahead_m, named};
use crate::Input;
use crate::desk::{Desk, Rule, sheet};
use crate::rules::Indoors;

const REACH: Rule = Rule {
    name: "jet-reach",
    level: Level::Fix,
    what: "reach of the jet against the far side of the room",
    mend: "A head with more throw, or one that blows the long way.",
    tell: "Place and direction of the head ([[head_place]]), and the throw from its sheet; of a \
           short duct the size and throw of its grille.",
};
const WARM: Rule = Rule {
    name: "warm-air-low",
    level: Level::Fix,
    what: "how low the warm jet comes before it rises",
    mend: "Louvre steeper, a lower head, more air; a floor console mixes best.",
    tell: "Height of the outlet, width of the head, air and heat from its sheet; of a short duct \
           the size and throw of its grille.",
};
const COLD: Rule = Rule {
    name: "cold-air-falls",
    level: Level::Note,
    what: "how far off the cold jet comes down to standing height",
    mend: "Louvre level or up in cooling.",
    tell: "Height and direction of the outlet, air and cooling from the sheet; of a short duct \
           the size and throw of its grille.",
};

pub(super) fn judge(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
    blown: &[Blown],
    place: &str,
) {
    let key = |what: &str| format!("indoors.{}.{what}", head.name);
    let usual = |what: &'static str| Source::new(rules.source.clone(), what);
    let data = input.sheet(&head.unit).and_then(|u| u.head.as_ref());
    let throw = data.and_then(|d| {
        let of = sheet(&head.unit, d.page.as_ref());
        let m = d.throw_m?;
        Some(desk.given(key("throw"), "throw of the sheet", m, Dim::Length, of))
    });
    // a head with several jets is asked to reach the farthest wall that one of them blows at
    let ways = blown.first().map_or_else(
        || p.blows_deg.into_iter().collect(),
        |b| b.toward_deg.clone(),
    );
    let room = named(input.job, &head.room);
    let ahead = p.at_m.zip(room).and_then(|(at, room)| {
        let all = ways.iter().filter_map(|d| ahead_m(at, *d, &room.outline));
        all.reduce(f64::max)
    });
    if let Some(m) = ahead {
        let at = format!("head_place.{}.at", head.name);
        desk.measured(key("ahead"), "room ahead of the head", m, Dim::Length, at);
        for (k, what, share) in [
            ("ahead-most", "reach asked", rules.usual.throw_share),
            (
                "cold-least",
                "cold air may come down from here",
                rules.usual.cold_share,
            ),
        ] {
            let s = desk.given(
                key(&format!("{k}.share")),
                "share of the room ahead",
                share,
                Dim::Share,
                usual("reach and fall against the room"),
            );
            desk.reckon(
                key(k),
                what,
                Dim::Length,
                "s * x",
                &[("s", &s), ("x", &key("ahead"))],
                usual("reach and fall against the room"),
            );
        }
    }
    let known = |k: &str| ahead.map(|_| key(k));
    desk.at_least(
        &REACH,
        place,
        throw.as_deref(),
        known("ahead-most").as_deref(),
        usual("throw at least three quarters of the room"),
    );
    let warm = blown.iter().find(|b| b.duty == Duty::Heating);
    let low = warm.map(|b| {
        let low = b.line.iter().map(|p| p.up_m).fold(0.0, f64::min);
        let m = (b.from_m + low).max(0.0);
        let what = "lowest height of the middle of the warm jet";
        desk.followed(
            key("heating.low"),
            what,
            (m, Dim::Length),
            &b.rests,
            ALONG,
            source(),
        );
        carries(desk, &key, b, rules.usual.standing_m, ahead);
        key("heating.low")
    });
    let most = desk.given(
        key("heating.low-most"),
        "a sitting head",
        rules.usual.sitting_m,
        Dim::Length,
        usual("warm air comes down to a sitting head"),
    );
    let of = usual("warm air comes down to a sitting head");
    desk.at_most(&WARM, place, low.as_deref(), Some(&most), of);
    let cold = blown.iter().find(|b| b.duty == Duty::Cooling);
    let falls = cold.map(|b| {
        carries(desk, &key, b, 0.0, ahead);
        falls_m(b, rules.usual.standing_m, ahead)
    });
    if let (Some(m), Some(b)) = (falls, cold) {
        let what = "cold jet comes down to standing height, or ends";
        desk.followed(
            key("cooling.falls"),
            what,
            (m, Dim::Length),
            &b.rests,
            ALONG,
            source(),
        );
    }
    desk.at_least(
        &COLD,
        place,
        falls.map(|_| key("cooling.falls")).as_deref(),
        known("cold-least").as_deref(),
        usual("cold air comes down past half of the room"),
    );
}

/// How far the jet carries below a height (warm air above it is of no use) or to the floor.
fn carries(
    desk: &mut Desk,
    key: &dyn Fn(&str) -> String,
    b: &Blown,
    useful_m: f64,
    ahead: Option<f64>,
) {
    let useful = |up: f64| {
        let high = b.from_m + up;
        high >= 0.0 && (useful_m <= 0.0 || high <= useful_m)
    };
    let all = b.line.iter().filter(|p| useful(p.up_m)).map(|p| p.away_m);
    let far = all.fold(0.0, f64::max);
    let far = ahead.map_or(far, |a| far.min(a));
    let what = format!("how far its air is of use in {}", b.duty.word());
    let k = key(&format!("{}.carries", b.duty.word()));
    desk.followed(k, what, (far, Dim::Length), &b.rests, ALONG, source());
}

/// Where the cold jet is down at standing height on its way down, or ends, m from the head.
fn falls_m(b: &Blown, standing_m: f64, ahead: Option<f64>) -> f64 {
    let top = b
        .line
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.up_m.total_cmp(&b.1.up_m))
        .map_or(0, |(i, _)| i);
    let down = b
        .line
        .iter()
        .skip(top)
        .find(|p| b.from_m + p.up_m <= standing_m);
    let end = b.line.last().map_or(0.0, |p| p.away_m);
    let m = down.map_or(end, |p| p.away_m);
    // at the far wall it is at its end as well
    ahead.map_or(m, |a| if m > a { a } else { m })
}
