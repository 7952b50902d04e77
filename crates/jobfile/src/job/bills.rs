//! Files of bills, and what happened between them.

use super::Carrier;

/// A file of bills with what the person said about it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BillFile {
    /// Path from the job's folder.
    pub file: String,
    /// What was bought, where said.
    pub of: Option<Carrier>,
    /// `meter`, `green button` or `deliveries`, where said.
    pub kind: Option<String>,
    /// Unit of the amounts, where said.
    pub unit: Option<String>,
    /// Heading of the first day, where said.
    pub from_column: Option<String>,
    /// Heading of the day of the reading, where said.
    pub to_column: Option<String>,
    /// Heading of the amount, where said.
    pub amount_column: Option<String>,
    /// Heading that tells estimates or full fills, where said.
    pub estimated_column: Option<String>,
    /// Title of the meter, where said.
    pub meter: Option<String>,
}

/// What happened in the time the bills cover. What was not said is absent.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Winters {
    /// Files of daily mean temperatures.
    pub temperatures: Vec<String>,
    /// Day from which the heat pump heats, as typed (`2024-10-15`).
    pub installed: Option<String>,
    /// Wood burnt in a winter before, J; 0 where `none` was said.
    pub wood_before_j: Option<f64>,
    /// Wood burnt in a winter after, J.
    pub wood_after_j: Option<f64>,
    /// What else changed between, in the person's words; `nothing`.
    pub changed: Option<String>,
    /// The house makes electricity of its own behind the meter.
    pub sun: bool,
    /// Electric backup has a meter of its own, or there is none.
    pub backup_metered: bool,
}
