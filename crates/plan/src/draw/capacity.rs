//! What the units can give against what the house asks, over outdoor temperature, with the hours
//! of the year beneath.

use heatpump::{Conditions, Duty, PlotData, plot_data};
use season::Year;
use units::System;

use super::axes::{Scale, heat_axis, temperature, temperature_axis};
use super::own_rooms::own_rooms;
use super::page::{Cell, cell, joined, page, path, rect, text};
use crate::Plan;

const WIDTH: f64 = 760.0;
const HEIGHT: f64 = 430.0;
const LEFT: f64 = 64.0;
pub(super) const RIGHT: f64 = 736.0;
const TOP: f64 = 52.0;
pub(super) const FOOT: f64 = 300.0;
/// From the foot of the curves to the head and the foot of the hours beneath.
const HOURS: (f64, f64) = (22.0, 82.0);
/// Where along its line the house is named, as a share of the way from the cold end to nothing.
const NAMED_AT: f64 = 0.38;

/// Sum of the curves of all systems where all have an answer: outdoor C, least W, most W.
pub fn together(plan: &Plan, year: &Year) -> Vec<(f64, f64, f64)> {
    let Some(chosen) = plan.chosen.iter().find(|c| c.name == year.choice) else {
        return Vec::new();
    };
    let air = Conditions {
        indoor_c: 190.0 / 9.0,
        pressure_pa: climate::altitude::pressure_pa(plan.site.elevation_m),
        humidity: None,
    };
    let curves: Vec<PlotData> = chosen
        .systems
        .iter()
        .filter_map(|s| plot_data(&s.pumps, Duty::Heating, air).ok())
        .collect();
    if curves.is_empty() || curves.len() < chosen.systems.len() {
        return Vec::new();
    }
    let end = |of: fn(&PlotData) -> Option<f64>, pick: fn(f64, f64) -> f64| {
        curves.iter().filter_map(of).reduce(pick)
    };
    let cold = end(|c| c.curves.first().map(|p| p.outdoor_c), f64::max);
    let mild = end(|c| c.curves.last().map(|p| p.outdoor_c), f64::min);
    let (Some(cold), Some(mild)) = (cold, mild) else {
        return Vec::new();
    };
    let n = 60;
    (0..=n)
        .map(|i| {
            let c = cold + (mild - cold) * f64::from(i) / f64::from(n);
            let sum = |of: fn(&heatpump::PlotPoint) -> f64| {
                curves.iter().map(|curve| between(curve, c, of)).sum()
            };
            (c, sum(|p| p.min_w), sum(|p| p.max_w))
        })
        .collect()
}

fn between(curve: &PlotData, c: f64, of: fn(&heatpump::PlotPoint) -> f64) -> f64 {
    for pair in curve.curves.windows(2) {
        if let [a, b] = pair
            && c >= a.outdoor_c
            && c <= b.outdoor_c
        {
            let part = (c - a.outdoor_c) / (b.outdoor_c - a.outdoor_c).max(1e-9);
            return of(a) + part * (of(b) - of(a));
        }
    }
    curve.curves.last().map_or(0.0, of)
}

/// What the chart shows, with its scales.
pub(super) struct Curves {
    pub need: season::NeedLine,
    /// Outdoor C, least W, most W, as far as the chart goes.
    pub shown: Vec<(f64, f64, f64)>,
    /// Coldest and mildest of the chart, C.
    pub span_c: (f64, f64),
    /// Highest of the chart, W.
    pub most_w: f64,
    pub x: Scale,
    pub y: Scale,
}

impl Curves {
    /// Between these edges; none where nothing is asked.
    pub fn of(plan: &Plan, year: &Year, across: (f64, f64), up: (f64, f64)) -> Option<Self> {
        let need = year.need?;
        let mut curve = together(plan, year);
        let coldest = year.outdoor_c.iter().copied().fold(f64::INFINITY, f64::min);
        let first = curve.first().map_or(coldest, |p| p.0.min(coldest));
        let first = first.min(plan.site.heating.used_c) - 1.0;
        let last = 20.0;
        let most = curve
            .iter()
            .map(|p| p.2)
            .chain([need.at(first)])
            .fold(0.0, f64::max)
            * 1.06;
        curve.retain(|p| p.0 <= last);
        Some(Self {
            need,
            shown: curve,
            span_c: (first, last),
            most_w: most,
            x: Scale::new((first, last), across),
            y: Scale::new((0.0, most), up),
        })
    }

