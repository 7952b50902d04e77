//! The stages that rest on the house and its weather: design loads, the year with ideal heating
//! and cooling, the year with equipment.

use std::sync::OnceLock;

use climate::{Weather, WeatherError};
use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::ideal::HeatError;
use house::loads::{self, Design, LoadError};
use house::model::Model;
use jobfile::{Choice, Job};
use reckon::{Book, Finding, Known, Source};
use season::{Comparison, Input, SeasonError, Year};

use crate::before::Kept;
use crate::making::{Loads, refused};
use crate::site::{DesignFrom, Site};
use crate::year::{IdealYear, ideal_year_on};
use crate::{Catalogue, Stage, Wait};

/// A house and the year's weather on its faces, worked out once for all stages, and only if one of
/// them asks: after an edit that leaves the house alone none does.
pub(crate) struct Staged<'a> {
    job: &'a Job,
    model: &'a Model,
    weather: &'a Weather,
    glasses: Vec<Glass>,
    /// The air alone.
    air: Drive,
    /// The faces too.
    drive: OnceLock<Result<Drive, WeatherError>>,
}

type Stages = (Stage<Loads>, Stage<IdealYear>, Stage<Comparison>);

impl<'a> Staged<'a> {
    pub fn new(job: &'a Job, model: &'a Model, weather: &'a Weather) -> Self {
        Self {
            job,
            model,
            weather,
            glasses: model.glazings.iter().map(Glass::new).collect(),
            air: Drive::of_air(model, weather),
            drive: OnceLock::new(),
        }
    }

    /// The weather on the faces. Who asks first works it out, the others wait.
    fn drive(&self) -> Result<&Drive, WeatherError> {
        let make = || Drive::new(self.model, &self.glasses, self.weather);
        self.drive.get_or_init(make).as_ref().map_err(Clone::clone)
    }

    /// Runs the stages. The years know nothing of each other and run side by side; what each
    /// gives does not depend on that.
    pub fn run(
        &self,
        site: &Site,
        catalogue: &Catalogue,
        choices: &[Choice],
        kept: &Kept<'_>,
        book: &mut Book,
        findings: &mut Vec<Finding>,
    ) -> Stages {
        let (loads, ideal, compared) = std::thread::scope(|scope| {
            let ideal = scope.spawn(|| match kept.ideal() {
                Some(year) => Ok(year.clone()),
                None => ideal_year_on(self.model, &self.glasses, self.drive()?),
            });
            let compared = scope.spawn(|| self.compared(catalogue, choices, kept));
            let loads = self.loads(site, kept, book);
            (loads, joined(ideal), joined(compared))
        });
        let ideal = match ideal {
            Ok(year) => {
                year.write(book);
                Stage::Done(year)
            }
            Err(why) => refused(&why),
        };
        let season = self.season(compared, catalogue, choices, book, findings);
        (loads, ideal, season)
    }

    /// The year of one choice, and of what heats now alone, on this thread.
    pub fn one_year(
        &self,
        catalogue: &Catalogue,
        choice: Option<&Choice>,
    ) -> (Stage<Year>, Result<Option<Year>, String>) {
        let nothing = Choice {
            name: String::new(),
            equipment: jobfile::Equipment::default(),
        };
        let drive = match self.drive() {
            Ok(drive) => drive,
            Err(why) => return (refused(&why), Ok(None)),
        };
        let input = self.input(drive, catalogue, choice.unwrap_or(&nothing));
        let now = season::baseline(&input).map_err(|why| why.to_string());
        let year = if input.choice.equipment.heads.is_empty() {
            Stage::Waiting(vec![no_heads()])
        } else {
            season::year(&input).map_or_else(|why| refused(&why), Stage::Done)
        };
        (year, now)
    }

    /// The design loads.
    pub fn loads(&self, site: &Site, kept: &Kept<'_>, book: &mut Book) -> Stage<Loads> {
        if self.model.zones.iter().all(|z| z.heated.is_none()) {
            return Stage::Waiting(vec![Wait::new(
                "a heating setting in at least one room",
                "room",
                "Write heated_to = \"70 F\" in the rooms that are to be warm.",
            )]);
        }
        match self.loads_of(site, kept, book) {
            Ok(loads) => Stage::Done(loads),
            Err(why) => refused(&why),
        }
    }

