//! Files to bills: what utilities and fuel dealers hand out.

mod columns;
pub(crate) mod date;
mod deliveries;
mod meter;
pub(crate) mod table;

pub use date::DateOrder;
pub use deliveries::read_deliveries;
pub use meter::{Asked, Mapping, ReadBills, read_meter};

use crate::Refused;
use table::Head;

/// What kind of file somebody handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileKind {
    /// Atom feed with ESPI readings.
    GreenButton,
    /// Table of meter readings or of use.
    Meter,
    /// Slips of a fuel dealer: amounts put into a tank.
    Deliveries,
}

/// Tells the kind of a file by its beginning and, for a table, by its headings.
///
/// # Errors
/// A file that is empty, not text, or has no headings.
pub fn kind_of(bytes: &[u8]) -> Result<FileKind, Refused> {
    let start = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let first = start.iter().find(|b| !b.is_ascii_whitespace());
    if first == Some(&b'<') {
        return Ok(FileKind::GreenButton);
    }
    let table = table::open(bytes, table::MOST_BYTES)?;
    let head = Head::of(&table);
    let slips = head.find(&[
        "delivered",
        "delivery",
        "gallons pumped",
        "fill",
        "tank",
        "ticket",
    ]);
    let ends = head.find(&["to", "end", "read", "reading", "through"]);
    Ok(if slips.is_some() && ends.is_none() {
        FileKind::Deliveries
    } else {
        FileKind::Meter
    })
}
