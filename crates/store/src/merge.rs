//! Edits of one person on top of those of another: both are kept where they touch different
//! paths; where both changed the same path, a person decides.

use jobfile::edit::{Act, together};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::values::{table_body, toml_text, value_at, values};

/// One edit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Edit {
    /// Dotted path.
    pub path: String,
    /// New value; an object adds an entry, null takes out.
    pub value: Value,
    /// What the person saw there; none: what stood there in the base revision. Null is a value:
    /// nothing stood there.
    #[serde(
        default,
        deserialize_with = "said",
        skip_serializing_if = "Option::is_none"
    )]
    pub was: Option<Value>,
}

fn said<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Option<Value>, D::Error> {
    Value::deserialize(from).map(Some)
}

/// Edits that belong together.
#[derive(Debug, Clone)]
pub struct Change<'a> {
    /// Id, by the client.
    pub id: &'a str,
    /// Revision the person looked at.
    pub base: i64,
    /// When, by the client's clock.
    pub at: &'a str,
    /// Who.
    pub who: &'a str,
    /// The edits.
    pub edits: &'a [Edit],
}

/// A path that two people changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Both {
    /// Path.
    pub path: String,
    /// What the person saw.
    pub was: Value,
    /// What the person wants.
    pub mine: Value,
    /// What stands there.
    pub theirs: Value,
    /// Who put it there; filled in where a change is held back.
    pub theirs_by: String,
    /// When that was kept, ms since 1970.
    pub theirs_at: i64,
}

/// What came of a change.
#[derive(Debug)]
pub enum Outcome {
    /// Kept as this revision.
    Kept {
        /// Revision with the change.
        revision: i64,
    },
    /// Held back for a person to decide; kept as well.
    Conflict(Vec<Both>),
    /// The job would not read; nothing was changed.
    Refused(Vec<jobfile::Problem>),
    /// A whole text for a job that others changed since.
    ChangedSince {
        /// Revision now.
        now: i64,
    },
}

/// Edits made ready for the text as it stands.
pub(crate) enum Merged {
    /// They go together with what stands.
    Clean(Vec<Edit>),
    /// They do not.
    Both(Vec<Both>),
}

/// Looks at every edit: is what the person saw still there?
pub(crate) fn merge(base: &str, now: &str, edits: &[Edit]) -> Merged {
    let (mut clean, mut both) = (Vec::new(), Vec::new());
    for edit in edits {
        let moved = if base == now {
            Some(edit.path.clone())
        } else {
            follow(base, now, &edit.path)
        };
        let was = edit
            .was
            .clone()
            .unwrap_or_else(|| value_at(base, &edit.path));
        let Some(path) = moved else {
            both.push(Both {
                path: edit.path.clone(),
                was,
                mine: edit.value.clone(),
                theirs: Value::Null,
                theirs_by: String::new(),
                theirs_at: 0,
            });
            continue;
        };
        let theirs = if base == now && edit.was.is_none() {
            was.clone()
        } else {
            value_at(now, &path)
        };
        let adds = edit.value.is_object() && (theirs.is_array() || theirs.is_null());
        if adds || theirs == was {
            clean.push(Edit {
                path,
                value: edit.value.clone(),
                was: Some(if adds { Value::Null } else { theirs }),
            });
        } else if theirs != edit.value {
            both.push(Both {
                path: edit.path.clone(),
                was,
                mine: edit.value.clone(),
                theirs,
                theirs_by: String::new(),
                theirs_at: 0,
            });
        }
    }
    if both.is_empty() {
        Merged::Clean(clean)
    } else {
        Merged::Both(both)
    }
}

