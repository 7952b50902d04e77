//! A utility's table of bills or readings.

use std::collections::BTreeMap;

use jobfile::Carrier;

use super::columns::{
    AMOUNT, BILLED, FROM, NOT_AMOUNT, SINGLE, TO, column, estimates, sent_back, unit_of,
};
use super::date;
use super::table::{Head, MOST_BYTES, Row, open, shown, words};
use crate::calendar::iso;
use crate::runs::{Day, months};
use crate::{Bills, Note, Period, Refused, unit_j};

/// What the job or the person said about a file; what is not said is guessed and told.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Asked {
    /// What was bought.
    pub of: Option<Carrier>,
    /// Unit of the amounts.
    pub unit: Option<String>,
    /// Heading of the first day.
    pub from: Option<String>,
    /// Heading of the day of the reading.
    pub to: Option<String>,
    /// Heading of the amount.
    pub amount: Option<String>,
    /// Heading of what says that a reading was estimated, or a fill not full.
    pub estimated: Option<String>,
    /// Title of the meter, where a file has several.
    pub meter: Option<String>,
    /// Seconds east of Greenwich of the house's standard time, for readings without their own.
    pub zone_s: Option<i64>,
}

/// Which column was taken for what.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Mapping {
    /// Heading of the first day; empty where the day before is the reading before.
    pub from: String,
    /// Heading of the last day; empty where each row is one day or hour.
    pub to: String,
    /// Heading of the amount.
    pub amount: String,
    /// Unit.
    pub unit: String,
    /// Heading that tells estimates; empty where nothing does.
    pub estimated: String,
    /// How dates are written.
    pub dates: String,
}

impl Mapping {
    /// One line for the person.
    pub fn words(&self) -> String {
        let days = match (self.from.as_str(), self.to.as_str()) {
            ("", to) => format!("readings on \"{to}\""),
            (from, "") => format!("each row from \"{from}\""),
            (from, to) => format!("days from \"{from}\" to \"{to}\""),
        };
        let estimated = if self.estimated.is_empty() {
            "nothing tells which readings are estimated".to_owned()
        } else {
            format!("estimates by \"{}\"", self.estimated)
        };
        format!(
            "{days} ({}); amount \"{}\" in {}; {estimated}",
            self.dates, self.amount, self.unit
        )
    }

    /// The same of a dealer's slips, whose rows are fills.
    pub fn words_of_slips(&self) -> String {
        let full = if self.estimated.is_empty() {
            "nothing tells full fills".to_owned()
        } else {
            format!("full fills by \"{}\"", self.estimated)
        };
        format!(
            "slips by \"{}\" ({}); \"{}\" in {}; {full}",
            self.to, self.dates, self.amount, self.unit
        )
    }
}

/// Bills with how they were read.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadBills {
    /// The bills.
    pub bills: Bills,
    /// Which columns were taken for what.
    pub mapping: Mapping,
}

