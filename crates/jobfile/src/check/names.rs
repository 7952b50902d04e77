//! Names: what one may look like, which there are, and which was meant.

use super::{Check, Says, nearest};
use crate::cell::Value;
use crate::field::{Family, Kind, Table};
use crate::tree::{Node, Raw};

/// Names that other tables may refer to.
#[derive(Debug, Default)]
pub(crate) struct Names {
    by_family: Vec<(&'static str, Vec<String>)>,
}

/// Constructions with a set meaning are there even where the job does not describe them.
pub(crate) const USUAL_CONSTRUCTIONS: [&str; 9] = [
    "wall",
    "roof",
    "ceiling",
    "floor",
    "partition",
    "slab",
    "basement wall",
    "open floor",
    "attic roof",
];

impl Names {
    /// Gathers the names a file brings into being.
    pub fn gather(root: &Node) -> Self {
        let mut names = Self::default();
        for family in [
            Family::Storey,
            Family::Room,
            Family::Construction,
            Family::Outdoor,
            Family::Head,
        ] {
            let table = family.table();
            let mut found = Vec::new();
            if family == Family::Construction {
                found.extend(USUAL_CONSTRUCTIONS.map(str::to_owned));
            }
            match root.get(table).map(|n| &n.raw) {
                Some(Raw::Table(entries)) if family == Family::Construction => {
                    let new = entries
                        .iter()
                        .map(|e| &e.key)
                        .filter(|k| !found.contains(*k));
                    found.extend(new.cloned().collect::<Vec<_>>());
                }
                // A single table where several belong is told elsewhere; its name counts.
                Some(_) => {
                    let rows = root.get(table).map_or(&[][..], Node::members);
                    found.extend(rows.iter().filter_map(called));
                }
                None => {}
            }
            names.by_family.push((table, found));
        }
        names
    }

    /// The same names, but outdoor units and heads are those of an option.
    pub fn within_option(&self, option: &Node) -> Self {
        let own = |family: Family, key: &str| {
            let rows = option.get(key).map_or(&[][..], Node::members);
            (family.table(), rows.iter().filter_map(called).collect())
        };
        let mut by_family = self.by_family.clone();
        by_family.retain(|(t, _)| *t != Family::Outdoor.table() && *t != Family::Head.table());
        by_family.push(own(Family::Outdoor, "outdoors"));
        by_family.push(own(Family::Head, "heads"));
        Self { by_family }
    }