/// A path by numbers in the base, as it is now: rows before it may have come or gone. None where
/// the row itself cannot be found again.
fn follow(base: &str, now: &str, path: &str) -> Option<String> {
    let (base, now) = (values(base), values(now));
    let (mut a, mut b) = (Some(&base), Some(&now));
    let mut steps = Vec::new();
    for step in path.split('.') {
        let lists = (a.and_then(Value::as_array), b.and_then(Value::as_array));
        if let (Some(before), Some(after)) = lists {
            let number = step.trim().parse::<usize>().ok();
            let Some(at) = number.and_then(|n| n.checked_sub(1)) else {
                // A name finds its own row.
                steps.push(step.to_owned());
                (a, b) = (None, None);
                continue;
            };
            let row = before.get(at)?;
            let here = if before.len() == after.len() && same(row, after.get(at)) {
                at
            } else {
                let alike = |(_, r): &(usize, &Value)| *r == row;
                let near = after.iter().enumerate().filter(alike);
                match near.min_by_key(|(i, _)| i.abs_diff(at)) {
                    Some((i, _)) => i,
                    None if before.len() == after.len() => at,
                    None => return None,
                }
            };
            steps.push((here + 1).to_string());
            (a, b) = (Some(row), after.get(here));
        } else {
            steps.push(step.to_owned());
            a = a.and_then(|v| v.get(step.trim()));
            b = b.and_then(|v| v.get(step.trim()));
        }
    }
    Some(steps.join("."))
}

fn same(row: &Value, other: Option<&Value>) -> bool {
    other == Some(row)
}

/// What a trial gives: the text with the edits, or what would be wrong with it.
pub type Trial = Result<String, Vec<jobfile::Problem>>;

/// Makes edits on a text without keeping anything.
///
/// # Errors
/// Everything that would be wrong with the job.
pub fn trial(text: &str, edits: &[Edit]) -> Trial {
    enum Owned {
        Set(String),
        Add(String),
        Remove,
    }
    let mut owned = Vec::with_capacity(edits.len());
    for edit in edits {
        let made = match &edit.value {
            Value::Null => Some(Owned::Remove),
            Value::Object(entries) => table_body(entries).map(Owned::Add),
            other => toml_text(other).map(Owned::Set),
        };
        let Some(made) = made else {
            return Err(vec![no_value(edit)]);
        };
        owned.push((edit.path.as_str(), made));
    }
    let acts: Vec<Act<'_>> = owned
        .iter()
        .map(|(path, made)| match made {
            Owned::Set(value) => Act::Set(path, value),
            Owned::Add(body) => Act::Add(path, body),
            Owned::Remove => Act::Remove(path),
        })
        .collect();
    together(text, &acts)
}

fn no_value(edit: &Edit) -> jobfile::Problem {
    jobfile::Problem {
        path: edit.path.clone(),
        span: jobfile::Span::default(),
        says: "this cannot be written into a job file".to_owned(),
        got: edit.value.to_string(),
        allowed: "a text, a number, true or false, a list or an object of these".to_owned(),
        mend: "leave out what is null".to_owned(),
    }
}

/// The edits that take a change back, last first. `now` is the text they will meet.
pub(crate) fn inverse(edits: &[Edit], now: &str) -> Vec<Edit> {
    edits
        .iter()
        .rev()
        .map(|e| {
            let was = e.was.clone().unwrap_or(Value::Null);
            if e.value.is_object() && was.is_null() {
                return Edit {
                    path: row_of(now, &e.path, &e.value),
                    value: Value::Null,
                    was: Some(e.value.clone()),
                };
            }
            let row = e.value.is_null() && was.is_object();
            let path = match e.path.rsplit_once('.') {
                Some((list, _)) if row && is_list(now, list) => list.to_owned(),
                _ if row && is_list(now, first(&e.path)) => first(&e.path).to_owned(),
                _ => e.path.clone(),
            };
            Edit {
                was: Some(if row { Value::Null } else { e.value.clone() }),
                value: was,
                path,
            }
        })
        .collect()
}

fn first(path: &str) -> &str {
    path.split('.').next().unwrap_or(path)
}

fn is_list(text: &str, path: &str) -> bool {
    let mut at = &values(text);
    for step in path.split('.') {
        match at.get(step.trim()) {
            Some(next) => at = next,
            None => return path == "window",
        }
    }
    at.is_array()
}

/// The path of an entry that was added to a list, by its number.
fn row_of(text: &str, list: &str, row: &Value) -> String {
    let tree = values(text);
    let rows = tree.get(list).and_then(Value::as_array);
    match rows.and_then(|rows| rows.iter().rposition(|r| r == row)) {
        Some(at) => format!("{list}.{}", at + 1),
        None => list.to_owned(),
    }
}

#[cfg(test)]
mod tests;
