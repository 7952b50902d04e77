//! The curves of a data sheet with its published points.

use heatpump::PlotData;
use units::System;

use super::axes::{Scale, heat_axis, steps, temperature, temperature_axis};
use super::page::{cell, joined, page, path, text};

const WIDTH: f64 = 760.0;
const HEIGHT: f64 = 470.0;
const LEFT: f64 = 64.0;
const RIGHT: f64 = 720.0;

/// The chart.
pub fn sheet(data: &PlotData, system: System) -> String {
    let ends = (
        data.curves.first().map_or(-20.0, |p| p.outdoor_c),
        data.curves.last().map_or(20.0, |p| p.outdoor_c),
    );
    let most = data
        .curves
        .iter()
        .map(|p| p.max_w)
        .chain(data.marks.iter().map(|m| m.capacity_w))
        .fold(1.0, f64::max)
        * 1.08;
    let cop = data
        .curves
        .iter()
        .flat_map(|p| [p.min_cop, p.max_cop])
        .chain(data.marks.iter().map(|m| m.cop))
        .fold(1.0, f64::max)
        * 1.1;
    let x = Scale::new(ends, (LEFT + 8.0, RIGHT - 8.0));
    let y = Scale::new((0.0, most), (270.0, 52.0));
    let z = Scale::new((0.0, cop), (420.0, 306.0));
    let mut out = String::new();
    let title = format!("{}: {} by its sheet", data.name, data.duty.word());
    text(&mut out, 16.0, 26.0, "start", "bold", &title);
    heat_axis(&mut out, &y, (LEFT, RIGHT), most, system);
    for v in steps(0.0, cop, 4.0) {
        path(
            &mut out,
            "hair",
            1.0,
            &format!("M{LEFT} {:.1}H{RIGHT}", z.at(v)),
        );
        text(
            &mut out,
            LEFT - 6.0,
            z.at(v) + 4.0,
            "end",
            "small soft",
            &format!("{v}"),
        );
    }
    text(
        &mut out,
        LEFT - 6.0,
        z.at(cop) - 4.0,
        "end",
        "small soft",
        "COP",
    );
    let line = |of: &dyn Fn(&heatpump::PlotPoint) -> f64, s: &Scale| -> Vec<(f64, f64)> {
        data.curves
            .iter()
            .map(|p| (x.at(p.outdoor_c), s.at(of(p))))
            .collect()
    };
    let (up, down) = (line(&|p| p.max_w, &y), line(&|p| p.min_w, &y));
    let mut around = up.clone();
    around.extend(down.iter().rev());
    path(
        &mut out,
        "copperwash",
        0.0,
        &format!("{}Z", joined(&around)),
    );
    path(&mut out, "copper", 2.0, &joined(&up));
    path(&mut out, "copper", 1.2, &joined(&down));
    if let (Some(a), Some(b)) = (up.last(), down.last()) {
        text(&mut out, a.0, a.1 - 8.0, "end", "small halo", "most");
        text(
            &mut out,
            b.0,
            b.1 + 15.0,
            "end",
            "small halo",
            "least while running",
        );
    }
    let (at_most, at_least) = (line(&|p| p.max_cop, &z), line(&|p| p.min_cop, &z));
    path(&mut out, "copper", 2.0, &joined(&at_most));
    path(&mut out, "frost", 1.6, &joined(&at_least));
    if let (Some(a), Some(b)) = (at_most.last(), at_least.last()) {
        // The one that ends higher is named above its line, the other below.
        let (up, down) = if a.1 < b.1 {
            (-7.0, 24.0)
        } else {
            (24.0, -7.0)
        };
        text(&mut out, a.0, a.1 + up, "end", "small halo", "at the most");
        text(
            &mut out,
            b.0,
            b.1 + down,
            "end",
            "small halo",
            "at the least",
        );
    }
    for m in &data.marks {
        let px = x.at(m.outdoor_c);
        for (py, class) in [(y.at(m.capacity_w), "inked"), (z.at(m.cop), "inked")] {
            let d = format!(
                "M{:.1} {py:.1}L{px:.1} {:.1}L{:.1} {py:.1}L{px:.1} {:.1}Z",
                px - 4.0,
                py - 4.0,
                px + 4.0,
                py + 4.0
            );
            path(
                &mut out,
                if m.level == "rated" { "ink" } else { class },
                1.2,
                &d,
            );
        }
    }
    temperature_axis(&mut out, &x, 424.0, ends, system);
    let cells = [
        cell(
            "Diamonds are printed on the sheet; open ones are the rated state",
            "Past its outermost cold or hot point nothing is drawn",
        ),
        cell("From", temperature(ends.0, system)),
        cell("to", temperature(ends.1, system)),
    ];
    page(WIDTH, HEIGHT, &title, &cells, &out)
}