    pub fn of(&self, family: Family) -> &[String] {
        let found = self.by_family.iter().find(|(t, _)| *t == family.table());
        found.map_or(&[], |(_, names)| names.as_slice())
    }
}

/// What others name a row by: its name, or the room of a head without one.
fn called(row: &Node) -> Option<String> {
    let name = row.get("name").or_else(|| row.get("room"));
    Some(name?.text()?.trim().to_owned())
}

/// Names of the tables of a list: from their label keys, else their number from 1; where
/// two would be alike, the second is counted: `living south 2`.
pub(crate) fn row_names(members: &[Node], table: &Table) -> Vec<String> {
    let mut names: Vec<String> = Vec::with_capacity(members.len());
    for (i, member) in members.iter().enumerate() {
        let name = label(member, table).unwrap_or_else(|| (i + 1).to_string());
        let mut free = name.clone();
        let mut count = 1;
        while names.contains(&free) {
            count += 1;
            free = format!("{name} {count}");
        }
        names.push(free);
    }
    names
}

/// The name one goes by, from its label keys.
fn label(node: &Node, table: &Table) -> Option<String> {
    let mut parts = Vec::new();
    if let Some(name) = node.get("name").and_then(Node::text)
        && table
            .field("name")
            .is_some_and(|f| matches!(f.kind, Kind::NewName))
    {
        return Some(name.trim().to_owned());
    }
    for key in table.label {
        match &node.get(key)?.raw {
            Raw::Text(text) => parts.push(text.trim().to_owned()),
            Raw::Whole(n) => parts.push(n.to_string()),
            Raw::List(members) => {
                parts.extend(members.iter().filter_map(Node::text).map(str::to_owned));
            }
            _ => return None,
        }
    }
    (!parts.is_empty()).then(|| parts.join(" "))
}

/// Whether a text may be a name.
pub(crate) fn check_name(name: &str) -> Result<(), Says> {
    const LONGEST: usize = 60;
    let bad = if name.contains('.') {
        "a name may not have a dot in it, because dots part the steps of a path"
    } else if name.chars().any(char::is_control) {
        "a name may not have line breaks or other signs that do not print"
    } else if name.chars().count() > LONGEST {
        "the name is too long to print"
    } else if name.chars().all(|c| c.is_ascii_digit()) {
        "a name may not be a number alone, because numbers count the tables in a path"
    } else {
        return Ok(());
    };
    Err(Says::new(bad)
        .got(format!("\"{}\"", crate::tree::shorten(name)))
        .allowed(format!(
            "letters, digits, spaces, dashes; up to {LONGEST} signs"
        ))
        .mend("choose a short plain name, like \"living\" or \"bed 2\""))
}

impl Check<'_> {
    pub(super) fn reference(&mut self, node: &Node, family: Family, path: &str) -> Option<Value> {
        let text = self.some_text(node, path, "a name in quotes")?;
        let table = family.table();
        let known = self.names.of(family);
        if known.contains(&text) {
            return Some(Value::Text(text));
        }
        let mend = match nearest(&text, known.iter().map(String::as_str)) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None if family == Family::Construction => {
                format!("describe it under [construction.{text}], or name one that is there")
            }
            None => format!("add a [[{table}]] of this name, or name one that is there"),
        };
        let allowed = if known.is_empty() {
            format!("none: there is no [[{table}]] in the job")
        } else {
            known.join(", ")
        };
        let says = Says::new(format!("there is no {table} of this name"))
            .got(format!("\"{text}\""))
            .allowed(allowed)
            .mend(mend);
        self.problem(path, &node.span, says);
        None
    }

    pub(super) fn some_text(&mut self, node: &Node, path: &str, wanted: &str) -> Option<String> {
        let Raw::Text(text) = &node.raw else {
            let says = self.wrong_type(node, wanted).mend("put it in quotes");
            self.problem(path, &node.span, says);
            return None;
        };
        if text.trim().is_empty() {
            let says = Says::new("nothing is written here")
                .got("\"\"")
                .allowed(wanted)
                .mend("write it, or take the line out");
            self.problem(path, &node.span, says);
            return None;
        }
        Some(text.trim().to_owned())
    }

    pub(super) fn word(
        &mut self,
        node: &Node,
        words: &[&'static str],
        path: &str,
    ) -> Option<Value> {
        let text = self.some_text(node, path, &words.join(", "))?;
        if words.contains(&text.as_str()) {
            return Some(Value::Text(text));
        }
        let mend = match nearest(&text, words.iter().copied()) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => "write one of these words".to_owned(),
        };
        let says = Says::new("not one of the words that may stand here")
            .got(format!("\"{}\"", crate::tree::shorten(&text)))
            .allowed(words.join(", "))
            .mend(mend);
        self.problem(path, &node.span, says);
        None
    }

    pub(super) fn side(&mut self, node: &Node, path: &str) -> Option<Value> {
        const SIDES: [&str; 4] = ["north", "east", "south", "west"];
        if let Raw::Whole(_) = node.raw {
            return self.whole(node, 1, 200, path);
        }
        if let Raw::Text(text) = &node.raw {
            let text = text.trim();
            if SIDES.contains(&text) {
                return Some(Value::Text(text.to_owned()));
            }
        }
        let near = node.text().and_then(|t| nearest(t, SIDES));
        let mend = match near {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => "write a plan direction, or the number of the wall".to_owned(),
        };
        let says = Says::new("no such wall")
            .got(self.lines.written(&node.span))
            .allowed(
                "north, east, south, west, or a whole number: wall 1 goes from the first corner \
                 of the outline to the second",
            )
            .mend(mend);
        self.problem(path, &node.span, says);
        None
    }
}
