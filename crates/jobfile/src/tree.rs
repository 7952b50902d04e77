//! The file as a tree of values with their places, before anything is known of their meaning.

use std::ops::Range;

use toml_edit::{Document, Item, TableLike, Value};

use crate::{Problem, Span};

/// Largest file that is read, bytes. A job of a large house is some 50 kB.
pub(crate) const MOST_BYTES: usize = 4 * 1024 * 1024;

/// A value and where it stands.
#[derive(Debug, Clone)]
pub(crate) struct Node {
    pub span: Range<usize>,
    pub raw: Raw,
}

/// What stands there.
#[derive(Debug, Clone)]
pub(crate) enum Raw {
    Text(String),
    Whole(i64),
    Number(f64),
    YesNo(bool),
    Date(String),
    List(Vec<Node>),
    Table(Vec<Entry>),
}

/// A key with its value.
#[derive(Debug, Clone)]
pub(crate) struct Entry {
    pub key: String,
    pub key_span: Range<usize>,
    pub node: Node,
}

impl Node {
    pub fn kind(&self) -> &'static str {
        match &self.raw {
            Raw::Text(_) => "a text",
            Raw::Whole(_) | Raw::Number(_) => "a number",
            Raw::YesNo(_) => "true or false",
            Raw::Date(_) => "a date",
            Raw::List(_) => "a list",
            Raw::Table(_) => "a table",
        }
    }

    pub fn entries(&self) -> &[Entry] {
        match &self.raw {
            Raw::Table(entries) => entries,
            _ => &[],
        }
    }

    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entries()
            .iter()
            .find(|e| e.key == key)
            .map(|e| &e.node)
    }

    pub fn text(&self) -> Option<&str> {
        match &self.raw {
            Raw::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Members of a list; of anything else, itself.
    pub fn members(&self) -> &[Node] {
        match &self.raw {
            Raw::List(nodes) => nodes,
            _ => std::slice::from_ref(self),
        }
    }
}

/// Turns byte places into lines and columns.
#[derive(Debug)]
pub(crate) struct Lines<'a> {
    text: &'a str,
    starts: Vec<usize>,
}

impl<'a> Lines<'a> {
    pub fn new(text: &'a str) -> Self {
        let mut starts = vec![0];
        starts.extend(
            text.bytes()
                .enumerate()
                .filter(|(_, b)| *b == b'\n')
                .map(|(i, _)| i + 1),
        );
        Self { text, starts }
    }

    pub fn span(&self, range: &Range<usize>) -> Span {
        let line = self.starts.partition_point(|s| *s <= range.start).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        let column = self
            .text
            .get(start..range.start)
            .map_or(0, |t| t.chars().count())
            + 1;
        Span {
            start: range.start,
            end: range.end,
            line,
            column,
        }
    }

    /// The text as written, cut to a line.
    pub fn written(&self, range: &Range<usize>) -> String {
        shorten(self.text.get(range.clone()).unwrap_or(""))
    }
}

/// A text as it may be quoted in a message: one line, not endless.
pub(crate) fn shorten(text: &str) -> String {
    const LONGEST: usize = 70;
    let first = text.trim().lines().next().unwrap_or("");
    let cut = first.chars().count() > LONGEST || text.trim().lines().nth(1).is_some();
    // What does not print would garble the terminal.
    let printed = first
        .chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c });
    let mut short: String = printed.take(LONGEST).collect();
    if cut {
        short.push_str(" ...");
    }
    short
}

/// Reads the text into a tree.
pub(crate) fn grow(text: &str) -> Result<Node, Problem> {
    if text.len() > MOST_BYTES {
        return Err(Problem {
            span: Span {
                line: 1,
                column: 1,
                ..Span::default()
            },
            says: "the file is too large to be a job".to_owned(),
            got: format!("{} bytes", text.len()),
            allowed: format!("up to {MOST_BYTES} bytes (4 MB)"),
            mend: "check that this is the job file and not a photo or a weather file".to_owned(),
            ..Problem::blank()
        });
    }
    let document = Document::parse(text).map_err(|e| not_toml(text, &e))?;
    Ok(Node {
        span: 0..0,
        raw: Raw::Table(entries(document.as_table(), 0..0)),
    })
}

/// What the TOML reader says, with its place and a way to mend it.
pub(crate) fn not_toml(text: &str, error: &toml_edit::TomlError) -> Problem {
    let lines = Lines::new(text);
    let range = error.span().unwrap_or(0..0);
    let message = error.message().lines().next().unwrap_or("").to_owned();
    let repeated = message.contains("duplicate key");
    let deep = message.contains("recurs");
    let line = lines.written(&line_around(text, range.start));
    let mend = if repeated {
        "give each key once; put a list of tables under [[double brackets]]"
    } else if deep {
        "a job file is never nested so deeply; take the inner brackets out"
    } else if line.contains(['\u{201c}', '\u{201d}', '\u{2018}', '\u{2019}']) {
        "these quotes are curly, as a word processor makes them: write straight ones"
    } else {
        "see the line named; texts stand in quotes, lists in [ ], tables under a [heading]"
    };
    Problem {
        span: lines.span(&range),
        says: format!("the file does not read as TOML: {message}"),
        got: line,
        mend: mend.to_owned(),
        ..Problem::blank()
    }
}

fn line_around(text: &str, at: usize) -> Range<usize> {
    let at = at.min(text.len());
    let before = text.as_bytes().get(..at).unwrap_or(&[]);
    let start = before
        .iter()
        .rposition(|b| *b == b'\n')
        .map_or(0, |i| i + 1);
    let after = text.as_bytes().get(at..).unwrap_or(&[]);
    let end = after
        .iter()
        .position(|b| *b == b'\n')
        .map_or(text.len(), |i| at + i);
    start..end
}

fn entries(table: &dyn TableLike, outer: Range<usize>) -> Vec<Entry> {
    let mut out = Vec::with_capacity(table.len());
    for (key, item) in table.iter() {
        let key_span = table
            .key(key)
            .and_then(toml_edit::Key::span)
            .unwrap_or(outer.clone());
        if let Some(node) = node(item, &key_span) {
            out.push(Entry {
                key: key.to_owned(),
                key_span,
                node,
            });
        }
    }
    out
}

fn node(item: &Item, near: &Range<usize>) -> Option<Node> {
    let span = item.span().unwrap_or(near.clone());
    let raw = match item {
        Item::None => return None,
        Item::Value(value) => return Some(self::value(value, near)),
        Item::Table(table) => Raw::Table(entries(table, span.clone())),
        Item::ArrayOfTables(tables) => Raw::List(
            tables
                .iter()
                .map(|t| {
                    let span = t.span().unwrap_or(near.clone());
                    Node {
                        span: span.clone(),
                        raw: Raw::Table(entries(t, span)),
                    }
                })
                .collect(),
        ),
    };
    Some(Node { span, raw })
}

fn value(value: &Value, near: &Range<usize>) -> Node {
    let span = value.span().unwrap_or(near.clone());
    let raw = match value {
        Value::String(s) => Raw::Text(s.value().clone()),
        Value::Integer(i) => Raw::Whole(*i.value()),
        Value::Float(f) => Raw::Number(*f.value()),
        Value::Boolean(b) => Raw::YesNo(*b.value()),
        Value::Datetime(d) => Raw::Date(d.value().to_string()),
        Value::Array(a) => Raw::List(a.iter().map(|v| self::value(v, &span)).collect()),
        Value::InlineTable(t) => Raw::Table(entries(t, span.clone())),
    };
    Node { span, raw }
}
