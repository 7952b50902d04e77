//! Scales and their marks.

use units::System;

use super::page::{path, text};

/// A straight scale from values to the drawing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    from: (f64, f64),
    to: (f64, f64),
}

impl Scale {
    /// Values `from` fall on places `to`.
    pub fn new(from: (f64, f64), to: (f64, f64)) -> Self {
        Self { from, to }
    }

    /// Place of a value.
    pub fn at(&self, v: f64) -> f64 {
        let span = self.from.1 - self.from.0;
        let part = if span == 0.0 {
            0.0
        } else {
            (v - self.from.0) / span
        };
        self.to.0 + part * (self.to.1 - self.to.0)
    }
}

/// Round steps of 1, 2 or 5 that give about `want` of them.
pub(super) fn steps(lo: f64, hi: f64, want: f64) -> Vec<f64> {
    let step = units::round_step(((hi - lo) / want).max(1e-9));
    let first = libm::ceil(lo / step - 1e-9);
    let mut out = Vec::new();
    let mut k = first;
    while k * step <= hi + 1e-9 * step && out.len() < 60 {
        // Adding zero turns -0 into 0.
        out.push(k * step + 0.0);
        k += 1.0;
    }
    out
}

/// C to the user's scale.
pub(super) fn degrees(c: f64, system: System) -> f64 {
    match system {
        System::Us => c * 1.8 + 32.0,
        System::Si => c,
    }
}

/// The user's scale to C.
pub(super) fn celsius(d: f64, system: System) -> f64 {
    match system {
        System::Us => (d - 32.0) / 1.8,
        System::Si => d,
    }
}

/// W to the user's heat unit.
pub(super) fn heat(w: f64, system: System) -> f64 {
    match system {
        System::Us => w / units::constants::BTU_PER_H_W,
        System::Si => w,
    }
}

/// Temperature with its unit, whole degrees.
pub(super) fn temperature(c: f64, system: System) -> String {
    format!("{} {}", units::degrees(c, system), units::degree(system))
}

/// Hairlines and marks for heat along the left edge.
pub(super) fn heat_axis(out: &mut String, y: &Scale, x: (f64, f64), most_w: f64, system: System) {
    for v in steps(0.0, heat(most_w, system), 5.0) {
        let w = v / heat(1.0, system);
        path(
            out,
            "hair",
            1.0,
            &format!("M{:.1} {:.1}H{:.1}", x.0, y.at(w), x.1),
        );
        let says = if v >= 1000.0 {
            format!("{:.0}k", v / 1000.0)
        } else {
            format!("{v:.0}")
        };
        let says = if v >= 1000.0 && v % 1000.0 != 0.0 {
            format!("{:.1}k", v / 1000.0)
        } else {
            says
        };
        text(out, x.0 - 6.0, y.at(w) + 4.0, "end", "small soft", &says);
    }
    text(
        out,
        x.0 - 6.0,
        y.at(most_w) - 10.0,
        "end",
        "small soft",
        units::load_unit(system),
    );
}

/// Marks for outdoor temperature along the foot.
pub(super) fn temperature_axis(
    out: &mut String,
    x: &Scale,
    at_y: f64,
    span_c: (f64, f64),
    system: System,
) {
    let (lo, hi) = (degrees(span_c.0, system), degrees(span_c.1, system));
    let marks = steps(lo, hi, 9.0);
    let last = marks.len().saturating_sub(1);
    for (i, d) in marks.iter().enumerate() {
        let px = x.at(celsius(*d, system));
        path(out, "hair", 1.0, &format!("M{px:.1} {at_y:.1}v4"));
        let says = if i == last {
            format!("{d:.0} {}", units::degree(system))
        } else {
            format!("{d:.0}")
        };
        text(out, px, at_y + 16.0, "middle", "small soft", &says);
    }
}
