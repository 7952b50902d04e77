//! Prints SI values in the user's units, with only the digits they deserve.

use crate::Dim;
use crate::constants::{INCH_M, OUNCE_KG};
use crate::table::{Digits, Shown, Way, quantity_of};

/// The user's system of units.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum System {
    /// US customary.
    #[default]
    Us,
    /// SI, with C for temperature and kWh for energy.
    Si,
}

/// What is printed where there is no number.
pub const NO_VALUE: &str = "no value";

fn shown(dim: Dim, system: System) -> Shown {
    let q = quantity_of(dim);
    match system {
        System::Us => q.us,
        System::Si => q.si,
    }
}

/// Prints a value with its unit, choosing a handy one: `show(3.81, Dim::Length, System::Us)` is
/// `12 ft 6 in`. Not finite prints as "no value"; `-0` is never printed.
///
/// # Example
/// ```
/// use units::{Dim, System, show};
/// assert_eq!(show(2769.0, Dim::Power, System::Us), "9,450 Btu/h");
/// assert_eq!(show(-20.0, Dim::Temperature, System::Us), "-4 F");
/// ```
pub fn show(value_si: f64, dim: Dim, system: System) -> String {
    let shown = shown(dim, system);
    let size = value_si.abs();
    let way = shown
        .below
        .iter()
        .find(|(bound, _)| size < *bound)
        .map_or(shown.column, |(_, way)| *way);
    let number = print(value_si, way);
    if !value_si.is_finite() {
        return number;
    }
    match (way.digits, way.unit.name) {
        (Digits::FeetInches | Digits::PoundsOunces, _) | (_, "") => number,
        (_, "$") => match number.strip_prefix('-') {
            Some(size) => format!("-${size}"),
            None => format!("${number}"),
        },
        (_, unit) => format!("{number} {unit}"),
    }
}

/// Number and unit apart, for table columns: the unit is the same for every value of a kind
/// (except that a value that is not finite has none).
pub fn show_number(value_si: f64, dim: Dim, system: System) -> (String, &'static str) {
    let way = shown(dim, system).column;
    let unit = if value_si.is_finite() {
        way.unit.name
    } else {
        ""
    };
    (print(value_si, way), unit)
}

/// The unit that [`show_number`] uses, for the head of a column.
pub fn column_unit(dim: Dim, system: System) -> &'static str {
    shown(dim, system).column.unit.name
}

/// The number that [`show_number`] prints, before it is rounded.
pub fn column_number(value_si: f64, dim: Dim, system: System) -> f64 {
    shown(dim, system).column.unit.from_si(value_si)
}

/// A value in the very unit that formulas are written in (W, m3/s, C), four digits, for working a
/// formula again by hand. None for what has no unit, or none that is written.
///
/// # Example
/// ```
/// use units::{Dim, show_plain_si};
/// assert_eq!(show_plain_si(0.0178, Dim::VolumeFlow).as_deref(), Some("0.01780 m3/s"));
/// assert_eq!(show_plain_si(0.25 / 3.6e6, Dim::CarbonIntensity).as_deref(), Some("6.944e-8 kg/J"));
/// assert_eq!(show_plain_si(0.3, Dim::Share), None);
/// ```
pub fn show_plain_si(value_si: f64, dim: Dim) -> Option<String> {
    let units = quantity_of(dim).units;
    let plain = |u: &&crate::Unit| u.factor == 1.0 && u.zero == 0.0;
    // what is told per kWh is counted per joule inside
    let one = |u: &&crate::Unit| {
        u.name.ends_with("/kWh") && (u.factor * crate::constants::KWH_J - 1.0).abs() < 1e-9
    };
    let per_kwh = || Some(units.iter().find(one)?.name.replace("/kWh", "/J"));
    let unit = units
        .iter()
        .find(plain)
        .map(|u| u.name.to_owned())
        .or_else(per_kwh)?;
    value_si
        .is_finite()
        .then(|| format!("{} {unit}", significant(value_si, 4)))
}

