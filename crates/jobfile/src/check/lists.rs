//! Lists, lists of tables, and tables by name.

use reckon::in_key;

use super::{Check, Says, check_name, join, row_names};
use crate::cell::{Cell, Value};
use crate::field::{Kind, Table};
use crate::tree::{Entry, Node, Raw};

impl Check<'_> {
    pub(super) fn each(
        &mut self,
        node: &Node,
        path: &str,
        mut read: impl FnMut(&mut Self, &Node, &str) -> Option<Cell>,
    ) -> Option<Value> {
        let mut cells = Vec::new();
        let mut good = true;
        for (i, member) in node.members().iter().enumerate() {
            match read(self, member, &format!("{path}.{}", i + 1)) {
                Some(cell) => cells.push(cell),
                None => good = false,
            }
        }
        good.then_some(Value::List(cells))
    }

    pub(super) fn list(
        &mut self,
        node: &Node,
        kind: &Kind,
        least: usize,
        path: &str,
    ) -> Option<Value> {
        let Raw::List(members) = &node.raw else {
            let says = self
                .wrong_type(node, "a list in square brackets")
                .mend("put it in square brackets: [ ... ]");
            self.problem(path, &node.span, says);
            return None;
        };
        if members.len() < least {
            let says = Says::new("too few in this list")
                .got(members.len().to_string())
                .allowed(format!("at least {least}"))
                .mend("add what is missing");
            self.problem(path, &node.span, says);
            return None;
        }
        self.each(node, path, |c, n, p| c.cell(n, kind, p))
    }

    pub(super) fn rows(&mut self, node: &Node, table: &'static Table, path: &str) -> Option<Value> {
        let Raw::List(members) = &node.raw else {
            let says = Says::new(format!(
                "there may be several of these, so it is written [[{}]]",
                table.name
            ))
            .got(format!("[{}]", table.name))
            .allowed(format!("[[{}]]", table.name))
            .mend("double the square brackets");
            self.problem(path, &node.span, says);
            return None;
        };
        let mut cells = Vec::new();
        let names = row_names(members, table);
        for (i, (member, name)) in members.iter().zip(&names).enumerate() {
            let inner = join(path, name);
            if !matches!(member.raw, Raw::Table(_)) {
                self.not_a_table(member, table, &inner);
                continue;
            }
            self.named_once(members.get(..i).unwrap_or(&[]), member, table, &inner);
            // A table of a list may also be asked for by its number.
            self.place(&format!("{path}.{}", i + 1), &member.span);
            let row = self.table(member, table, &inner, name);
            cells.push(Cell {
                path: inner,
                span: row.span,
                written: String::new(),
                value: Value::Row(Box::new(row)),
            });
        }
        Some(Value::List(cells))
    }

    /// A name that is given must be new. Names that differ only in dashes for spaces would stand for
    /// one another where a number is asked why.
    fn named_once(&mut self, before: &[Node], node: &Node, table: &Table, path: &str) {
        let Some(name) = node.get("name").filter(|_| table.field("name").is_some()) else {
            return;
        };
        let Some(text) = name.text() else { return };
        let first = before.iter().find(|n| {
            let name = n.get("name").and_then(Node::text);
            name.is_some_and(|n| in_key(n) == in_key(text))
        });
        if let Some(first) = first {
            let line = self.lines.span(&first.span).line;
            let says = Says::new(format!(
                "two of [[{}]] have this name; the first is in line {line}",
                table.name
            ))
            .got(format!("\"{text}\""))
            .allowed("each name once; a dash counts as a space")
            .mend("give one of them another name");
            self.problem(&format!("{path}.name"), &name.span, says);
        }
    }

    pub(super) fn map(&mut self, node: &Node, table: &'static Table, path: &str) -> Option<Value> {
        let Raw::Table(entries) = &node.raw else {
            let says = Says::new(format!(
                "these have names, so each is written [{}.its-name]",
                table.name
            ))
            .got(format!("[[{}]]", table.name))
            .allowed(format!("[{}.its-name]", table.name))
            .mend("write its name after a dot in the heading");
            self.problem(path, &node.span, says);
            return None;
        };
        let mut cells = Vec::new();
        for Entry {
            key,
            key_span,
            node,
        } in entries
        {
            let inner = join(path, key);
            if !matches!(node.raw, Raw::Table(_)) {
                let says = Says::new(format!(
                    "these have names, so each is written [{}.its-name]",
                    table.name
                ))
                .got(key.clone())
                .allowed(format!("[{}.its-name]", table.name))
                .mend("write its name after a dot in the heading");
                self.problem(&inner, key_span, says);
                continue;
            }
            if let Err(says) = check_name(key) {
                self.problem(&inner, key_span, says);
            }
            let row = self.table(node, table, &inner, key);
            cells.push(Cell {
                path: inner,
                span: row.span,
                written: String::new(),
                value: Value::Row(Box::new(row)),
            });
        }
        Some(Value::List(cells))
    }
}
