//! HPXML, the interchange format of home audits: version 4 and 5 out, 3 to 5 in.
//!
//! What goes out is what the plan holds: enclosure, leakage, systems, points of the sheets. What
//! comes in is a first job for the survey to correct. What of a file we do not know is kept and
//! goes out again with it.

mod enclosure;
mod export;
mod import;
mod systems;
mod tree;

pub use export::{Version, export};
pub use import::{Imported, import};
pub use tree::{Element, NotHpxml};
