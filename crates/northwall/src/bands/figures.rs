//! The bands of the chosen equipment as figures of the plan, for the papers.

use std::borrow::Cow;
use std::path::Path;

use plan::Plan;
use reckon::{Figure, Source};
use season::bands::{Asked, Band, bands};
use units::Dim;

use super::of_bills;
use crate::files::Loaded;
use crate::house_of::{HouseOf, threads};
use crate::refusal::{Fault, Refusal};
use crate::say::Say;

/// Houses behind the bands on a paper, and their seed: as `northwall bands` without a word more.
const HOUSES: usize = 100;
const SEED: u64 = 1;

const HOW: &str = "over the year: the end of the middle nine in ten of the houses this could be, each run \
                   hour by hour, weighted by what the bills tell where there are any";

/// Puts the ends of the bands into a plan's book: `bands.load.low`, `bands.chosen.cost.high`.
/// Nothing where the job has no heads or its year cannot be run.
pub fn figures(loaded: &Loaded, path: &Path, plan: &mut Plan) -> Result<(), Refusal> {
    let choices = loaded.job.choices();
    let Some(chosen) = choices.first().filter(|c| !c.equipment.heads.is_empty()) else {
        return Ok(());
    };
    let house = HouseOf::new(loaded, path)?;
    let told = of_bills(loaded, path, Say::for_job(&loaded.job), || plan.clone()).0;
    let asked = Asked {
        samples: HOUSES,
        seed: SEED,
        told,
        threads: threads(),
    };
    let one = std::slice::from_ref(chosen);
    let found = bands(&house.input(loaded, chosen), one, &asked)
        .map_err(|why| Fault::flag("--bands", why.to_string()))?;
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
                source: Source::new("common-practice", "nine in ten of a sample".to_owned()),
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
    Ok(())
}