fn print(value_si: f64, way: Way) -> String {
    if !value_si.is_finite() {
        return NO_VALUE.to_owned();
    }
    let number = way.unit.from_si(value_si);
    if !number.is_finite() {
        return NO_VALUE.to_owned();
    }
    let text = match way.digits {
        Digits::Significant(digits) => significant(number, digits),
        Digits::Whole(digits) => {
            let all = libm::pow(10.0, digits as f64) - 0.5;
            if number.abs() < all {
                significant(number, digits)
            } else {
                fixed(number, 0)
            }
        }
        Digits::Fixed(decimals) => fixed(number, decimals),
        Digits::UpTo(decimals) => {
            let text = fixed(number, decimals);
            if text.contains('.') && !text.contains('e') {
                text.trim_end_matches('0').trim_end_matches('.').to_owned()
            } else {
                text
            }
        }
        Digits::FeetInches => feet_inches(value_si),
        Digits::PoundsOunces => pounds_ounces(value_si),
    };
    without_minus_zero(text)
}

/// Beyond these an exponent is easier to read than a row of zeros.
const LARGE: f64 = 1e15;
const SMALL: f64 = 1e-6;

/// A number in so many significant digits; an exponent where a row of zeros would be harder to read.
pub fn significant(number: f64, digits: usize) -> String {
    let scientific = format!("{number:.*e}", digits.saturating_sub(1));
    if number == 0.0 {
        return "0".to_owned();
    }
    if number.abs() >= LARGE || number.abs() < SMALL {
        return scientific;
    }
    let Some((_, power)) = scientific.split_once('e') else {
        return scientific;
    };
    let power: i32 = power.parse().unwrap_or(0);
    let decimals = (i32::try_from(digits).unwrap_or(3) - 1 - power).max(0) as usize;
    // Rounding twice is safe: the scientific text is a decimal number with few digits.
    let rounded: f64 = scientific.parse().unwrap_or(number);
    grouped(&format!("{rounded:.decimals$}"))
}

fn fixed(number: f64, decimals: usize) -> String {
    if number.abs() >= LARGE {
        return format!("{number:.2e}");
    }
    grouped(&format!("{number:.decimals$}"))
}

/// Commas between groups of three before the point.
pub(crate) fn grouped(text: &str) -> String {
    let (sign, body) = text.strip_prefix('-').map_or(("", text), |b| ("-", b));
    let (whole, rest) = body.find('.').map_or((body, ""), |at| body.split_at(at));
    let mut out = String::from(sign);
    for (i, c) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(c);
    }
    out.push_str(rest);
    out
}

/// Rounds to the nearest half inch.
fn feet_inches(value_m: f64) -> String {
    let halves = libm::round(value_m.abs() / (INCH_M / 2.0));
    let feet = libm::floor(halves / 24.0);
    let left = halves - feet * 24.0;
    let inches = libm::floor(left / 2.0);
    let half = left > inches * 2.0;
    let sign = if value_m < 0.0 && halves > 0.0 {
        "-"
    } else {
        ""
    };
    let inches = match (inches > 0.0, half) {
        (true, true) => format!("{inches:.0} 1/2 in"),
        (true, false) => format!("{inches:.0} in"),
        (false, true) => "1/2 in".to_owned(),
        (false, false) => String::new(),
    };
    match (feet > 0.0, inches.is_empty()) {
        (true, true) => format!("{sign}{feet:.0} ft"),
        (true, false) => format!("{sign}{feet:.0} ft {inches}"),
        (false, true) => "0 in".to_owned(),
        (false, false) => format!("{sign}{inches}"),
    }
}

/// Rounds to a tenth of an ounce.
fn pounds_ounces(value_kg: f64) -> String {
    let tenths = libm::round(value_kg.abs() / (OUNCE_KG / 10.0));
    let pounds = libm::floor(tenths / 160.0);
    let ounces = (tenths - pounds * 160.0) / 10.0;
    let sign = if value_kg < 0.0 { "-" } else { "" };
    if ounces > 0.0 {
        format!("{sign}{pounds:.0} lb {ounces:.1} oz")
    } else {
        format!("{sign}{pounds:.0} lb")
    }
}

fn without_minus_zero(text: String) -> String {
    match text.strip_prefix('-') {
        Some(rest) if !rest.contains(|c: char| ('1'..='9').contains(&c)) => rest.to_owned(),
        _ => text,
    }
}
