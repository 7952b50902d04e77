//! What the rooms of each unit ask, and where on that line it begins to go on and off.

use season::Year;
use units::System;

use super::axes::{Scale, temperature};
use super::capacity::{FOOT, RIGHT};
use super::page::{joined, path, text, wide};

/// Where along its line the name stands, as a share of the way from the cold end to nothing.
const NAMED_AT: f64 = 0.25;

/// A place, and what is said of it.
type Said<S> = ((f64, f64), S);

/// The lines as drawn: where they are named, and where each unit begins to go on and off.
pub(super) struct Own {
    pub named: Option<Said<&'static str>>,
    pub marks: Vec<Said<String>>,
}

impl Own {
    /// Draws the line of each unit that cycles.
    pub fn drawn(
        out: &mut String,
        year: &Year,
        (x, y): (&Scale, &Scale),
        first_c: f64,
        system: System,
    ) -> Self {
        let cycling: Vec<_> = year
            .units
            .iter()
            .filter_map(|u| Some((u, u.cycles_above.at_c()?, u.need?)))
            .collect();
        for (_, _, own) in &cycling {
            let ends = [first_c, own.at_0c_w / own.per_k_w];
            let line = ends.map(|c| (x.at(c.min(20.0)), y.at(own.at(c.min(20.0)))));
            path(out, "ink", 0.8, &joined(&line));
        }
        // One name for all the lines: which is whose, the marks say.
        let highest = cycling
            .iter()
            .map(|(_, _, own)| own)
            .max_by(|a, b| a.at(first_c).total_cmp(&b.at(first_c)));
        let says = if cycling.len() == 1 {
            "its rooms"
        } else {
            "the rooms of each unit"
        };
        let named = highest.map(|own| {
            let c = first_c + NAMED_AT * (own.at_0c_w / own.per_k_w - first_c);
            ((x.at(c), y.at(own.at(c))), says)
        });
        let mark = |(unit, c, own): &(&season::UnitYear, f64, season::NeedLine)| {
            // The curve of the least is for all heads; one alone may go lower.
            let calling = if unit.heads.len() > 1 {
                ", one head"
            } else {
                ""
            };
            let at = temperature(*c, system);
            let says = format!("{}: cycles above {at}{calling}", unit.name);
            ((x.at(*c), y.at(own.at(*c))), says)
        };
        let marks = cycling.iter().map(mark).collect();
        Self { named, marks }
    }
}

/// A hollow mark.
pub(super) fn ring(out: &mut String, (x, y): (f64, f64)) {
    out.push_str(&format!(
        "<circle class=\"ink\" stroke-width=\"1.5\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4.5\"/>\n"
    ));
}

/// A thin line for the rooms of each unit that cycles, with its mark. A unit cycles by what its
/// own rooms ask, not by the house. Labels step down so that they never lie on each other.
pub(super) fn own_rooms(
    out: &mut String,
    year: &Year,
    (x, y): (&Scale, &Scale),
    first_c: f64,
    system: System,
) {
    let own = Own::drawn(out, year, (x, y), first_c, system);
    if let Some(((px, py), says)) = own.named {
        text(out, px + 5.0, py - 4.0, "start", "small halo", says);
    }
    for (row, ((px, py), says)) in own.marks.iter().enumerate() {
        let (px, py) = (*px, *py);
        let ly = FOOT - 112.0 + row as f64 * 15.0;
        let (lx, anchor) = if wide(says, 10.5) > RIGHT - px - 12.0 {
            (px - 8.0, "end")
        } else {
            (px + 8.0, "start")
        };
        out.push_str(&format!(
            "<path class=\"hair\" d=\"M{px:.1} {:.1}V{:.1}\"/>\n",
            ly + 3.0,
            py - 5.0
        ));
        ring(out, (px, py));
        text(out, lx, ly, anchor, "small halo", says);
    }
}