    /// Draws the band between the least and the most; gives the coldest end of the most, and the
    /// mildest ends of both.
    pub fn band(&self, out: &mut String) -> Option<[(f64, f64); 3]> {
        let (x, y) = (&self.x, &self.y);
        let up: Vec<(f64, f64)> = self.shown.iter().map(|p| (x.at(p.0), y.at(p.2))).collect();
        let down: Vec<(f64, f64)> = self.shown.iter().map(|p| (x.at(p.0), y.at(p.1))).collect();
        let ends = [*up.first()?, *up.last()?, *down.last()?];
        let mut around = up.clone();
        around.extend(down.iter().rev());
        path(out, "copperwash", 0.0, &format!("{}Z", joined(&around)));
        path(out, "copper", 2.0, &joined(&up));
        path(out, "copper", 1.2, &joined(&down));
        Some(ends)
    }

    /// Draws the line of need; gives where it is named.
    pub fn line(&self, out: &mut String) -> (f64, f64) {
        let need = &self.need;
        let [cold, mild] = [
            self.span_c.0,
            (need.at_0c_w / need.per_k_w).min(self.span_c.1),
        ]
        .map(|c| (self.x.at(c), self.y.at(need.at(c))));
        path(out, "ink", 2.0, &joined(&[cold, mild]));
        (
            cold.0 + NAMED_AT * (mild.0 - cold.0),
            cold.1 + NAMED_AT * (mild.1 - cold.1),
        )
    }
}

/// The chart; none where nothing is asked or the sheets have no curve.
pub fn capacity(plan: &Plan, year: &Year, system: System) -> Option<String> {
    let curves = Curves::of(plan, year, (LEFT, RIGHT), (FOOT, TOP))?;
    let (x, y) = (&curves.x, &curves.y);
    let mut out = String::new();
    text(
        &mut out,
        16.0,
        26.0,
        "start",
        "bold",
        "What the units can give, what the house asks",
    );
    heat_axis(&mut out, y, (LEFT, RIGHT), curves.most_w, system);
    if let Some([cold, a, b]) = curves.band(&mut out) {
        text(
            &mut out,
            a.0 - 6.0,
            a.1 - 7.0,
            "end",
            "small halo",
            "most, all units",
        );
        text(
            &mut out,
            b.0 - 6.0,
            if b.1 + 34.0 > FOOT {
                b.1 - 7.0
            } else {
                b.1 + 14.0
            },
            "end",
            "small halo",
            "least while running",
        );
        let at = cold.0;
        if at > LEFT + 4.0 {
            let d = format!("M{at:.1} {TOP}V{FOOT}");
            out.push_str(&format!(
                "<path class=\"copper\" stroke-dasharray=\"2 4\" d=\"{d}\"/>\n"
            ));
            text(
                &mut out,
                at + 5.0,
                FOOT - 8.0,
                "start",
                "small halo",
                "sheet ends",
            );
        }
    }
    // Named on its way, above it: at its ends marks and other names stand.
    let (px, py) = curves.line(&mut out);
    text(
        &mut out,
        px + 7.0,
        py - 3.0,
        "start",
        "small bold halo",
        "the house",
    );
    design(&mut out, plan, x, system);
    own_rooms(&mut out, year, (x, y), curves.span_c.0, system);
    meeting(&mut out, year, &curves, system);
    let hours_foot = hours(&mut out, year, &curves, FOOT);
    path(
        &mut out,
        "hair",
        1.0,
        &format!("M{LEFT} {hours_foot}H{RIGHT}"),
    );
    for (at, says) in [(0.0, "hours"), (16.0, "outdoors")] {
        text(
            &mut out,
            LEFT - 6.0,
            hours_foot + at,
            "end",
            "small soft",
            says,
        );
    }
    temperature_axis(&mut out, x, hours_foot, curves.span_c, system);
    let cells = title_block(plan, year, system);
    Some(page(
        WIDTH,
        HEIGHT,
        "Capacity and need over outdoor temperature, with the hours of the year",
        &cells,
        &out,
    ))
}

