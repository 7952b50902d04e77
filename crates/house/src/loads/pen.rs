//! Figures of one thing, written under the beginning of its keys.

use reckon::{Book, Known, Source};
use units::Dim;

use super::LoadError;

/// Writes into a book under one beginning.
pub(super) struct Pen<'a> {
    pub base: &'a str,
    pub book: &'a mut Book,
}

impl Pen<'_> {
    /// The key of a figure of this thing; a key with a dot is one of the book.
    fn key(&self, what: &str) -> String {
        if what.contains('.') {
            what.to_owned()
        } else {
            format!("{}.{what}", self.base)
        }
    }

    pub fn given(
        &mut self,
        key: &str,
        what: &str,
        value: f64,
        dim: Dim,
        (from, known): (Source, Option<Known>),
    ) {
        let key = self.key(key);
        self.book.given(key, what, value, dim, from, known);
    }

    /// # Errors
    /// A formula that does not read: a defect of the program.
    pub fn reckon(
        &mut self,
        key: &str,
        what: &str,
        dim: Dim,
        formula: &'static str,
        inputs: &[(&'static str, &str)],
        source: Source,
    ) -> Result<f64, LoadError> {
        let full: Vec<_> = inputs.iter().map(|(s, k)| (*s, self.key(k))).collect();
        let full: Vec<(&'static str, &str)> = full.iter().map(|(s, k)| (*s, k.as_str())).collect();
        let key = self.key(key);
        Ok(self.book.reckon(key, what, dim, formula, &full, source)?)
    }
}
