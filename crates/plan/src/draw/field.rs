//! The year as a field of hours: days across, hours of the day down.

use std::fmt::Write as _;

use season::{Regime, Year};
use units::System;

use super::axes::temperature;
use super::page::{Cell, cell, page, path, rect, text};
use crate::Plan;

const WIDTH: f64 = 860.0;
const HEIGHT: f64 = 330.0;
pub(super) const HOUR: f64 = 9.0;

/// Where the field stands: its left edge and top, and how broad a day is.
#[derive(Clone, Copy)]
pub(super) struct Frame {
    pub left: f64,
    pub top: f64,
    pub day: f64,
}

const WIDE: Frame = Frame {
    left: 52.0,
    top: 44.0,
    day: 2.14,
};

/// The field as it is painted: what was drawn, what it is called, what each colour stands for.
pub(super) struct Painted {
    pub body: String,
    pub title: &'static str,
    /// Class, and word with its hours.
    pub legend: Vec<(&'static str, String)>,
    pub cells: [Cell; 3],
}

/// What an hour shows; later ones win where several units do different things.
const STATES: [(&str, &str); 7] = [
    ("paper", "nothing asked"),
    ("frostwash", "cooling"),
    ("frostmid", "on and off"),
    ("copperwash", "modulating"),
    ("coppermid", "full"),
    ("coppered", "full, heaters help"),
    ("inked", "unit off or cannot tell, cold"),
];

fn state(year: &Year, h: usize) -> usize {
    let mut worst = 0;
    for unit in &year.units {
        let regime = unit.by_hour.get(h).and_then(|r| Regime::from_number(*r));
        worst = worst.max(match regime {
            None | Some(Regime::Off) => 0,
            Some(Regime::Cooling) => 1,
            Some(Regime::Cycling) => 2,
            Some(Regime::Modulating) => 3,
            Some(Regime::Full) => 4,
            Some(Regime::CutOut | Regime::CannotTell | Regime::SwitchedOff) => 6,
        });
    }
    // Heaters of rooms without a head run half the winter; they are marked where the units give
    // all they can.
    let heaters = year.heaters_w.get(h).copied().unwrap_or(0.0);
    if heaters > 0.0 && worst == 4 {
        5
    } else {
        worst
    }
}

/// The chart: regimes with equipment, heating and cooling need without; none without a year.
pub fn year(plan: &Plan, year: Option<&Year>, system: System) -> Option<String> {
    let painted = painted(plan, year, WIDE, system)?;
    let mut out = String::new();
    text(&mut out, 16.0, 26.0, "start", "bold", painted.title);
    out.push_str(&painted.body);
    let mut x = WIDE.left;
    for (class, says) in &painted.legend {
        swatch(&mut out, class, x, HEIGHT - 26.0);
        text(&mut out, x + 16.0, HEIGHT - 16.5, "start", "small", says);
        x += 30.0 + super::page::wide(says, 10.5);
    }
    Some(page(WIDTH, HEIGHT, painted.title, &painted.cells, &out))
}

/// A colour of the legend.
pub(super) fn swatch(out: &mut String, class: &str, x: f64, y: f64) {
    rect(out, class, x, y, 11.0, 11.0);
    path(out, "hair", 1.0, &format!("M{x:.1} {y:.1}h11v11h-11z"));
}

/// Paints the field; none without a year.
pub(super) fn painted(
    plan: &Plan,
    year: Option<&Year>,
    frame: Frame,
    system: System,
) -> Option<Painted> {
    let ideal = plan.ideal.done()?;
    let hours = ideal.hourly_heat_w.len();
    let most = ideal
        .hourly_heat_w
        .iter()
        .copied()
        .fold(0.0, f64::max)
        .max(1.0);
    let cool = ideal
        .hourly_heat_w
        .iter()
        .copied()
        .fold(0.0, f64::min)
        .min(-1.0);
    let needs: [(&str, String); 7] = [
        ("paper", "nothing".to_owned()),
        ("frosted", "much cooling".to_owned()),
        ("frostwash", "cooling".to_owned()),
        ("copperwash", "heating".to_owned()),
        ("coppermid", "over a third of its most".to_owned()),
        ("coppered", "over two thirds".to_owned()),
        ("inked", String::new()),
    ];
    let of = |h: usize| -> usize {
        if let Some(year) = year {
            return state(year, h);
        }
        let w = ideal.hourly_heat_w.get(h).copied().unwrap_or(0.0);
        let part = w / most;
        match () {
            () if w < 0.5 * cool => 1,
            () if w < -1.0 => 2,
            () if part > 2.0 / 3.0 => 5,
            () if part > 1.0 / 3.0 => 4,
            () if w > 1.0 => 3,
            () => 0,
        }
    };
    let mut paths = vec![String::new(); STATES.len()];
    let mut counts = vec![0_u32; STATES.len()];
    let days = hours / 24;
    for hour in 0..24 {
        let mut from = 0;
        for day in 0..days {
            let s = of(day * 24 + hour);
            if let Some(n) = counts.get_mut(s) {
                *n += 1;
            }
            let ends = day + 1 == days || of((day + 1) * 24 + hour) != s;
            if ends {
                if let (Some(d), true) = (paths.get_mut(s), s > 0) {
                    let (x, y) = (
                        frame.left + from as f64 * frame.day,
                        frame.top + hour as f64 * HOUR,
                    );
                    let w = (day + 1 - from) as f64 * frame.day;
                    let _ = write!(d, "M{x:.1} {y:.1}h{w:.1}v{HOUR}h-{w:.1}z");
                }
                from = day + 1;
            }
        }
    }
    let mut out = String::new();
    let title = if year.is_some() {
        "The year, hour by hour: what the units do"
    } else {
        "The year, hour by hour: what the house needs"
    };
    for (d, (class, _)) in paths
        .iter()
        .zip(STATES.iter())
        .filter(|(d, _)| !d.is_empty())
    {
        let class = if year.is_some() {
            *class
        } else {
            needs
                .get(STATES.iter().position(|s| s.0 == *class).unwrap_or(0))
                .map_or("paper", |n| n.0)
        };
        path(&mut out, class, 0.0, d);
    }
    edges(&mut out, days, frame);
    let mut legend = Vec::new();
    for (i, n) in counts.iter().enumerate().filter(|(_, n)| **n > 0) {
        let (class, word) = if year.is_some() {
            STATES
                .get(i)
                .map_or(("paper", String::new()), |s| (s.0, s.1.to_owned()))
        } else {
            needs.get(i).cloned().unwrap_or(("paper", String::new()))
        };
        legend.push((class, format!("{word} {n} h")));
    }
    let need = format!(
        "{} {} at most",
        units::load_number(most, system),
        units::load_unit(system)
    );
    let cells = [
        cell(
            &plan.name,
            year.map_or("Ideal heating and cooling".to_owned(), |y| {
                format!("With {}", y.choice)
            }),
        ),
        cell("Coldest hour", temperature(plan.site.coldest_c, system)),
        cell("House needs", need),
    ];
    Some(Painted {
        body: out,
        title,
        legend,
        cells,
    })
}

fn edges(out: &mut String, days: usize, frame: Frame) {
    let Frame {
        left,
        top,
        day: broad,
    } = frame;
    let (right, foot) = (left + days as f64 * broad, top + 24.0 * HOUR);
    let mut d = format!("M{left} {top}H{right:.1}V{foot:.1}H{left}Z");
    let lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let names = [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ];
    // a month in a column has room for one letter
    let letters = if broad < 1.0 { 1 } else { 3 };
    let mut day = 0;
    for (length, name) in lengths.iter().zip(names) {
        let x = left + f64::from(day) * broad;
        let _ = write!(d, "M{x:.1} {foot:.1}v5");
        text(
            out,
            x + f64::from(*length) * broad / 2.0,
            foot + 15.0,
            "middle",
            "small soft",
            name.get(..letters).unwrap_or(name),
        );
        day += length;
    }
    for hour in [0, 6, 12, 18, 24] {
        let y = top + f64::from(hour) * HOUR;
        text(
            out,
            left - 6.0,
            y + 4.0,
            "end",
            "small soft",
            &format!("{hour}:00"),
        );
    }
    path(out, "hair", 1.0, &d);
}
