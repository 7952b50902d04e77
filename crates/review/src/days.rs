//! Mean outdoor temperature of each day, and degree days.

use std::fmt::Write as _;

use climate::Weather;

use crate::calendar::{civil, day_of, iso};
use crate::read::date;
use crate::read::table::{Head, open};
use crate::{Bills, Note, Refused};

/// Daily means of a stretch of days.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    /// First day.
    pub first: i32,
    /// Mean of each day, C; `None` where it was not measured.
    pub mean_c: Vec<Option<f64>>,
    /// True if these are days of a typical year laid over the calendar, not what was measured.
    pub typical: bool,
    /// Remarks.
    pub notes: Vec<Note>,
}

/// Daily means of one year without a date: the year that before and after are compared in.
#[derive(Debug, Clone, PartialEq)]
pub struct YearOfDays {
    /// Mean of each day, C; 365 or 366.
    pub mean_c: Vec<f64>,
}

impl YearOfDays {
    /// Days of a weather file.
    pub fn from_weather(weather: &Weather) -> Self {
        Self::of_hours(&weather.dry_bulb_c)
    }

    /// Days of a year of hours, C.
    pub fn of_hours(outdoor_c: &[f64]) -> Self {
        let mean_c = outdoor_c
            .chunks(24)
            .map(|day| day.iter().sum::<f64>() / day.len() as f64)
            .collect();
        Self { mean_c }
    }

    /// Lays the year over the calendar from `from` up to but without `to`. The result is marked
    /// typical: a fit against it knows nothing of the weather that really was.
    pub fn over(&self, from: i32, to: i32) -> Days {
        let mean_c = (from..to)
            .map(|day| {
                let (year, _, _) = civil(day);
                let of_year = day - day_of(year, 1, 1)?;
                let last = self.mean_c.len().checked_sub(1)?;
                self.mean_c
                    .get((of_year.max(0) as usize).min(last))
                    .copied()
            })
            .collect();
        Days {
            first: from,
            mean_c,
            typical: true,
            notes: Vec::new(),
        }
    }

    /// Heating degree days of the year, K d. See [`Days::degree_days`].
    pub fn heating_k_d(&self, base_c: f64) -> f64 {
        self.mean_c.iter().map(|t| (base_c - t).max(0.0)).sum()
    }

    /// The year in order of temperature, for many balance points.
    pub(crate) fn sums(&self) -> Sums {
        let mut days = self.mean_c.clone();
        days.sort_by(f64::total_cmp);
        let mut below = Vec::with_capacity(days.len() + 1);
        let mut sum = 0.0;
        below.push(sum);
        for t in &days {
            sum += t;
            below.push(sum);
        }
        Sums { days, below }
    }
}

/// Days in order of temperature with their sums.
pub(crate) struct Sums {
    days: Vec<f64>,
    below: Vec<f64>,
}

impl Sums {
    /// Degree days to a balance point, K d: below it, or above it.
    pub fn degree_days(&self, balance_c: f64, heating: bool) -> f64 {
        let k = self.days.partition_point(|t| *t < balance_c);
        let at = |i: usize| self.below.get(i).copied().unwrap_or(0.0);
        let n = self.days.len();
        if heating {
            balance_c * k as f64 - at(k)
        } else {
            at(n) - at(k) - balance_c * (n - k) as f64
        }
    }
}

