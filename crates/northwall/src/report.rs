//! What a command hands back to be printed.

use serde_json::Value;

/// Output of a command.
#[derive(Debug, Default)]
pub struct Report {
    /// For people.
    pub text: String,
    /// For programs.
    pub json: Value,
    /// A chart, where the command has one.
    pub svg: Option<String>,
    /// 0 or 1.
    pub code: u8,
}

impl Report {
    /// Text, and a view that becomes JSON.
    pub fn new(text: String, view: &impl serde::Serialize) -> Self {
        Self {
            text,
            json: serde_json::to_value(view).unwrap_or(Value::Null),
            svg: None,
            code: 0,
        }
    }
}