/// The title block.
pub(super) fn title_block(plan: &Plan, year: &Year, system: System) -> [Cell; 3] {
    let design = plan.loads.done().map_or(String::new(), |l| {
        format!(
            "{} {} at {}",
            units::load_number(l.heating.heat_w, system),
            units::load_unit(system),
            temperature(l.design.outdoor_c, system)
        )
    });
    let cop = year
        .seasonal_cop()
        .map_or("cannot tell".to_owned(), |c| format!("COP {c:.2}"));
    [
        cell(&plan.name, format!("With {}", year.choice)),
        cell("House loses", design),
        cell("Season, waiting included", cop),
    ]
}

fn design(out: &mut String, plan: &Plan, x: &Scale, system: System) {
    let c = plan.site.heating.used_c;
    if !c.is_finite() {
        return;
    }
    let at = x.at(c);
    out.push_str(&format!(
        "<path class=\"ink\" stroke-dasharray=\"5 4\" d=\"M{at:.1} {TOP}V{FOOT}\"/>\n"
    ));
    let says = format!("design {}", temperature(c, system));
    text(out, at + 4.0, TOP - 6.0, "start", "small", &says);
}

/// A filled mark.
pub(super) fn dot(out: &mut String, (x, y): (f64, f64)) {
    out.push_str(&format!(
        "<circle class=\"inked\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4.5\"/>\n"
    ));
}

/// Where need and capacity meet.
fn meeting(out: &mut String, year: &Year, curves: &Curves, system: System) {
    if let Some(c) = year.balance.at_c() {
        let (px, py) = (curves.x.at(c), curves.y.at(curves.need.at(c)));
        dot(out, (px, py));
        let says = format!("{}: below it, others must help", temperature(c, system));
        let ly = (py - 46.0).max(TOP + 10.0);
        out.push_str(&format!(
            "<path class=\"hair\" d=\"M{px:.1} {:.1}V{:.1}\"/>\n",
            ly + 3.0,
            py - 5.0
        ));
        text(out, px + 4.0, ly, "start", "small halo", &says);
    }
}

/// Width of the bars: whole degrees of the readings fall evenly into 5 F.
const BIN_F: f64 = 5.0;

/// Bars of the hours of the year, beneath the foot of the curves; gives their foot.
pub(super) fn hours(out: &mut String, year: &Year, curves: &Curves, foot: f64) -> f64 {
    let (x, span_c) = (&curves.x, curves.span_c);
    let (head, foot) = (foot + HOURS.0, foot + HOURS.1);
    let f = |c: f64| c * 1.8 + 32.0;
    let c = |f: f64| (f - 32.0) / 1.8;
    let first = (f(span_c.0) / BIN_F).floor() * BIN_F;
    let n = ((f(span_c.1) - first) / BIN_F).ceil().max(1.0) as usize;
    let mut bins = vec![0.0_f64; n];
    for t in &year.outdoor_c {
        let i = ((f(*t) - first) / BIN_F).floor();
        if i >= 0.0
            && let Some(b) = bins.get_mut(i as usize)
        {
            *b += 1.0;
        }
    }
    let most = bins.iter().copied().fold(1.0, f64::max);
    let y = Scale::new((0.0, most), (foot, head + 6.0));
    for (i, hours) in bins.iter().enumerate().filter(|(_, h)| **h > 0.0) {
        let a = c(first + BIN_F * i as f64).max(span_c.0);
        let b = c(first + BIN_F * (i as f64 + 1.0)).min(span_c.1);
        let (left, right) = (x.at(a) + 0.8, x.at(b) - 0.8);
        if right > left {
            rect(
                out,
                "frostmid",
                left,
                y.at(*hours),
                right - left,
                foot - y.at(*hours),
            );
        }
    }
    foot
}