impl Days {
    /// Temperatures of the dates of bills where no others were given: those of the weather file if
    /// it is of those very dates (then `true`), else its typical year laid over them.
    pub fn of_bills<'b>(
        weather: &Weather,
        year: &YearOfDays,
        bills: impl IntoIterator<Item = &'b Bills>,
    ) -> (Self, bool) {
        let (mut from, mut to) = (None, None);
        for b in bills {
            from = b
                .periods
                .first()
                .map(|p| p.from)
                .into_iter()
                .chain(from)
                .min();
            to = b.periods.last().map(|p| p.to).into_iter().chain(to).max();
        }
        let (from, to) = (from.unwrap_or(0), to.unwrap_or(0));
        match Self::from_weather(weather) {
            Some(own) if own.first <= from && own.end() >= to => (own, true),
            _ => (year.over(from, to), false),
        }
    }

    /// Days of a weather file of one true year; `None` if its months come from several years.
    pub fn from_weather(weather: &Weather) -> Option<Self> {
        let year = *weather.year.first()?;
        if weather.year.iter().any(|y| *y != year) {
            return None;
        }
        let days = YearOfDays::from_weather(weather);
        Some(Self {
            first: day_of(i32::from(year), 1, 1)?,
            mean_c: days.mean_c.into_iter().map(Some).collect(),
            typical: false,
            notes: Vec::new(),
        })
    }

    /// Reads daily means, or hours that are averaged, from a CSV file with a column of dates and
    /// a column of temperatures whose heading says F or C.
    ///
    /// # Errors
    /// No such columns, a date or temperature that does not read, a temperature outside
    /// -60 to 55 C, a file above 32 MB.
    pub fn read_csv(bytes: &[u8]) -> Result<Self, Refused> {
        let table = open(bytes, 32_000_000)?;
        let head = Head::of(&table);
        let dated = head
            .find(&["date", "day", "dt", "time", "datetime"])
            .ok_or_else(|| head.lacks("the days", "date"))?;
        let temperature = head
            .find(&["temperature", "temp", "tavg", "mean", "dry bulb"])
            .ok_or_else(|| head.lacks("temperatures", "temperature_F or temperature_C"))?;
        let fahrenheit = fahrenheit(head.name(temperature))?;
        let (order, guessed) = date::order_of(&table.rows, &[dated])?;
        let mut notes: Vec<Note> = guessed.into_iter().collect();
        let mut sums: std::collections::BTreeMap<i32, (f64, u32)> =
            std::collections::BTreeMap::new();
        for row in &table.rows {
            let day = date::day(row, dated, order)?;
            let text = row.cell(temperature).trim();
            if text.is_empty() || text.eq_ignore_ascii_case("m") || text.eq_ignore_ascii_case("nan")
            {
                continue;
            }
            let t: f64 = text
                .parse()
                .ok()
                .filter(|t: &f64| t.is_finite())
                .ok_or_else(|| {
                    Refused::new(
                        "not a temperature",
                        format!("\"{text}\""),
                        "a number, or empty where it is missing",
                        "mend the cell",
                    )
                    .at(row.line)
                })?;
            let t_c = if fahrenheit { (t - 32.0) / 1.8 } else { t };
            if !(-60.0..=55.0).contains(&t_c) {
                return Err(Refused::new(
                    "no outdoor temperature",
                    format!("{t} ({t_c:.1} C)"),
                    "-60 to 55 C (-76 to 131 F)",
                    "empty the cell if the reading is missing, or check F and C in the heading",
                )
                .at(row.line));
            }
            let sum = sums.entry(day).or_insert((0.0, 0));
            sum.0 += t_c;
            sum.1 += 1;
        }
        let most = sums.values().map(|s| s.1).max().unwrap_or(0);
        let (Some((&first, _)), Some((&last, _))) = (sums.first_key_value(), sums.last_key_value())
        else {
            return Err(Refused::new(
                "no temperatures",
                "no row",
                "one row a day or an hour",
                "give the daily means of the bills' months",
            ));
        };
        if last - first > 40_000 {
            return Err(Refused::new(
                "the dates span more than a hundred years",
                format!("{} to {}", iso(first), iso(last)),
                "the years of the bills",
                "check the years",
            ));
        }
        let mut thin = 0;
        let mean_c = (first..=last)
            .map(|day| {
                let (sum, count) = sums.get(&day)?;
                // up to six of 24 hours may lack: caltrack-2
                if count * 4 < most * 3 {
                    thin += 1;
                    return None;
                }
                Some(sum / f64::from(*count))
            })
            .collect();
        if thin > 0 {
            notes.push(Note::new(
                None,
                format!(
                    "{thin} days lack more than a quarter of their readings and count as missing"
                ),
            ));
        }
        Ok(Self {
            first,
            mean_c,
            typical: false,
            notes,
        })
    }

    /// The days as a table that [`Days::read_csv`] reads to the same bits; a day that was not
    /// measured has no row.
    pub fn csv(&self) -> String {
        let mut out = String::from("date,temperature_C\n");
        for (day, mean) in (self.first..).zip(&self.mean_c) {
            if let Some(t) = mean {
                let _ = writeln!(out, "{},{t}", iso(day));
            }
        }
        out
    }

    /// Mean of one day, C.
    pub fn of(&self, day: i32) -> Option<f64> {
        let i = usize::try_from(day - self.first).ok()?;
        self.mean_c.get(i).copied().flatten()
    }

    /// Day after the last.
    pub fn end(&self) -> i32 {
        self.first + i32::try_from(self.mean_c.len()).unwrap_or(0)
    }

    /// Days measured in `from..to`, in order, C.
    pub fn measured(&self, from: i32, to: i32) -> Vec<f64> {
        (from..to).filter_map(|d| self.of(d)).collect()
    }

    /// Heating degree days of measured days, mean over the days.
    ///
    /// **Equation** h = sum(max(0, Tb - T)) / n
    ///
    /// **Symbols**
    /// - h: degree days a day, K
    /// - Tb: balance point, C
    /// - T: mean of a day, C
    /// - n: days measured
    ///
    /// **Range** n at least 1
    ///
    /// **Source** `caltrack-2`, billing period degree days
    ///
    /// **Example** days of 10 and 20 C to a base of 15 C: 2.5 K
    /// ```
    /// assert_eq!(review::Days::degree_days(&[10.0, 20.0], 15.0), 2.5);
    /// ```
    pub fn degree_days(days_c: &[f64], base_c: f64) -> f64 {
        days_c.iter().map(|t| (base_c - t).max(0.0)).sum::<f64>() / days_c.len() as f64
    }

    /// Puts further years after these, or before; days of both must agree within 0.5 K.
    ///
    /// # Errors
    /// A day that stands in both with unlike values.
    pub fn join(self, other: &Self) -> Result<Self, Refused> {
        let first = self.first.min(other.first);
        let end = self.end().max(other.end());
        let mut mean_c = Vec::with_capacity((end - first) as usize);
        for day in first..end {
            let (a, b) = (self.of(day), other.of(day));
            if let (Some(a), Some(b)) = (a, b)
                && (a - b).abs() > 0.5
            {
                return Err(Refused::new(
                    format!("two weather files disagree on {}", iso(day)),
                    format!("{a:.1} and {b:.1} C"),
                    "within 0.5 K",
                    "leave one of the files out",
                ));
            }
            mean_c.push(a.or(b));
        }
        let mut notes = self.notes;
        notes.extend(other.notes.iter().cloned());
        Ok(Self {
            first,
            mean_c,
            typical: self.typical || other.typical,
            notes,
        })
    }
}

fn fahrenheit(heading: &str) -> Result<bool, Refused> {
    let lower = heading.to_lowercase();
    let last = lower
        .trim()
        .trim_end_matches([')', ']', ' '])
        .chars()
        .last();
    match last {
        _ if lower.contains("fahrenheit") => Ok(true),
        _ if lower.contains("celsius") => Ok(false),
        Some('f') => Ok(true),
        Some('c') => Ok(false),
        _ => Err(Refused::new(
            "the temperature column does not say its unit",
            format!("\"{heading}\""),
            "a heading that ends in F or C",
            "rename it, as in temperature_F",
        )),
    }
}
