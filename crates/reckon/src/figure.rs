//! A number that can be asked why.

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use units::Dim;

use crate::{FormulaError, Known, evaluate};

/// Where a formula, a value or a rule comes from: a key of `docs/sources.toml` and the exact
/// place in it (table, clause, equation), or the place in the job file or data sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Source {
    /// Key of `docs/sources.toml`; `job` for the job file, `sheet` for a data sheet.
    pub key: Cow<'static, str>,
    /// Table, clause, equation, page, or path in the job file.
    pub place: Cow<'static, str>,
}

impl Source {
    /// A source by key and exact place.
    pub fn new(key: impl Into<Cow<'static, str>>, place: impl Into<Cow<'static, str>>) -> Self {
        Self {
            key: key.into(),
            place: place.into(),
        }
    }
    /// A value the person gave, at this path of the job file.
    pub fn job(place: impl Into<Cow<'static, str>>) -> Self {
        Self::new("job", place)
    }
}

/// A name as it stands in a key: spaces and slashes as dashes. Names a person gives have no dots;
/// that of a surface has one, after its room.
///
/// ```
/// assert_eq!(reckon::in_key(" bed 1 "), "bed-1");
/// ```
pub fn in_key(name: &str) -> String {
    name.trim().replace([' ', '/'], "-")
}

/// One input of a figure: the symbol it has in the formula, and the key of its own figure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Input {
    /// Symbol in the formula: `U`, `A`, `Ti`.
    pub symbol: Cow<'static, str>,
    /// Key of the figure it stands for.
    pub key: String,
}

/// A reported number with its reasons. Values are SI.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Figure {
    /// Key, dotted: `loads.living.heating`.
    pub key: String,
    /// What it is, in the words of the trade.
    pub what: String,
    /// SI value.
    pub value: f64,
    /// What kind of quantity, for printing.
    pub dim: Dim,
    /// Expression over the input symbols, in SI, that evaluates to the value; empty for a given
    /// value; begins with `over the year:` (in words) for what only the hourly balance can give.
    pub formula: Cow<'static, str>,
    /// Inputs of the formula.
    pub inputs: Vec<Input>,
    /// Where the formula or the given value comes from.
    pub source: Source,
    /// How a given value is known.
    pub known: Option<Known>,
}

fn owned(inputs: &[(&'static str, &str)]) -> Vec<Input> {
    let input = |(symbol, key): &(&'static str, &str)| Input {
        symbol: Cow::Borrowed(*symbol),
        key: (*key).to_owned(),
    };
    inputs.iter().map(input).collect()
}

/// All figures of a plan by key. Order is by key, so output never depends on how it was made.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Book {
    figures: BTreeMap<String, Figure>,
}

impl Book {
    /// An empty book.
    pub fn new() -> Self {
        Self::default()
    }

    /// Writes down a value that was given (job, sheet, table) and returns it.
    pub fn given(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        value: f64,
        dim: Dim,
        source: Source,
        known: Option<Known>,
    ) -> f64 {
        let key = key.into();
        self.figures.insert(
            key.clone(),
            Figure {
                key,
                what: what.into(),
                value,
                dim,
                formula: Cow::Borrowed(""),
                inputs: Vec::new(),
                source,
                known,
            },
        );
        value
    }

    /// Computes a value by evaluating `formula` over figures already in the book, writes it down
    /// with its reasons, and returns it: the explanation *is* the computation.
    ///
    /// # Errors
    /// A symbol without input, an input not in the book, or a formula that does not read.
    pub fn reckon(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        dim: Dim,
        formula: &'static str,
        inputs: &[(&'static str, &str)],
        source: Source,
    ) -> Result<f64, FormulaError> {
        let mut named = Vec::with_capacity(inputs.len());
        for (symbol, key) in inputs {
            let figure = self
                .figures
                .get(*key)
                .ok_or_else(|| FormulaError::NoFigure {
                    symbol: (*symbol).to_owned(),
                    key: (*key).to_owned(),
                })?;
            named.push((*symbol, figure.value));
        }
        let value = evaluate(formula, &named)?;
        let inputs = owned(inputs);
        let key = key.into();
        self.figures.insert(
            key.clone(),
            Figure {
                key,
                what: what.into(),
                value,
                dim,
                formula: Cow::Borrowed(formula),
                inputs,
                source,
                known: None,
            },
        );
        Ok(value)
    }

    /// As [`Book::reckon`] with `sum()`: adds up figures by key.
    ///
    /// # Errors
    /// A key that is not in the book.
    pub fn add_up(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        dim: Dim,
        keys: &[String],
        source: Source,
    ) -> Result<f64, FormulaError> {
        let inputs: Vec<(&'static str, &str)> = keys.iter().map(|k| ("q", k.as_str())).collect();
        self.reckon(key, what, dim, "sum()", &inputs, source)
    }

    /// Writes down a value that was solved together with others, and the formula by which it hangs
    /// on them: evaluated, it gives the value again to the rounding of the solution. The inputs may
    /// come into the book later, and may hang on this one.
    #[allow(clippy::too_many_arguments)] // those of `reckon`, and the value
    pub fn solved(
        &mut self,
        key: impl Into<String>,
        what: impl Into<String>,
        value: f64,
        dim: Dim,
        formula: &'static str,
        inputs: &[(&'static str, &str)],
        source: Source,
    ) {
        self.put(Figure {
            key: key.into(),
            what: what.into(),
            value,
            dim,
            formula: Cow::Borrowed(formula),
            inputs: owned(inputs),
            source,
            known: None,
        });
    }

    /// Writes down a ready figure (for sums over hours, whose formula is in words).
    pub fn put(&mut self, figure: Figure) {
        self.figures.insert(figure.key.clone(), figure);
    }

    /// A figure by key.
    pub fn get(&self, key: &str) -> Option<&Figure> {
        self.figures.get(key)
    }

    /// A value by key.
    pub fn value(&self, key: &str) -> Option<f64> {
        self.get(key).map(|f| f.value)
    }

    /// All figures in order of key.
    pub fn iter(&self) -> impl Iterator<Item = &Figure> {
        self.figures.values()
    }

    /// How many figures there are.
    pub fn len(&self) -> usize {
        self.figures.len()
    }

    /// Whether the book is empty.
    pub fn is_empty(&self) -> bool {
        self.figures.is_empty()
    }

    /// Takes in all figures of another book.
    pub fn take_in(&mut self, other: Book) {
        self.figures.extend(other.figures);
    }
}
