//! The curves, with what they can and cannot tell, as a drawing.

use std::fmt::Write as _;

use crate::pressure::{PROVEN, PressureAnswer};
use crate::stamp::span;
use crate::vacuum::{Criterion, MICRON_PA, VacuumAnswer, VacuumReading};

const WIDTH: f64 = 720.0;
const HEIGHT: f64 = 400.0;
const LEFT: f64 = 74.0;
const RIGHT: f64 = 672.0;
const TOP: f64 = 44.0;
const BOTTOM: f64 = 300.0;

const STYLE: &str = "text{font:12px system-ui,sans-serif;fill:#1d2629}.paper{fill:#fffdf7}\
.ink{stroke:#1d2629;fill:none}.dot{fill:#1d2629}.hair{stroke:#cfc8b8;fill:none}\
.copper{stroke:#a8501f;fill:none;stroke-dasharray:6 3}.wash{fill:#dfeaf0}.frost{stroke:#2f6480;fill:none}\
@media (prefers-color-scheme:dark){text{fill:#e9e4d8}.paper{fill:#171d1f}.ink{stroke:#e9e4d8}\
.dot{fill:#e9e4d8}.hair{stroke:#374144}.wash{fill:#1b2a33}.copper{stroke:#e39a68}.frost{stroke:#8fc1dc}}";

