//! Bands of a job: its choices in the houses this could be, and their ends as figures.

use std::borrow::Cow;

use climate::Weather;
use jobfile::{Choice, Job};
use reckon::{Figure, Source};
use review::{YearOfDays, fit_of_hours};
use season::bands::{Asked, Band, Bands, Way, bands_while};
use units::Dim;

use crate::{Catalogue, HouseOf, Plan};

/// Houses behind bands where nobody says how many, and the seed of their points.
pub const HOUSES: usize = 100;
/// See [`HOUSES`].
pub const SEED: u64 = 1;

const HOW: &str = "over the year: the end of the middle eight in ten of the houses this could be, each run \
                   hour by hour, weighted by what the bills tell where there are any";

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

/// Puts the ends of the bands of the first choice into a plan's book: `bands.load.low`,
/// `bands.chosen.cost.high`.
pub fn band_figures(found: &Bands, plan: &mut Plan) {
    let mut put = |key: &str, what: &str, band: Option<&Band>, dim: Dim| {
        let Some(band) = band else { return };
        for (end, words, value) in [("low", "lower", band.low), ("high", "upper", band.high)] {
            plan.book.put(Figure {
                key: format!("bands.{key}.{end}"),
                what: format!("{what}, {words} end of its band"),
                value,
                dim,
                formula: Cow::Borrowed(HOW),
                inputs: Vec::new(),
                source: Source::new("common-practice", "eight in ten of a sample".to_owned()),
                known: None,
            });
        }
    };
    put(
        "load",
        "load of the house",
        found.house.load_w.as_ref(),
        Dim::Power,
    );
    if let Some(Ok(of)) = found.choices.first().map(|c| &c.1) {
        put(
            "chosen.heads-share",
            "share of the heads",
            of.heads_share.as_ref(),
            Dim::Share,
        );
        put("chosen.cop", "seasonal COP", of.cop.as_ref(), Dim::Ratio);
        put(
            "chosen.cost",
            "cost of a year",
            of.cost.as_ref(),
            Dim::Money,
        );
    }
}
