//! The job file: what a job is, reading it, editing it.
//!
//! [`read`] takes the text of a job file and gives a [`Job`] or everything that is wrong with it.
//! Values with a dimension are strings with their unit; inside the [`Job`] all is SI.

// A problem carries its words and its place; one is made where an edit or a file fails, never in
// a loop that counts.
#![allow(clippy::result_large_err)]

mod carriers;
mod cell;
mod check;
pub mod edit;
mod field;
mod geometry;
mod job;
mod library;
pub mod new;
mod path;
mod problem;
mod read;
pub mod schema;
mod tables;
mod tree;

pub use carriers::amount_j;
pub use job::{
    AsBuilt, AsBuiltValue, Bill, Carbon, Carrier, Choice, Equipment, Given, Habits, HeadChoice,
    Heater, HeaterKind, Job, OutdoorChoice, Photo, Place, Places, Price, Prices, Stage,
    TypedDesign,
};
pub use job::{BillFile, CHOSEN, Winters};
pub use job::{
    Circuit, Codes, Drain, DrainPiece, HeadPlace, Installation, Landmark, Line, LinePiece,
    Listener, OutdoorPlace, Panel, Requirement, Tool, Weighing,
};
pub use job::{Cost, Firm, Owner, Paperwork, Plate, Programme, Setting};
pub use job::{PricePeriod, Tariff, Tier};
pub use problem::{Problem, Span};
pub use read::{read, read_bytes};

/// Newest version of the format this program reads.
pub const VERSION: u32 = 1;
