//! Values with a dimension, numbers, days, points.

use units::{Dim, UnitError, parse, quantity_of};

use super::say::range_in_words;
use super::{Check, Says};
use crate::Carrier;
use crate::carriers;
use crate::cell::Value;
use crate::field::OddUnits;
use crate::tree::{Node, Raw, shorten};

impl Check<'_> {
    /// A quantity with its unit, SI.
    pub(super) fn quantity(
        &mut self,
        node: &Node,
        dim: Dim,
        least: f64,
        most: f64,
        path: &str,
    ) -> Option<f64> {
        let text = self.with_unit(node, dim, path)?;
        match read_in_range(&text, dim, least, most) {
            Ok(value) => Some(value),
            Err(says) => {
                self.problem(path, &node.span, says);
                None
            }
        }
    }

    /// The text of a quantity; a number alone only where the kind of quantity allows it.
    fn with_unit(&mut self, node: &Node, dim: Dim, path: &str) -> Option<String> {
        let quantity = quantity_of(dim);
        let number = match &node.raw {
            Raw::Text(text) => return Some(text.clone()),
            Raw::Whole(n) => n.to_string(),
            Raw::Number(n) if n.is_finite() => n.to_string(),
            Raw::Number(_) => {
                let says = Says::new("this is not a number one can reckon with")
                    .got(self.lines.written(&node.span))
                    .allowed(format!("{}, like \"{}\"", quantity.what, quantity.example))
                    .mend("write the value that was measured, or take the line out");
                self.problem(path, &node.span, says);
                return None;
            }
            _ => {
                let says = self
                    .wrong_type(node, &format!("{} in quotes", quantity.what))
                    .mend(format!("write it like \"{}\"", quantity.example));
                self.problem(path, &node.span, says);
                return None;
            }
        };
        if quantity.bare {
            return Some(number);
        }
        let names: Vec<&str> = quantity.units.iter().map(|u| u.name).collect();
        let usual = names.first().copied().unwrap_or("");
        let says = Says::new(format!(
            "a number alone cannot be {}: the unit is missing",
            quantity.what
        ))
        .got(self.lines.written(&node.span))
        .allowed(format!("units: {}", names.join(", ")))
        .mend(format!(
            "put it in quotes with its unit, like \"{number} {usual}\""
        ));
        self.problem(path, &node.span, says);
        None
    }

    /// A quantity in units of the job file's own.
    pub(super) fn odd(
        &mut self,
        node: &Node,
        odd: &OddUnits,
        least: f64,
        most: f64,
        path: &str,
    ) -> Option<f64> {
        let names: Vec<&str> = odd.units.iter().map(|u| u.0).collect();
        let text = node.text().unwrap_or("").trim();
        let read = odd.units.iter().find_map(|(name, factor)| {
            let squeezed: String = text.split_whitespace().collect();
            let unit: String = name.split_whitespace().collect();
            let number: f64 = squeezed.strip_suffix(unit.as_str())?.parse().ok()?;
            number.is_finite().then_some(number * factor)
        });
        let says = match read {
            Some(value) if (least..=most).contains(&value) => return Some(value),
            Some(_) => Says::new("out of the range that can be right")
                .got(format!("\"{}\"", shorten(text)))
                .allowed(format!("{least} to {most} in SI, like \"{}\"", odd.example))
                .mend("check the figure and its unit"),
            None => Says::new(format!("this does not read as {}", odd.what))
                .got(self.lines.written(&node.span))
                .allowed(format!("units: {}", names.join(", ")))
                .mend(format!("write it like \"{}\"", odd.example)),
        };
        self.problem(path, &node.span, says);
        None
    }

    /// A price per J.
    pub(super) fn price(&mut self, node: &Node, carrier: Carrier, path: &str) -> Option<f64> {
        let text = node.text().unwrap_or("").trim();
        if let Some(price) = carriers::price_per_j(text, carrier) {
            return Some(price);
        }
        let says = Says::new(format!(
            "this does not read as a price of {}",
            carrier.word()
        ))
        .got(self.lines.written(&node.span))
        .allowed(format!(
            "money per unit: {}",
            carriers::price_units(carrier).join(", ")
        ))
        .mend(format!(
            "write it like \"{}\"",
            carriers::price_example(carrier)
        ));
        self.problem(path, &node.span, says);
        None
    }

    /// A flow at a pressure: m3/s and Pa.
    pub(super) fn flow_at(&mut self, node: &Node, path: &str) -> Option<Value> {
        let text = node.text().unwrap_or("");
        let says = match text.split_once(" at ") {
            Some((flow, at)) => {
                let flow = read_in_range(flow, Dim::VolumeFlow, 1e-4, 50.0);
                let at = read_in_range(at, Dim::SmallPressure, 1.0, 200.0);
                match (flow, at) {
                    (Ok(flow), Ok(at)) => return Some(Value::FlowAt(flow, at)),
                    (Err(says), _) | (_, Err(says)) => says,
                }
            }
            None => Says::new("this does not read as a blower-door test")
                .got(self.lines.written(&node.span))
                .allowed("an air flow (cfm, L/s, m3/h, m3/s), the word at, a pressure (Pa)")
                .mend("write it like \"2100 cfm at 50 Pa\""),
        };
        self.problem(path, &node.span, says);
        None
    }

    pub(super) fn whole(
        &mut self,
        node: &Node,
        least: i64,
        most: i64,
        path: &str,
    ) -> Option<Value> {
        match node.raw {
            Raw::Whole(n) if (least..=most).contains(&n) => return Some(Value::Whole(n)),
            _ => {}
        }
        let says = Says::new("not a whole number that may stand here")
            .got(self.lines.written(&node.span))
            .allowed(format!("{least} to {most}"))
            .mend("write a whole number without quotes");
        self.problem(path, &node.span, says);
        None
    }

    /// A day, written as text or as a TOML date.
    pub(super) fn day(&mut self, node: &Node, path: &str) -> Option<Value> {
        let text = match &node.raw {
            Raw::Text(text) | Raw::Date(text) => text.trim().to_owned(),
            _ => String::new(),
        };
        if is_day(&text) {
            return Some(Value::Text(text));
        }
        let says = Says::new("this does not read as a day")
            .got(self.lines.written(&node.span))
            .allowed("year, month and day, parted by dashes")
            .mend("write it like \"2026-11-01\"");
        self.problem(path, &node.span, says);
        None
    }

    /// A corner: two lengths.
    pub(super) fn point(&mut self, node: &Node, path: &str) -> Option<Value> {
        const FAR: f64 = 300.0;
        let Some((x, y)) = node.text().and_then(|t| t.split_once(',')) else {
            let says = Says::new("this does not read as a corner")
                .got(self.lines.written(&node.span))
                .allowed("two lengths in one pair of quotes, parted by a comma: east, then north")
                .mend("write it like \"18 ft, 0 ft\"");
            self.problem(path, &node.span, says);
            return None;
        };
        let x = read_in_range(x, Dim::Length, -FAR, FAR);
        let y = read_in_range(y, Dim::Length, -FAR, FAR);
        match (x, y) {
            (Ok(x), Ok(y)) => Some(Value::Point([x, y])),
            (Err(says), _) | (_, Err(says)) => {
                self.problem(path, &node.span, says);
                None
            }
        }
    }
}

