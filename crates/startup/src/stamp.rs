//! Times on the wall: read with their offset, kept as seconds, printed again.

use serde::{Deserialize, Serialize};

/// An instant: seconds since 1970 in UTC, and the offset of the place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Stamp {
    /// Seconds since 1970-01-01 00:00 UTC.
    pub epoch_s: f64,
    /// Minutes east of UTC.
    pub offset_min: i32,
}

/// Why a text is not a time.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("`{got}` is not a time: {why}; write it like 2026-11-25T10:30:00-05:00")]
pub struct NotATime {
    /// What was written.
    pub got: String,
    /// What is wrong.
    pub why: &'static str,
}

/// Days since 1970-01-01 of a date of the Gregorian calendar.
///
/// # Equation
/// whole days counted from March, so that the leap day ends the year
/// # Symbols
/// year, month 1 to 12, day of the month; result, days, negative before 1970.
/// # Range
/// Years 1 to 9999; the caller has checked month and day.
/// # Source
/// `common-practice`: civil calendar arithmetic.
/// # Example
/// ```
/// assert_eq!(startup::stamp::days_from_civil(1970, 1, 1), 0);
/// assert_eq!(startup::stamp::days_from_civil(2026, 11, 25), 20_782);
/// ```
pub fn days_from_civil(year: i64, month: i64, day: i64) -> i64 {
    let y = if month <= 2 { year - 1 } else { year };
    let era = y.div_euclid(400);
    let of_era = y.rem_euclid(400);
    let from_march = (month + 9) % 12;
    let of_year = (153 * from_march + 2) / 5 + day - 1;
    era * 146_097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719_468
}

fn civil_from_days(days: i64) -> (i64, i64, i64) {
    let z = days + 719_468;
    let era = z.div_euclid(146_097);
    let of_era = z.rem_euclid(146_097);
    let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let from_march = (5 * of_year + 2) / 153;
    let day = of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 {
        from_march + 3
    } else {
        from_march - 9
    };
    (year + era * 400 + i64::from(month <= 2), month, day)
}

/// Length of a month.
fn month_days(year: i64, month: i64) -> i64 {
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        _ => 31,
    }
}

fn whole(text: &str) -> Option<i64> {
    (!text.is_empty() && text.chars().all(|c| c.is_ascii_digit()))
        .then(|| text.parse().ok())
        .flatten()
}

/// A date to days since 1970: `2026-11-25`, or `11/25/2026` (month first).
pub fn read_day(text: &str) -> Result<i64, NotATime> {
    let bad = |why| NotATime {
        got: text.trim().to_owned(),
        why,
    };
    let t = text.trim();
    let parts: Vec<&str> = t.split(['-', '/']).collect();
    let [a, b, c] = parts.as_slice() else {
        return Err(bad("a date has year, month and day"));
    };
    let all = if t.contains('/') {
        (whole(c), whole(a), whole(b))
    } else {
        (whole(a), whole(b), whole(c))
    };
    let (Some(year), Some(month), Some(day)) = all else {
        return Err(bad("a date has year, month and day"));
    };
    if !(1990..=2200).contains(&year) {
        return Err(bad("the year is outside 1990 to 2200"));
    }
    if !(1..=12).contains(&month) {
        return Err(bad("there is no such month"));
    }
    if day < 1 || day > month_days(year, month) {
        return Err(bad("there is no such day in that month"));
    }
    Ok(days_from_civil(year, month, day))
}

/// A time of day to seconds: `10:30`, `10:30:05.5`, `1:05:00 PM`.
pub fn read_clock(text: &str) -> Result<f64, NotATime> {
    let bad = |why| NotATime {
        got: text.trim().to_owned(),
        why,
    };
    let t = text.trim();
    let upper = t.to_ascii_uppercase();
    let (body, noon) = if let Some(b) = upper.strip_suffix("AM") {
        (b.trim(), Some(0))
    } else if let Some(b) = upper.strip_suffix("PM") {
        (b.trim(), Some(12))
    } else {
        (upper.as_str(), None)
    };
    let mut parts = body.split(':');
    let hour = parts.next().and_then(whole);
    let minute = parts.next().and_then(whole);
    let second = match parts.next() {
        None => Some(0.0),
        Some(s) if s.starts_with(|c: char| c.is_ascii_digit()) => s.parse::<f64>().ok(),
        Some(_) => None,
    };
    let (Some(mut h), Some(m), Some(s), None) = (hour, minute, second, parts.next()) else {
        return Err(bad("a time of day has hours and minutes"));
    };
    if let Some(add) = noon {
        if !(1..=12).contains(&h) {
            return Err(bad("with AM or PM the hour is 1 to 12"));
        }
        h = h % 12 + add;
    }
    if h > 23 || m > 59 || !(0.0..60.0).contains(&s) {
        return Err(bad("there is no such time of day"));
    }
    Ok((h * 3600 + m * 60) as f64 + s)
}

