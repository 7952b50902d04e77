//! The order of the stages, the findings, and the why of every number.
//!
//! [`plan`] is a pure function: job, catalogue and weather in, [`Plan`] out. A stage is either
//! done or says what it waits for, so a half-surveyed house gives half a plan. [`why`] unfolds a
//! figure down to the job file, the data sheet or the table it rests on. [`draw`] makes the
//! charts and [`prove`] runs the outside checks.

// A drawing is put together once; a saved allocation is not worth an unread result.
#![allow(clippy::format_push_string)]

mod bands;
mod before;
mod billed;
mod catalogue;
pub mod draw;
mod equipment;
mod find;
mod headline;
mod house_of;
mod installed;
mod lean;
mod making;
pub mod prove;
pub mod shipped;
mod site;
mod sources;
mod stage;
mod staged;
mod turns;
mod why;
mod year;

pub use bands::{HOUSES, SEED, band_figures, banded, bands_key, comes_of};
pub use before::Before;
pub use billed::{Billed, BilledCarrier, billed, billed_carrier};
pub use catalogue::{Catalogue, near};
pub use equipment::{Chosen, System};
pub use find::{Numbered, bills_finding};
pub use headline::Headline;
pub use house_of::HouseOf;
pub use installed::suggested;
pub use lean::{LoadsAndYear, loads_and_year};
pub use making::{Loads, Plan, Years, plan, plan_after, plan_of_chosen};
pub use site::{DesignChoice, DesignFrom, Site};
pub use sources::{SourceEntry, source};
pub use stage::{Stage, Wait};
pub use why::{Leaf, NoFigure, Why, why, why_beside};
pub use year::{IdealYear, RoomYear, ideal_year};