/// Reads a quantity and holds it against a range.
pub(crate) fn read_in_range(text: &str, dim: Dim, least: f64, most: f64) -> Result<f64, Says> {
    match parse(text, dim) {
        Ok(value) if (least..=most).contains(&value) => Ok(value),
        Ok(_) => Err(Says::new("out of the range that can be right")
            .got(format!("\"{}\"", shorten(text)))
            .allowed(range_in_words(dim, least, most))
            .mend("check the figure and its unit")),
        Err(error) => Err(does_not_read(text, dim, &error)),
    }
}

/// What the units have to say about a text, part by part.
fn does_not_read(text: &str, dim: Dim, error: &UnitError) -> Says {
    let quantity = quantity_of(dim);
    let got = format!("\"{}\"", shorten(text));
    let names: Vec<&str> = quantity.units.iter().map(|u| u.name).collect();
    let units = if names.is_empty() {
        "a number".to_owned()
    } else {
        format!("units: {}", names.join(", "))
    };
    let like = format!("write it like \"{}\"", quantity.example);
    let says = match error {
        UnitError::Empty { .. } => "nothing is written here".to_owned(),
        UnitError::NoNumber { .. } => "this does not begin with a number".to_owned(),
        UnitError::NoUnit { .. } => "the unit is missing".to_owned(),
        UnitError::UnknownUnit { unit, near, .. } => match near {
            Some(near) => {
                return Says::new(format!("`{unit}` is no unit that may stand here"))
                    .got(got)
                    .allowed(units)
                    .mend(format!("did you mean `{near}`?"));
            }
            None => format!("`{unit}` is no unit that may stand here"),
        },
        UnitError::WrongKind { unit, other, .. } => format!(
            "`{unit}` is a unit of {}, and this is {}",
            bare(quantity_of(*other).what),
            quantity.what
        ),
        UnitError::TooLarge { .. } => format!("too large to be {}", quantity.what),
        UnitError::BelowAbsoluteZero { .. } => "colder than anything can be".to_owned(),
        UnitError::PartTooLarge { .. } => {
            "the later part is as large as one of the part before it".to_owned()
        }
        UnitError::ShareAboveOne { .. } => {
            "more than the whole; write a percent sign if percent is meant".to_owned()
        }
        UnitError::NotWhole { .. } => "not a whole number".to_owned(),
    };
    Says::new(says).got(got).allowed(units).mend(like)
}

fn bare(what: &str) -> &str {
    what.strip_prefix("a ")
        .or_else(|| what.strip_prefix("an "))
        .unwrap_or(what)
}

/// Whether a text is a day of the calendar.
fn is_day(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else {
        return false;
    };
    if year.len() != 4 || month.len() != 2 || day.len() != 2 {
        return false;
    }
    let (Ok(year), Ok(month), Ok(day)) = (
        year.parse::<u32>(),
        month.parse::<u32>(),
        day.parse::<u32>(),
    ) else {
        return false;
    };
    let leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    let most = match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return false,
    };
    year >= 1900 && (1..=most).contains(&day)
}

#[cfg(test)]
mod tests {
    #[test]
    fn days_of_the_calendar() {
        for good in ["2026-11-01", "2024-02-29", "2000-02-29"] {
            assert!(super::is_day(good), "{good}");
        }
        for bad in [
            "2026-02-29",
            "2026-13-01",
            "26-11-01",
            "2026-1-1",
            "1900-02-29",
            "",
            "+202-01-01",
        ] {
            assert!(!super::is_day(bad), "{bad}");
        }
    }
}
