//! Heat through the house: from outlines to surfaces, and the balance of every hour.
//!
//! [`describe::House`] is what a person says; [`model::Model`] is what the balance sees;
//! [`drive::Drive`] is the weather on its faces; [`balance::Balance`] steps the hours;
//! [`ideal`] runs a year with ideal heating and cooling.

pub mod assembly;
pub mod balance;
pub mod describe;
pub mod drive;
mod exposure;
pub mod film;
mod finer;
pub mod geometry;
pub mod glazing;
pub mod ground;
pub mod ideal;
pub mod leakage;
pub mod library;
pub mod loads;
pub mod model;
pub mod wall;