/// Reads a utility's table of bills, readings, days or hours.
///
/// # Errors
/// No columns of that meaning, dates or amounts that do not read, an unknown unit, net metering
/// that hides the use, and what [`Bills::from_periods`] refuses. Each names its line.
pub fn read_meter(bytes: &[u8], asked: &Asked) -> Result<ReadBills, Refused> {
    let table = open(bytes, MOST_BYTES)?;
    let head = Head::of(&table);
    let amount = column(&head, asked.amount.as_deref(), || {
        head.find_but(AMOUNT, NOT_AMOUNT)
    })?
    .ok_or_else(|| head.missing("how much was used", "use (kWh)"))?;
    let estimated = column(&head, asked.estimated.as_deref(), || {
        estimates(&table, &head, amount)
    })?;
    let from = column(&head, asked.from.as_deref(), || {
        head.find_but(FROM, &["time"])
    })?;
    let mut notes = Vec::new();
    let to = column(&head, asked.to.as_deref(), || {
        head.find_but(TO, &["time", "bill", "billing"])
            .filter(|c| Some(*c) != from)
    })?;
    let (from, to) = if from.is_none() && to.is_none() {
        match (
            head.find(SINGLE).filter(|c| {
                words(head.name(*c))
                    .iter()
                    .all(|w| w != "bill" && w != "billing")
            }),
            head.find(BILLED),
        ) {
            (Some(date), _) => (Some(date), None),
            (None, Some(billed)) => {
                notes.push(Note::new(
                    None,
                    format!(
                        "\"{}\" is the day of the bill, not of the reading, which is some days \
                         earlier: use lies a little late against the weather",
                        head.name(billed)
                    ),
                ));
                (None, Some(billed))
            }
            (None, None) => return Err(head.missing("the days", "from, to or read date")),
        }
    } else {
        (from, to)
    };
    let dated: Vec<usize> = [from, to].into_iter().flatten().collect();
    let (order, guessed) = date::order_of(&table.rows, &dated)?;
    notes.extend(guessed);
    let (carrier, unit_name, unit_column) = unit_of(&table, &head, amount, asked)?;
    let mut mapping = Mapping {
        from: from.map_or("", |c| head.name(c)).to_owned(),
        to: to.map_or("", |c| head.name(c)).to_owned(),
        amount: head.name(amount).to_owned(),
        unit: unit_name.clone(),
        estimated: estimated.map_or("", |c| head.name(c)).to_owned(),
        dates: order.word().to_owned(),
    };
    let one_j = unit_j(carrier, &unit_name)?;
    let sun = sent_back(&table, &head, amount, &mut notes);
    let mut readings = Vec::with_capacity(table.rows.len());
    for row in &table.rows {
        if is_total(row) {
            continue;
        }
        let begin = from.map(|c| date::day(row, c, order)).transpose()?;
        let end = to.map(|c| date::day(row, c, order)).transpose()?;
        let Some(value) = number(row, amount)? else {
            notes.push(Note::new(
                Some(row.line),
                "no amount stands here; the row was left out",
            ));
            continue;
        };
        let factor = match unit_column {
            Some(c) if !row.cell(c).is_empty() => {
                unit_j(carrier, row.cell(c)).map_err(|r| r.at(row.line))?
            }
            _ => one_j,
        };
        readings.push(Reading {
            begin,
            end,
            energy_j: value * factor,
            estimated: estimated.is_some_and(|c| says_estimated(row.cell(c), head.name(c))),
            line: row.line,
        });
    }
    let mut bills = to_bills(carrier, readings, &mut mapping, notes)?;
    bills.behind_sun = sun;
    Ok(ReadBills { bills, mapping })
}

fn is_total(row: &Row) -> bool {
    let first = (0..3).map(|c| row.cell(c)).find(|c| !c.is_empty());
    first.is_some_and(|c| {
        words(c)
            .first()
            .is_some_and(|w| w == "total" || w == "totals" || w == "average")
    })
}

/// A number with commas, a sign, brackets for below nothing; `None` where the cell is empty.
pub(super) fn number(row: &Row, column: usize) -> Result<Option<f64>, Refused> {
    let text = row.cell(column);
    if text.is_empty() || text == "-" || text.eq_ignore_ascii_case("n/a") {
        return Ok(None);
    }
    let (text, sign) = match text.strip_prefix('(').and_then(|t| t.strip_suffix(')')) {
        Some(inner) => (inner, -1.0),
        None => (text, 1.0),
    };
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+')))
        .unwrap_or(text.len());
    let (digits, rest) = text.split_at_checked(end).unwrap_or((text, ""));
    // a unit may follow, an exponent may not
    let unit = rest.trim().to_lowercase();
    let plain =
        matches!(unit.as_str(), "m3" | "ft3" | "m³") || unit.chars().all(char::is_alphabetic);
    let value: Option<f64> = digits.replace(',', "").parse().ok();
    match value.filter(|v: &f64| v.is_finite() && v.abs() < 1e12) {
        // a comma before the last one or two digits is a decimal comma, and would be misread
        Some(v) if plain && !decimal_comma(digits) => Ok(Some(sign * v)),
        _ => Err(Refused::new(
            "this is not an amount",
            shown(row.cell(column)),
            "a number such as 1,234.5",
            "mend the cell, or empty it where nothing was read; write 12.5, not 12,5",
        )
        .at(row.line)),
    }
}

fn decimal_comma(digits: &str) -> bool {
    digits
        .rsplit_once(',')
        .is_some_and(|(_, tail)| tail.bytes().take_while(u8::is_ascii_digit).count() != 3)
}

/// Whether a cell says that the reading is an estimate.
pub(super) fn says_estimated(cell: &str, heading: &str) -> bool {
    let all = words(cell);
    let yes = ["yes", "y", "true", "1", "x"];
    let asks = words(heading)
        .iter()
        .any(|w| w == "est" || w.starts_with("estimate"));
    let alone = all.len() == 1 && all.iter().any(|w| w == "est" || w == "e");
    alone
        || all.iter().any(|w| w.starts_with("estimat"))
        || asks && all.first().is_some_and(|w| yes.contains(&w.as_str()))
}

