//! A route on the plan against its tape: no piece is shorter than the way between its ends, and the
//! last one ends at the head.

use jobfile::Line;
use reckon::Level;
use units::Dim;

use crate::Input;
use crate::desk::{Desk, Rule, card};

const PIECE: Rule = Rule {
    name: "line-on-plan",
    level: Level::Fix,
    what: "length of a piece against the plan",
    mend: "Measure it again, or mend where it ends on the plan: a line is not shorter than its way.",
    tell: "Where each piece ends: `to` on the plan.",
};
const ENDS: Rule = Rule {
    name: "line-ends-at-head",
    level: Level::Fix,
    what: "where the line ends, from the head",
    mend: "A last piece to the head, or the head's place as it is.",
    tell: "Where the head hangs: `at` in [[head_place]].",
};
/// Tape and plan agree within this, m.
const SLACK_M: f64 = 0.15;
/// Joints lie this near to the middle of a head, m.
const AT_HEAD_M: f64 = 0.8;

/// Judges the pieces whose ends are on the plan; `start` is the foot of the wall at the unit.
pub(super) fn judge(
    input: &Input<'_>,
    desk: &mut Desk,
    line: &Line,
    start: Option<[f64; 2]>,
    place: &str,
) {
    let key = |what: &str| format!("lines.{}.{what}", line.head);
    let mut from = start;
    for (i, piece) in line.pieces.iter().enumerate() {
        let Some(to) = piece.to_m else {
            from = None;
            continue;
        };
        if let Some(from) = from {
            let flat = libm::hypot(to[0] - from[0], to[1] - from[1]);
            let way = libm::hypot(flat, piece.rise_m.unwrap_or(0.0));
            let least = desk.given(
                key(&format!("piece-{}.least", i + 1)),
                "way between its ends on the plan, less a hand",
                (way - SLACK_M).max(0.0),
                Dim::Length,
                reckon::Source::job(format!("{place}.pieces")),
            );
            desk.at_least(
                &PIECE,
                &format!("{place}, {}", piece.name),
                Some(&key(&format!("piece-{}", i + 1))),
                Some(&least),
                card("F15"),
            );
        }
        from = Some(to);
    }
    let heads = &input.job.installation.heads;
    let head = heads.iter().find(|p| p.head == line.head);
    let end = line.pieces.last().and_then(|p| p.to_m);
    if let (Some(end), Some(at)) = (end, head.and_then(|p| p.at_m)) {
        desk.measured(
            key("end-to-head"),
            "end of the line to the head",
            libm::hypot(end[0] - at[0], end[1] - at[1]),
            Dim::Length,
            format!("{place}.pieces"),
        );
        let most = desk.given(
            key("end-to-head.most"),
            "usual most",
            AT_HEAD_M,
            Dim::Length,
            card("F15"),
        );
        desk.at_most(
            &ENDS,
            place,
            Some(&key("end-to-head")),
            Some(&most),
            card("F15"),
        );
    }
}
