//! Logger files: columns of any order and unit, by a mapping.

use serde::Serialize;
use units::Dim;

use crate::stamp::{Stamp, read_clock, read_day};

/// How time stands in the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TimeColumn {
    /// Date and time of day in one column; offset, minutes east, where the text has none.
    Stamp(String, Option<i32>),
    /// Date and time of day in two columns; offset, minutes east.
    Split(String, String, i32),
    /// Seconds since the beginning.
    Seconds(String),
    /// Minutes since the beginning.
    Minutes(String),
}

/// A column that is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// Its name in the header.
    pub column: String,
    /// What it is.
    pub dim: Dim,
    /// Unit of its numbers, as in `psi`, `F`, `micron`; empty where each number has its own.
    pub unit: String,
}

/// Layout of a logger file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// Time.
    pub time: TimeColumn,
    /// Values, in the order in which they come out.
    pub wanted: Vec<Wanted>,
    /// `,`, `;` or a tab.
    pub separator: char,
    /// Comma in place of a decimal point.
    pub decimal_comma: bool,
}

/// One row, SI.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// Line of the file.
    pub line: usize,
    /// Seconds.
    pub at_s: f64,
    /// Values in the order wanted; `None` for an empty cell.
    pub values: Vec<Option<f64>>,
}

/// What was read.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Log {
    /// Rows in the order of time.
    pub rows: Vec<Row>,
    /// What was left out and why.
    pub notes: Vec<String>,
    /// The times are of the place, by an offset that the file does not name itself.
    pub local: bool,
}

/// Why a logger file cannot be used, to the line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[error("line {line}, {column}: {says}")]
pub struct LogError {
    /// Line, from 1.
    pub line: usize,
    /// Column by name.
    pub column: String,
    /// What is wrong.
    pub says: String,
    /// What stands there.
    pub got: String,
    /// How to mend it.
    pub mend: String,
}

fn error(line: usize, column: &str, says: &str, got: &str, mend: &str) -> LogError {
    LogError {
        line,
        column: column.to_owned(),
        says: says.to_owned(),
        got: units::cut(got, 60),
        mend: mend.to_owned(),
    }
}

impl TimeColumn {
    fn names(&self) -> Vec<&str> {
        match self {
            Self::Stamp(a, _) | Self::Seconds(a) | Self::Minutes(a) => vec![a],
            Self::Split(a, b, _) => vec![a, b],
        }
    }
}

