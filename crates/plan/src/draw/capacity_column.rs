//! What the units can give against what the house asks, in a column for a phone: numbers at the
//! lines, their words in a list beneath.

use season::Year;
use units::System;

use super::axes::{heat_axis, temperature, temperature_axis};
use super::capacity::{Curves, dot, hours, title_block};
use super::column::{LEFT, RIGHT, page, words};
use super::own_rooms::{Own, ring};
use super::page::{path, text};
use crate::Plan;

/// Edges of the curves; the hours stand beneath them.
const FROM: f64 = 52.0;
const TO: f64 = RIGHT - 4.0;
const TOP: f64 = 84.0;
const FOOT: f64 = 310.0;

/// Numbers at the lines with their words.
#[derive(Default)]
struct Marks {
    at: Vec<(f64, f64)>,
    says: Vec<String>,
}

impl Marks {
    /// A number beside a place, where no other stands.
    fn put(&mut self, out: &mut String, of: (f64, f64), says: String) {
        let around = [
            (10.0, -6.0),
            (-10.0, -6.0),
            (10.0, 18.0),
            (-10.0, 18.0),
            (24.0, -6.0),
            (-24.0, -6.0),
            (0.0, -22.0),
            (0.0, 34.0),
        ];
        let spot = |(dx, dy): (f64, f64)| {
            let x = (of.0 + dx).clamp(FROM + 8.0, TO - 8.0);
            (x, (of.1 + dy).clamp(TOP + 10.0, FOOT - 4.0))
        };
        let free = |p: &(f64, f64)| {
            let apart = |o: &(f64, f64)| (o.0 - p.0).abs() > 17.0 || (o.1 - p.1).abs() > 14.0;
            self.at.iter().all(apart)
        };
        let at = around.into_iter().map(spot).find(free);
        let at = at.unwrap_or_else(|| spot((10.0, -6.0)));
        self.at.push(at);
        self.says.push(says);
        let number = self.says.len().to_string();
        text(out, at.0, at.1, "middle", "small bold halo", &number);
    }
}

/// As [`super::capacity`], in a column.
pub fn capacity_column(plan: &Plan, year: &Year, system: System) -> Option<String> {
    let curves = Curves::of(plan, year, (FROM, TO), (FOOT, TOP))?;
    let (x, y) = (&curves.x, &curves.y);
    let mut out = String::new();
    let room = RIGHT - LEFT;
    let title = "What the units can give, what the house asks";
    words(&mut out, (LEFT, 26.0), "bold", room, title);
    heat_axis(&mut out, y, (FROM, TO), curves.most_w, system);
    let mut marks = Marks::default();
    let band = curves.band(&mut out);
    let named = curves.line(&mut out);
    let own = Own::drawn(&mut out, year, (x, y), curves.span_c.0, system);
    marks.put(&mut out, named, "the house asks".to_owned());
    if let Some([cold, most, least]) = band {
        marks.put(&mut out, most, "most, all units".to_owned());
        marks.put(&mut out, least, "least while running".to_owned());
        if cold.0 > FROM + 4.0 {
            upright(&mut out, "copper", "2 4", cold.0);
            marks.put(&mut out, (cold.0, FOOT - 2.0), "sheet ends".to_owned());
        }
    }
    let c = plan.site.heating.used_c;
    if c.is_finite() {
        upright(&mut out, "ink", "5 4", x.at(c));
        let says = format!("design {}", temperature(c, system));
        marks.put(&mut out, (x.at(c), TOP + 16.0), says);
    }
    if let Some((at, says)) = own.named {
        marks.put(&mut out, at, format!("{says} ask"));
    }
    for (at, says) in own.marks {
        ring(&mut out, at);
        marks.put(&mut out, at, says);
    }
    if let Some(c) = year.balance.at_c() {
        let at = (x.at(c), y.at(curves.need.at(c)));
        dot(&mut out, at);
        let says = format!("{}: below it, others must help", temperature(c, system));
        marks.put(&mut out, at, says);
    }
    let hours_foot = hours(&mut out, year, &curves, FOOT);
    path(&mut out, "hair", 1.0, &format!("M{FROM} {hours_foot}H{TO}"));
    text(
        &mut out,
        FROM - 4.0,
        hours_foot,
        "end",
        "small soft",
        "hours",
    );
    temperature_axis(&mut out, x, hours_foot, curves.span_c, system);
    let mut below = hours_foot + 42.0;
    for (i, says) in marks.says.iter().enumerate() {
        let says = format!("{}. {says}", i + 1);
        below = words(&mut out, (LEFT, below), "small", room, &says);
    }
    let cells = title_block(plan, year, system);
    let label = "Capacity and need over outdoor temperature, with the hours of the year";
    Some(page(below, label, &cells, &out))
}

fn upright(out: &mut String, class: &str, dashes: &str, x: f64) {
    out.push_str(&format!(
        "<path class=\"{class}\" stroke-dasharray=\"{dashes}\" d=\"M{x:.1} {TOP}V{FOOT}\"/>\n"
    ));
}
