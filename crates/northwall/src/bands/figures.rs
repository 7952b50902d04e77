//! The bands of the chosen equipment as figures of the plan, for the papers.

use std::path::Path;

use plan::Plan;
use season::bands::Asked;

use super::of_bills;
use crate::files::Loaded;
use crate::house_of::threads;
use crate::refusal::{Fault, Refusal};
use crate::say::Say;

/// Puts the ends of the bands into a plan's book. Nothing where the job has no heads.
pub fn figures(loaded: &Loaded, path: &Path, plan: &mut Plan) -> Result<(), Refusal> {
    let choices = loaded.job.choices();
    let Some(chosen) = choices.first().filter(|c| !c.equipment.heads.is_empty()) else {
        return Ok(());
    };
    let told = of_bills(loaded, path, Say::for_job(&loaded.job), || plan.clone()).0;
    let asked = Asked {
        samples: plan::HOUSES,
        seed: plan::SEED,
        told,
        threads: threads(),
    };
    let found = plan::banded(
        &loaded.job,
        &loaded.catalogue,
        &loaded.weather,
        std::slice::from_ref(chosen),
        &asked,
        &|_| true,
    )
    .map_err(|why| Fault::flag("--bands", why))?;
    plan::band_figures(&found, plan);
    Ok(())
}
