//! Jobs, changes, photos and people, kept in one folder (SQLite) or in PostgreSQL.
//!
//! [`Store`] is the only door: what it acknowledges is on the disk. No HTTP and no physics live
//! here. A job's text is changed only through [`jobfile::edit`], so comments and order stay.

// A statement in SQL stands beside where it is used.
#![allow(clippy::items_after_statements)]

mod clock;
mod conflict;
mod history;
mod jobs;
mod leaving;
mod links;
mod merge;
mod not_kept;
mod pace;
mod packed;
mod people;
mod photos;
mod pool;
mod records;
mod schema;
mod temperatures;
mod values;

pub use clock::{now_ms, written};
pub use conflict::Held;
pub use history::Revision;
pub use jobs::{JobLine, JobRow, Made, NewJob};
pub use leaving::{Whole, WholeConflict, WholePhoto, WholeRevision};
pub use links::{Link, Noted};
pub use merge::{Both, Change, Edit, Outcome, Trial, trial};
pub use not_kept::NotKept;
pub use pace::Tries;
pub use people::{Invitation, Person};
pub use photos::{NewPhoto, PhotoBytes, PhotoLine};
pub use pool::{Kind, Store};
pub use records::{NewRecord, Recorded};
pub use temperatures::{NewTemperatures, Temperatures};
pub use values::values;
