//! The curves in the terminal, with the part of the field in which nothing can be told.

use startup::pressure::{PROVEN, PressureAnswer};
use startup::stamp::span;
use startup::vacuum::{Criterion, MICRON_PA, VacuumAnswer, VacuumReading};
use units::round_step;

use super::page::{para, width};

const ROWS: usize = 11;

/// A field of characters with its scales.
struct Field {
    x: (f64, f64),
    y: (f64, f64),
    cells: Vec<Vec<char>>,
}

/// A share of a whole as a place among so many.
fn place(share: f64, many: usize) -> Option<usize> {
    ((0.0..=1.0).contains(&share) && many > 1).then(|| (share * (many - 1) as f64).round() as usize)
}

impl Field {
    fn new(columns: usize, x: (f64, f64), y: (f64, f64)) -> Self {
        Self {
            x,
            y,
            cells: vec![vec![' '; columns.max(10)]; ROWS],
        }
    }

    fn put(&mut self, x: f64, y: f64, mark: char) {
        let columns = self.cells.first().map_or(0, Vec::len);
        let column = place((x - self.x.0) / (self.x.1 - self.x.0), columns);
        let row = place((self.y.1 - y) / (self.y.1 - self.y.0), ROWS);
        if let (Some(c), Some(r)) = (column, row)
            && let Some(cell) = self.cells.get_mut(r).and_then(|row| row.get_mut(c))
        {
            *cell = mark;
        }
    }

    /// A mark in every column, by a rule; fills down to a second value where there is one.
    fn along(&mut self, mark: char, rule: &dyn Fn(f64) -> (f64, f64)) {
        let columns = self.cells.first().map_or(0, Vec::len);
        for c in 0..columns {
            let x = self.x.0 + (self.x.1 - self.x.0) * c as f64 / (columns - 1) as f64;
            let (low, high) = rule(x);
            for r in 0..ROWS {
                let y = self.y.1 - (self.y.1 - self.y.0) * r as f64 / (ROWS - 1) as f64;
                let half = 0.5 * (self.y.1 - self.y.0) / (ROWS - 1) as f64;
                if y >= low - half && y <= high + half {
                    self.put(x, y, mark);
                }
            }
        }
    }

    fn text(&self, label: &dyn Fn(f64) -> String) -> String {
        let mut out = String::new();
        let step = (self.y.1 - self.y.0) / (ROWS - 1) as f64;
        let labels: Vec<String> = (0..ROWS)
            .map(|r| {
                if r % 5 == 0 {
                    label(self.y.1 - step * r as f64)
                } else {
                    String::new()
                }
            })
            .collect();
        let wide = labels.iter().map(|l| l.chars().count()).max().unwrap_or(0);
        for (row, label) in self.cells.iter().zip(&labels) {
            let body: String = row.iter().collect();
            out.push_str(&format!("{label:>wide$} │{}\n", body.trim_end()));
        }
        let columns = self.cells.first().map_or(0, Vec::len);
        let end = span(self.x.1 - self.x.0);
        out.push_str(&format!(
            "{:>wide$} └0{:─>fill$}\n",
            "",
            format!(" {end}"),
            fill = columns.saturating_sub(1)
        ));
        out
    }
}

fn columns() -> usize {
    width().min(72) - 12
}

/// Gas left, the part in which a leak cannot be told from none, and the leak worth a call-back.
pub fn pressure(a: &PressureAnswer) -> String {
    let length = a.length_s.max(1.0);
    let blind = PROVEN * a.doubts.all();
    let per_gram = if a.visible_g_per_year > 0.0 {
        2.0 * blind / a.visible_g_per_year
    } else {
        0.0
    };
    let worth = a.worth_g_per_year * per_gram;
    let seen = a
        .curve
        .iter()
        .map(|p| (p.1 - 1.0).abs())
        .fold(0.0, f64::max);
    let half = 2.0 * round_step(0.55 * (blind * length).max(worth * length).max(seen).max(1e-6));
    let mut f = Field::new(columns(), (0.0, length), (-half, half));
    f.along('░', &|t| (-blind * t, blind * t));
    f.along('-', &|t| (-worth * t, -worth * t));
    for (t, gas) in &a.curve {
        f.put(*t, gas - 1.0, 'o');
    }
    let mut out = f.text(&|y| format!("{:+.2} %", 100.0 * y));
    out.push_str(&para(&format!(
        "o gas left; ░ a leak there cannot be told from none; - {:.0} g a year, worth a call-back",
        a.worth_g_per_year
    )));
    out
}

/// The rise, its limit, and what ice could hide.
pub fn vacuum(a: &VacuumAnswer, criterion: &Criterion, readings: &[VacuumReading]) -> String {
    let t0 = readings.first().map_or(0.0, |r| r.at_s);
    let length = a.length_s.max(criterion.hold_s).max(1.0);
    let limit = criterion.limit_pa / MICRON_PA;
    let most = readings
        .iter()
        .map(|r| r.pa / MICRON_PA)
        .fold(limit, f64::max);
    let mut f = Field::new(
        columns(),
        (0.0, length),
        (0.0, 4.0 * round_step(0.27 * most)),
    );
    let hidden = a
        .ice
        .vapour_pa
        .map(|p| p / MICRON_PA)
        .filter(|p| *p <= limit);
    if let Some(p) = hidden {
        f.along('░', &|_| (0.0, p));
    }
    let doubt = a.highest_pa.1 / MICRON_PA;
    f.along('-', &|t| {
        if t <= criterion.hold_s {
            (limit, limit)
        } else {
            (f64::NAN, f64::NAN)
        }
    });
    for r in readings {
        f.put(r.at_s - t0, r.pa / MICRON_PA, 'o');
    }
    let mut out = f.text(&|y| format!("{y:.0}"));
    let ice = hidden.map_or(String::new(), |p| {
        format!("; ░ up to {p:.0}: where ice hides")
    });
    out.push_str(&para(&format!(
        "o micron, known within {doubt:.0}; - the limit{ice}"
    )));
    out
}
