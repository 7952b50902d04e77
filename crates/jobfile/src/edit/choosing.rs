//! Taking an option: its equipment becomes what is chosen, and what was chosen becomes an option.

use toml_edit::{ArrayOfTables, DocumentMut, Item, Table};

use super::{fresh_problem, refuse_at};
use crate::Problem;
use crate::check::{Says, nearest};
use crate::tables::PLACED;
use crate::tree::{not_toml, shorten};

/// Name of the option that what was chosen becomes.
const BEFORE: &str = "chosen before";

/// Takes the option of this name, in one step that holds or does not: its units and heads become
/// those of the job; what was chosen becomes the option `chosen before` in its place. A row that is
/// the same on both sides stays as written, with its comments. Places, lines, drains and circuits
/// of a head or outdoor unit that is no longer there are kept with the option that it is part of
/// now, and those that the taken option kept stand in the job; those of one that stays, stay.
///
/// # Example
/// ```
/// let job = r#"northwall = 1
/// [job]
/// name = "one room"
/// [place]
/// weather = "none.epw"
/// [[storey]]
/// name = "ground"
/// ceiling = "8 ft"
/// [[room]]
/// name = "living"
/// storey = "ground"
/// outline = ["0 ft, 0 ft", "18 ft, 0 ft", "18 ft, 14 ft", "0 ft, 14 ft"]
/// [[outdoor]]
/// name = "east"
/// unit = "Loon 9"
/// [[head]]
/// room = "living"
/// unit = "Teal 9"
/// on = "east"
/// [[option]]
/// name = "larger"
/// outdoors = [{ name = "east", unit = "Loon 12" }]
/// heads = [{ room = "living", unit = "Teal 12", on = "east" }]
/// "#;
/// let taken = jobfile::edit::take_option(job, "larger").expect("taken");
/// let unit = |path| jobfile::edit::found(&taken, path).ok().flatten();
/// let said = |text: &str| Some(jobfile::edit::Found::Value(text.to_owned()));
/// assert_eq!(unit("outdoor.east.unit"), said("\"Loon 12\""));
/// assert_eq!(unit("option.chosen before.outdoors.1.unit"), said("\"Loon 9\""));
/// ```
///
/// # Errors
/// No such option; or every problem the job would have that it did not have before: records of
/// what was installed may name a head that would no longer be there.
pub fn take_option(text: &str, name: &str) -> Result<String, Vec<Problem>> {
    let mut document: DocumentMut = text.parse().map_err(|e| vec![not_toml(text, &e)])?;
    let mut options = rows(document.get("option"));
    let named = |t: &Table| word(t, "name").to_owned();
    let names: Vec<String> = options.iter().map(named).collect();
    let Some(nth) = names.iter().position(|n| n == name) else {
        return Err(vec![no_such(name, &names)]);
    };
    let Some(option) = options.get_mut(nth) else {
        return Err(vec![no_such(name, &names)]);
    };
    let place = option.position();
    let said = comment(option);
    let chosen = [rows(document.get("outdoor")), rows(document.get("head"))];
    let wanted = [rows(option.get("outdoors")), rows(option.get("heads"))];
    for ((table, key), (had, new)) in [("outdoor", "name"), ("head", "room")]
        .into_iter()
        .zip(chosen.iter().zip(&wanted))
    {
        put(&mut document, table, exchanged(had, new, key, &said));
        let gone: Vec<&str> = had
            .iter()
            .map(|t| called(t, key))
            .filter(|n| !new.iter().any(|t| called(t, key) == *n))
            .collect();
        for p in PLACED.iter().filter(|p| p.of == table) {
            let back = rows(option.get(p.kept));
            let there = rows(document.get(p.table));
            let before = there.len();
            let last = there.iter().filter_map(Table::position).max();
            let (aside, mut stay): (Vec<Table>, Vec<Table>) = there.into_iter().partition(|row| {
                let name = word(row, p.of);
                gone.contains(&name) || back.iter().any(|b| word(b, p.of) == name)
            });
            if stay.len() < before || !back.is_empty() {
                stay.extend(back.into_iter().map(|row| at(row, last)));
                put(&mut document, p.table, stay);
            }
            option.remove(p.kept);
            if !aside.is_empty() {
                let aside = aside.into_iter().map(|row| at(row, place)).collect();
                option.insert(p.kept, list(aside));
            }
        }
    }
    let [outdoors, heads] = chosen;
    if heads.is_empty() && outdoors.is_empty() {
        options.remove(nth);
    } else if let Some(option) = options.get_mut(nth) {
        option.insert("name", toml_edit::value(free(&names, nth)));
        option.decor_mut().set_prefix("\n");
        option.insert("outdoors", kept(outdoors, place));
        option.insert("heads", kept(heads, place));
    }
    put(&mut document, "option", options);
    let changed = document.to_string();
    let fresh = fresh_problem(text, &changed);
    if fresh.is_empty() {
        Ok(changed)
    } else {
        Err(fresh)
    }
}

