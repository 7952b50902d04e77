//! Reads the tables of `data/`: lines of fields with `;` between, `#` begins a comment.

use std::collections::BTreeMap;

/// The lines of a table, each as its fields.
pub(super) fn rows(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines()
        .map(str::trim)
        .filter(|l| !l.is_empty() && !l.starts_with('#'))
        .map(|l| l.split(';').map(str::trim).collect())
}

/// A table whose lines are asked for by name. A job names dozens of layers, so each table is read
/// once.
pub(super) struct Named {
    rows: Vec<Vec<&'static str>>,
    others: bool,
    called: BTreeMap<String, usize>,
}

impl Named {
    /// Reads a table. Names stand in the first field; with `others`, more of them in the second,
    /// divided by `|`.
    pub fn new(text: &'static str, others: bool) -> Self {
        let mut named = Self {
            rows: rows(text).collect(),
            others,
            called: BTreeMap::new(),
        };
        for (at, row) in named.rows.iter().enumerate() {
            for name in names_of(row, others) {
                named.called.entry(plain(name)).or_insert(at);
            }
        }
        named
    }

    /// All lines, in their order.
    pub fn rows(&self) -> &[Vec<&'static str>] {
        &self.rows
    }

    /// The first line that is called so, whatever the case and spacing.
    pub fn find(&self, name: &str) -> Option<&[&'static str]> {
        let at = self.called.get(&plain(name))?;
        self.rows.get(*at).map(Vec::as_slice)
    }

    /// All names.
    pub fn names(&self) -> impl Iterator<Item = &'static str> {
        self.rows.iter().flat_map(|r| names_of(r, self.others))
    }
}

fn names_of(row: &[&'static str], others: bool) -> impl Iterator<Item = &'static str> {
    let more = row.get(1).copied().filter(|_| others).unwrap_or("");
    let names = row.first().copied().into_iter().chain(more.split('|'));
    names.filter(|n| !n.is_empty())
}

/// Lower case, single spaces, hyphens as spaces.
fn plain(text: &str) -> String {
    text.to_lowercase()
        .replace('-', " ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}
