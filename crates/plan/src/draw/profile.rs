//! Check days of the test houses: this program against the spread of the others.

use units::System;

use super::axes::{Scale, degrees, steps};
use super::page::{cell, joined, page, path, text};
use crate::prove::DayProfile;

const WIDTH: f64 = 860.0;
const PANEL_W: f64 = 410.0;
const PANEL_H: f64 = 190.0;

/// Small charts, two across.
pub fn profiles(all: &[DayProfile], system: System) -> String {
    let mut out = String::new();
    text(
        &mut out,
        16.0,
        26.0,
        "start",
        "bold",
        "Test houses on the check days: the line is ours, the band is six other programs",
    );
    for (i, p) in all.iter().enumerate() {
        let (col, row) = ((i % 2) as f64, (i / 2) as f64);
        panel(
            &mut out,
            p,
            14.0 + col * (PANEL_W + 12.0),
            40.0 + row * PANEL_H,
            system,
        );
    }
    let rows = all.len().div_ceil(2) as f64;
    let inside = all
        .iter()
        .flat_map(|p| &p.hours)
        .filter(|h| h.got >= h.least && h.got <= h.most);
    let of = all.iter().map(|p| p.hours.len()).sum::<usize>();
    let cells = [
        cell(
            "Standard 140-2020, Denver International",
            "Heat above zero is heating, below it cooling",
        ),
        cell(
            "Hours inside the band",
            format!("{} of {of}", inside.count()),
        ),
    ];
    page(
        WIDTH,
        52.0 + rows * PANEL_H,
        "Check-day profiles against the spread",
        &cells,
        &out,
    )
}

fn panel(out: &mut String, p: &DayProfile, x0: f64, y0: f64, system: System) {
    let heat = p.unit.eq_ignore_ascii_case("kwh");
    let shown = |v: f64| if heat { v } else { degrees(v, system) };
    let all = || {
        p.hours
            .iter()
            .flat_map(|h| [h.least, h.most, h.got])
            .map(shown)
    };
    let lo = all()
        .fold(f64::INFINITY, f64::min)
        .min(if heat { 0.0 } else { f64::INFINITY });
    let hi =
        all()
            .fold(f64::NEG_INFINITY, f64::max)
            .max(if heat { 0.0 } else { f64::NEG_INFINITY });
    let pad = 0.06 * (hi - lo).max(1e-6);
    let x = Scale::new((0.0, 24.0), (x0 + 44.0, x0 + PANEL_W - 10.0));
    let y = Scale::new((lo - pad, hi + pad), (y0 + PANEL_H - 34.0, y0 + 26.0));
    let unit = if heat { "kW" } else { units::degree(system) };
    let day = p
        .day
        .replace("feb_1", "1 February")
        .replace("july_14", "14 July");
    text(
        out,
        x0 + 44.0,
        y0 + 16.0,
        "start",
        "bold small",
        &format!("Case {}, {day}, {unit}", p.case),
    );
    for v in steps(lo - pad, hi + pad, 4.0) {
        path(
            out,
            "hair",
            1.0,
            &format!("M{:.1} {:.1}H{:.1}", x.at(0.0), y.at(v), x.at(24.0)),
        );
        let says = format!("{:.1}", v + 0.0);
        let says = says.strip_suffix(".0").unwrap_or(&says).to_owned();
        text(
            out,
            x.at(0.0) - 6.0,
            y.at(v) + 4.0,
            "end",
            "small soft",
            &says,
        );
    }
    let middle = |k: usize| x.at(k as f64 + 0.5);
    let line = |of: &dyn Fn(&crate::prove::HourSpread) -> f64| -> Vec<(f64, f64)> {
        p.hours
            .iter()
            .enumerate()
            .map(|(k, h)| (middle(k), y.at(shown(of(h)))))
            .collect()
    };
    let mut band = line(&|h| h.most);
    band.extend(line(&|h| h.least).into_iter().rev());
    path(out, "frostwash", 0.0, &format!("{}Z", joined(&band)));
    path(out, "frost", 0.8, &format!("{}Z", joined(&band)));
    path(out, "copper", 1.8, &joined(&line(&|h| h.got)));
    for hour in [0, 6, 12, 18, 24] {
        text(
            out,
            x.at(f64::from(hour)),
            y0 + PANEL_H - 18.0,
            "middle",
            "small soft",
            &hour.to_string(),
        );
    }
}
