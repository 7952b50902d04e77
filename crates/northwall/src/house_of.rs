//! The house of a job set up for years that the plan does not run.

use std::path::Path;

use crate::files::Loaded;
use crate::refusal::{Fault, Refusal};

/// The house of a job set up for years that the plan does not run.
pub fn house_of(loaded: &Loaded, path: &Path) -> Result<plan::HouseOf, Refusal> {
    plan::HouseOf::new(&loaded.job, &loaded.weather).map_err(|why| {
        let shown = path.display().to_string();
        Fault::file(&shown, why)
            .mend("`check` says what the job waits for")
            .into()
    })
}
