//! The worst glass of the room, by the air that falls from it, and whether the head washes it.

use jobfile::HeadChoice;
use physics::downdraught::speed_m_per_s;
use physics::jet::beside_m_per_s;
use reckon::{Level, Source, Verdict, in_key};
use units::{Dim, show};

use super::jets::{ALONG, Blown, Duty, source};
use super::room::{Glass, from_line_m, windows};
use crate::Input;
use crate::desk::{Desk, Rule, card};
use crate::rules::Indoors;

const GLASS: Rule = Rule {
    name: "worst-glass",
    level: Level::Note,
    what: "the glass with the most falling air, against what the head blows there",
    mend: "Put the head at or beside this glass, or blow at it; or better glass.",
    tell: "Windows with size and glazing; where the head hangs and which way it blows.",
};
/// Air slower than this stands still, m/s.
const STILL_M_PER_S: f64 = 0.05;
/// A head so near to glass meets the falling air where it starts, m.
const AT_IT_M: f64 = 0.6;

pub(super) fn judge(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
    head: &HeadChoice,
    blown: &[Blown],
    place: &str,
) {
    let Some(model) = input.model else { return };
    let zone = model.zones.iter().position(|z| z.name == head.room);
    let all = windows(input.job, model, &head.room);
    if all.is_empty() {
        return;
    }
    let comfort = input.glass.iter().filter(|g| Some(g.zone) == zone);
    let worst = comfort.max_by(|a, b| a.draught_m_per_s.total_cmp(&b.draught_m_per_s));
    let Some(worst) = worst else {
        desk.must(
            &GLASS,
            place,
            None,
            "not known how cold",
            "washed",
            card("F12"),
        );
        return;
    };
    let system = desk.system;
    let us = |v: f64| show(v, Dim::AirSpeed, system);
    let figures = vec![
        format!("{}.draught", worst.key),
        format!("{}.face", worst.key),
    ];
    let falls = us(worst.draught_m_per_s);
    if worst.draught_m_per_s <= rules.usual.falling_m_per_s {
        let found = format!("{}: {falls} a metre away", worst.window);
        let required = format!("washed above {}", us(rules.usual.falling_m_per_s));
        let of = Source::new("heiselberg-1994", "falling air a metre away");
        desk.say(&GLASS, place, Verdict::Holds, found, required, figures, of);
        return;
    }
    let here: Vec<&Glass> = all.iter().filter(|g| g.name == worst.window).collect();
    let warm = blown.iter().find(|b| b.duty == Duty::Heating);
    let Some((warm, at)) = warm.and_then(|b| b.at_m.zip(Some(b)).map(|(at, b)| (b, at))) else {
        let found = format!("{}: falls {falls}; head's air not known", worst.window);
        desk.must(
            &GLASS,
            place,
            None,
            &found,
            "washed by the jet",
            card("F12"),
        );
        return;
    };
    let of = || {
        Source::new(
            "heiselberg-1994",
            "falling air at the glass, against the jet there",
        )
    };
    if here.iter().any(|g| from_line_m(at, g.ends_m) <= AT_IT_M) {
        let found = format!("the head stands at {}", worst.window);
        desk.say(
            &GLASS,
            place,
            Verdict::Holds,
            found,
            "at it, or washing it".into(),
            figures,
            of(),
        );
        return;
    }
    let height = here.first().map_or(0.0, |g| g.height_m);
    let colder = (warm.room_c - worst.face_c).clamp(0.0, 60.0);
    let at_glass = speed_m_per_s(height, colder, 0.0).unwrap_or(f64::INFINITY);
    let key = |what: &str| format!("indoors.{}.glass.{what}", head.name);
    let need = key("falls");
    desk.book.solved(
        &*need,
        format!("air falling at {}", worst.window),
        at_glass,
        Dim::AirSpeed,
        "0.055 * sqrt(h * min(60, max(0, Ti - Tg)))",
        &[
            ("h", &format!("window.{}.height", in_key(&worst.window))),
            ("Ti", &format!("indoors.{}.heating.room", head.name)),
            ("Tg", &format!("{}.face", worst.key)),
        ],
        Source::new("heiselberg-1994", "0.055 sqrt(h dT) at the glass"),
    );
    let blows = here.iter().map(|g| reaches(warm, g)).fold(0.0, f64::max);
    let what = format!("warm air of the head at {}", worst.window);
    desk.followed(
        key("blows"),
        what,
        (blows, Dim::AirSpeed),
        &warm.rests,
        ALONG,
        source(),
    );
    let verdict = if blows >= at_glass {
        Verdict::Holds
    } else {
        Verdict::Fails
    };
    let arrives = if blows > STILL_M_PER_S {
        format!("{} of the head's air arrives", us(blows))
    } else {
        "the head's air does not get there".to_owned()
    };
    let found = format!("{}: {arrives}, {} falls", worst.window, us(at_glass));
    let mut figures = figures;
    figures.extend([need, key("blows")]);
    desk.say(
        &GLASS,
        place,
        verdict,
        found,
        "the head's air is the faster".into(),
        figures,
        of(),
    );
}

/// Greatest speed of the warm jets over the middle of a pane, m/s.
fn reaches(b: &Blown, g: &Glass) -> f64 {
    let [l, r] = g.ends_m;
    let mut best: f64 = 0.0;
    for t in [0.25, 0.5, 0.75] {
        let place = [l[0] + t * (r[0] - l[0]), l[1] + t * (r[1] - l[1])];
        for deg in &b.toward_deg {
            let Some((along, beside)) = b.seen_from(*deg, place) else {
                continue;
            };
            let Some(p) = b.point(along).filter(|_| along > 0.0) else {
                continue;
            };
            for h in [0.1, 0.5, 0.9] {
                let off = g.sill_m + h * g.height_m - (b.from_m + p.up_m);
                best = best.max(beside_m_per_s(p, off, beside));
            }
        }
    }
    best
}
