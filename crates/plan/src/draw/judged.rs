//! Rules of the installation on a drawing: measured, wanted, verdict.

use install::Judged;
use reckon::Verdict;

use super::numbered::broken;
use super::page::{path, text};

/// Width of the narrow drawings: readable on a phone.
pub(super) const WIDTH: f64 = 520.0;
/// Left and right edge of what is drawn.
pub(super) const LEFT: f64 = 24.0;
pub(super) const RIGHT: f64 = WIDTH - 24.0;
const ROW: f64 = 14.0;

/// A verdict as a drawing says it, and the class of its word.
pub(super) fn said(verdict: Verdict) -> (&'static str, &'static str) {
    match verdict {
        Verdict::Holds => ("holds", "small"),
        Verdict::Fails => ("FAILS", "small bold"),
        Verdict::CannotTell => ("cannot tell", "small"),
    }
}

/// Rules as measured, wanted, verdict; gives where it ends.
pub(super) fn table<'j>(rows: impl Iterator<Item = &'j Judged>, top: f64, out: &mut String) -> f64 {
    let mut y = top;
    let columns = [LEFT, LEFT + 190.0, LEFT + 290.0, RIGHT];
    let mut place = "";
    for j in rows {
        if j.place != place {
            place = &j.place;
            y += 6.0;
            text(out, columns[0], y, "start", "small bold", place);
            for (x, word, anchor) in [
                (columns[1], "measured", "start"),
                (columns[2], "wanted", "start"),
                (columns[3], "verdict", "end"),
            ] {
                text(out, x, y, anchor, "small soft", word);
            }
            path(out, "hair", 1.0, &format!("M{LEFT} {:.1}H{RIGHT}", y + 4.0));
            y += ROW + 3.0;
        }
        let (verdict, class) = said(j.verdict);
        text(out, columns[3], y, "end", class, verdict);
        let cells = [
            broken(&j.what, 200.0),
            broken(&j.found, 112.0),
            broken(&j.required, 134.0),
        ];
        let lines = cells.iter().map(Vec::len).max().unwrap_or(1);
        for k in 0..lines {
            for (cell, x) in cells.iter().zip(columns) {
                if let Some(words) = cell.get(k) {
                    text(out, x, y, "start", "small", words);
                }
            }
            y += ROW - 1.0;
        }
        y += 1.0;
    }
    y
}
