//! Looks at a tree by the field tables: every key known, every value of its kind and in range.

mod hours;
mod lists;
mod names;
mod quantity;
mod say;
mod says;

use std::ops::Range;

use crate::cell::{Cell, Row, Value};
use crate::field::{Field, Kind, Need, Table};
use crate::tree::{Entry, Lines, Node, Raw, shorten};
use crate::{Places, Problem};

pub(crate) use hours::{RANGE, STRETCH};
pub(crate) use names::{Names, check_name, row_names};
pub(crate) use say::nearest;
pub(crate) use says::Says;

/// Looks at trees and collects what is wrong.
pub(crate) struct Check<'a> {
    pub lines: &'a Lines<'a>,
    pub names: Names,
    pub problems: Vec<Problem>,
    pub places: Places,
}

impl<'a> Check<'a> {
    pub fn new(lines: &'a Lines<'a>, names: Names) -> Self {
        Self {
            lines,
            names,
            problems: Vec::new(),
            places: Places::default(),
        }
    }

    /// Puts down a problem at a place.
    pub fn problem(&mut self, path: &str, at: &Range<usize>, says: Says) {
        self.problems.push(Problem {
            path: path.to_owned(),
            span: self.lines.span(at),
            says: says.what,
            got: says.got,
            allowed: says.allowed,
            mend: says.mend,
        });
    }

    fn place(&mut self, path: &str, at: &Range<usize>) {
        let span = self.lines.span(at);
        self.places.by_path.entry(path.to_owned()).or_insert(span);
    }

    /// Reads a table. `path` is empty for the file itself.
    pub fn table(&mut self, node: &Node, table: &'static Table, path: &str, name: &str) -> Row {
        self.place(path, &node.span);
        // An option speaks of its own heads and units, which need not be those that are chosen.
        let outer = (table.name == "option").then(|| {
            let own = self.names.within_option(node);
            std::mem::replace(&mut self.names, own)
        });
        let mut cells = Vec::new();
        let mut wrote = Vec::new();
        for entry in node.entries() {
            if table.field(&entry.key).is_none() {
                self.unknown_key(entry, table, path);
            }
        }
        for field in table.all_fields() {
            let inner = join(path, field.key);
            let found = node.entries().iter().find(|e| e.key == field.key);
            if found.is_some() {
                wrote.push(field.key);
            }
            let cell = match (found, field.need) {
                (Some(entry), _) => self.cell(&entry.node, &field.kind, &inner),
                (None, Need::Must) => {
                    self.missing(field, table, &inner, &node.span);
                    None
                }
                (None, Need::Usual(text)) => self.stands_in(text, &field.kind, &inner, &node.span),
                (None, Need::May) => None,
            };
            if let Some(cell) = cell {
                cells.push((field.key, cell));
            }
        }
        if let Some(outer) = outer {
            self.names = outer;
        }
        Row {
            table,
            name: name.to_owned(),
            path: path.to_owned(),
            span: self.lines.span(&node.span),
            cells,
            wrote,
        }
    }

    /// The usual value of a field, read as if it had been written.
    fn stands_in(
        &mut self,
        text: &str,
        kind: &Kind,
        path: &str,
        at: &Range<usize>,
    ) -> Option<Cell> {
        let raw = match kind {
            Kind::YesNo => Raw::YesNo(text == "true"),
            Kind::Whole(..) => Raw::Whole(text.parse().unwrap_or_default()),
            _ => Raw::Text(text.to_owned()),
        };
        let mut cell = self.cell(
            &Node {
                span: at.clone(),
                raw,
            },
            kind,
            path,
        )?;
        text.clone_into(&mut cell.written);
        Some(cell)
    }

    /// Reads a value of a kind.
    pub fn cell(&mut self, node: &Node, kind: &Kind, path: &str) -> Option<Cell> {
        self.place(path, &node.span);
        let value = self.value(node, kind, path)?;
        Some(Cell {
            path: path.to_owned(),
            span: self.lines.span(&node.span),
            written: match &node.raw {
                Raw::Text(text) => shorten(text),
                _ => self.lines.written(&node.span),
            },
            value,
        })
    }

