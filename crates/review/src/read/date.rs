//! Dates as people write them.

use super::table::{Row, shown, words};
use crate::calendar::day_of;
use crate::{Note, Refused};

/// Order of day and month in dates of three numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateOrder {
    /// 2025-10-01, or the year first by any other mark.
    YearFirst,
    /// 10/01/2025.
    MonthFirst,
    /// 01/10/2025.
    DayFirst,
    /// The month is a word.
    Worded,
}

impl DateOrder {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::YearFirst => "year first",
            Self::MonthFirst => "month first",
            Self::DayFirst => "day first",
            Self::Worded => "month in letters",
        }
    }
}

const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// A written date taken apart.
enum Parts {
    /// Three numbers as they stand, and whether the first has four digits.
    Numbers([i32; 3], bool),
    /// Year, month, day.
    Known(i32, i32, i32),
}

fn month_word(word: &str) -> Option<i32> {
    let start = word.get(..3)?;
    let at = (1..).zip(MONTHS).find(|(_, m)| *m == start)?.0;
    word.bytes().all(|b| b.is_ascii_alphabetic()).then_some(at)
}

fn parts(text: &str) -> Option<Parts> {
    let text = text.trim();
    let plain = text.split(['T', ' ']).next().unwrap_or("");
    if plain.len() == 8 && plain.bytes().all(|b| b.is_ascii_digit()) {
        let n: i32 = plain.parse().ok()?;
        return Some(Parts::Known(n / 10_000, n / 100 % 100, n % 100));
    }
    let tokens = words(text);
    let tokens: Vec<&str> = tokens.iter().map(String::as_str).collect();
    let number = |w: &str| -> Option<i32> {
        let w = w
            .strip_suffix("st")
            .or_else(|| w.strip_suffix("nd"))
            .or_else(|| w.strip_suffix("rd"))
            .or_else(|| w.strip_suffix("th"))
            .unwrap_or(w);
        (w.len() <= 4 && !w.is_empty() && w.bytes().all(|b| b.is_ascii_digit()))
            .then(|| w.parse().ok())
            .flatten()
    };
    // a weekday before the date says nothing new
    let tokens = match tokens.as_slice() {
        [first, rest @ ..] if month_word(first).is_none() && number(first).is_none() => {
            let day = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
            if first.get(..3).is_some_and(|f| day.contains(&f)) {
                rest
            } else {
                &tokens
            }
        }
        _ => &tokens,
    };
    let [a, b, c, ..] = tokens else { return None };
    let full = |y: i32| if y < 100 { y + 2000 } else { y };
    if let Some(m) = month_word(a) {
        return Some(Parts::Known(full(number(c)?), m, number(b)?));
    }
    if let Some(m) = month_word(b) {
        return Some(Parts::Known(full(number(c)?), m, number(a)?));
    }
    // the third number may run into the time: 2025-10-01T00:00
    let third = c.split('t').next().unwrap_or(c);
    Some(Parts::Numbers(
        [number(a)?, number(b)?, number(third)?],
        a.len() == 4,
    ))
}

fn in_order(text: &str, order: DateOrder) -> Option<i32> {
    let full = |y: i32| if y < 100 { y + 2000 } else { y };
    let (y, m, d) = match parts(text)? {
        Parts::Known(y, m, d) | Parts::Numbers([y, m, d], true) => (y, m, d),
        Parts::Numbers([a, b, c], false) => match order {
            DateOrder::YearFirst => (full(a), b, c),
            DateOrder::DayFirst => (full(c), b, a),
            DateOrder::MonthFirst | DateOrder::Worded => (full(c), a, b),
        },
    };
    day_of(y, u8::try_from(m).ok()?, u8::try_from(d).ok()?)
}

/// Finds in which order the dates of some columns are written.
///
/// # Errors
/// A date that fits no order, and dates that contradict each other.
pub(crate) fn order_of(
    rows: &[Row],
    columns: &[usize],
) -> Result<(DateOrder, Option<Note>), Refused> {
    let (mut month_first, mut day_first): (Option<&Row>, Option<&Row>) = (None, None);
    let (mut numbers, mut year_first) = (false, false);
    for row in rows {
        for column in columns {
            let text = row.cell(*column);
            if let Some(Parts::Numbers([a, b, _], four)) = parts(text) {
                year_first |= four;
                if !four {
                    numbers = true;
                    if a > 12 {
                        day_first.get_or_insert(row);
                    } else if b > 12 {
                        month_first.get_or_insert(row);
                    }
                }
            }
        }
    }
    match (month_first, day_first) {
        (Some(m), Some(d)) => Err(Refused::new(
            "the dates are not all in one order",
            format!(
                "{} on line {}",
                shown(columns.first().map_or("", |c| d.cell(*c))),
                d.line
            ),
            format!("day and month as on line {}", m.line),
            "write all dates as 2025-10-01",
        )
        .at(d.line)),
        (Some(_), None) => Ok((DateOrder::MonthFirst, None)),
        (None, Some(_)) => Ok((DateOrder::DayFirst, None)),
        (None, None) if numbers => Ok((
            DateOrder::MonthFirst,
            Some(Note::new(
                None,
                "guessed: the month stands first in the dates; no date among them tells",
            )),
        )),
        (None, None) if year_first => Ok((DateOrder::YearFirst, None)),
        (None, None) => Ok((DateOrder::Worded, None)),
    }
}

/// The day a cell names.
///
/// # Errors
/// A cell that is no date.
pub(crate) fn day(row: &Row, column: usize, order: DateOrder) -> Result<i32, Refused> {
    let text = row.cell(column);
    in_order(text, order).ok_or_else(|| {
        Refused::new(
            "this is not a day of the calendar",
            shown(text),
            "dates like 2025-10-01, 10/1/2025, 1-Oct-2025, from 1900 to 2200",
            format!("mend the cell; the dates here were read {}", order.word()),
        )
        .at(row.line)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::iso;

    /// The layouts of exports seen in the trade; each is 1 October 2025 or told otherwise.
    #[test]
    fn many_layouts_read_as_one_day() {
        for text in [
            "2025-10-01",
            "2025/10/01",
            "10/01/2025",
            "10/1/25",
            "2025-10-01T00:00:00-05:00",
            "10/01/2025 12:00 AM",
            "1-Oct-2025",
            "01 October 2025",
            "Oct 1, 2025",
            "October 1st, 2025",
            "Wed, Oct 1 2025",
            "20251001",
        ] {
            let got = in_order(text, DateOrder::MonthFirst).map(iso);
            assert_eq!(got.as_deref(), Some("2025-10-01"), "{text}");
        }
        let day_first = in_order("01.10.2025", DateOrder::DayFirst).map(iso);
        assert_eq!(day_first.as_deref(), Some("2025-10-01"));
        for text in [
            "",
            "2025-13-01",
            "30 Feb 2025",
            "soon",
            "10/2025",
            "99999999",
        ] {
            assert_eq!(in_order(text, DateOrder::MonthFirst), None, "{text}");
        }
    }
}