struct Reading {
    begin: Option<i32>,
    end: Option<i32>,
    energy_j: f64,
    estimated: bool,
    line: usize,
}

fn to_bills(
    carrier: Carrier,
    readings: Vec<Reading>,
    mapping: &mut Mapping,
    mut notes: Vec<Note>,
) -> Result<Bills, Refused> {
    let both = readings
        .iter()
        .all(|r| r.begin.is_some() && r.end.is_some());
    let same_day = readings.iter().filter(|r| r.begin == r.end).count();
    if both && !readings.is_empty() && same_day * 2 < readings.len() {
        let periods = readings
            .into_iter()
            .map(|r| Period {
                from: r.begin.unwrap_or(0),
                to: r.end.unwrap_or(0),
                energy_j: r.energy_j,
                estimated: r.estimated,
                line: r.line,
            })
            .collect();
        return Bills::from_periods(carrier, periods, notes);
    }
    // one date a row: a day, hours of a day, or the day of a reading
    let mut dated: Vec<(i32, Reading)> = readings
        .into_iter()
        .filter_map(|r| Some((r.begin.or(r.end)?, r)))
        .collect();
    if !dated.is_sorted_by_key(|d| d.0) {
        dated.sort_by_key(|d| d.0);
        notes.push(Note::new(
            None,
            "the rows were out of order and were put in order of time",
        ));
    }
    let mut steps: Vec<i32> = dated.windows(2).map(|w| w[1].0 - w[0].0).collect();
    steps.sort_unstable();
    let usual = steps.get(steps.len() / 2).copied().unwrap_or(0);
    if usual >= 20 {
        return readings_on_days(carrier, &dated, mapping, notes);
    }
    days_of(carrier, &dated, notes)
}

/// Rows that name the day of a reading: each runs from the one before.
fn readings_on_days(
    carrier: Carrier,
    dated: &[(i32, Reading)],
    mapping: &mut Mapping,
    mut notes: Vec<Note>,
) -> Result<Bills, Refused> {
    if mapping.to.is_empty() {
        mapping.to = std::mem::take(&mut mapping.from);
    }
    if let Some((day, first)) = dated.first() {
        notes.push(Note::new(
            Some(first.line),
            format!(
                "nothing says when the bill read on {} began; it only begins the next one",
                iso(*day)
            ),
        ));
    }
    let periods = dated
        .windows(2)
        .filter_map(|pair| {
            let [(from, _), (to, r)] = pair else {
                return None;
            };
            Some(Period {
                from: *from,
                to: *to,
                energy_j: r.energy_j,
                estimated: r.estimated,
                line: r.line,
            })
        })
        .collect();
    Bills::from_exact(carrier, periods, notes)
}

/// Days, or hours added up to days; then months of whole days.
fn days_of(
    carrier: Carrier,
    dated: &[(i32, Reading)],
    mut notes: Vec<Note>,
) -> Result<Bills, Refused> {
    let mut days: BTreeMap<i32, (f64, u32, usize)> = BTreeMap::new();
    for (day, r) in dated {
        let sum = days.entry(*day).or_insert((0.0, 0, r.line));
        sum.0 += r.energy_j;
        sum.1 += 1;
    }
    let mut counts: Vec<u32> = days.values().map(|d| d.1).collect();
    counts.sort_unstable();
    let usual = counts.get(counts.len() / 2).copied().unwrap_or(1);
    let mut whole = Vec::with_capacity(days.len());
    let mut thin = 0;
    for (day, (energy_j, count, line)) in &days {
        // a day of the clock change has an hour more or less; a quarter lacking is no day
        if *count * 4 < usual * 3 {
            thin += 1;
            continue;
        }
        if usual == 1 && *count > 1 {
            return Err(Refused::new(
                "one day stands twice with its own use",
                iso(*day),
                "one row a day",
                "keep the corrected row; or give the times, if these are parts of a day",
            )
            .at(*line));
        }
        whole.push(Day {
            on: *day,
            energy_j: *energy_j,
            line: *line,
        });
    }
    if thin > 0 {
        notes.push(Note::new(
            None,
            format!("{thin} days lack more than a quarter of their readings and count as missing"),
        ));
    }
    let periods = months(&whole, &mut notes);
    let mut bills = Bills::from_exact(carrier, periods, notes)?;
    bills.from_days = true;
    Ok(bills)
}
