//! What was built, what was read, what was photographed.

use super::Carrier;

/// One as-built entry: it wins over the planned value, and both stay.
#[derive(Debug, Clone, PartialEq)]
pub struct AsBuilt {
    /// Dotted path of what it replaces or adds: `window.living south.width`, `head.living.serial`.
    pub path: String,
    /// What was found.
    pub value: AsBuiltValue,
    /// The planned value as it stands in the job, if there is one; texts without their quotes.
    pub planned: Option<String>,
    /// Who put it down.
    pub who: String,
    /// Day, as typed.
    pub when: String,
    /// Remark.
    pub note: String,
}

/// An as-built value.
#[derive(Debug, Clone, PartialEq)]
pub enum AsBuiltValue {
    /// A value of the job file that stands in for the planned one, as written; texts without
    /// their quotes.
    Replaces(String),
    /// A line length of a head, m.
    LineLength(f64),
    /// Refrigerant put in (taken out if negative) beyond the factory charge, kg.
    Charge(f64),
    /// A serial number.
    Serial(String),
}

/// A bill or a delivery.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    /// What was bought.
    pub carrier: Carrier,
    /// First day, as typed (`2025-10-01`).
    pub from: String,
    /// Last day, as typed.
    pub to: String,
    /// Energy bought, J (higher heating value for fuels).
    pub energy_j: f64,
    /// As typed: `620 gal`.
    pub typed: String,
    /// The reading was estimated by the supplier, or the fill was not full.
    pub estimated: bool,
}

/// A photo kept with the job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// Path from the job's folder.
    pub file: String,
    /// What it shows: a dotted path of the job, or words.
    pub of: String,
    /// Remark.
    pub note: String,
}
