//! The plan: every stage in its order.

use climate::Weather;
use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::loads::{self, CoolingLoads, Design, HeatingLoads, LoadError, PaneComfort, RoomFloat};
use house::model::Model;
use jobfile::{Job, Places};
use reckon::{Book, Finding, Known, Source};
use season::{Comparison, Input, Year};
use units::Dim;

use crate::find::{self, Numbered};
use crate::site::{DesignFrom, Site};
use crate::year::{IdealYear, ideal_year};
use crate::{Catalogue, Chosen, Stage, Wait, equipment};

/// Design loads and what follows from them.
#[derive(Debug, Clone, PartialEq)]
pub struct Loads {
    /// Conditions.
    pub design: Design,
    /// Heating.
    pub heating: HeatingLoads,
    /// Cooling.
    pub cooling: CoolingLoads,
    /// Rooms without a head, at design, 10 F and 30 F; empty where no head is chosen.
    pub floats: Vec<RoomFloat>,
    /// Windows.
    pub glass: Vec<PaneComfort>,
}

/// Everything computed from a job.
#[derive(Debug, Clone)]
pub struct Plan {
    /// Name of the job.
    pub name: String,
    /// How far the job is, as a word.
    pub stage: &'static str,
    /// The site.
    pub site: Site,
    /// The house as the balance sees it.
    pub model: Stage<Model>,
    /// Design loads.
    pub loads: Stage<Loads>,
    /// The year with ideal heating and cooling.
    pub ideal: Stage<IdealYear>,
    /// The year with equipment: what is there now, what is chosen, and the options.
    pub season: Stage<Comparison>,
    /// Equipment: the chosen one first, then options.
    pub chosen: Vec<Chosen>,
    /// Every figure.
    pub book: Book,
    /// Every finding, loudest first, numbered.
    pub findings: Vec<Numbered>,
    places: Places,
}

impl Plan {
    /// Path and line of a place of the job file as a source names it. A place may be a path, or
    /// words such as `room living`.
    pub fn place_in_job(&self, place: &str) -> (String, Option<usize>) {
        let known = |path: &str| self.places.of(path).map(|s| s.line);
        if let Some(line) = known(place) {
            return (place.to_owned(), Some(line));
        }
        let path = place.replacen(' ', ".", 1);
        match known(&path) {
            Some(line) => (path, Some(line)),
            None => (place.to_owned(), None),
        }
    }

    /// The year of the chosen equipment, where there is one.
    pub fn year(&self) -> Option<&Year> {
        let (_, year) = self
            .season
            .done()?
            .years
            .iter()
            .find(|(name, _)| name == "chosen")?;
        year.as_ref().ok()
    }

    /// What the plan waits for.
    pub fn waits(&self) -> Vec<&Wait> {
        let mut all: Vec<&Wait> = Vec::new();
        let stages = [
            self.model.waits(),
            self.loads.waits(),
            self.ideal.waits(),
            self.season.waits(),
        ];
        for w in stages.into_iter().flatten() {
            if !all.contains(&w) {
                all.push(w);
            }
        }
        all
    }
}

/// Makes the plan of a job. Pure: the same inputs give the same plan, to the bit.
pub fn plan(job: &Job, catalogue: &Catalogue, weather: &Weather) -> Plan {
    let mut book = Book::new();
    let site = Site::new(job, weather, &mut book);
    let mut findings = find::own(job, &site);
    let model = model_stage(job);
    let (chosen, of_sheets) = equipment::all(job, catalogue);
    findings.extend(of_sheets);
    let mut ideal = Stage::Waiting(model.waits().to_vec());
    let mut loads = Stage::Waiting(model.waits().to_vec());
    let mut season = Stage::Waiting(model.waits().to_vec());
    if let Stage::Done(model) = &model {
        loads = loads_stage(job, model, weather, &site, &mut book);
        ideal = match ideal_year(model, weather) {
            Ok(year) => {
                year.write(&mut book);
                Stage::Done(year)
            }
            Err(why) => refused(&why),
        };
        season = season_stage(job, model, catalogue, weather, &mut book, &mut findings);
    }
    Plan {
        name: job.name.clone(),
        stage: job.stage.word(),
        site,
        model,
        loads,
        ideal,
        season,
        chosen,
        book,
        findings: find::numbered(findings),
        places: job.places.clone(),
    }
}

fn refused<T>(why: &dyn std::fmt::Display) -> Stage<T> {
    Stage::Waiting(vec![Wait::new(
        why.to_string(),
        "construction",
        "Mend what the message names.",
    )])
}

fn model_stage(job: &Job) -> Stage<Model> {
    if job.house.rooms.is_empty() {
        return Stage::Waiting(vec![Wait::new(
            "the rooms of the house",
            "room",
            "Measure the outlines and add a [[room]] for each.",
        )]);
    }
    match house::geometry::model(&job.house) {
        Ok(model) => Stage::Done(model),
        Err(errors) => Stage::Waiting(
            errors
                .iter()
                .map(|e| {
                    Wait::new(
                        format!("{}: {}", e.what, e.got),
                        e.place.clone(),
                        e.mend.clone(),
                    )
                })
                .collect(),
        ),
    }
}

