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
use crate::year::{IdealYear, gathered, ideal_steps};
use crate::{Catalogue, Stage, Wait, turns};

/// A house and the year's weather on its faces, worked out once for all stages, and only if one of
/// them asks: after an edit that leaves the house alone none does.
pub(crate) struct Staged<'a> {
    job: &'a Job,
    model: &'a Model,
    weather: &'a Weather,
    glasses: Vec<Glass>,
    /// The air alone.
    air: Drive,
    /// The faces too; and in parts of an hour, where thermostats want them.
    drive: OnceLock<Result<Drive, WeatherError>>,
    finer: OnceLock<Drive>,
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
            finer: OnceLock::new(),
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
        let (mut ideal, mut now) = (None, None);
        let mut chosen: Vec<_> = choices.iter().map(|_| None).collect();
        let mut works = Vec::new();
        if kept.ideal().is_none() {
            works.push(turns::year(|| self.begin_ideal(), &mut ideal));
        }
        // Years with equipment are only for a job with a head somewhere.
        let first = choices.iter().find(|c| !c.equipment.heads.is_empty());
        if let Some(first) = first {
            for (choice, came) in choices.iter().zip(&mut chosen) {
                if kept.year(choice).is_none() {
                    let begin = || {
                        season::Running::of_choice(&self.input(self.drive()?, catalogue, choice))
                    };
                    works.push(turns::year(begin, came));
                }
            }
            if let Some(existing) = self
                .job
                .existing
                .as_ref()
                .filter(|_| kept.baseline().is_none())
            {
                let begin = || {
                    let input = self.input(self.drive()?, catalogue, first);
                    season::Running::of_now(&input, existing)
                };
                works.push(turns::year(begin, &mut now));
            }
        }
        // To ask the machine takes longer than a small edit should.
        let threads = if works.is_empty() { 1 } else { season::cores() };
        let loads = season::by_turns(threads, works, || self.loads(site, kept, book));
        let ideal = ideal.map(|came| came.map(|year| gathered(self.model, year)));
        let ideal = match ideal.or_else(|| kept.ideal().cloned().map(Ok)) {
            Some(Ok(year)) => {
                year.write(self.weather, book);
                Stage::Done(year)
            }
            Some(Err(why)) => refused(&why),
            None => Stage::Waiting(Vec::new()),
        };
        let years = choices.iter().zip(chosen).filter_map(|(choice, came)| {
            let year = came.or_else(|| kept.year(choice).cloned().map(Ok))?;
            Some((choice.name.clone(), year))
        });
        let baseline = match now {
            Some(year) => year.map(Some),
            None => Ok(kept.baseline().cloned().flatten()),
        };
        let compared = first.map(|_| {
            baseline.map(|baseline| Comparison {
                baseline,
                years: years.collect(),
            })
        });
        let season = self.season(compared, catalogue, choices, book, findings);
        (loads, ideal, season)
    }

    /// The year with ideal heating and cooling, begun.
    fn begin_ideal(&self) -> Result<house::ideal::Running<'_>, HeatError> {
        let hourly = self.drive()?;
        let steps = ideal_steps(self.model);
        let drive = if steps > 1 {
            self.finer.get_or_init(|| hourly.finer(steps))
        } else {
            hourly
        };
        house::ideal::Running::new(self.model, &self.glasses, drive, Doors::AsUsual)
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
        let mut cooling = if let Some(cooling) = kept.cooling() {
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
        // What is told of a year and found in it rests on the year alone, not on the faces.
        let input = |choice| self.input(&self.air, catalogue, choice);
        if let (Some(now), Some(first)) = (&comparison.baseline, choices.first())
            && let Err(why) = season::explain(&input(first), now, book)
        {
            return refused(&why);
        }
        for (at, (choice, (_, year))) in choices.iter().zip(&comparison.years).enumerate() {
            let Ok(year) = year else { continue };
            let input = input(choice);
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
