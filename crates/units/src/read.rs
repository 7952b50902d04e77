//! Reads what a person wrote: number and unit to SI.

use crate::error::quoted;
use crate::number::take_number;
use crate::spelling::{distance, key, plain};
use crate::table::{ALL, Quantity, Unit, quantity_of};
use crate::table_fabric::{R_SI, R_US};
use crate::{Dim, UnitError};

/// SI prefixes where a small letter would mean a billionth of the large one.
const CAPITAL_MATTERS: &[&str] = &["MWh", "MJ", "MPa", "$/MWh", "$/MJ", "lb/MWh"];

/// Reads a quantity to its SI value (temperatures to C).
///
/// Plain numbers are accepted only for ratios, shares and counts. Lengths, masses and times may
/// come in parts. Spelling is forgiving: case, `²`, `°`, `·`, "sq ft", "in." all read.
///
/// # Example
/// ```
/// use units::{Dim, parse};
/// assert!(parse("12 ft 6 in", Dim::Length).is_ok_and(|m| (m - 3.81).abs() < 1e-12));
/// assert_eq!(parse("2 ton", Dim::Power).map(f64::round), Ok(7034.0));
/// assert!(parse("8", Dim::Length).is_err());
/// ```
///
/// # Errors
/// [`UnitError`]: empty, no number, no unit, an unknown unit or one of another kind, not finite.
pub fn parse(text: &str, dim: Dim) -> Result<f64, UnitError> {
    let q = quantity_of(dim);
    let written = plain(text);
    if written.is_empty() {
        return Err(UnitError::Empty { dim });
    }
    let value = match prefixed(&written, dim) {
        Some(value) => value,
        None => read(&written, text, dim, q)?,
    };
    if !value.is_finite() {
        return Err(UnitError::TooLarge {
            text: quoted(text),
            dim,
        });
    }
    if dim == Dim::Temperature && value < -crate::constants::ZERO_C_K {
        return Err(UnitError::BelowAbsoluteZero { text: quoted(text) });
    }
    if dim == Dim::Count && value.fract() != 0.0 {
        return Err(UnitError::NotWhole { text: quoted(text) });
    }
    // Adding zero turns a written "-0" into 0.
    Ok(value + 0.0)
}

/// Units that stand before the number: "R 13", "R-13", "RSI 2.3", "$1,200", "$0.25/kWh".
fn prefixed(written: &str, dim: Dim) -> Option<f64> {
    match dim {
        Dim::RValue => {
            let rest = written.strip_prefix(['R', 'r'])?;
            let si = rest.strip_prefix("SI").or_else(|| rest.strip_prefix("si"));
            let unit = if si.is_some() { R_SI } else { R_US };
            let number = si.unwrap_or(rest).trim_start().trim_start_matches('-');
            let (value, rest) = take_number(number)?;
            rest.trim().is_empty().then(|| unit.to_si(value))
        }
        Dim::Money | Dim::EnergyPrice => {
            let (negative, size) = match written.strip_prefix('-') {
                Some(size) => (true, size.trim_start()),
                None => (false, written),
            };
            let (value, rest) = take_number(size.strip_prefix(['$', '€', '£'])?)?;
            let rest = rest.trim();
            let named = if rest.is_empty() { "$" } else { rest };
            if value < 0.0 || !(rest.is_empty() || rest.starts_with('/')) {
                return None;
            }
            find(quantity_of(dim), named).map(|u| u.to_si(if negative { -value } else { value }))
        }
        _ => None,
    }
}

fn read(written: &str, text: &str, dim: Dim, q: &Quantity) -> Result<f64, UnitError> {
    let (number, rest) = take_number(written).ok_or_else(|| UnitError::NoNumber {
        text: quoted(text),
        dim,
    })?;
    let rest = rest.trim();
    if rest.is_empty() {
        if !q.bare {
            return Err(UnitError::NoUnit {
                text: quoted(text),
                dim,
            });
        }
        if dim == Dim::Share && number.abs() > 1.0 {
            return Err(UnitError::ShareAboveOne { text: quoted(text) });
        }
        return Ok(number);
    }
    if q.parts && rest.contains(|c: char| c.is_ascii_digit()) {
        return read_parts(written, text, dim, q).map_err(|e| match unknown(rest, text, dim, q) {
            // "3 ft2" for a length: better said as an area than as a part without unit.
            kind @ UnitError::WrongKind { .. } => kind,
            _ => e,
        });
    }
    if let Some(unit) = find(q, rest) {
        return Ok(unit.to_si(number));
    }
    Err(unknown(rest, text, dim, q))
}

/// Reads "12 ft 6 in": each part smaller than one unit of the part before.
fn read_parts(written: &str, text: &str, dim: Dim, q: &Quantity) -> Result<f64, UnitError> {
    let negative = written.starts_with('-');
    let mut rest = written;
    let mut sum = 0.0;
    let mut last: Option<f64> = None;
    while !rest.is_empty() {
        let (number, after) = take_number(rest).ok_or_else(|| UnitError::NoNumber {
            text: quoted(text),
            dim,
        })?;
        let after = after.trim_start();
        let end = after
            .find(|c: char| c.is_ascii_digit() || c == '+' || c == ',')
            .unwrap_or(after.len());
        let named = after.get(..end).unwrap_or("").trim();
        // "12 ft - 6 in": the dash joins, it does not subtract.
        let named = named.trim_end_matches('-').trim_end();
        if named.is_empty() {
            return Err(UnitError::NoUnit {
                text: quoted(text),
                dim,
            });
        }
        let unit = find(q, named).ok_or_else(|| unknown(named, text, dim, q))?;
        let part = unit.to_si(number.abs());
        // A hair of room: 12 in and 1 ft differ in the last bit.
        if last.is_some_and(|l| part >= l * (1.0 - 1e-12)) {
            return Err(UnitError::PartTooLarge {
                text: quoted(text),
                dim,
            });
        }
        last = Some(unit.factor);
        sum += part;
        rest = after
            .get(end..)
            .unwrap_or("")
            .trim_start_matches([' ', ',']);
    }
    Ok(if negative { -sum } else { sum })
}

/// The unit of this quantity with that name or another spelling of it.
fn find(q: &Quantity, named: &str) -> Option<&'static Unit> {
    let exact = q.units.iter().find(|u| u.name == named);
    exact.or_else(|| {
        let wanted = key(named);
        let found = q
            .units
            .iter()
            .find(|u| key(u.name) == wanted || u.also.iter().any(|other| key(other) == wanted))?;
        let shrunk = CAPITAL_MATTERS.contains(&found.name) && !named.contains('M');
        (!shrunk).then_some(found)
    })
}

fn unknown(named: &str, text: &str, dim: Dim, q: &Quantity) -> UnitError {
    let text = quoted(text);
    let unit = quoted(named);
    let elsewhere = ALL
        .iter()
        .copied()
        .find(|d| *d != dim && find(quantity_of(*d), named).is_some());
    if let Some(other) = elsewhere {
        return UnitError::WrongKind {
            text,
            unit,
            other,
            dim,
        };
    }
    let wanted = key(&unit);
    let near = q
        .units
        .iter()
        .flat_map(|u| {
            std::iter::once(&u.name)
                .chain(u.also)
                .map(move |n| (key(n), u.name))
        })
        .map(|(k, name)| (distance(&wanted, &k), k.chars().count(), name))
        .filter(|(d, long, _)| *d <= (*long / 3).max(1) && *d < *long)
        .min_by_key(|(d, _, _)| *d)
        .map(|(_, _, name)| name);
    UnitError::UnknownUnit {
        text,
        unit,
        near,
        dim,
    }
}