    fn loads_of(&self, site: &Site, kept: &Kept<'_>, book: &mut Book) -> Result<Loads, LoadError> {
        let Self {
            job,
            model,
            weather,
            glasses,
            air,
            ..
        } = self;
        let from = book.get("site.design.heating").map(|f| f.source.clone());
        let design = Design {
            outdoor_c: site.heating.used_c,
            outdoor_source: from.unwrap_or_else(|| Source::new("weather", "hours")),
            outdoor_known: match site.heating.from {
                DesignFrom::Typed(_) => None,
                DesignFrom::Header(_) => Some(Known::Label),
                DesignFrom::Hours => Some(Known::Assumed),
            },
            wind_m_per_s: design_wind(air),
            wind_source: Source::new("weather", "mean wind of the coldest hundredth of the hours"),
            air_j_per_m3k: air.air_j_per_m3k,
            monthly_outdoor_c: air.monthly_outdoor_c,
        };
        let (heating, steady) = loads::heating(model, glasses, &design, book)?;
        let cooling = if let Some(cooling) = kept.cooling() {
            cooling.clone()
        } else {
            let drive = self.drive().map_err(HeatError::from)?;
            loads::cooling(model, glasses, drive, weather)?
        };
        cooling.write(model, air, weather, book)?;
        let held: Vec<usize> = model
            .zones
            .iter()
            .enumerate()
            .filter(|(_, z)| job.equipment.heads_in(&z.name).next().is_some())
            .map(|(i, _)| i)
            .collect();
        let floats = if held.is_empty() {
            Vec::new()
        } else {
            let f = |f: f64| (f - 32.0) / 1.8;
            let outdoors = [
                ("design", design.outdoor_c),
                ("10f", f(10.0)),
                ("30f", f(30.0)),
            ];
            loads::rooms_without_heads(&steady, model, &design, &held, &outdoors, book)?
        };
        let glass = loads::glass(model, glasses, book)?;
        Ok(Loads {
            design,
            heating,
            cooling,
            floats,
            glass,
        })
    }

    fn input<'s>(
        &'s self,
        drive: &'s Drive,
        catalogue: &'s Catalogue,
        choice: &'s Choice,
    ) -> Input<'s> {
        Input {
            job: self.job,
            model: self.model,
            glasses: &self.glasses,
            drive,
            weather: self.weather,
            catalogue: catalogue.sheets(),
            choice,
            doors: Doors::AsUsual,
        }
    }

    /// The years of all choices and of what heats now; none where no head is chosen.
    fn compared(
        &self,
        catalogue: &Catalogue,
        choices: &[Choice],
        kept: &Kept<'_>,
    ) -> Option<Result<Comparison, SeasonError>> {
        let first = choices.iter().find(|c| !c.equipment.heads.is_empty())?;
        let (baseline, years) = std::thread::scope(|scope| {
            let years: Vec<_> = choices
                .iter()
                .map(|choice| {
                    scope.spawn(move || match kept.year(choice) {
                        Some(year) => Ok(year.clone()),
                        None => season::year(&self.input(self.drive()?, catalogue, choice)),
                    })
                })
                .collect();
            let baseline = match kept.baseline() {
                Some(year) => Ok(year.clone()),
                None => self
                    .drive()
                    .map_err(SeasonError::from)
                    .and_then(|drive| season::baseline(&self.input(drive, catalogue, first))),
            };
            let years: Vec<Result<Year, SeasonError>> = years.into_iter().map(joined).collect();
            (baseline, years)
        });
        Some(baseline.map(|baseline| Comparison {
            baseline,
            years: choices.iter().map(|c| c.name.clone()).zip(years).collect(),
        }))
    }

    fn season(
        &self,
        compared: Option<Result<Comparison, SeasonError>>,
        catalogue: &Catalogue,
        choices: &[Choice],
        book: &mut Book,
        findings: &mut Vec<Finding>,
    ) -> Stage<Comparison> {
        let comparison = match compared {
            Some(Ok(comparison)) => comparison,
            Some(Err(why)) => return refused(&why),
            None => {
                return Stage::Waiting(vec![no_heads()]);
            }
        };
        for (at, (choice, (_, year))) in choices.iter().zip(&comparison.years).enumerate() {
            let Ok(year) = year else { continue };
            // What is told of a year and found in it rests on the year alone, not on the faces.
            let input = self.input(&self.air, catalogue, choice);
            if let Err(why) = season::explain(&input, year, book) {
                return refused(&why);
            }
            // The options are there to be compared; only what is chosen is to be mended.
            if at == 0 {
                findings.extend(season::findings(&input, year));
            }
        }
        Stage::Done(comparison)
    }
}

fn no_heads() -> Wait {
    Wait::new(
        "the heads and outdoor units",
        "head",
        "Choose units from the catalogue (`northwall choose` tries them all): an [[outdoor]] and a [[head]] for each.",
    )
}

/// What a thread gave. If it panicked, that is a defect and goes on here.
fn joined<T>(thread: std::thread::ScopedJoinHandle<'_, T>) -> T {
    thread
        .join()
        .unwrap_or_else(|panic| std::panic::resume_unwind(panic))
}

/// Share of the coldest hours whose mean wind stands for the design night.
const COLD_SHARE: f64 = 0.01;

/// Mean wind at the leaks in the coldest hundredth of the hours, m/s.
fn design_wind(drive: &Drive) -> f64 {
    let outdoor_c = &drive.outdoor_c;
    let n = ((outdoor_c.len() as f64 * COLD_SHARE) as usize).max(1);
    let mut hours: Vec<usize> = (0..outdoor_c.len()).collect();
    let colder = |a: &usize, b: &usize| outdoor_c[*a].total_cmp(&outdoor_c[*b]).then(a.cmp(b));
    if n < hours.len() {
        hours.select_nth_unstable_by(n, colder);
        hours.truncate(n);
    }
    hours.sort_unstable_by(colder);
    hours.iter().map(|h| drive.wind_m_per_s[*h]).sum::<f64>() / n as f64
}
