//! `northwall why --json`.

use schemars::JsonSchema;
use serde::Serialize;

/// A figure unfolded, or the figures whose keys begin so.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(untagged)]
pub enum WhyAnswer {
    /// The figure asked for.
    Figure(Box<WhyView>),
    /// No figure has this key, but some begin with it.
    List {
        /// What was asked for.
        beginning: String,
        /// Those that begin so.
        figures: Vec<ListedView>,
        /// How many more.
        more: usize,
    },
}

/// A figure in a list.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ListedView {
    /// Key.
    pub key: String,
    /// What it is.
    pub what: String,
    /// Its value as printed.
    pub shown: String,
}

/// A figure unfolded.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WhyView {
    /// Key.
    pub key: String,
    /// Symbol in the formula above; empty at the top.
    pub symbol: String,
    /// What it is.
    pub what: String,
    /// SI value; null where there is no number.
    pub value: Option<f64>,
    /// Kind of quantity.
    pub quantity: String,
    /// The value as printed.
    pub shown: String,
    /// Formula in the symbols of the inputs, SI; empty for a given value.
    pub formula: String,
    /// Source key and place.
    pub source: String,
    /// Line of the job file, where it rests on one.
    pub line: Option<usize>,
    /// seen, label, assumed; null where it is computed.
    pub known: Option<&'static str>,
    /// Unfolded further up already; its inputs are left out here.
    pub again: bool,
    /// Inputs.
    pub inputs: Vec<WhyView>,
}
