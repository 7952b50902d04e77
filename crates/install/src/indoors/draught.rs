//! Draught where people sit and lie.

use jobfile::{HeadChoice, HeadPlace};
use physics::draught::disturbed;
use physics::jet::{beside_k, beside_m_per_s};
use reckon::{Level, Source, Verdict};
use units::{Dim, show};

use super::jets::{ALONG, Blown, source};
use super::room::{inside, named};
use crate::Input;
use crate::desk::{Desk, Rule};
use crate::rules::Indoors;

const DRAUGHT: Rule = Rule {
    name: "seat-draught",
    level: Level::Fix,
    what: "people whom the moving air disturbs",
    mend: "Turn the louvre away, a lower fan speed there, or move the head.",
    tell: "Say where people sit and lie: seats and beds in [[head_place]]; and the head's height.",
};
/// Heights at which air is felt, m: ankle, belly, head of one who sits; one who lies.
const SITTING_M: [f64; 3] = [0.1, 0.6, 1.1];
const LYING_M: [f64; 2] = [0.4, 0.7];

/// What a place feels at the worst.
struct Felt {
    share: f64,
    speed_m_per_s: f64,
    air_c: f64,
    duty: &'static str,
}

pub(super) fn judge(
    input: &Input<'_>,
    rules: &Indoors,
    desk: &mut Desk,
    head: &HeadChoice,
    p: &HeadPlace,
    blown: &[Blown],
    place: &str,
) {
    let of = || Source::new("iso-7730", "6.2, at the highest fan speed");
    let room = named(input.job, &head.room);
    // what is in another room does not feel this head
    let here = |at: &[f64; 2]| room.is_none_or(|r| inside(*at, &r.outline));
    let seats = p.seats_m.iter().filter(|s| here(s)).map(|s| (*s, false));
    let beds = p.beds_m.iter().filter(|s| here(s)).map(|s| (*s, true));
    let all: Vec<_> = seats.chain(beds).collect();
    if all.is_empty() {
        let usual = "named";
        desk.must(&DRAUGHT, place, None, "no seat or bed named", usual, of());
    }
    for (i, (at, lying)) in all.iter().enumerate() {
        let k = format!("indoors.{}.seat-{}", head.name, i + 1);
        let word = if *lying { "bed" } else { "seat" };
        let limit = if *lying {
            rules.usual.disturbed_bed
        } else {
            rules.usual.disturbed_seat
        };
        let most = desk.given(
            format!("{k}.most"),
            format!("most at a {word}"),
            limit,
            Dim::Share,
            Source::new("iso-7730", "annex A, category B 20 %; a bed from memory"),
        );
        let heights: &[f64] = if *lying { &LYING_M } else { &SITTING_M };
        let Some(felt) = worst(rules, blown, *at, heights) else {
            let found = format!("{word} {}: not known", i + 1);
            desk.must(
                &DRAUGHT,
                place,
                None,
                &found,
                &format!("at most {limit}"),
                of(),
            );
            continue;
        };
        let rests = blown.first().map_or(&[][..], |b| &b.rests);
        let speed = (felt.speed_m_per_s, Dim::AirSpeed);
        let what = format!("air speed at {word} {}, {}", i + 1, felt.duty);
        desk.followed(format!("{k}.speed"), what, speed, rests, ALONG, source());
        let air = (felt.air_c, Dim::Temperature);
        let what = format!("air at {word} {}, {}", i + 1, felt.duty);
        desk.followed(format!("{k}.air"), what, air, rests, ALONG, source());
        let both = [("v", format!("{k}.speed")), ("t", format!("{k}.air"))];
        let what = format!("people disturbed at {word} {}", i + 1);
        desk.followed(
            k.clone(),
            what,
            (felt.share, Dim::Share),
            &both,
            "the standard's equation",
            of(),
        );
        let system = desk.system;
        let us = |v: f64, d: Dim| show(v, d, system);
        let found = if felt.share > 0.0 {
            format!(
                "{word} {}: {} ({} at {}, {})",
                i + 1,
                us(felt.share, Dim::Share),
                us(felt.speed_m_per_s, Dim::AirSpeed),
                us(felt.air_c, Dim::Temperature),
                felt.duty,
            )
        } else {
            format!("{word} {}: none, it is out of the stream", i + 1)
        };
        let verdict = if felt.share <= limit {
            Verdict::Holds
        } else {
            Verdict::Fails
        };
        let required = format!("at most {}", us(limit, Dim::Share));
        desk.say(
            &DRAUGHT,
            place,
            verdict,
            found,
            required,
            vec![k, most],
            of(),
        );
    }
}

/// The worst of all jets, duties and heights; `None` where a jet's way is not known.
fn worst(rules: &Indoors, blown: &[Blown], at: [f64; 2], heights: &[f64]) -> Option<Felt> {
    let mut out: Option<Felt> = None;
    for b in blown {
        for deg in &b.toward_deg {
            let (along, beside) = b.seen_from(*deg, at)?;
            let point = b.point(along).filter(|_| along > 0.0);
            for h in heights {
                let (mut speed, mut air_c) = (0.05, b.room_c);
                if let Some(p) = point {
                    let off = h - (b.from_m + p.up_m);
                    speed = beside_m_per_s(p, off, beside).max(0.05);
                    air_c += beside_k(p, off, beside);
                }
                let share = disturbed(air_c, speed, rules.usual.unsteady_percent).ok()?;
                if out.as_ref().is_none_or(|o| share > o.share) {
                    out = Some(Felt {
                        share,
                        speed_m_per_s: speed,
                        air_c,
                        duty: b.duty.word(),
                    });
                }
            }
        }
    }
    out
}
