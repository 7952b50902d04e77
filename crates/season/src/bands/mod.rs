//! Bands: the year of the houses this could be.
//!
//! Inputs are known by sight, from a label, or assumed; each has a width of its own ([`Uncertain`]).
//! Points that fill those widths evenly are run as whole years, and every result has the values
//! that one in ten lies below and above. Where bills tell the heat loss, each house counts by how
//! well it agrees with them ([`Told`]); with too few that agree there is *cannot tell*.

mod agree;
mod run;
mod sequence;
mod sums;
mod told;
mod uncertain;

pub use agree::Agreed;
pub use run::{
    Asked, Band, Bands, ChoiceBands, HouseBands, LineOf, Matters, Way, bands, bands_while,
};
pub use told::{FEWEST, Told};
pub use uncertain::Uncertain;
