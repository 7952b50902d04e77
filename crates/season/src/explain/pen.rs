//! Short ways of putting figures into the book under the key of a choice.

use climate::Weather;
use reckon::{Book, Figure, FormulaError, Input as Symbol, Source};
use units::Dim;

use crate::keys;
use crate::year::Year;

/// Writes into a book under one choice.
pub(super) struct Pen<'a> {
    pub book: &'a mut Book,
    pub year: &'a Year,
    weather: &'a Weather,
    base: String,
}

impl<'a> Pen<'a> {
    pub fn new(book: &'a mut Book, year: &'a Year, weather: &'a Weather) -> Self {
        Self {
            book,
            year,
            weather,
            base: keys::of_choice(&year.choice),
        }
    }

    /// An hour of the year in words.
    pub fn hour(&self, hour: usize) -> String {
        self.weather.hour_in_words(hour)
    }

    /// The month of an hour, 0 first.
    pub fn month(&self, hour: usize) -> usize {
        let month = self.weather.month.get(hour).copied();
        month.map_or(usize::MAX, |m| usize::from(m).wrapping_sub(1))
    }

    /// The outdoor air of an hour of the year; false where there is no such hour.
    pub fn outdoor(&mut self, rest: &str, what: &str, hour: usize) -> bool {
        let Some(outdoor_c) = self.year.outdoor_c.get(hour).copied() else {
            return false;
        };
        let source = Source::new("weather", format!("dry bulb in {}", self.hour(hour)));
        self.given(rest, what, outdoor_c, Dim::Temperature, source);
        true
    }

    /// Full key of a figure of this choice.
    pub fn key(&self, rest: &str) -> String {
        format!("{}.{rest}", self.base)
    }

    /// A value from the job or a sheet.
    pub fn given(&mut self, rest: &str, what: &str, value: f64, dim: Dim, source: Source) {
        let key = self.key(rest);
        self.book.given(key, what, value, dim, source, None);
    }

    /// What only the hours give: `sum` says in words what was added up or picked out.
    pub fn over_year(&mut self, rest: &str, what: &str, value: f64, dim: Dim, sum: &str) {
        self.over_year_with(rest, what, value, dim, sum, &[]);
    }

    /// As [`Pen::over_year`], with the figures of this choice it hangs on.
    pub fn over_year_with(
        &mut self,
        rest: &str,
        what: &str,
        value: f64,
        dim: Dim,
        sum: &str,
        inputs: &[(&'static str, &str)],
    ) {
        let full: Vec<(&'static str, String)> = inputs
            .iter()
            .map(|(symbol, rest)| (*symbol, self.key(rest)))
            .collect();
        self.over_year_on(rest, what, value, dim, sum, full);
    }

    /// As [`Pen::over_year_with`], with figures of the book by their whole keys.
    pub fn over_year_on(
        &mut self,
        rest: &str,
        what: &str,
        value: f64,
        dim: Dim,
        sum: &str,
        inputs: Vec<(&'static str, String)>,
    ) {
        let source = Source::new("common-practice", "hourly balance, trade card F8");
        self.over_year_from(rest, what, value, dim, sum, inputs, source);
    }

    /// As [`Pen::over_year_on`], where the hours rest on a source of their own.
    #[allow(clippy::too_many_arguments)] // those of a figure
    pub fn over_year_from(
        &mut self,
        rest: &str,
        what: &str,
        value: f64,
        dim: Dim,
        sum: &str,
        inputs: Vec<(&'static str, String)>,
        source: Source,
    ) {
        let input = |(symbol, key): (&'static str, String)| Symbol {
            symbol: symbol.into(),
            key,
        };
        let inputs = inputs.into_iter().map(input).collect();
        self.book.put(Figure {
            key: self.key(rest),
            what: what.to_owned(),
            value,
            dim,
            formula: format!("over the year: {sum}").into(),
            inputs,
            source,
            known: None,
        });
    }

    /// A formula over figures of this choice.
    pub fn reckon(
        &mut self,
        rest: &str,
        what: &str,
        dim: Dim,
        formula: &'static str,
        inputs: &[(&'static str, &str)],
        place: &'static str,
    ) -> Result<f64, FormulaError> {
        let full: Vec<(&'static str, String)> = inputs
            .iter()
            .map(|(symbol, rest)| (*symbol, self.key(rest)))
            .collect();
        let named: Vec<(&'static str, &str)> = full.iter().map(|(s, k)| (*s, k.as_str())).collect();
        let source = Source::new("common-practice", place);
        self.book
            .reckon(self.key(rest), what, dim, formula, &named, source)
    }

    /// A sum of figures of this choice; nothing to add is a given zero.
    pub fn add_up(
        &mut self,
        rest: &str,
        what: &str,
        dim: Dim,
        of: &[String],
    ) -> Result<f64, FormulaError> {
        let inputs: Vec<(&'static str, &str)> = of.iter().map(|r| ("q", r.as_str())).collect();
        self.reckon(rest, what, dim, "sum()", &inputs, "sum")
    }

    /// Whether a figure of this choice is over nothing.
    pub fn some(&self, rest: &str) -> bool {
        self.book.value(&self.key(rest)).is_some_and(|v| v > 0.0)
    }
}
