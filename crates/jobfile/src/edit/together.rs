//! Several changes that only hold together, and what stands at a path.

use toml_edit::{DocumentMut, Item};

use super::{Place, adding, fresh_problem, putting, refuse_at, taking, value_of};
use crate::Problem;
use crate::path::way;
use crate::tree::{grow, not_toml};

/// One change of several.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act<'a> {
    /// As [`super::set`]: path and value.
    Set(&'a str, &'a str),
    /// As [`super::add`]: path and body.
    Add(&'a str, &'a str),
    /// As [`super::remove`]: path.
    Remove(&'a str),
}

/// Makes all changes in their order and reads the job once, after the last: a wall that two rooms
/// share moves in both, a room is renamed where it is named.
///
/// # Errors
/// A path that leads nowhere or a value that does not read, with the number of the change from
/// 0; or every problem the changed job would have that it did not have before.
pub fn together(text: &str, acts: &[Act<'_>]) -> Result<String, Vec<Problem>> {
    let mut changed = text.to_owned();
    for act in acts {
        changed = one(&changed, act).map_err(|p| vec![p])?;
    }
    let fresh = fresh_problem(text, &changed);
    if fresh.is_empty() {
        Ok(changed)
    } else {
        Err(fresh)
    }
}

fn one(text: &str, act: &Act<'_>) -> Result<String, Problem> {
    let root = grow(text)?;
    let (Act::Set(path, _) | Act::Add(path, _) | Act::Remove(path)) = *act;
    let way = way(&root, path).map_err(|says| refuse_at(path, says))?;
    let mut document: DocumentMut = text.parse().map_err(|e| not_toml(text, &e))?;
    let done = match *act {
        Act::Set(path, value) => putting(&mut document, &way, &value_of(path, value)?),
        Act::Add(_, body) => {
            let body: DocumentMut = body.parse().map_err(|e| not_toml(body, &e))?;
            adding(&mut document, &way, body.as_table())
        }
        Act::Remove(_) => taking(&mut document, &way),
    };
    match done {
        Some(()) => Ok(document.to_string()),
        None => Err(super::nothing_there(path)),
    }
}

/// What stands at a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// A value, as written.
    Value(String),
    /// A table: its lines.
    Table(String),
}

/// What stands at a path of a job; `None` where the path is of the format but nothing is written.
///
/// # Example
/// ```
/// use jobfile::edit::{Found, found};
/// let text = "northwall = 1\n[job]\nname = \"Lake Street\"   # as painted on the door\n";
/// let name = Found::Value("\"Lake Street\"".to_owned());
/// assert_eq!(found(text, "job.name"), Ok(Some(name)));
/// assert_eq!(found(text, "job.stage"), Ok(None));
/// ```
///
/// # Errors
/// A path that is not of the format, or a row that is not there.
pub fn found(text: &str, path: &str) -> Result<Option<Found>, Problem> {
    let root = grow(text)?;
    let way = way(&root, path).map_err(|says| refuse_at(path, says))?;
    let mut document: DocumentMut = text.parse().map_err(|e| not_toml(text, &e))?;
    let mut place = Place::Table(document.as_table_mut());
    for step in &way.steps {
        match place.go(step) {
            Some(next) => place = next,
            None => return Ok(None),
        }
    }
    Ok(match place {
        Place::Value(v) | Place::Item(Item::Value(v)) => {
            let mut bare = v.clone();
            bare.decor_mut().clear();
            Some(Found::Value(bare.to_string()))
        }
        Place::Table(t) | Place::Item(Item::Table(t)) => {
            let mut whole = DocumentMut::new();
            *whole.as_table_mut() = t.clone();
            Some(Found::Table(whole.to_string()))
        }
        Place::Item(Item::ArrayOfTables(_) | Item::None) => None,
    })
}
