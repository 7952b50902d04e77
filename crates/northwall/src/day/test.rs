//! `test pressure` and `test vacuum`: from a logger file, or reading by reading.

pub mod pressure;
pub mod vacuum;

use std::path::Path;

use serde_json::{Value, json};
use startup::Stamp;
use startup::clock::Timeline;

use super::Day;
use super::record::{Book, of_unit};
use super::view::KeptView;
use crate::refusal::Refusal;

/// Where readings come from and go to.
pub struct How<'a> {
    /// Logger file.
    pub log: Option<&'a Path>,
    /// File of records.
    pub record: Option<&'a Path>,
    /// Reading by reading.
    pub live: bool,
    /// Which of several tests in one record.
    pub name: &'a str,
    /// The answer is printed as JSON, so nothing else goes to standard output.
    pub json: bool,
}

impl How<'_> {
    /// Only the plan is asked for.
    fn plan_only(&self) -> bool {
        self.log.is_none() && self.record.is_none()
    }

    /// Keeps a verdict where a record is kept.
    fn keep(
        &self,
        day: &Day,
        kind: &str,
        answer: &impl serde::Serialize,
    ) -> Result<Option<KeptView>, Refusal> {
        let Some(path) = self.record else {
            return Ok(None);
        };
        let at = day.now()?;
        let mut book = Book::open(path, at, &day.file.who)?;
        let says = of_unit(day, json!({ "test": self.name, "answer": answer }));
        // the verdict already stands on these readings: nothing new to keep
        let same = book.standing(kind).last().is_some_and(|r| r.says == says);
        if !same {
            book.add(at, &day.file.who, kind, says, None)?;
        }
        Ok(Some(book.last()))
    }
}

/// Readings later than this are stamped by a calendar (1989 and on), not counted from their start.
const CALENDAR_S: f64 = 6e8;

/// The day of the first reading, where it is stamped by a calendar.
fn day_of(day: &Day, first_s: Option<f64>) -> Result<Option<i64>, Refusal> {
    let Some(epoch_s) = first_s.filter(|s| *s > CALENDAR_S) else {
        return Ok(None);
    };
    let offset_min = day.offset_min()?;
    Ok(Some(
        Stamp {
            epoch_s,
            offset_min,
        }
        .day(),
    ))
}

/// Looks through the times of a logger file.
fn logged(day: &Day, log: &startup::logger::Log) -> Result<Timeline, Refusal> {
    let at_s: Vec<f64> = log.rows.iter().map(|r| r.at_s).collect();
    let offset_min = day.offset_min()?;
    let calendar = at_s.first().is_some_and(|s| *s > CALENDAR_S);
    let now_s = if calendar {
        Some(day.now()?.epoch_s)
    } else {
        None
    };
    let mut line = startup::clock::logged(&at_s, log.local && calendar, now_s, &|s| {
        clock_words(s, offset_min)
    });
    line.notes.extend(log.notes.iter().cloned());
    Ok(line)
}

/// A time of day with its date.
pub fn clock_words(epoch_s: f64, offset_min: i32) -> String {
    let written = Stamp {
        epoch_s,
        offset_min,
    }
    .written();
    written.get(..16).unwrap_or(&written).replace('T', " ")
}

fn number(says: &Value, key: &str) -> Option<f64> {
    says.get(key).and_then(Value::as_f64)
}