fn safe(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// Time between marks, s, so that there are at most six.
fn time_step(length_s: f64) -> f64 {
    const STEPS: [f64; 14] = [
        10.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0, 7200.0, 14_400.0, 21_600.0,
        43_200.0, 86_400.0, 172_800.0,
    ];
    STEPS
        .into_iter()
        .find(|s| length_s / s <= 6.0)
        .unwrap_or(604_800.0)
}

/// A field with its scales.
struct Field {
    x: (f64, f64),
    y: (f64, f64),
    out: String,
}

impl Field {
    fn new(title: &str, x: (f64, f64), y: (f64, f64)) -> Self {
        let mut out = String::new();
        let _ = write!(
            out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=\"img\" \
             aria-label=\"{t}\">\n<title>{t}</title>\n<style>{STYLE}</style>\n\
             <rect class=\"paper\" width=\"{WIDTH}\" height=\"{HEIGHT}\"/>\n\
             <text x=\"{LEFT}\" y=\"24\">{t}</text>\n",
            t = safe(title)
        );
        Self { x, y, out }
    }

    fn at(&self, p: (f64, f64)) -> (f64, f64) {
        let fx = (p.0 - self.x.0) / (self.x.1 - self.x.0);
        let fy = (p.1 - self.y.0) / (self.y.1 - self.y.0);
        (LEFT + fx * (RIGHT - LEFT), BOTTOM - fy * (BOTTOM - TOP))
    }

    fn line(&mut self, class: &str, points: &[(f64, f64)]) {
        let mut d = String::new();
        for (i, p) in points.iter().enumerate() {
            let (x, y) = self.at(*p);
            let _ = write!(
                d,
                "{}{x:.1} {:.1}",
                if i == 0 { 'M' } else { 'L' },
                y.clamp(TOP, BOTTOM)
            );
        }
        let _ = writeln!(self.out, "<path class=\"{class}\" d=\"{d}\"/>");
    }

    fn dots(&mut self, points: &[(f64, f64)]) {
        for p in points {
            let (x, y) = self.at(*p);
            let _ = writeln!(
                self.out,
                "<circle class=\"dot\" r=\"2.4\" cx=\"{x:.1}\" cy=\"{y:.1}\"/>"
            );
        }
    }

    fn says(&mut self, p: (f64, f64), anchor: &str, text: &str) {
        let (x, y) = self.at(p);
        let y = y.clamp(TOP + 10.0, BOTTOM - 4.0);
        self.text(x, y - 5.0, anchor, text);
    }

    /// Under a line that falls to the right: text that ends there does not meet it.
    fn says_under(&mut self, p: (f64, f64), text: &str) {
        let (x, y) = self.at(p);
        self.text(x, (y + 14.0).clamp(TOP + 10.0, BOTTOM - 3.0), "end", text);
    }

    fn text(&mut self, x: f64, y: f64, anchor: &str, text: &str) {
        let _ = writeln!(
            self.out,
            "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{}</text>",
            safe(text)
        );
    }

    fn scales(&mut self, show_y: impl Fn(f64) -> String) {
        for i in 0..=4 {
            let f = f64::from(i) / 4.0;
            let y = self.y.0 + f * (self.y.1 - self.y.0);
            self.line("hair", &[(self.x.0, y), (self.x.1, y)]);
            let (_, py) = self.at((0.0, y));
            let label = show_y(y);
            self.text(LEFT - 6.0, py + 4.0, "end", &label);
        }
        let step = time_step(self.x.1 - self.x.0);
        let many = libm::floor((self.x.1 - self.x.0) / step * (1.0 + 1e-9)) as usize;
        for i in 0..=many {
            let x = self.x.0 + i as f64 * step;
            let (px, _) = self.at((x, self.y.0));
            self.text(px, BOTTOM + 16.0, "middle", &span(x));
        }
    }

    /// Words below the field, broken at 100 characters, and the end of the drawing.
    fn end(mut self, words: &[&str]) -> String {
        let mut y = BOTTOM + 38.0;
        for text in words {
            let mut row = String::new();
            for word in text.split_whitespace() {
                if row.chars().count() + word.chars().count() > 98 {
                    self.text(LEFT - 60.0, y, "start", &row);
                    y += 15.0;
                    row.clear();
                }
                if !row.is_empty() {
                    row.push(' ');
                }
                row.push_str(word);
            }
            self.text(LEFT - 60.0, y, "start", &row);
            y += 15.0;
        }
        self.out.push_str("</svg>\n");
        self.out
    }
}

/// Gas left over time, the band of what readings cannot tell from no leak, and the leak that is
/// worth a call-back.
pub fn pressure(a: &PressureAnswer) -> String {
    let length = a.length_s.max(1.0);
    let per_gram = if a.visible_g_per_year > 0.0 {
        2.0 * PROVEN * a.doubts.all() / a.visible_g_per_year
    } else {
        0.0
    };
    let blind = PROVEN * a.doubts.all() * length;
    let worth = a.worth_g_per_year * per_gram * length;
    let seen = a
        .curve
        .iter()
        .map(|p| (p.1 - 1.0).abs())
        .fold(0.0, f64::max);
    let half = 2.0 * units::round_step(0.55 * blind.max(worth).max(seen).max(1e-6));
    let mut f = Field::new(
        &format!("Pressure test: gas left, {}", a.verdict.words()),
        (0.0, length),
        (-half, half),
    );
    let (x0, y0) = f.at((0.0, 0.0));
    let (x1, up) = f.at((length, blind));
    let (_, down) = f.at((length, -blind));
    let _ = writeln!(
        f.out,
        "<path class=\"wash\" d=\"M{x0:.1} {y0:.1}L{x1:.1} {up:.1}L{x1:.1} {down:.1}Z\"/>"
    );
    f.scales(|y| format!("{:+.2} %", 100.0 * y));
    f.line("copper", &[(0.0, 0.0), (length, -worth)]);
    f.says_under(
        (length, -worth),
        &format!("{:.0} g a year: worth a call-back", a.worth_g_per_year),
    );
    f.line("frost", &[(0.0, 0.0), (length, -a.loss_per_s * length)]);
    f.says(
        (length, blind),
        "end",
        "in the wedge no leak can be told from none",
    );
    let dots: Vec<(f64, f64)> = a.curve.iter().map(|p| (p.0, p.1 - 1.0)).collect();
    f.dots(&dots);
    f.end(&[&a.says, &a.would_tell])
}

/// The rise with its limit, the fitted shape, and what ice could hide.
pub fn vacuum(a: &VacuumAnswer, criterion: &Criterion, readings: &[VacuumReading]) -> String {
    let t0 = readings.first().map_or(0.0, |r| r.at_s);
    let points: Vec<(f64, f64)> = readings
        .iter()
        .map(|r| (r.at_s - t0, r.pa / MICRON_PA))
        .collect();
    let length = a.length_s.max(criterion.hold_s).max(1.0);
    let limit = criterion.limit_pa / MICRON_PA;
    let most = points.iter().map(|p| p.1).fold(limit, f64::max);
    let mut f = Field::new(
        &format!("Vacuum hold, micron: {}", a.verdict.words()),
        (0.0, length),
        (0.0, 4.0 * units::round_step(0.27 * most)),
    );
    f.scales(|y| format!("{y:.0}"));
    f.line("copper", &[(0.0, limit), (criterion.hold_s, limit)]);
    f.says((0.0, limit), "start", &format!("limit {limit:.0} micron"));
    if let Some(pv) = a.ice.vapour_pa.filter(|pv| *pv < 1.15 * criterion.limit_pa) {
        let pv = pv / MICRON_PA;
        f.line("copper", &[(0.0, pv), (length, pv)]);
        f.says(
            (length, pv),
            "end",
            "ice in the coldest tube rises no higher",
        );
    }
    if let Some(rise) = &a.rise {
        let fit = *rise.best();
        let curve: Vec<(f64, f64)> = (0..=60)
            .map(|i| {
                let t = f64::from(i) / 60.0 * length;
                (t, fit.at(t) / MICRON_PA)
            })
            .collect();
        f.line("frost", &curve);
    }
    f.dots(&points);
    f.end(&[&a.says, &a.shape, &a.would_tell])
}
