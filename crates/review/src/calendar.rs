//! Days as whole numbers: 0 is 1 January 1970. No clock, no time zone.

/// Day number of a date of the Gregorian calendar; `None` if there is no such date or the year is
/// outside 1900 to 2200.
pub fn day_of(year: i32, month: u8, day: u8) -> Option<i32> {
    if !(1900..=2200).contains(&year) || !(1..=12).contains(&month) || day < 1 {
        return None;
    }
    if day > length(year, month) {
        return None;
    }
    // years are counted from March, so that the leap day is the last of its year
    let y = if month <= 2 { year - 1 } else { year };
    let era = y.div_euclid(400);
    let of_era = y.rem_euclid(400);
    let month_from_march = (i32::from(month) + 9) % 12;
    let of_year = (153 * month_from_march + 2) / 5 + i32::from(day) - 1;
    Some(era * 146_097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719_468)
}

fn length(year: i32, month: u8) -> u8 {
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        _ => 31,
    }
}

/// Year, month and day of a day number.
pub fn civil(day: i32) -> (i32, u8, u8) {
    let z = day + 719_468;
    let era = z.div_euclid(146_097);
    let of_era = z.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let m = (5 * of_year + 2) / 153;
    let d = (of_year - (153 * m + 2) / 5 + 1) as u8;
    let month = (if m < 10 { m + 3 } else { m - 9 }) as u8;
    let year = year_of_era + era * 400 + i32::from(month <= 2);
    (year, month, d)
}

/// `2025-10-01`.
pub fn iso(day: i32) -> String {
    let (y, m, d) = civil(day);
    format!("{y:04}-{m:02}-{d:02}")
}

/// Three numbers of a written date, in the order written; a time after it is left off.
fn three(text: &str) -> Option<[i32; 3]> {
    let date = text
        .trim()
        .split(['T', ' '])
        .next()
        .unwrap_or("")
        .trim_end_matches(',');
    let mut parts = date.split(['-', '/', '.']);
    let mut out = [0; 3];
    for slot in &mut out {
        let part = parts.next()?;
        if part.is_empty() || part.len() > 4 || !part.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        *slot = part.parse().ok()?;
    }
    parts.next().is_none().then_some(out)
}

/// Reads `2025-10-01`.
pub fn read_iso(text: &str) -> Option<i32> {
    let [y, m, d] = three(text)?;
    day_of(y, u8::try_from(m).ok()?, u8::try_from(d).ok()?)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Days of the epoch are common knowledge; the round trip covers the span.
    #[test]
    fn days_go_there_and_back() {
        assert_eq!(day_of(1970, 1, 1), Some(0));
        assert_eq!(day_of(2000, 3, 1), Some(11_017));
        assert_eq!(day_of(2023, 2, 29), None);
        assert_eq!(day_of(2024, 2, 29), Some(19_782));
        for day in -25_567..84_000 {
            let (y, m, d) = civil(day);
            assert_eq!(day_of(y, m, d), Some(day));
        }
        assert_eq!(iso(19_782), "2024-02-29");
        assert_eq!(read_iso("2024-02-29T00:00:00-05:00"), Some(19_782));
        assert_eq!(read_iso("2024-2"), None);
    }
}
