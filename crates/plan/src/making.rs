//! The plan: every stage in its order.

use climate::Weather;
use house::balance::Doors;
use house::loads::{CoolingLoads, Design, HeatingLoads, PaneComfort, RoomFloat};
use house::model::Model;
use jobfile::{Job, Places};
use reckon::Book;
use season::{Comparison, Year};
use units::Dim;

use crate::before::Kept;
use crate::find::{self, Numbered};
use crate::site::Site;
use crate::staged::Staged;
use crate::year::IdealYear;
use crate::{Before, Catalogue, Chosen, Stage, Wait, equipment};

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
    /// The installation designed: places, lines, charge, drain, wires, list.
    pub install: Stage<install::Installation>,
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

    /// Every path that the job itself writes down, in order.
    pub(crate) fn paths_of_job(&self) -> impl Iterator<Item = &str> {
        self.places.paths()
    }

    /// The year of the chosen equipment, where there is one.
    pub fn year(&self) -> Option<&Year> {
        let (_, year) = self
            .season
            .done()?
            .years
            .iter()
            .find(|(name, _)| name == jobfile::CHOSEN)?;
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
            self.install.waits(),
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
    plan_after(job, catalogue, weather, Years::All, None)
}

/// As [`plan`], without the years of the options: for an answer that does not show them. Their
/// sheets are looked at all the same.
pub fn plan_of_chosen(job: &Job, catalogue: &Catalogue, weather: &Weather) -> Plan {
    plan_after(job, catalogue, weather, Years::Chosen, None)
}

/// Whose years with equipment a plan has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Years {
    /// Of what is chosen and of every option.
    All,
    /// Of what is chosen.
    Chosen,
}

/// As [`plan`] or [`plan_of_chosen`], after an edit of a job whose plan is at hand: years that the
/// edit does not touch are taken over. The same plan to the bit.
pub fn plan_after(
    job: &Job,
    catalogue: &Catalogue,
    weather: &Weather,
    years: Years,
    before: Option<&Before<'_>>,
) -> Plan {
    let mut choices = job.choices();
    if years == Years::Chosen {
        choices.truncate(1);
    }
    let mut book = Book::new();
    let site = Site::new(job, weather, &mut book);
    let model = model_stage(job);
    let mut findings = find::own(job, &site, model.done());
    let (chosen, of_sheets) = equipment::all(job, catalogue);
    findings.extend(of_sheets);
    let (loads, ideal, season) = match &model {
        Stage::Done(model) => {
            let of = Staged::new(job, model, weather);
            let kept = Kept::of(before, job, catalogue, weather, model);
            of.run(&site, catalogue, &choices, &kept, &mut book, &mut findings)
        }
        Stage::Waiting(_) => (waiting(&model), waiting(&model), waiting(&model)),
    };
    if let Some(loads) = loads.done() {
        find::sizes_beside(loads, job.units, &mut findings);
    }
    let install = crate::installed::stage(
        &crate::installed::Before {
            job,
            catalogue,
            model: &model,
            loads: &loads,
            season: &season,
            weather,
            design_c: site.heating.used_c,
        },
        &mut book,
        &mut findings,
    );
    Plan {
        name: job.name.clone(),
        stage: job.stage.word(),
        site,
        model,
        loads,
        ideal,
        season,
        install,
        chosen,
        book,
        findings: find::numbered(findings),
        places: job.places.clone(),
    }
}

/// A later stage waits for what an earlier one waits for.
pub(crate) fn waiting<A, B>(of: &Stage<A>) -> Stage<B> {
    Stage::Waiting(of.waits().to_vec())
}

pub(crate) fn refused<T>(why: &dyn std::fmt::Display) -> Stage<T> {
    Stage::Waiting(vec![Wait::new(
        why.to_string(),
        "construction",
        "Mend what the message names.",
    )])
}

pub(crate) fn model_stage(job: &Job) -> Stage<Model> {
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