fn no_such(name: &str, names: &[String]) -> Problem {
    let near = nearest(name, names.iter().map(String::as_str));
    let says = Says::new("there is no option of this name")
        .got(format!("\"{}\"", shorten(name)))
        .allowed(if names.is_empty() {
            "none: the job has no [[option]]".to_owned()
        } else {
            names.join(", ")
        })
        .mend(
            near.map_or("look at the options of the job again".to_owned(), |n| {
                format!("did you mean \"{n}\"?")
            }),
        );
    refuse_at("option", says)
}

/// Rows of a list, however it is written.
fn rows(item: Option<&Item>) -> Vec<Table> {
    let list = item.cloned().and_then(|i| i.into_array_of_tables().ok());
    list.map_or_else(Vec::new, |l| l.into_iter().collect())
}

fn list(rows: Vec<Table>) -> Item {
    Item::ArrayOfTables(rows.into_iter().collect::<ArrayOfTables>())
}

fn put(document: &mut DocumentMut, table: &str, rows: Vec<Table>) {
    if rows.is_empty() {
        document.remove(table);
    } else {
        document.insert(table, list(rows));
    }
}

fn word<'t>(row: &'t Table, key: &str) -> &'t str {
    row.get(key).and_then(Item::as_str).unwrap_or("")
}

/// A row that stands elsewhere in the file, with all that belongs to it.
fn at(mut row: Table, place: Option<isize>) -> Table {
    row.set_position(place);
    for (_, item) in row.iter_mut() {
        if let Some(inner) = item.as_array_of_tables_mut() {
            for table in inner.iter_mut() {
                let moved = at(std::mem::take(table), place);
                *table = moved;
            }
        }
    }
    row
}

/// What a row goes by: its name, or the room's.
fn called<'t>(row: &'t Table, key: &str) -> &'t str {
    match word(row, "name") {
        "" => word(row, key),
        name => name,
    }
}

/// The comment over a row.
fn comment(row: &Table) -> String {
    let over = row.decor().prefix().and_then(|p| p.as_str());
    over.unwrap_or("").trim_matches('\n').to_owned()
}

fn values(row: &Table) -> Vec<(&str, String)> {
    let said = |item: &Item| {
        item.as_value()
            .map_or_else(String::new, |v| v.clone().decorated("", "").to_string())
    };
    let mut all: Vec<_> = row.iter().map(|(k, item)| (k, said(item))).collect();
    all.sort();
    all
}

/// The wanted rows in the place of those that stood there; what stood over the first stays there,
/// with what was said of the option.
fn exchanged(had: &[Table], wanted: &[Table], key: &str, said: &str) -> Vec<Table> {
    let place = had.iter().filter_map(Table::position).max();
    let over = had.first().map_or("\n", |t| {
        let prefix = t.decor().prefix().and_then(|p| p.as_str());
        prefix.unwrap_or("\n")
    });
    let mut out: Vec<Table> = wanted
        .iter()
        .map(|new| {
            let same = had.iter().find(|old| values(old) == values(new));
            let mut row = same.cloned().unwrap_or_else(|| bare(new));
            if same.is_none() {
                row.decor_mut().set_prefix("\n");
            }
            row.set_position(place);
            row
        })
        .collect();
    if let Some(first) = out.first_mut() {
        let more = key == "name" && !said.is_empty() && !over.contains(said);
        let over = if more {
            format!("{}\n{said}\n", over.trim_end_matches('\n'))
        } else {
            over.to_owned()
        };
        first.decor_mut().set_prefix(over);
    }
    out
}

/// A row without what inline writing left around its values.
fn bare(row: &Table) -> Table {
    let mut out = Table::new();
    for (key, item) in row {
        if let Some(value) = item.as_value() {
            out.insert(key, Item::Value(value.clone().decorated(" ", "")));
        }
    }
    out
}

/// What was chosen, as rows of an option that stands at `place`.
fn kept(had: Vec<Table>, place: Option<isize>) -> Item {
    let row = |(i, mut row): (usize, Table)| {
        if i == 0 {
            row.decor_mut().set_prefix("\n");
        }
        row.set_position(place);
        row
    };
    list(had.into_iter().enumerate().map(row).collect())
}

/// A name that no option has but the one at `taken`.
fn free(names: &[String], taken: usize) -> String {
    let there = |name: &str| {
        names
            .iter()
            .enumerate()
            .any(|(i, n)| i != taken && n == name)
    };
    let mut name = BEFORE.to_owned();
    let mut n = 1;
    while there(&name) {
        n += 1;
        name = format!("{BEFORE}, {n}");
    }
    name
}
