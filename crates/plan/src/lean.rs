//! Loads and one year of a house, and nothing else: for houses by the thousand.

use climate::Weather;
use jobfile::{Choice, Job};
use reckon::Book;
use season::Year;

use crate::before::Kept;
use crate::making::{Loads, model_stage, waiting};
use crate::site::Site;
use crate::staged::Staged;
use crate::{Catalogue, Stage, Wait};

/// Loads and one year of a house.
#[derive(Debug, Clone)]
pub struct LoadsAndYear {
    /// The site.
    pub site: Site,
    /// Design loads.
    pub loads: Stage<Loads>,
    /// The year with the choice.
    pub year: Stage<Year>,
    /// The year with what heats now and nothing else, where there is such a heater; or why it
    /// could not be run.
    pub now: Result<Option<Year>, String>,
}

impl LoadsAndYear {
    /// What is waited for.
    pub fn waits(&self) -> impl Iterator<Item = &Wait> {
        self.loads.waits().iter().chain(self.year.waits())
    }
}

/// The loads and the year of one choice, with the numbers that [`crate::plan`] gives for them, to
/// the bit. On one thread; without findings, figures, drawings and installation.
pub fn loads_and_year(
    job: &Job,
    catalogue: &Catalogue,
    weather: &Weather,
    choice: Option<&Choice>,
) -> LoadsAndYear {
    let mut book = Book::new();
    let site = Site::new(job, weather, &mut book);
    let model = model_stage(job);
    let Stage::Done(of) = &model else {
        return LoadsAndYear {
            loads: waiting(&model),
            year: waiting(&model),
            now: Ok(None),
            site,
        };
    };
    let staged = Staged::new(job, of, weather);
    let loads = staged.loads(&site, &Kept::default(), &mut book);
    let (year, now) = staged.one_year(catalogue, choice);
    LoadsAndYear {
        site,
        loads,
        year,
        now,
    }
}
