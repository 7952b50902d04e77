//! The plan before an edit: what the edit leaves alone need not be worked out again.

use climate::Weather;
use house::loads::CoolingLoads;
use house::model::Model;
use jobfile::{Choice, Job};
use season::{Comparison, Year};

use crate::making::Loads;
use crate::year::IdealYear;
use crate::{Catalogue, Plan};

/// A job and its plan as they were before an edit.
#[derive(Debug, Clone, Copy)]
pub struct Before<'a> {
    /// The job.
    pub job: &'a Job,
    /// The sheets it was planned with.
    pub catalogue: &'a Catalogue,
    /// The weather it was planned on.
    pub weather: &'a Weather,
    /// Its plan.
    pub plan: &'a Plan,
}

/// The years of a plan before that are also the years of this one.
#[derive(Default)]
pub(crate) struct Kept<'a> {
    ideal: Option<&'a IdealYear>,
    loads: Option<&'a Loads>,
    years: Option<(&'a Comparison, Vec<Choice>)>,
}

/// The same thing; that it stands in the same place says so at once.
fn same<T: PartialEq>(a: &T, b: &T) -> bool {
    std::ptr::eq(a, b) || a == b
}

/// Whether everything of the job that a year with equipment reads is the same, but for the
/// choice, the house and the weather. What `season` reads of a job stands here; a test edits
/// every value of a job and holds the plan with a plan before against the plan without.
fn read_alike(a: &Job, b: &Job) -> bool {
    a.existing == b.existing
        && a.backup == b.backup
        && a.prices == b.prices
        && a.habits == b.habits
        && a.place.heating_design == b.place.heating_design
        && a.place.elevation_m == b.place.elevation_m
}

impl<'a> Kept<'a> {
    /// What stays.
    pub fn of(
        before: Option<&Before<'a>>,
        job: &Job,
        catalogue: &Catalogue,
        weather: &Weather,
        model: &Model,
    ) -> Self {
        let Some(before) = before else {
            return Self::default();
        };
        let house = before.plan.model.done().is_some_and(|m| m == model);
        if !house || !same(before.weather, weather) {
            return Self::default();
        }
        let alike = read_alike(before.job, job) && same(before.catalogue, catalogue);
        let years = before.plan.season.done().filter(|_| alike);
        Self {
            ideal: before.plan.ideal.done(),
            loads: before.plan.loads.done(),
            years: years.map(|y| (y, before.job.choices())),
        }
    }

    /// The year with ideal heating and cooling.
    pub fn ideal(&self) -> Option<&'a IdealYear> {
        self.ideal
    }

    /// The cooling loads: of the days of a year, like the ideal year.
    pub fn cooling(&self) -> Option<&'a CoolingLoads> {
        self.loads.map(|loads| &loads.cooling)
    }

    /// The year with what heats the house now; the inner is none where nothing does.
    pub fn baseline(&self) -> Option<&'a Option<Year>> {
        self.years.as_ref().map(|(y, _)| &y.baseline)
    }

    /// The year of a choice.
    pub fn year(&self, of: &Choice) -> Option<&'a Year> {
        let (years, choices) = self.years.as_ref()?;
        let (_, (_, year)) = choices.iter().zip(&years.years).find(|(c, _)| *c == of)?;
        year.as_ref().ok()
    }
}
