//! Every table of the papers, and every figure of the plan, as CSV (RFC 4180).

use std::collections::BTreeMap;

use crate::block::{Block, Sheet};
use crate::desk::Input;
use crate::{Reader, Size, packet};

/// Name of a file and its text.
pub type NamedCsv = (String, String);

/// The tables of these readers' papers, and `figures.csv`.
pub fn csv(input: &Input<'_>, readers: &[Reader]) -> Vec<NamedCsv> {
    let mut out: BTreeMap<String, String> = BTreeMap::new();
    for reader in readers {
        let sheet = packet::sheet(input, *reader, Size::Letter, &[]);
        for (name, text) in of_sheet(*reader, &sheet) {
            out.insert(name, text);
        }
    }
    out.insert("figures.csv".to_owned(), figures(input));
    out.into_iter().collect()
}

/// The tables of one sheet: those under one heading, place by place, in one file.
fn of_sheet(reader: Reader, sheet: &Sheet) -> Vec<NamedCsv> {
    let mut out: Vec<NamedCsv> = Vec::new();
    let (mut heading, mut place) = (String::new(), String::new());
    for block in &sheet.blocks {
        match block {
            Block::Heading { text } => {
                heading.clone_from(text);
                place.clear();
            }
            Block::Place { text } => place.clone_from(text),
            Block::Table { head, rows, .. } => {
                let name = format!("{}-{}.csv", reader.word(), file_name(&heading));
                let mut text = String::new();
                let known = out.iter_mut().find(|(n, _)| *n == name);
                if known.is_none() {
                    row(&mut text, [&String::new()].into_iter().chain(head));
                }
                for r in rows {
                    row(&mut text, [&place].into_iter().chain(r));
                }
                match known {
                    Some((_, before)) => before.push_str(&text),
                    None => out.push((name, text)),
                }
            }
            _ => {}
        }
    }
    out
}

fn figures(input: &Input<'_>) -> String {
    let mut out = String::new();
    let head = ["key", "what", "value", "kind", "shown"];
    row(&mut out, head.map(str::to_owned).iter());
    for f in input.plan.book.iter() {
        let kind = serde_json::to_value(f.dim).ok();
        let kind = kind.and_then(|k| k.as_str().map(str::to_owned));
        let fields = [
            f.key.clone(),
            f.what.clone(),
            format!("{}", f.value),
            kind.unwrap_or_default(),
            input.show(f.value, f.dim),
        ];
        row(&mut out, fields.iter());
    }
    out
}

/// A file name of a heading.
fn file_name(heading: &str) -> String {
    let plain = heading.chars().map(|c| {
        if c.is_alphanumeric() {
            c.to_ascii_lowercase()
        } else {
            '-'
        }
    });
    let dashed: String = plain.collect();
    let parts = dashed.split('-').filter(|p| !p.is_empty());
    parts.collect::<Vec<_>>().join("-")
}

fn row<'t>(out: &mut String, fields: impl Iterator<Item = &'t String>) {
    let fields: Vec<String> = fields.map(|f| field(f)).collect();
    out.push_str(&fields.join(","));
    out.push_str("\r\n");
}

/// A field that any program reads as the text it is: one that a spreadsheet would run as a
/// formula begins with an apostrophe, unless it is a number.
fn field(text: &str) -> String {
    let text = text.replace('\u{200b}', "");
    let runs = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let number = text
        .split(' ')
        .next()
        .is_some_and(|n| n.replace(',', "").parse::<f64>().is_ok());
    let text = if runs && !number {
        format!("'{text}")
    } else {
        text
    };
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::field;

    #[test]
    fn fields_stay_texts() {
        assert_eq!(field("a, \"b\""), "\"a, \"\"b\"\"\"");
        assert_eq!(field("=HYPERLINK(1)"), "'=HYPERLINK(1)");
        assert_eq!(field("-4 F"), "-4 F");
        assert_eq!(field("-1,950 Btu/h"), "\"-1,950 Btu/h\"");
    }
}
