//! Changes one thing in the text of a job and leaves all else as the person wrote it: comments,
//! order, blank lines. The result is read again before it is handed back.

mod choosing;
mod together;

pub use choosing::take_option;
pub use together::{Act, Found, found, together};

use toml_edit::{ArrayOfTables, Decor, DocumentMut, InlineTable, Item, Table, Value};

use crate::check::Says;
use crate::field::Kind;
use crate::path::{Step, Way, way};
use crate::tree::{grow, not_toml, shorten};
use crate::{Problem, Span, read};

/// Sets a value. `value` is written as in the file: `"68 F"` with its quotes, `true`, a list; a
/// text without quotes that is nothing else is taken as a text.
///
/// # Example
/// ```
/// let job = jobfile::new::first_job(&jobfile::new::Answers::default());
/// let warmer = jobfile::edit::set(&job, "job.name", "Lake Street 12").unwrap_or_default();
/// assert!(warmer.contains("name = \"Lake Street 12\""));
/// ```
///
/// # Errors
/// A path that leads nowhere, a value that does not read, or a job that would have a problem
/// it did not have before; then that problem, at its line in the changed text.
pub fn set(text: &str, path: &str, value: &str) -> Result<String, Problem> {
    let value = value_of(path, value)?;
    change(text, path, |document, way| putting(document, way, &value))
}

fn putting(document: &mut DocumentMut, way: &Way, value: &Value) -> Option<()> {
    let (last, before) = way.steps.split_last()?;
    let mut place = Place::Table(document.as_table_mut());
    for (i, step) in before.iter().enumerate() {
        let next = before.get(i + 1).unwrap_or(last);
        place = place.go_or_make(step, matches!(next, Step::Key(_)))?;
    }
    place.put(last, value.clone())
}

/// Adds an entry to a list of tables (`window`, `room`) or a named table (`construction.wall`).
/// `body` holds its lines: `room = "living"`.
///
/// # Errors
/// As [`set`].
pub fn add(text: &str, path: &str, body: &str) -> Result<String, Problem> {
    let body: DocumentMut = body.parse().map_err(|e| not_toml(body, &e))?;
    change(text, path, |document, way| {
        adding(document, way, body.as_table())
    })
}

fn adding(document: &mut DocumentMut, way: &Way, body: &Table) -> Option<()> {
    let mut table = body.clone();
    table.decor_mut().set_prefix("\n");
    let (last, before) = way.steps.split_last()?;
    let mut place = Place::Table(document.as_table_mut());
    for step in before {
        place = place.go_or_make(step, true)?;
    }
    let rows = way
        .field
        .is_some_and(|f| matches!(f.kind, Kind::Rows(_) | Kind::List(Kind::Sub(_), _)));
    if rows {
        place.push(last, table)
    } else {
        place.insert(last, table)
    }
}

/// Removes a value, an entry of a list, or a named table, with the comments that stand over it.
///
/// # Errors
/// As [`set`]; also if nothing stands there.
pub fn remove(text: &str, path: &str) -> Result<String, Problem> {
    change(text, path, taking)
}

fn taking(document: &mut DocumentMut, way: &Way) -> Option<()> {
    let (last, before) = way.steps.split_last()?;
    let mut place = Place::Table(document.as_table_mut());
    for step in before {
        place = place.go(step)?;
    }
    place.take(last)
}

fn change(
    text: &str,
    path: &str,
    act: impl FnOnce(&mut DocumentMut, &Way) -> Option<()>,
) -> Result<String, Problem> {
    let root = grow(text)?;
    let way = way(&root, path).map_err(|says| refuse_at(path, says))?;
    let mut document: DocumentMut = text.parse().map_err(|e| not_toml(text, &e))?;
    act(&mut document, &way).ok_or_else(|| nothing_there(path))?;
    let changed = document.to_string();
    match fresh_problem(text, &changed).into_iter().next() {
        Some(problem) => Err(problem),
        None => Ok(changed),
    }
}

fn refuse_at(path: &str, says: Says) -> Problem {
    says.at(
        path,
        Span {
            line: 1,
            column: 1,
            ..Span::default()
        },
    )
}

fn nothing_there(path: &str) -> Problem {
    let says = Says::new("nothing of the job stands at this path")
        .got(format!("`{}`", shorten(path)))
        .allowed("a path to something that is there")
        .mend("check the path, or set the value instead of taking it out");
    refuse_at(path, says)
}

/// Problems of a changed text that the text before did not have.
fn fresh_problem(text: &str, changed: &str) -> Vec<Problem> {
    let after = read(changed).err().unwrap_or_default();
    if after.is_empty() {
        return after;
    }
    let before = read(text).err().unwrap_or_default();
    let known = |p: &Problem| {
        before
            .iter()
            .any(|b| b.path == p.path && b.says == p.says && b.got == p.got)
    };
    after.into_iter().filter(|p| !known(p)).collect()
}