    fn value(&mut self, node: &Node, kind: &Kind, path: &str) -> Option<Value> {
        match kind {
            Kind::Text => self
                .some_text(node, path, "a text in quotes")
                .map(Value::Text),
            Kind::NewName => {
                let text = self.some_text(node, path, "a name in quotes")?;
                match check_name(&text) {
                    Ok(()) => Some(Value::Text(text)),
                    Err(says) => {
                        self.problem(path, &node.span, says);
                        None
                    }
                }
            }
            Kind::Texts => self.each(node, path, |c, n, p| c.cell(n, &Kind::Text, p)),
            Kind::Ref(family) => self.reference(node, *family, path),
            Kind::Word(words) => self.word(node, words, path),
            Kind::YesNo => {
                if let Raw::YesNo(yes) = node.raw {
                    return Some(Value::YesNo(yes));
                }
                let says = self
                    .wrong_type(node, "true or false")
                    .mend("write true or false, without quotes");
                self.problem(path, &node.span, says);
                None
            }
            Kind::Whole(least, most) => self.whole(node, *least, *most, path),
            Kind::Q(dim, least, most) => self
                .quantity(node, *dim, *least, *most, path)
                .map(Value::Si),
            Kind::Odd(odd, least, most) => self.odd(node, odd, *least, *most, path).map(Value::Si),
            Kind::Day => self.day(node, path),
            Kind::Point => self.point(node, path),
            Kind::ByHour(dim, least, most) => self.by_hour(node, *dim, *least, *most, path),
            Kind::OnHours => self.on_hours(node, path),
            Kind::FlowAt => self.flow_at(node, path),
            Kind::Price(carrier) => self.price(node, *carrier, path).map(Value::Si),
            Kind::Side => self.side(node, path),
            Kind::List(inner, least) => self.list(node, inner, *least, path),
            Kind::Sub(table) => {
                if matches!(node.raw, Raw::Table(_)) {
                    return Some(Value::Row(Box::new(self.table(node, table, path, ""))));
                }
                self.not_a_table(node, table, path);
                None
            }
            Kind::Rows(table) => self.rows(node, table, path),
            Kind::Map(table) => self.map(node, table, path),
            Kind::TextOr(table) => match &node.raw {
                Raw::Table(_) => Some(Value::Row(Box::new(self.table(node, table, path, "")))),
                Raw::Text(text) if !text.trim().is_empty() => {
                    Some(Value::Text(text.trim().to_owned()))
                }
                _ => {
                    let keys: Vec<&str> = table.fields.iter().map(|f| f.key).collect();
                    let says = self
                        .wrong_type(
                            node,
                            &format!("a text in quotes, or {{ {} }}", keys.join(", ")),
                        )
                        .mend("put it in quotes, or write it out in braces");
                    self.problem(path, &node.span, says);
                    None
                }
            },
            Kind::Any => Some(Value::Any),
        }
    }

    fn missing(&mut self, field: &Field, table: &Table, path: &str, at: &Range<usize>) {
        let mend = match &field.kind {
            Kind::Sub(inner) => format!("add a heading [{}] with its lines", inner.name),
            Kind::Rows(inner) => format!("add a heading [[{}]] with its lines", inner.name),
            kind => format!("add a line `{} = {}`", field.key, say::example(kind)),
        };
        let says = Says::new(format!("`{}` is missing in {}", field.key, heading(table)))
            .allowed(say::kind_in_words(&field.kind))
            .mend(mend);
        self.problem(path, at, says);
    }

    fn unknown_key(&mut self, entry: &Entry, table: &Table, path: &str) {
        let keys: Vec<&str> = table.all_fields().map(|f| f.key).collect();
        let mend = match nearest(&entry.key, keys.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "take it out, or put it where it belongs".to_owned(),
        };
        let what = if table.name.is_empty() {
            "table or key"
        } else {
            "key"
        };
        let says = Says::new(format!("no such {what} in {}", heading(table)))
            .got(shorten(&entry.key))
            .allowed(keys.join(", "))
            .mend(mend);
        self.problem(&join(path, &entry.key), &entry.key_span, says);
    }

    fn not_a_table(&mut self, node: &Node, table: &Table, path: &str) {
        if matches!(node.raw, Raw::List(_)) {
            let says = Says::new(format!(
                "there is one of these, so it is written [{}]",
                table.name
            ))
            .got(self.lines.written(&node.span))
            .allowed(format!("[{}]", table.name))
            .mend("write it once, with single square brackets");
            self.problem(path, &node.span, says);
            return;
        }
        let keys: Vec<&str> = table.fields.iter().map(|f| f.key).collect();
        let says = self
            .wrong_type(node, &format!("a table with the keys {}", keys.join(", ")))
            .mend(format!(
                "write it under a heading {}, or in braces",
                heading(table)
            ));
        self.problem(path, &node.span, says);
    }
}

/// A table as it is headed in the file.
pub(crate) fn heading(table: &Table) -> String {
    if table.name.is_empty() {
        "the job file".to_owned()
    } else {
        format!("[{}]", table.name)
    }
}

/// A path one step deeper.
pub(crate) fn join(path: &str, key: &str) -> String {
    if path.is_empty() {
        key.to_owned()
    } else {
        format!("{path}.{key}")
    }
}
