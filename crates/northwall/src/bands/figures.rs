//! Bands as figures of the plan: those of the chosen equipment for the papers, all of them for `why`.

use std::path::Path;

use jobfile::Choice;
use plan::Plan;
use season::bands::Asked;

use super::of_bills;
use crate::files::Loaded;
use crate::say::Say;

/// Puts the ends of the bands of these choices into a plan's book, or says why there are none.
pub fn figures(
    loaded: &Loaded,
    path: &Path,
    choices: &[Choice],
    plan: &mut Plan,
) -> Result<(), String> {
    let told = of_bills(loaded, path, Say::for_job(&loaded.job), || plan.clone()).0;
    let asked = Asked {
        samples: plan::HOUSES,
        seed: plan::SEED,
        told,
        threads: season::cores(),
    };
    let found = plan::banded(
        &loaded.job,
        &loaded.catalogue,
        &loaded.weather,
        choices,
        &asked,
        &|_| true,
    )?;
    let figures = plan::band_figures(&found, plan);
    plan.book.take_in(figures);
    Ok(())
}
