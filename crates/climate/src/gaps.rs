//! Gaps of a column: filled when short, refused when long.

use crate::columns::{COLS, Col, Spec};
use crate::{Note, NoteKind, WeatherError};

/// The longest gap that is filled by a straight line, hours.
///
/// Source: `caltrack-2`, data sufficiency of weather: gaps up to six hours.
pub const LONGEST_GAP_H: usize = 6;

pub(crate) fn computed(text: &str) -> Note {
    Note {
        kind: NoteKind::ColumnComputed,
        line: None,
        text: text.to_owned(),
    }
}

pub(crate) fn none_given(column: &[f64]) -> bool {
    column.iter().all(|v| v.is_nan())
}

/// Names and lines, for messages.
pub(crate) struct Names<'a> {
    pub specs: &'a [Spec; COLS],
    pub lines: &'a [u32],
}

impl Names<'_> {
    pub fn of(&self, col: Col) -> &'static str {
        self.specs
            .iter()
            .find(|s| s.col == col)
            .map_or("", |s| s.name)
    }

    /// The file's own code for a missing value.
    pub fn code(&self, col: Col) -> f64 {
        self.specs
            .iter()
            .find(|s| s.col == col)
            .map_or(f64::NAN, |s| s.code)
    }

    pub fn line(&self, h: usize) -> usize {
        self.lines.get(h).map_or(0, |l| *l as usize)
    }

    /// Fills short gaps; the year is a ring, so a gap over New Year has two neighbours too.
    pub fn fill(&self, col: Col, c: &mut [f64], notes: &mut Vec<Note>) -> Result<(), WeatherError> {
        if !c.iter().any(|v| v.is_nan()) {
            return Ok(());
        }
        let column = self.of(col);
        let n = c.len();
        let Some(first) = c.iter().position(|v| !v.is_nan()) else {
            return Err(self.long(column, 0, n));
        };
        // Walk once round from a value that is there.
        let mut step = 1;
        while step < n {
            let begin = (first + step) % n;
            if !c[begin].is_nan() {
                step += 1;
                continue;
            }
            let mut hours = 0;
            while c[(begin + hours) % n].is_nan() {
                hours += 1;
            }
            if hours > LONGEST_GAP_H {
                return Err(self.long(column, begin, hours));
            }
            let (before, after) = (c[(begin + n - 1) % n], c[(begin + hours) % n]);
            for k in 0..hours {
                let part = (k + 1) as f64 / (hours + 1) as f64;
                c[(begin + k) % n] = before + (after - before) * part;
            }
            notes.push(Note {
                kind: NoteKind::GapFilled,
                line: Some(self.line(begin)),
                text: format!("{column} missing for {hours} h, filled by a straight line"),
            });
            step += hours;
        }
        Ok(())
    }

    fn long(&self, column: &'static str, begin: usize, hours: usize) -> WeatherError {
        WeatherError::LongGap {
            line: self.line(begin),
            column,
            hours,
            allowed_hours: LONGEST_GAP_H,
        }
    }
}

/// Keeps the last value over gaps: for directions a straight line makes no sense.
pub(crate) fn hold(c: &mut [f64], begin: f64, column: &str, taken: &str, notes: &mut Vec<Note>) {
    let mut last = begin;
    let mut hours = 0;
    for v in c {
        if v.is_nan() {
            *v = last;
            hours += 1;
        }
        last = *v;
    }
    if hours > 0 {
        notes.push(computed(&format!(
            "{column} missing in {hours} h; taken as {taken}"
        )));
    }
}

pub(crate) fn hold_if_any(sky_cover: &mut [f64], notes: &mut Vec<Note>) {
    hold(
        sky_cover,
        0.5,
        "total sky cover",
        "the last one before, or half covered",
        notes,
    );
}

/// A column one can do without: whole or not at all.
pub(crate) fn spare(c: &mut Vec<f64>, column: &str, notes: &mut Vec<Note>) -> Option<Vec<f64>> {
    let missing = c.iter().filter(|v| v.is_nan()).count();
    if missing == 0 {
        return Some(std::mem::take(c));
    }
    if missing < c.len() {
        notes.push(computed(&format!(
            "{column} missing in {missing} h; the column is not used"
        )));
    }
    None
}
