//! `northwall season --many --json`.
#![cfg_attr(not(feature = "many"), allow(dead_code))] // the schema is published all the same

use schemars::JsonSchema;
use serde::Serialize;

/// A programme that was run. The houses themselves stand in the parts.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ManyView {
    /// Version of the program.
    pub northwall: &'static str,
    /// File of houses that came in.
    pub file: String,
    /// Folder of the parts.
    pub folder: String,
    /// Parts in it: `part-00000.parquet` and on.
    pub parts: u64,
    /// Parts of them that were there from an earlier run and were kept.
    pub kept: u64,
    /// Rows of a part; the last has what is left.
    pub rows_a_part: u64,
    /// Houses.
    pub houses: u64,
    /// Houses whose loads and year are there.
    pub done: u64,
    /// Houses that wait for something; what could be worked out is there.
    pub waits: u64,
    /// Houses whose row cannot be used.
    pub refused: u64,
    /// Houses on which the program failed: a defect of the program.
    pub defects: u64,
    /// Columns of the file that were not looked at.
    pub unread: Vec<String>,
    /// Columns of the parts.
    pub columns: Vec<ColumnView>,
}

/// A column of the parts.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ColumnView {
    /// Name, with its unit.
    pub name: &'static str,
    /// `text` (UTF-8), `whole number` (64 bits) or `number` (double).
    pub kind: &'static str,
    /// What it says.
    pub says: &'static str,
}
