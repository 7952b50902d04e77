//! A year as it stands in a file, gaps and all, before it becomes [`crate::Weather`].

use crate::cells::{Cell, Row, shown};
use crate::weather::{COMMON, LEAP, month_lengths};
use crate::{HeaderDesign, Station, WeatherError, Weekday};

/// A column as a file has it. Missing values are NaN.
pub(crate) type Raw = Vec<f64>;

/// Which column, in the order of [`FileYear::columns`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Col {
    DryBulb,
    DewPoint,
    Humidity,
    Pressure,
    Infrared,
    Ghi,
    Dni,
    Dhi,
    WindDir,
    WindSpeed,
    SkyCover,
    OpaqueCover,
    Snow,
    Albedo,
}

/// How many.
pub(crate) const COLS: usize = 14;

/// What a column is called and what it may hold, in the unit of this crate.
pub(crate) struct Spec {
    pub col: Col,
    pub name: &'static str,
    /// Least and greatest, in the file's unit.
    pub low: f64,
    pub high: f64,
    /// The file's code for a missing value.
    pub code: f64,
    /// File's unit to ours.
    pub factor: f64,
    /// The range in words, with unit and code.
    pub allowed: &'static str,
    /// A value out of range only counts as missing: the file can be used without it.
    pub spare: bool,
}

impl Spec {
    /// A value in range, in our unit.
    #[inline]
    fn good(&self, v: f64) -> Option<f64> {
        (v >= self.low && v <= self.high && v != self.code).then_some(v * self.factor)
    }

    /// The value at this place of a row, in our unit; NaN when missing.
    #[inline]
    pub fn read(&self, row: &Row<'_>, place: usize, line: usize) -> Result<f64, WeatherError> {
        match row.number(place).and_then(|v| self.good(v)) {
            Some(value) => Ok(value),
            None => self.careful(row, place, line),
        }
    }

    #[cold]
    fn careful(&self, row: &Row<'_>, place: usize, line: usize) -> Result<f64, WeatherError> {
        let cell = row.cell(place);
        let Cell::Number(v) = cell else {
            return self.odd(cell, line);
        };
        if let Some(good) = self.good(v) {
            return Ok(good);
        }
        let missing = v == self.code || (self.code > 900.0 && v > self.code) || v <= -9900.0;
        if missing || self.spare {
            return Ok(f64::NAN);
        }
        Err(self.refuse(&format!("{v}"), line))
    }

    fn odd(&self, cell: Cell<'_>, line: usize) -> Result<f64, WeatherError> {
        match cell {
            Cell::Text(t) if !self.spare => Err(self.refuse(&shown(t), line)),
            _ => Ok(f64::NAN),
        }
    }

    fn refuse(&self, got: &str, line: usize) -> WeatherError {
        WeatherError::Field {
            line,
            column: self.name,
            got: got.to_owned(),
            allowed: self.allowed.to_owned(),
            mend: "correct the value or write the missing code".to_owned(),
        }
    }
}

/// A year as read.
pub(crate) struct FileYear {
    pub station: Station,
    pub header_design: Option<HeaderDesign>,
    pub start_weekday: Weekday,
    pub calendar: Calendar,
    pub columns: [Raw; COLS],
    /// Line of each row.
    pub lines: Vec<u32>,
}

/// Checks that hours follow one another.
pub(crate) struct Calendar {
    pub year: Vec<i16>,
    pub month: Vec<u8>,
    pub day: Vec<u8>,
    pub hour: Vec<u8>,
    next: (u8, u8, u8),
    done: bool,
}

impl Calendar {
    pub fn new() -> Self {
        Self {
            year: Vec::with_capacity(LEAP),
            month: Vec::with_capacity(LEAP),
            day: Vec::with_capacity(LEAP),
            hour: Vec::with_capacity(LEAP),
            next: (1, 1, 1),
            done: false,
        }
    }

    /// Takes the stamp of a row; `hour` is 1 to 24.
    #[inline]
    pub fn take(
        &mut self,
        year: i16,
        month: u8,
        day: u8,
        hour: u8,
        line: usize,
    ) -> Result<(), WeatherError> {
        if self.done {
            return Ok(());
        }
        let (m, d, h) = self.next;
        let leap_day_left_out = (m, d, h) == (2, 29, 1) && (month, day, hour) == (3, 1, 1);
        if (month, day, hour) != (m, d, h) && !leap_day_left_out {
            return Err(WeatherError::OutOfOrder {
                line,
                month,
                day,
                hour,
                want_month: m,
                want_day: d,
                want_hour: h,
            });
        }
        self.year.push(year);
        self.month.push(month);
        self.day.push(day);
        self.hour.push(hour - 1);
        self.next = if hour < 24 {
            (month, day, hour + 1)
        } else if day
            < month_lengths(true)
                .get(usize::from(month) - 1)
                .copied()
                .unwrap_or(31)
        {
            (month, day + 1, 1)
        } else {
            (month + 1, 1, 1)
        };
        self.done = self.next.0 > 12;
        Ok(())
    }

    /// The year is whole?
    pub fn is_whole(&self) -> bool {
        self.done && matches!(self.year.len(), COMMON | LEAP)
    }

    pub fn is_done(&self) -> bool {
        self.done
    }
}
