//! Bills over outdoor temperature, with the line and its band.

use jobfile::Carrier;
use review::{Days, Fit, Line, Observation};
use units::{Dim, System};

use super::axes::{Scale, heat_axis, temperature, temperature_axis};
use super::page::{cell, joined, page, path, text};
use crate::Plan;

const WIDTH: f64 = 760.0;
const HEIGHT: f64 = 400.0;
const LEFT: f64 = 72.0;
const RIGHT: f64 = 724.0;
const FOOT: f64 = 350.0;

/// The chart: each bill a mark as wide as its days are cold and warm, the line, and the band.
pub fn bill_line(plan: &Plan, carrier: Carrier, fit: &Fit, line: &Line, system: System) -> String {
    let low = fit
        .observations
        .iter()
        .map(Observation::mean_c)
        .fold(f64::INFINITY, f64::min);
    let high = fit
        .observations
        .iter()
        .map(Observation::mean_c)
        .fold(f64::NEG_INFINITY, f64::max);
    let design_c = plan.site.heating.used_c;
    let span = (low.min(design_c) - 2.0, high + 2.0);
    let at = |c: f64| -> [f64; 3] {
        let of = |b: f64| {
            if b.is_nan() {
                0.0
            } else {
                Days::degree_days(&[c], b)
            }
        };
        [1.0, of(fit.heating_c.unwrap_or(f64::NAN)), 0.0]
    };
    let value = |c: f64| fit.base_w + fit.heating_w_per_k * at(c)[1];
    let most = fit
        .observations
        .iter()
        .map(|o| o.power_w)
        .fold(value(design_c), f64::max)
        * 1.1;
    let x = Scale::new(span, (LEFT + 6.0, RIGHT - 6.0));
    let y = Scale::new((0.0, most), (FOOT, 56.0));
    let mut out = String::new();
    let title = format!(
        "{} against the cold: {} bills",
        first_large(carrier.word()),
        fit.bills()
    );
    text(&mut out, 16.0, 26.0, "start", "bold", &title);
    heat_axis(&mut out, &y, (LEFT, RIGHT), most, system);
    let steps: Vec<f64> = (0..=60)
        .map(|i| span.0 + (span.1 - span.0) * f64::from(i) / 60.0)
        .collect();
    let bands: Vec<_> = steps
        .iter()
        .map(|c| {
            let of = |b: f64| {
                if b.is_nan() {
                    0.0
                } else {
                    Days::degree_days(&[*c], b)
                }
            };
            fit.band(|h, _| [1.0, of(h), 0.0])
        })
        .collect();
    let clear = |w: f64| y.at(w.clamp(0.0, most));
    let mut around: Vec<(f64, f64)> = steps
        .iter()
        .zip(&bands)
        .map(|(c, b)| (x.at(*c), clear(b.high)))
        .collect();
    around.extend(
        steps
            .iter()
            .zip(&bands)
            .rev()
            .map(|(c, b)| (x.at(*c), clear(b.low))),
    );
    path(&mut out, "frostwash", 0.0, &format!("{}Z", joined(&around)));
    let along: Vec<(f64, f64)> = steps.iter().map(|c| (x.at(*c), clear(value(*c)))).collect();
    path(&mut out, "frost", 1.8, &joined(&along));
    for o in &fit.observations {
        let (px, py) = (x.at(o.mean_c()), y.at(o.power_w));
        let d = format!(
            "M{:.1} {py:.1}L{px:.1} {:.1}L{:.1} {py:.1}L{px:.1} {:.1}Z",
            px - 4.0,
            py - 4.0,
            px + 4.0,
            py + 4.0
        );
        path(&mut out, "coppered", 0.0, &d);
    }
    let px = x.at(design_c);
    path(&mut out, "ink", 1.0, &format!("M{px:.1} {FOOT}V56"));
    text(
        &mut out,
        px + 5.0,
        66.0,
        "start",
        "small soft",
        "design night",
    );
    temperature_axis(&mut out, &x, FOOT + 4.0, span, system);
    let b = line.balance_c.mid;
    path(
        &mut out,
        "ink",
        1.0,
        &format!("M{0:.1} {FOOT}v-36", x.at(b)),
    );
    text(
        &mut out,
        x.at(b),
        FOOT - 40.0,
        "middle",
        "small soft",
        &format!("begins below {}", temperature(b, system)),
    );
    let slope = line.slope_w_per_k;
    let show = |w: f64| units::show_number(w, Dim::Conductance, system).0;
    let says = format!(
        "{} ({} to {}) {}",
        show(slope.mid),
        show(slope.low),
        show(slope.high),
        units::column_unit(Dim::Conductance, system)
    );
    let cells = [
        cell(&plan.name, "Diamonds are bills, at the mean of their days"),
        cell("Bought for each degree colder", says),
        cell(
            "The same all year",
            units::load_number(line.base_w.mid, system),
        ),
    ];
    page(WIDTH, HEIGHT, &title, &cells, &out)
}

fn first_large(word: &str) -> String {
    let mut letters = word.chars();
    letters
        .next()
        .map_or(String::new(), |f| f.to_uppercase().chain(letters).collect())
}