/// Reads a logger file. Lines before the header, and empty ones, are passed over.
///
/// # Errors
/// The first line that cannot be used.
pub fn read(text: &str, layout: &Layout) -> Result<Log, LogError> {
    let separator = u8::try_from(layout.separator).map_err(|_| {
        error(
            1,
            "separator",
            "it is not one byte",
            "",
            "a comma, semicolon or tab",
        )
    })?;
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator)
        .trim(csv::Trim::All)
        .from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let names: Vec<&str> = layout
        .time
        .names()
        .into_iter()
        .chain(layout.wanted.iter().map(|w| w.column.as_str()))
        .collect();
    let mut places: Option<Vec<usize>> = None;
    let mut log = Log {
        rows: Vec::new(),
        notes: Vec::new(),
        local: matches!(layout.time, TimeColumn::Split(..)),
    };
    let mut best_missing: Option<(usize, String)> = None;
    for record in reader.records() {
        let record = record.map_err(|e| {
            let line = e.position().map_or(1, |p| p.line() as usize);
            error(
                line,
                "row",
                "it cannot be split into columns",
                &e.to_string(),
                "an export as plain CSV",
            )
        })?;
        let line = record.position().map_or(1, |p| p.line() as usize);
        let Some(at) = &places else {
            let found: Vec<Option<usize>> = names
                .iter()
                .map(|n| record.iter().position(|c| c.eq_ignore_ascii_case(n)))
                .collect();
            if found.iter().all(Option::is_some) {
                places = Some(found.into_iter().flatten().collect());
            } else if found.iter().any(Option::is_some) {
                let missing = names.iter().zip(&found).find(|(_, f)| f.is_none());
                best_missing = missing.map(|(n, _)| (line, (*n).to_owned()));
            }
            continue;
        };
        if record.iter().all(str::is_empty) {
            continue;
        }
        let row = row(&record, line, at, layout)?;
        if let (TimeColumn::Stamp(..), Some(text)) =
            (&layout.time, at.first().and_then(|i| record.get(*i)))
        {
            log.local |= Stamp::read(text, None).is_err();
        }
        match log.rows.last() {
            Some(last) if row.at_s < last.at_s => {
                return Err(error(
                    line,
                    "time",
                    "it is earlier than the line before",
                    record.get(at.first().copied().unwrap_or(0)).unwrap_or(""),
                    "sort the file; if the clocks went back that night, export with the offset from UTC",
                ));
            }
            Some(last) if row.at_s == last.at_s => {
                if row.values == last.values {
                    log.notes.push(format!(
                        "line {line} is the same as the one before: left out"
                    ));
                    continue;
                }
                return Err(error(
                    line,
                    "time",
                    "the same time has other values on the line before",
                    record.get(at.first().copied().unwrap_or(0)).unwrap_or(""),
                    "take the wrong one out, or export with seconds",
                ));
            }
            _ => log.rows.push(row),
        }
    }
    if places.is_none() {
        let (line, name) = best_missing
            .unwrap_or_else(|| (1, names.first().copied().unwrap_or("time").to_owned()));
        return Err(error(
            line,
            &name,
            "there is no such column",
            "",
            "name the columns as the file does, and its separator",
        ));
    }
    if log.rows.is_empty() {
        return Err(error(
            1,
            "row",
            "there are no readings",
            "",
            "rows below the header",
        ));
    }
    Ok(log)
}

fn row(
    record: &csv::StringRecord,
    line: usize,
    places: &[usize],
    layout: &Layout,
) -> Result<Row, LogError> {
    let cell = |i: usize| places.get(i).and_then(|p| record.get(*p)).unwrap_or("");
    let number = |text: &str, column: &str| {
        let text = if layout.decimal_comma {
            text.replace(',', ".")
        } else {
            text.to_owned()
        };
        text.parse::<f64>()
            .ok()
            .filter(|x| x.is_finite())
            .ok_or_else(|| {
                error(
                    line,
                    column,
                    "it is not a number",
                    &text,
                    "a number, or take the line out",
                )
            })
    };
    let time_error = |column: &str, e: &crate::stamp::NotATime| {
        error(
            line,
            column,
            e.why,
            &e.got,
            "a time like 2026-11-25T10:30:00-05:00",
        )
    };
    let (at_s, used) = match &layout.time {
        TimeColumn::Stamp(name, offset) => (
            Stamp::read(cell(0), *offset)
                .map_err(|e| time_error(name, &e))?
                .epoch_s,
            1,
        ),
        TimeColumn::Split(day, clock, offset) => {
            let d = read_day(cell(0)).map_err(|e| time_error(day, &e))?;
            let s = read_clock(cell(1)).map_err(|e| time_error(clock, &e))?;
            (d as f64 * 86_400.0 + s - f64::from(*offset) * 60.0, 2)
        }
        TimeColumn::Seconds(name) => (number(cell(0), name)?, 1),
        TimeColumn::Minutes(name) => (60.0 * number(cell(0), name)?, 1),
    };
    let mut values = Vec::with_capacity(layout.wanted.len());
    for (i, want) in layout.wanted.iter().enumerate() {
        let text = cell(used + i);
        if text.is_empty() {
            values.push(None);
            continue;
        }
        let text = if layout.decimal_comma {
            text.replace(',', ".")
        } else {
            text.to_owned()
        };
        let whole = if want.unit.is_empty() {
            text.clone()
        } else {
            number(&text, &want.column)?;
            format!("{text} {}", want.unit)
        };
        let value = units::parse(&whole, want.dim).map_err(|e| {
            error(
                line,
                &want.column,
                &e.to_string(),
                &text,
                "a number in the unit named",
            )
        })?;
        values.push(Some(value));
    }
    Ok(Row { line, at_s, values })
}
