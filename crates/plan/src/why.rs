//! Unfolds a figure: formula, inputs and source, down to the tape measure or the data sheet.

use reckon::{Book, Figure, Known, Source, evaluate};
use serde::Serialize;
use units::{Dim, System, column_number};

use crate::{Plan, source};

/// Most answers to a prefix, and most suggestions.
const MOST_NEAR: usize = 6;
/// Depth past which a tree is cut: no honest chain of figures is so long.
const DEEPEST: usize = 24;

/// Where a figure without a formula rests.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "rests-on")]
pub enum Leaf {
    /// A place of the job file.
    Job {
        /// Dotted path.
        path: String,
        /// Line, from 1, where it is written.
        line: Option<usize>,
    },
    /// A data sheet.
    Sheet {
        /// File, line or page.
        place: String,
    },
    /// The weather file.
    Weather {
        /// Which part of it.
        place: String,
    },
    /// A publication.
    Publication {
        /// Key of `docs/sources.toml`.
        key: String,
        /// Title, where the key is known.
        title: String,
        /// Place in it.
        place: String,
    },
}

/// A figure unfolded.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Why {
    /// Key.
    pub key: String,
    /// Symbol in the formula above; empty at the top.
    pub symbol: String,
    /// What it is.
    pub what: String,
    /// SI value.
    pub value: f64,
    /// Kind of quantity.
    pub dim: Dim,
    /// Formula in the symbols of the inputs; empty for a given value.
    pub formula: String,
    /// Where formula or value comes from.
    pub source: Source,
    /// The same in words.
    pub leaf: Leaf,
    /// How a given value is known.
    pub known: Option<Known>,
    /// Inputs, unfolded; empty where `again`.
    pub inputs: Vec<Why>,
    /// It was unfolded further up already.
    pub again: bool,
}

impl Why {
    /// Whether the formula gives the value with the numbers as a system prints them. Formulas are
    /// written in SI: minutes and hours, or degrees counted from another nothing, need the SI
    /// numbers beside. Words and folded inputs hold: there is nothing to work again.
    pub fn holds_as_printed(&self, system: System) -> bool {
        let printed = |w: &Why| match w.dim {
            Dim::Share => w.value,
            // loads print in W, and a kW is seen to be a thousand of them
            Dim::Power if system == System::Si => w.value,
            dim => column_number(w.value, dim, system),
        };
        let named: Vec<(&str, f64)> = self
            .inputs
            .iter()
            .map(|i| (i.symbol.as_str(), printed(i)))
            .collect();
        if named.is_empty() || !self.value.is_finite() {
            return true;
        }
        let want = printed(self);
        evaluate(&self.formula, &named).map_or(true, |got| {
            (got - want).abs() <= 1e-3 * want.abs().max(1e-9)
        })
    }
}

/// Why a key has no figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoFigure {
    /// The key asked for.
    pub key: String,
    /// Keys that begin with it, with what they are.
    pub beginning: Vec<(String, String)>,
    /// How many more begin with it.
    pub more: usize,
    /// Keys that are spelt nearly so.
    pub near: Vec<String>,
}

/// Unfolds a figure of the plan.
///
/// # Errors
/// There is no such figure: [`NoFigure`] names those that begin with the key or are spelt nearly
/// so.
pub fn why(plan: &Plan, key: &str) -> Result<Why, NoFigure> {
    why_beside(plan, &Book::new(), key)
}

/// As [`why`], with figures that were worked out beside the plan and rest on it: those of bands.
///
/// # Errors
/// As [`why`].
pub fn why_beside(plan: &Plan, more: &Book, key: &str) -> Result<Why, NoFigure> {
    let books = Books { plan, more };
    let key = key.trim().trim_end_matches('.');
    let mut seen = Vec::new();
    // Rooms stand in keys without their spaces, places of the installation with them; a person
    // writes them as in the job, or joined so that a shell takes them.
    let joined = key.replace(' ', "-");
    unfold(books, key, "", 0, &mut seen)
        .or_else(|| {
            let same = books.iter().find(|f| f.key.replace(' ', "-") == joined)?;
            unfold(books, &same.key, "", 0, &mut seen)
        })
        .ok_or_else(|| no_figure(books, key, &joined))
}

/// The plan, and the figures beside it.
#[derive(Clone, Copy)]
struct Books<'a> {
    plan: &'a Plan,
    more: &'a Book,
}

impl<'a> Books<'a> {
    fn get(self, key: &str) -> Option<&'a Figure> {
        self.more.get(key).or_else(|| self.plan.book.get(key))
    }

    fn iter(self) -> impl Iterator<Item = &'a Figure> {
        self.plan.book.iter().chain(self.more.iter())
    }
}

fn unfold(
    books: Books<'_>,
    key: &str,
    symbol: &str,
    depth: usize,
    seen: &mut Vec<String>,
) -> Option<Why> {
    let figure = books.get(key)?;
    let again = depth >= DEEPEST || seen.iter().any(|s| s == key);
    let mut inputs = Vec::new();
    if !again {
        if !figure.inputs.is_empty() {
            seen.push(key.to_owned());
        }
        for input in &figure.inputs {
            inputs.extend(unfold(books, &input.key, &input.symbol, depth + 1, seen));
        }
    }
    Some(Why {
        key: figure.key.clone(),
        symbol: symbol.to_owned(),
        what: figure.what.clone(),
        value: figure.value,
        dim: figure.dim,
        formula: figure.formula.to_string(),
        leaf: leaf(books.plan, &figure.source),
        source: figure.source.clone(),
        known: figure.known,
        again: again && !figure.inputs.is_empty(),
        inputs,
    })
}

fn leaf(plan: &Plan, from: &Source) -> Leaf {
    match from.key.as_ref() {
        "job" => {
            let (path, line) = plan.place_in_job(&from.place);
            Leaf::Job { path, line }
        }
        "sheet" => Leaf::Sheet {
            place: from.place.to_string(),
        },
        "weather" => Leaf::Weather {
            place: from.place.to_string(),
        },
        key => Leaf::Publication {
            key: key.to_owned(),
            title: source(key).map(|s| s.title).unwrap_or_default(),
            place: from.place.to_string(),
        },
    }
}

/// For a key as written, and joined by dashes.
fn no_figure(books: Books<'_>, written: &str, key: &str) -> NoFigure {
    let dotted = format!("{key}.");
    let begin = |start: &str| -> Vec<(String, String)> {
        books
            .iter()
            .filter(|f| f.key.replace(' ', "-").starts_with(start))
            .map(|f| (f.key.clone(), f.what.clone()))
            .collect()
    };
    let mut beginning = begin(if key.is_empty() { "" } else { &dotted });
    if beginning.is_empty() && key.len() > 2 {
        beginning = begin(key);
    }
    let more = beginning.len().saturating_sub(MOST_NEAR * 4);
    beginning.truncate(MOST_NEAR * 4);
    let mut near = Vec::new();
    if beginning.is_empty() {
        let mut scored: Vec<(f64, &str)> = books
            .iter()
            .map(|f| (strsim::jaro_winkler(key, &f.key), f.key.as_str()))
            .filter(|(score, _)| *score > 0.75)
            .collect();
        scored.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(b.1)));
        near = scored
            .into_iter()
            .take(MOST_NEAR)
            .map(|(_, k)| k.to_owned())
            .collect();
    }
    NoFigure {
        key: written.to_owned(),
        beginning,
        more,
        near,
    }
}
