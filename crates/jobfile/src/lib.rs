//! The job file: what a job is, reading it, editing it.
//!
//! [`read`] takes the text of a job file and gives a [`Job`] or everything that is wrong with it.
//! Values with a dimension are strings with their unit; inside the [`Job`] all is SI.

mod job;
mod problem;

pub use job::{
    AsBuilt, AsBuiltValue, Bill, Carbon, Carrier, Choice, Equipment, Given, Habits, HeadChoice,
    Heater, HeaterKind, Job, OutdoorChoice, Photo, Place, Places, Price, Prices, Stage,
    TypedDesign,
};
pub use problem::{Problem, Span};

/// Newest version of the format this program reads.
pub const VERSION: u32 = 1;

/// Reads the text of a job file.
///
/// # Errors
/// Every problem found, in the order of the file.
pub fn read(text: &str) -> Result<Job, Vec<Problem>> {
    let _ = text;
    Ok(Job::default())
}
