//! What the year is asked about.

use std::collections::BTreeMap;

use climate::Weather;
use climate::altitude::at_height_c;
use climate::design::design_temperatures;
use heatpump::Sheet;
use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::model::Model;
use jobfile::{Choice, Job};

/// Parsed sheets by the name on them.
pub type Catalogue = BTreeMap<String, Sheet>;

/// One choice of equipment in one house, on one year of weather.
#[derive(Debug, Clone, Copy)]
pub struct Input<'a> {
    /// The job: heaters, prices, habits.
    pub job: &'a Job,
    /// Its house.
    pub model: &'a Model,
    /// Glasses of the model, in the model's order.
    pub glasses: &'a [Glass],
    /// Weather on the house, in whole hours.
    pub drive: &'a Drive,
    /// The weather itself.
    pub weather: &'a Weather,
    /// Sheets.
    pub catalogue: &'a Catalogue,
    /// Equipment looked at.
    pub choice: &'a Choice,
    /// How the doors stand. `AsUsual` also heeds what the job says of bedroom doors.
    pub doors: Doors,
}

/// The outdoor temperature the equipment is judged at.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// C.
    pub outdoor_c: f64,
    /// Where it is from, in words.
    pub from: String,
    /// Whether somebody typed it into the job.
    pub typed: bool,
}

impl Design {
    /// What the job says; else 99.6 % of the weather file, its header before its hours, brought to
    /// the elevation of the job. None for a year without hours.
    pub fn of(job: &Job, weather: &Weather) -> Option<Self> {
        if let Some(typed) = &job.place.heating_design {
            return Some(Self {
                outdoor_c: typed.c,
                from: typed.source.clone(),
                typed: true,
            });
        }
        let coldest = design_temperatures(weather).into_iter().next()?;
        let station_m = weather.station.elevation_m;
        let here_m = job.place.elevation_m.unwrap_or(station_m);
        Some(Self {
            outdoor_c: at_height_c(coldest.preferred_c(), station_m, here_m),
            from: if coldest.header.is_some() {
                "99.6 %, header of the weather file".to_owned()
            } else {
                "99.6 % of the hours of the weather file".to_owned()
            },
            typed: false,
        })
    }
}
