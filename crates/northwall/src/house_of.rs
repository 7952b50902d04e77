//! The house of a job set up for years that the plan does not run.

use std::path::Path;

use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::model::Model;
use jobfile::Choice;
use season::Input;

use crate::files::Loaded;
use crate::refusal::{Fault, Refusal};

/// A house with its glasses and the weather on its faces.
pub struct HouseOf {
    pub model: Model,
    pub glasses: Vec<Glass>,
    pub drive: Drive,
}

impl HouseOf {
    /// Sets the house of a job up.
    pub fn new(loaded: &Loaded, path: &Path) -> Result<Self, Refusal> {
        let shown = path.display().to_string();
        let fault =
            |why: String| Fault::file(&shown, why).mend("`check` says what the job waits for");
        let model = house::geometry::model(&loaded.job.house).map_err(|all| {
            let says: Vec<String> = all.iter().map(ToString::to_string).collect();
            fault(says.join("; "))
        })?;
        let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
        let drive =
            Drive::new(&model, &glasses, &loaded.weather).map_err(|e| fault(e.to_string()))?;
        Ok(Self {
            model,
            glasses,
            drive,
        })
    }

    /// What the year is asked about.
    pub fn input<'a>(&'a self, loaded: &'a Loaded, choice: &'a Choice) -> Input<'a> {
        Input {
            job: &loaded.job,
            model: &self.model,
            glasses: &self.glasses,
            drive: &self.drive,
            weather: &loaded.weather,
            catalogue: loaded.catalogue.sheets(),
            choice,
            doors: Doors::AsUsual,
        }
    }
}

/// Threads this machine has; what comes out does not depend on it.
pub fn threads() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}
