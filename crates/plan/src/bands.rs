//! Bands of a job: its choices in the houses this could be, and their ends as figures.

mod figures;
mod inputs;

use climate::Weather;
use jobfile::{Choice, Job};
use review::{YearOfDays, fit_of_hours};
use season::bands::{Asked, Bands, Way, bands_while};

pub use figures::{band_figures, bands_key, comes_of};

use crate::{Catalogue, HouseOf};

/// Houses behind bands where nobody says how many, and the seed of their points.
pub const HOUSES: usize = 100;
/// See [`HOUSES`].
pub const SEED: u64 = 1;

/// The bands of choices in the house of a job; `go_on` is asked before each house
/// and told how far it is.
///
/// # Errors
/// No choice has a head; a house that cannot be set up; given up on the way. In words.
pub fn banded(
    job: &Job,
    catalogue: &Catalogue,
    weather: &Weather,
    choices: &[Choice],
    asked: &Asked,
    go_on: &(dyn Fn(Way) -> bool + Sync),
) -> Result<Bands, String> {
    let first = choices.iter().find(|c| !c.equipment.heads.is_empty());
    let first = first.ok_or("the job has no heads, so there is no year to put a band on")?;
    let house = HouseOf::new(job, weather)?;
    let input = house.input(job, catalogue, weather, first);
    bands_while(&input, choices, asked, &line_of_bills, go_on).map_err(|why| why.to_string())
}

/// What the bills of a year would show, found as in real bills: heat loss, W/K, and balance point, C.
fn line_of_bills(outdoor_c: &[f64], heat_w: &[f64]) -> Option<(f64, f64)> {
    let fit = fit_of_hours(heat_w, &YearOfDays::of_hours(outdoor_c)).ok()?;
    let balance_c = fit.heating_c?;
    (fit.heating_w_per_k > 0.0).then_some((fit.heating_w_per_k, balance_c))
}
