//! Slips of a fuel dealer. What was put into a tank is not what was burnt, except between two
//! full fills.

use super::date;
use super::meter::{Asked, Mapping, ReadBills, number};
use super::table::{Head, MOST_BYTES, open, shown, words};
use crate::calendar::iso;
use crate::{Bills, Note, Period, Refused, unit_j};

/// One delivery.
struct Slip {
    day: i32,
    energy_j: f64,
    full: bool,
    line: usize,
}

/// Reads slips: what was burnt between two full fills is all that was delivered after the first,
/// up to and with the second. The first full fill only begins.
///
/// # Errors
/// No columns of day and amount, cells that do not read, a fuel that is not delivered, one
/// delivery alone, no two full fills.
pub fn read_deliveries(bytes: &[u8], asked: &Asked) -> Result<ReadBills, Refused> {
    let table = open(bytes, MOST_BYTES)?;
    let head = Head::of(&table);
    let by_name = |asked: &Option<String>| -> Result<Option<usize>, Refused> {
        asked.as_deref().map_or(Ok(None), |name| {
            head.named(name).map(Some).ok_or_else(|| {
                head.missing(
                    &format!("\"{name}\", which the job asks for,"),
                    "those there",
                )
            })
        })
    };
    let dated = match by_name(&asked.to)?.or(by_name(&asked.from)?) {
        Some(c) => Some(c),
        None => head.find(&[
            "delivery date",
            "date delivered",
            "date",
            "delivered on",
            "day",
        ]),
    }
    .ok_or_else(|| head.missing("the day of the delivery", "date"))?;
    let amount = match by_name(&asked.amount)? {
        Some(c) => Some(c),
        None => head.find_but(
            &[
                "gallons",
                "gal",
                "amount",
                "quantity",
                "litres",
                "liters",
                "delivered",
                "volume",
            ],
            &["price", "cost", "due", "date", "total", "charge"],
        ),
    }
    .filter(|c| *c != dated)
    .ok_or_else(|| head.missing("how much was delivered", "gallons"))?;
    let full = match by_name(&asked.estimated)? {
        Some(c) => Some(c),
        None => head.find(&["full", "filled", "fill", "fill type", "tank"]),
    };
    let carrier = asked
        .of
        .or_else(|| {
            let oil = head.find(&["oil"]).map(|_| jobfile::Carrier::Oil);
            oil.or_else(|| {
                head.find(&["propane", "lp"])
                    .map(|_| jobfile::Carrier::Propane)
            })
        })
        .ok_or_else(|| {
            Refused::new(
                "nothing says which fuel was delivered",
                shown(head.name(amount)),
                "oil, propane",
                "say it: `of = \"oil\"` in [[bills]], or oil: before the file on the command line",
            )
        })?;
    let unit = asked.unit.clone().unwrap_or_else(|| {
        words(head.name(amount))
            .into_iter()
            .find(|w| ["gal", "gallons", "gallon", "l", "liters", "litres"].contains(&w.as_str()))
            .unwrap_or_else(|| "gal".to_owned())
    });
    let one_j = unit_j(carrier, &unit)?;
    let (order, guessed) = date::order_of(&table.rows, &[dated])?;
    let mut notes: Vec<Note> = guessed.into_iter().collect();
    if full.is_none() {
        notes.push(Note::new(
            None,
            "no column tells whether the tank was filled: every delivery is taken for a full fill; \
             one that was not moves use from one period to the next",
        ));
    }
    let mut slips = Vec::with_capacity(table.rows.len());
    for row in &table.rows {
        let Some(value) = number(row, amount)? else {
            continue;
        };
        if value <= 0.0 {
            return Err(Refused::new(
                "a delivery of nothing or less",
                shown(row.cell(amount)),
                "an amount above 0",
                "a credit or a correction: enter the corrected delivery once",
            )
            .at(row.line));
        }
        slips.push(Slip {
            day: date::day(row, dated, order)?,
            energy_j: value * one_j,
            full: full.is_none_or(|c| is_full(row.cell(c))),
            line: row.line,
        });
    }
    if !slips.is_sorted_by_key(|s| s.day) {
        slips.sort_by_key(|s| s.day);
        notes.push(Note::new(
            None,
            "the slips were out of order and were put in order of time",
        ));
    }
    let periods = burnt(&slips, &mut notes)?;
    let mut bills = Bills::from_exact(carrier, periods, notes)?;
    bills.deliveries = true;
    Ok(ReadBills {
        bills,
        mapping: Mapping {
            to: head.name(dated).to_owned(),
            amount: head.name(amount).to_owned(),
            unit,
            estimated: full.map_or("", |c| head.name(c)).to_owned(),
            dates: order.word().to_owned(),
            ..Mapping::default()
        },
    })
}

fn is_full(cell: &str) -> bool {
    let all = words(cell);
    let first = all.first().map_or("", String::as_str);
    !all.iter()
        .any(|w| w == "partial" || w == "part" || w == "not")
        && matches!(
            first,
            "full" | "filled" | "fill" | "yes" | "y" | "true" | "1" | "x" | "auto" | "automatic"
        )
}

fn burnt(slips: &[Slip], notes: &mut Vec<Note>) -> Result<Vec<Period>, Refused> {
    if slips.len() < 2 {
        return Err(Refused::new(
            "one delivery says nothing about use",
            format!("{} delivery", slips.len()),
            "at least two full fills, better all of two winters",
            "ask the dealer for the account's history",
        ));
    }
    let mut periods: Vec<Period> = Vec::new();
    let (mut since, mut sum_j): (Option<i32>, f64) = (None, 0.0);
    let (mut partial, mut open) = (0, 0);
    for s in slips {
        let Some(from) = since else {
            if s.full {
                since = Some(s.day);
            } else {
                notes.push(Note::new(
                    Some(s.line),
                    "before the first full fill; left out",
                ));
            }
            continue;
        };
        sum_j += s.energy_j;
        if !s.full {
            open += 1;
            continue;
        }
        // two slips of one day are one fill
        if s.day == from {
            match periods.last_mut() {
                Some(last) => last.energy_j += sum_j,
                None => notes.push(Note::new(
                    Some(s.line),
                    "the same day as the first fill; left out",
                )),
            }
        } else {
            periods.push(Period {
                from,
                to: s.day,
                energy_j: sum_j,
                estimated: false,
                line: s.line,
            });
        }
        since = Some(s.day);
        partial += std::mem::take(&mut open);
        sum_j = 0.0;
    }
    if partial > 0 {
        notes.push(Note::new(
            None,
            format!("{partial} fills were not full; they are counted with the next full one"),
        ));
    }
    if sum_j > 0.0
        && let Some(last) = slips.last()
    {
        notes.push(Note::new(
            Some(last.line),
            format!(
                "nothing after {} is a full fill; what was delivered since then is left out",
                iso(since.unwrap_or(last.day))
            ),
        ));
    }
    if periods.is_empty() {
        let full = slips.iter().filter(|s| s.full).count();
        return Err(Refused::new(
            "there are no two full fills",
            format!("{full} full of {}", slips.len()),
            "two deliveries that filled the tank",
            "ask the dealer which deliveries filled the tank, or have it filled now and in spring",
        ));
    }
    Ok(periods)
}