impl Stamp {
    /// Reads a date with a time of day. Without an offset of its own the text is in local time,
    /// `offset_min` minutes east of UTC; without that it is refused.
    ///
    /// # Errors
    /// No such date or time, or no offset.
    pub fn read(text: &str, offset_min: Option<i32>) -> Result<Self, NotATime> {
        let bad = |why| NotATime {
            got: text.trim().to_owned(),
            why,
        };
        let t = text.trim();
        let (date, clock) = t
            .split_once('T')
            .or_else(|| t.split_once(' '))
            .ok_or_else(|| bad("there is no time of day"))?;
        let (clock, offset) = split_offset(clock).ok_or_else(|| bad("the offset is not usable"))?;
        let offset = offset
            .or(offset_min)
            .ok_or_else(|| bad("there is no offset from UTC, and clocks change twice a year"))?;
        let s = read_clock(clock).map_err(|e| bad(e.why))?;
        let day = read_day(date).map_err(|e| bad(e.why))?;
        Ok(Self {
            epoch_s: day as f64 * 86_400.0 + s - f64::from(offset) * 60.0,
            offset_min: offset,
        })
    }

    /// Day of the place, days since 1970.
    pub fn day(self) -> i64 {
        libm::floor((self.epoch_s + f64::from(self.offset_min) * 60.0) / 86_400.0) as i64
    }

    /// As it is written, to the second.
    pub fn written(self) -> String {
        let local = libm::floor(self.epoch_s + f64::from(self.offset_min) * 60.0 + 0.5) as i64;
        let (y, mo, d) = civil_from_days(local.div_euclid(86_400));
        let s = local.rem_euclid(86_400);
        let sign = if self.offset_min < 0 { '-' } else { '+' };
        let off = self.offset_min.abs();
        format!(
            "{y:04}-{mo:02}-{d:02}T{:02}:{:02}:{:02}{sign}{:02}:{:02}",
            s / 3600,
            s / 60 % 60,
            s % 60,
            off / 60,
            off % 60
        )
    }
}

/// `10:30:00-05:00`, `10:30Z` to clock and minutes east; `None` when the offset is unusable.
fn split_offset(clock: &str) -> Option<(&str, Option<i32>)> {
    let c = clock.trim();
    if let Some(body) = c.strip_suffix(['Z', 'z']) {
        return Some((body, Some(0)));
    }
    let Some(at) = c.rfind(['+', '-']) else {
        return Some((c, None));
    };
    let (body, off) = c.split_at(at);
    let digits: String = off.chars().filter(char::is_ascii_digit).collect();
    let n = whole(&digits).filter(|_| digits.len() == 4)?;
    let minutes = n / 100 * 60 + n % 100;
    if n % 100 > 59 || minutes > 14 * 60 {
        return None;
    }
    let east = if off.starts_with('-') {
        -minutes
    } else {
        minutes
    };
    Some((body, i32::try_from(east).ok()))
}

/// A span of time in words: `45 s`, `12 min`, `3 h 20 min`, `2 d 4 h`.
pub fn span(seconds: f64) -> String {
    if !seconds.is_finite() {
        return "no end in sight".to_owned();
    }
    let s = libm::round(seconds.abs()) as i64;
    match s {
        0..=99 => format!("{s} s"),
        100..=7_199 => format!("{} min", (s + 30) / 60),
        7_200..=172_799 => {
            let m = (s + 30) / 60;
            if m % 60 == 0 {
                format!("{} h", m / 60)
            } else {
                format!("{} h {} min", m / 60, m % 60)
            }
        }
        _ => {
            let h = (s + 1800) / 3600;
            format!("{} d {} h", h / 24, h % 24)
        }
    }
}
