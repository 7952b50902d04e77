//! The house of a job set up for years that the plan itself does not run: bands, backup, choosing.

use climate::Weather;
use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::model::Model;
use jobfile::{Choice, Job};
use season::Input;

use crate::Catalogue;

/// A house with its glasses and the weather on its faces.
#[derive(Debug)]
pub struct HouseOf {
    /// The house.
    pub model: Model,
    /// Its glasses, in the model's order.
    pub glasses: Vec<Glass>,
    /// The weather on its faces.
    pub drive: Drive,
}

impl HouseOf {
    /// Sets the house of a job up.
    ///
    /// # Errors
    /// What is wrong with the house or the weather, in words.
    pub fn new(job: &Job, weather: &Weather) -> Result<Self, String> {
        let model = house::geometry::model(&job.house).map_err(|all| {
            let says: Vec<String> = all.iter().map(ToString::to_string).collect();
            says.join("; ")
        })?;
        let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
        let drive = Drive::new(&model, &glasses, weather).map_err(|e| e.to_string())?;
        Ok(Self {
            model,
            glasses,
            drive,
        })
    }

    /// What the year is asked about. All but the choice are those the house was set up from.
    pub fn input<'a>(
        &'a self,
        job: &'a Job,
        catalogue: &'a Catalogue,
        weather: &'a Weather,
        choice: &'a Choice,
    ) -> Input<'a> {
        Input {
            job,
            model: &self.model,
            glasses: &self.glasses,
            drive: &self.drive,
            weather,
            catalogue: catalogue.sheets(),
            choice,
            doors: Doors::AsUsual,
        }
    }
}
