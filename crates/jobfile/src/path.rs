//! Dotted paths of a job: `room.living.heated_to`, `window.2.width`, `construction.wall.layers`.

use crate::check::{Says, nearest, row_names};
use crate::field::{Field, Kind, Table};
use crate::tables::FILE;
use crate::tree::{Entry, Node, Raw, shorten};

/// One step from the file to a value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Step {
    Key(String),
    Index(usize),
}

/// Where a path leads.
#[derive(Debug)]
pub(crate) struct Way {
    pub steps: Vec<Step>,
    /// The field at its end; `None` where it ends at a table of a list or of names.
    pub field: Option<&'static Field>,
}

/// Finds the way to a path. Keys must be of the format; tables of lists must be there; other
/// tables and values need not.
pub(crate) fn way(root: &Node, path: &str) -> Result<Way, Says> {
    let mut steps = Vec::new();
    let mut table: &'static Table = &FILE;
    let mut here: Option<&Node> = Some(root);
    let mut parts = path.split('.').map(str::trim).peekable();
    loop {
        let key = parts.next().unwrap_or("");
        let field = table.field(key).ok_or_else(|| no_key(key, table, path))?;
        steps.push(Step::Key(key.to_owned()));
        here = here.and_then(|n| n.get(key));
        if parts.peek().is_none() {
            return Ok(Way {
                steps,
                field: Some(field),
            });
        }
        table = match &field.kind {
            Kind::Sub(inner) | Kind::TextOr(inner) => inner,
            Kind::Map(inner) => {
                let name = parts.next().unwrap_or("");
                steps.push(Step::Key(name.to_owned()));
                here = here.and_then(|n| n.get(name));
                inner
            }
            Kind::Rows(inner) | Kind::List(Kind::Sub(inner) | Kind::TextOr(inner), _) => {
                let (index, node) = row(here, inner, parts.next().unwrap_or(""), path)?;
                steps.push(Step::Index(index));
                here = Some(node);
                inner
            }
            Kind::List(..) | Kind::Texts => {
                let (index, _) = row(here, &ITEM, parts.next().unwrap_or(""), path)?;
                steps.push(Step::Index(index));
                if parts.peek().is_some() {
                    return Err(too_deep(key, path));
                }
                return Ok(Way { steps, field: None });
            }
            _ => return Err(too_deep(key, path)),
        };
        if parts.peek().is_none() {
            return Ok(Way { steps, field: None });
        }
    }
}

/// Members of a list that are no tables go by their number alone.
static ITEM: Table = Table {
    name: "number",
    about: "",
    label: &[],
    assumed: false,
    fields: &[],
};

fn row<'n>(
    list: Option<&'n Node>,
    table: &Table,
    name: &str,
    path: &str,
) -> Result<(usize, &'n Node), Says> {
    let members = match list.map(|n| &n.raw) {
        Some(Raw::List(members)) => members.as_slice(),
        _ => &[],
    };
    let names = row_names(members, table);
    let by_number = || name.parse::<usize>().ok()?.checked_sub(1);
    let index = names.iter().position(|n| n == name).or_else(by_number);
    if let Some(found) = index.and_then(|i| Some((i, members.get(i)?))) {
        return Ok(found);
    }
    let allowed = if names.is_empty() {
        "none is there yet".to_owned()
    } else {
        names.join(", ")
    };
    let mend = match nearest(name, names.iter().map(String::as_str)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "name one that is there, or add it first".to_owned(),
    };
    Err(
        Says::new(format!("the path leads to no {} of the job", table.name))
            .got(format!("`{}`", shorten(path)))
            .allowed(allowed)
            .mend(mend),
    )
}

fn no_key(key: &str, table: &Table, path: &str) -> Says {
    let keys: Vec<&str> = table.all_fields().map(|f| f.key).collect();
    let mend = match nearest(key, keys.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "use one of the keys".to_owned(),
    };
    Says::new("the path has a key that is not in the format")
        .got(format!("`{}`", shorten(path)))
        .allowed(keys.join(", "))
        .mend(mend)
}

fn too_deep(key: &str, path: &str) -> Says {
    Says::new(format!(
        "the path goes on after `{key}`, which is a single value"
    ))
    .got(format!("`{}`", shorten(path)))
    .allowed("a path that ends there")
    .mend("leave out what follows")
}

/// Sets a value in a tree; gives what stood there.
pub(crate) fn set(root: &mut Node, path: &str, to: &Node) -> Result<Option<Node>, Says> {
    let way = way(root, path)?;
    let mut here = root;
    let mut old = None;
    let last = way.steps.len().saturating_sub(1);
    for (i, step) in way.steps.iter().enumerate() {
        let next = match (step, &mut here.raw) {
            (Step::Key(key), Raw::Table(entries)) => {
                if !entries.iter().any(|e| e.key == *key) {
                    let empty = Node {
                        span: to.span.clone(),
                        raw: Raw::Table(Vec::new()),
                    };
                    entries.push(Entry {
                        key: key.clone(),
                        key_span: to.span.clone(),
                        node: empty,
                    });
                } else if i == last {
                    old = entries
                        .iter()
                        .find(|e| e.key == *key)
                        .map(|e| e.node.clone());
                }
                entries
                    .iter_mut()
                    .find(|e| e.key == *key)
                    .map(|e| &mut e.node)
            }
            (Step::Index(index), Raw::List(members)) => {
                if i == last {
                    old = members.get(*index).cloned();
                }
                members.get_mut(*index)
            }
            _ => None,
        };
        let Some(next) = next else {
            return Err(
                Says::new("the path leads through something that is not a table")
                    .got(format!("`{}`", shorten(path)))
                    .allowed("a path through tables")
                    .mend("check the path"),
            );
        };
        here = next;
    }
    *here = to.clone();
    Ok(old)
}
