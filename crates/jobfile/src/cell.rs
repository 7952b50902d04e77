//! A table after its keys and values were looked at: typed, in SI, with places.

use crate::Span;
use crate::field::Table;

/// One table of the file.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    pub table: &'static Table,
    /// Name it goes by in paths; empty for a table there is one of.
    pub name: String,
    pub path: String,
    pub span: Span,
    pub cells: Vec<(&'static str, Cell)>,
    /// Keys the person wrote, whether or not their values read.
    pub wrote: Vec<&'static str>,
}

/// One value.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    pub path: String,
    pub span: Span,
    /// As written.
    pub written: String,
    pub value: Value,
}

/// A value of its kind.
#[derive(Debug, Clone)]
pub(crate) enum Value {
    Text(String),
    Si(f64),
    Whole(i64),
    YesNo(bool),
    Point([f64; 2]),
    ByHour(Box<Hours>),
    FlowAt(f64, f64),
    List(Vec<Cell>),
    Row(Box<Row>),
    /// Looked at elsewhere.
    Any,
}

impl Row {
    /// The value under a key; `None` when it is not there or did not read.
    pub fn cell(&self, key: &str) -> Option<&Cell> {
        debug_assert!(
            self.table.field(key).is_some(),
            "`{key}` is asked of [{}] but is not in its field table",
            self.table.name
        );
        self.cells.iter().find(|(k, _)| *k == key).map(|(_, c)| c)
    }

    /// Whether the person wrote this key, whether or not its value reads.
    pub fn has(&self, key: &str) -> bool {
        debug_assert!(
            self.table.field(key).is_some(),
            "`{key}` is not in the field table"
        );
        self.wrote.contains(&key)
    }

    pub fn si(&self, key: &str) -> Option<f64> {
        match self.cell(key)?.value {
            Value::Si(v) => Some(v),
            _ => None,
        }
    }

    /// As [`Row::si`]; zero where the value did not read (the job is then refused anyway).
    pub fn si_or_0(&self, key: &str) -> f64 {
        self.si(key).unwrap_or(0.0)
    }

    pub fn text(&self, key: &str) -> Option<&str> {
        match &self.cell(key)?.value {
            Value::Text(t) => Some(t),
            _ => None,
        }
    }

    /// As [`Row::text`]; empty where it is not there.
    pub fn words(&self, key: &str) -> String {
        self.text(key).unwrap_or("").to_owned()
    }

    pub fn whole(&self, key: &str) -> Option<i64> {
        match self.cell(key)?.value {
            Value::Whole(v) => Some(v),
            _ => None,
        }
    }

    pub fn yes(&self, key: &str) -> bool {
        matches!(self.cell(key).map(|c| &c.value), Some(Value::YesNo(true)))
    }

    pub fn by_hour(&self, key: &str) -> Option<[Option<f64>; 24]> {
        match self.cell(key)?.value {
            Value::ByHour(ref hours) => Some(hours.values),
            _ => None,
        }
    }

    /// Hours in which a value by hours moves in a straight line to its own.
    pub fn ramps(&self, key: &str) -> [bool; 24] {
        match self.cell(key).map(|c| &c.value) {
            Some(Value::ByHour(hours)) => hours.ramps,
            _ => [false; 24],
        }
    }

    pub fn flow_at(&self, key: &str) -> Option<(f64, f64)> {
        match self.cell(key)?.value {
            Value::FlowAt(flow, at) => Some((flow, at)),
            _ => None,
        }
    }

    pub fn list(&self, key: &str) -> &[Cell] {
        match self.cell(key).map(|c| &c.value) {
            Some(Value::List(cells)) => cells,
            _ => &[],
        }
    }

    /// Texts of a list, or the one text.
    pub fn texts(&self, key: &str) -> Vec<String> {
        self.list(key)
            .iter()
            .filter_map(|c| c.as_text().map(str::to_owned))
            .collect()
    }

    pub fn row(&self, key: &str) -> Option<&Row> {
        self.cell(key)?.as_row()
    }

    pub fn rows(&self, key: &str) -> impl Iterator<Item = &Row> {
        self.list(key).iter().filter_map(Cell::as_row)
    }
}

/// A value by hours of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Hours {
    pub values: [Option<f64>; 24],
    /// In these hours the value moves in a straight line from the hour before.
    pub ramps: [bool; 24],
}

impl Hours {
    pub fn of(values: &[Option<f64>; 24]) -> Self {
        Self {
            values: *values,
            ramps: [false; 24],
        }
    }
}

impl Cell {
    pub fn as_text(&self) -> Option<&str> {
        match &self.value {
            Value::Text(t) => Some(t),
            _ => None,
        }
    }

    pub fn as_row(&self) -> Option<&Row> {
        match &self.value {
            Value::Row(row) => Some(row),
            _ => None,
        }
    }
}