fn value_of(path: &str, text: &str) -> Result<Value, Problem> {
    let text = text.trim();
    if let Ok(value) = text.parse::<Value>() {
        return Ok(value);
    }
    let plain = !text.is_empty() && !text.contains(['"', '\'', '[', ']', '{', '}', '\n', '\\']);
    if plain {
        return Ok(Value::from(text));
    }
    let says = Says::new("this does not read as a value")
        .got(shorten(text))
        .allowed("a text in quotes, a number, true or false, or a list")
        .mend("write it as it would stand in the file: \"68 F\"");
    Err(refuse_at(path, says))
}

/// A place in the document.
enum Place<'a> {
    Item(&'a mut Item),
    Table(&'a mut Table),
    Value(&'a mut Value),
}

impl<'a> Place<'a> {
    fn go(self, step: &Step) -> Option<Place<'a>> {
        match (self, step) {
            (Place::Item(Item::Table(t)) | Place::Table(t), Step::Key(key)) => {
                t.get_mut(key).map(Place::Item)
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Key(key)) => {
                v.as_inline_table_mut()?.get_mut(key).map(Place::Value)
            }
            (Place::Item(Item::ArrayOfTables(tables)), Step::Index(i)) => {
                tables.get_mut(*i).map(Place::Table)
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Index(i)) => {
                v.as_array_mut()?.get_mut(*i).map(Place::Value)
            }
            _ => None,
        }
    }

    /// As [`Place::go`]; makes a table where none stands yet. A table that only holds other
    /// tables gets no heading of its own.
    fn go_or_make(self, step: &Step, holds_values: bool) -> Option<Place<'a>> {
        match (self, step) {
            (Place::Item(Item::Table(t)) | Place::Table(t), Step::Key(key)) => {
                if !t.contains_key(key) {
                    let mut made = Table::new();
                    made.set_implicit(!holds_values || key == "construction" || key == "glazing");
                    made.decor_mut().set_prefix("\n");
                    t.insert(key, Item::Table(made));
                }
                t.get_mut(key).map(Place::Item)
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Key(key)) => {
                let inline = v.as_inline_table_mut()?;
                if !inline.contains_key(key) {
                    inline.insert(key.as_str(), Value::InlineTable(InlineTable::new()));
                }
                inline.get_mut(key).map(Place::Value)
            }
            (place, step) => place.go(step),
        }
    }

    fn put(self, step: &Step, value: Value) -> Option<()> {
        match (self, step) {
            (Place::Item(Item::Table(t)) | Place::Table(t), Step::Key(key)) => {
                match t.get_mut(key) {
                    Some(Item::Value(old)) => replace(old, value),
                    Some(_) => return None,
                    None => {
                        t.insert(key, Item::Value(value));
                    }
                }
                Some(())
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Key(key)) => {
                let inline = v.as_inline_table_mut()?;
                match inline.get_mut(key) {
                    Some(old) => replace(old, value),
                    None => {
                        inline.insert(key.as_str(), value);
                    }
                }
                Some(())
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Index(i)) => {
                replace(v.as_array_mut()?.get_mut(*i)?, value);
                Some(())
            }
            _ => None,
        }
    }

    fn push(self, step: &Step, table: Table) -> Option<()> {
        let Step::Key(key) = step else { return None };
        match self {
            Place::Item(Item::Table(t)) | Place::Table(t) => {
                let list = t
                    .entry(key)
                    .or_insert(Item::ArrayOfTables(ArrayOfTables::new()));
                match list {
                    Item::ArrayOfTables(tables) => tables.push(table),
                    Item::Value(v) => v.as_array_mut()?.push(table.into_inline_table()),
                    _ => return None,
                }
            }
            Place::Item(Item::Value(v)) | Place::Value(v) => {
                let list = v.as_inline_table_mut()?.get_mut(key)?;
                list.as_array_mut()?.push(table.into_inline_table());
            }
            Place::Item(_) => return None,
        }
        Some(())
    }

    fn insert(self, step: &Step, table: Table) -> Option<()> {
        let Step::Key(key) = step else { return None };
        match self {
            Place::Item(Item::Table(t)) | Place::Table(t) if !t.contains_key(key) => {
                t.insert(key, Item::Table(table));
                Some(())
            }
            _ => None,
        }
    }

    fn take(self, step: &Step) -> Option<()> {
        match (self, step) {
            (Place::Item(Item::Table(t)) | Place::Table(t), Step::Key(key)) => {
                t.remove(key).map(|_| ())
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Key(key)) => {
                v.as_inline_table_mut()?.remove(key).map(|_| ())
            }
            (Place::Item(Item::ArrayOfTables(tables)), Step::Index(i)) => {
                (*i < tables.len()).then(|| {
                    tables.remove(*i);
                })
            }
            (Place::Item(Item::Value(v)) | Place::Value(v), Step::Index(i)) => {
                let list = v.as_array_mut()?;
                (*i < list.len()).then(|| {
                    list.remove(*i);
                })
            }
            _ => None,
        }
    }
}

/// Puts a value in the place of another; the comment behind it stays.
fn replace(old: &mut Value, mut value: Value) {
    let decor: Decor = old.decor().clone();
    *value.decor_mut() = decor;
    *old = value;
}
