//! Quantities at the edge: reading and printing values with their units.
//!
//! Inside the program every value is SI with its unit in its name. This crate is where a
//! person's text becomes SI ([`parse`]) and SI becomes text ([`show`]). One small table per kind
//! of quantity ([`Dim`]) says which units may be written and which one is printed.

pub mod constants;
mod cut;
mod deserved;
mod dim;
mod error;
mod number;
mod read;
mod show;
mod spelling;
mod table;
mod table_air;
mod table_energy;
mod table_fabric;
mod table_size;

pub use cut::cut;
pub use deserved::{degree, degrees, load_number, load_unit, round_step, show_figure, whole};
pub use dim::Dim;
pub use error::UnitError;
pub use read::parse;
pub use show::{
    NO_VALUE, System, column_number, column_unit, show, show_number, show_plain_si, significant,
};
pub use spelling::distance;
pub use table::{ALL, Quantity, Unit, quantity_of};