/// Share of the coldest hours whose mean wind stands for the design night.
const COLD_SHARE: f64 = 0.01;

/// Mean wind at the leaks in the coldest hundredth of the hours, m/s.
fn design_wind(drive: &Drive) -> f64 {
    let mut hours: Vec<(f64, f64)> = drive
        .outdoor_c
        .iter()
        .copied()
        .zip(drive.wind_m_per_s.iter().copied())
        .collect();
    hours.sort_by(|a, b| a.0.total_cmp(&b.0));
    let n = ((hours.len() as f64 * COLD_SHARE) as usize).max(1);
    hours.iter().take(n).map(|(_, w)| w).sum::<f64>() / n as f64
}

fn loads_stage(
    job: &Job,
    model: &Model,
    weather: &Weather,
    site: &Site,
    book: &mut Book,
) -> Stage<Loads> {
    if model.zones.iter().all(|z| z.heated.is_none()) {
        return Stage::Waiting(vec![Wait::new(
            "a heating setting in at least one room",
            "room",
            "Write heated_to = \"70 F\" in the rooms that are to be warm.",
        )]);
    }
    match loads_of(job, model, weather, site, book) {
        Ok(loads) => Stage::Done(loads),
        Err(why) => refused(&why),
    }
}

fn loads_of(
    job: &Job,
    model: &Model,
    weather: &Weather,
    site: &Site,
    book: &mut Book,
) -> Result<Loads, LoadError> {
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = Drive::new(model, &glasses, weather).map_err(house::ideal::HeatError::from)?;
    let from = book.get("site.design.heating").map(|f| f.source.clone());
    let design = Design {
        outdoor_c: site.heating.used_c,
        outdoor_source: from.unwrap_or_else(|| Source::new("weather", "hours")),
        outdoor_known: match site.heating.from {
            DesignFrom::Typed(_) => None,
            DesignFrom::Header(_) => Some(Known::Label),
            DesignFrom::Hours => Some(Known::Assumed),
        },
        wind_m_per_s: design_wind(&drive),
        wind_source: Source::new("weather", "mean wind of the coldest hundredth of the hours"),
        air_j_per_m3k: drive.air_j_per_m3k,
        monthly_outdoor_c: drive.monthly_outdoor_c,
    };
    let (heating, steady) = loads::heating(model, &glasses, &design, book)?;
    let cooling = loads::cooling(model, &glasses, &drive, weather, book)?;
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
    let glass = loads::glass(model, &glasses, book)?;
    Ok(Loads {
        design,
        heating,
        cooling,
        floats,
        glass,
    })
}

fn season_stage(
    job: &Job,
    model: &Model,
    catalogue: &Catalogue,
    weather: &Weather,
    book: &mut Book,
    findings: &mut Vec<Finding>,
) -> Stage<Comparison> {
    let choices = job.choices();
    let Some(first) = choices.iter().find(|c| !c.equipment.heads.is_empty()) else {
        return Stage::Waiting(vec![Wait::new(
            "the heads and outdoor units",
            "head",
            "Choose units from the catalogue: an [[outdoor]] and a [[head]] for each.",
        )]);
    };
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = match Drive::new(model, &glasses, weather) {
        Ok(drive) => drive,
        Err(why) => return refused(&why),
    };
    let input = Input {
        job,
        model,
        glasses: &glasses,
        drive: &drive,
        weather,
        catalogue: catalogue.sheets(),
        choice: first,
        doors: Doors::AsUsual,
    };
    let comparison = match season::compare(&input) {
        Ok(comparison) => comparison,
        Err(why) => return refused(&why),
    };
    for (name, year) in &comparison.years {
        let (Some(choice), Ok(year)) = (choices.iter().find(|c| c.name == *name), year) else {
            continue;
        };
        let of = Input { choice, ..input };
        if let Err(why) = season::explain(&of, year, book) {
            return refused(&why);
        }
        // The options are there to be compared; only what is chosen is to be mended.
        if choice.name == first.name {
            findings.extend(season::findings(&of, year));
        }
    }
    Stage::Done(comparison)
}

impl Loads {
    /// Temperature of a room without a head, C: at `at_c` outdoors with the doors so.
    pub fn float_c(&self, room: &str, outdoor_c: f64, doors: Doors) -> Option<f64> {
        self.floats
            .iter()
            .find(|f| f.room == room && f.doors == doors && (f.outdoor_c - outdoor_c).abs() < 1e-9)
            .map(|f| f.air_c)
    }
}

/// How a figure of the plan prints, for callers that have only its key.
impl Plan {
    /// A value and its kind by key.
    pub fn value(&self, key: &str) -> Option<(f64, Dim)> {
        self.book.get(key).map(|f| (f.value, f.dim))
    }
}
