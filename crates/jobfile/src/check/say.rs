//! Words for kinds of values, examples of them, and the nearest of several names.

use units::{Dim, System, quantity_of, show};

use super::{Check, Says};
use crate::carriers;
use crate::field::{Kind, Table};
use crate::tree::Node;

/// The nearest of several names, if one is near enough to be meant.
pub(crate) fn nearest<'n>(got: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let got = got.to_lowercase();
    let room = (got.chars().count() / 3).max(1);
    let mut best: Option<(usize, &str)> = None;
    for name in names {
        let far = strsim::damerau_levenshtein(&got, &name.to_lowercase());
        let prefix = got.len() >= 3 && (name.starts_with(&got) || got.starts_with(name));
        if (far <= room || prefix) && best.is_none_or(|(d, _)| far < d) {
            best = Some((far, name));
        }
    }
    best.map(|(_, name)| name)
}

/// What may stand here, in words.
pub(crate) fn kind_in_words(kind: &Kind) -> String {
    match kind {
        Kind::Text => "a text in quotes".to_owned(),
        Kind::Texts => "a text in quotes, or a list of texts".to_owned(),
        Kind::NewName => "a name in quotes".to_owned(),
        Kind::Ref(family) => format!("the name of a [[{}]] in quotes", family.table()),
        Kind::Word(words) => words.join(", "),
        Kind::YesNo => "true or false".to_owned(),
        Kind::Whole(least, most) => format!("a whole number from {least} to {most}"),
        Kind::Q(dim, least, most) => {
            format!(
                "{}, {}",
                quantity_of(*dim).what,
                range_in_words(*dim, *least, *most)
            )
        }
        Kind::Odd(odd, _, _) => odd.what.to_owned(),
        Kind::Day => "a day".to_owned(),
        Kind::Point => "two lengths, east and north, parted by a comma".to_owned(),
        Kind::ByHour(dim, least, most) => format!(
            "{} all day, {}, or a list of {{ from, to, at }}",
            quantity_of(*dim).what,
            range_in_words(*dim, *least, *most)
        ),
        Kind::OnHours => "\"always\", or a list of { from, to }".to_owned(),
        Kind::FlowAt => "an air flow at a pressure".to_owned(),
        Kind::Price(carrier) => {
            format!(
                "a price, money and one of: {}",
                carriers::price_units(*carrier).join(", ")
            )
        }
        Kind::Side => "north, east, south, west, or the number of the wall".to_owned(),
        Kind::List(inner, least) => format!("a list of at least {least}: {}", kind_in_words(inner)),
        Kind::Sub(table) | Kind::Rows(table) | Kind::Map(table) => keys_in_words(table),
        Kind::TextOr(table) => format!("a text in quotes, or {}", keys_in_words(table)),
        Kind::Any => "a value".to_owned(),
    }
}

fn keys_in_words(table: &Table) -> String {
    let keys: Vec<&str> = table.fields.iter().map(|f| f.key).collect();
    format!("a table with the keys {}", keys.join(", "))
}

/// How one would be written in the file.
pub(crate) fn example(kind: &Kind) -> String {
    match kind {
        Kind::Text | Kind::Texts | Kind::TextOr(_) => "\"...\"".to_owned(),
        Kind::NewName => "\"living\"".to_owned(),
        Kind::Ref(family) => match family {
            crate::field::Family::Storey => "\"ground\"".to_owned(),
            crate::field::Family::Outdoor => "\"outdoor 1\"".to_owned(),
            crate::field::Family::Construction => "\"wall\"".to_owned(),
            _ => "\"living\"".to_owned(),
        },
        Kind::Word(words) => format!("\"{}\"", words.first().unwrap_or(&"")),
        Kind::YesNo => "true".to_owned(),
        Kind::Whole(least, _) => least.to_string(),
        Kind::Q(dim, _, _) | Kind::ByHour(dim, _, _) => {
            format!("\"{}\"", quantity_of(*dim).example)
        }
        Kind::Odd(odd, _, _) => format!("\"{}\"", odd.example),
        Kind::Day => "\"2026-11-01\"".to_owned(),
        Kind::Point => "\"0 ft, 0 ft\"".to_owned(),
        Kind::OnHours => "\"always\"".to_owned(),
        Kind::FlowAt => "\"2100 cfm at 50 Pa\"".to_owned(),
        Kind::Price(carrier) => format!("\"{}\"", carriers::price_example(*carrier)),
        Kind::Side => "\"south\"".to_owned(),
        Kind::List(inner, _) => format!("[{}, ...]", example(inner)),
        Kind::Sub(_) | Kind::Map(_) => "{ ... }".to_owned(),
        Kind::Rows(_) => "[{ ... }]".to_owned(),
        Kind::Any => "...".to_owned(),
    }
}

/// A range as a person reads it, in the units usual in the trade.
pub(crate) fn range_in_words(dim: Dim, least: f64, most: f64) -> String {
    match (least.is_finite(), most.is_finite()) {
        (true, true) => {
            format!(
                "{} to {}",
                show(least, dim, System::Us),
                show(most, dim, System::Us)
            )
        }
        (true, false) => format!("{} or more", show(least, dim, System::Us)),
        (false, true) => format!("{} or less", show(most, dim, System::Us)),
        (false, false) => "any".to_owned(),
    }
}

impl Check<'_> {
    /// A value of another type than wanted.
    pub(super) fn wrong_type(&self, node: &Node, wanted: &str) -> Says {
        Says::new(format!("{} stands here", node.kind()))
            .got(self.lines.written(&node.span))
            .allowed(wanted)
    }
}
