//! The installation: where things go, the lines and their charge, the drain, the wires, the list.
//!
//! [`installation`] takes the job, its sheets and the season and gives figures, judgements and
//! findings. Every requirement is judged *holds*, *fails* or *cannot tell*; what nobody measured
//! is never passed over. Editions of codes come from the job, with a default and a printed name.
//! The unit's own sheet and local code win over every rule here.

mod charge;
mod desk;
mod drain;
mod indoors;
mod lines;
mod list;
mod on_the_day;
mod outdoors;
mod rules;
mod suggest;
mod wires;

use heatpump::Sheet;
use house::model::Model;
use jobfile::{HeadChoice, Job, OutdoorChoice};
use reckon::{Book, Finding};
use season::{Catalogue, Year};
use serde::Serialize;

pub use desk::{Desk, Judged, Rule};
pub use list::{Item, List};
pub use on_the_day::{LineToHead, NoSheet, OnTheDay, lines_and_charge};
pub use outdoors::yard::Spot as UnitOnPlan;
pub use rules::{Rules, rule_texts};
pub use suggest::{Position, Suggested, suggest};

/// What the stage rests on.
#[derive(Debug, Clone, Copy)]
pub struct Input<'a> {
    /// Job.
    pub job: &'a Job,
    /// Sheets.
    pub catalogue: &'a Catalogue,
    /// House, where there is one.
    pub model: Option<&'a Model>,
    /// Year of the chosen equipment, where there is one.
    pub year: Option<&'a Year>,
    /// Glass of heated rooms on the design night, where the loads are done.
    pub glass: &'a [house::loads::PaneComfort],
    /// Where the winter wind comes from, compass degrees, where the weather tells.
    pub winter_wind_deg: Option<f64>,
    /// Heating design temperature, C.
    pub design_c: f64,
}

impl<'a> Input<'a> {
    fn sheet(&self, name: &str) -> Option<&'a Sheet> {
        self.catalogue.get(name)
    }

    fn outdoors(&self) -> impl Iterator<Item = (&'a OutdoorChoice, Option<&'a Sheet>)> {
        let catalogue = self.catalogue;
        let all = self.job.equipment.outdoors.iter();
        all.map(move |o| (o, catalogue.get(&o.unit)))
    }

    fn heads_on(&self, outdoor: &'a str) -> impl Iterator<Item = &'a HeadChoice> {
        self.job.equipment.heads_on(outdoor)
    }
}

/// The parts of the installation.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Installation {
    /// Indoors and outdoors.
    pub place: Vec<Judged>,
    /// Lines, charge and drain.
    pub lines: Vec<Judged>,
    /// Wires and panel.
    pub wires: Vec<Judged>,
    /// Text of the refrigerant label, by outdoor unit.
    pub labels: Vec<String>,
    /// What to bring.
    pub list: List,
    /// As-built values and what they changed.
    pub changed: Vec<String>,
    /// Heads by name, and the plan directions each blows, degrees.
    #[serde(skip)]
    pub ways: Vec<(String, Vec<f64>)>,
    /// Outdoor units by name, where they stand on the plan.
    #[serde(skip)]
    pub spots: Vec<(String, UnitOnPlan)>,
    /// Figures.
    #[serde(skip)]
    pub book: Book,
    /// Findings.
    #[serde(skip)]
    pub findings: Vec<Finding>,
}

/// Works the installation out. Pure.
///
/// # Errors
/// Rule files or formulas of the program that do not read: defects, in words.
pub fn installation(input: &Input<'_>) -> Result<Installation, String> {
    let rules = Rules::shipped().map_err(|e| format!("rule file: {e}"))?;
    let mut desk = Desk::new(input.job.units);
    let ways = indoors::judge(input, &rules.indoors, &mut desk);
    let spots = outdoors::judge(input, &rules, &mut desk);
    let place = std::mem::take(&mut desk.judged);
    lines::judge(input, &mut desk, &spots);
    let labels = charge::judge(input, &rules, &mut desk);
    drain::judge(input, &mut desk);
    let lines = std::mem::take(&mut desk.judged);
    wires::judge(input, &rules, &mut desk);
    let wires = std::mem::take(&mut desk.judged);
    let list = list::list(input, &mut desk);
    let changed = list::changed(input, &desk);
    if let Some(defect) = desk.defects.first() {
        return Err(defect.to_string());
    }
    Ok(Installation {
        place,
        lines,
        wires,
        labels,
        list,
        changed,
        ways,
        spots,
        book: desk.book,
        findings: desk.findings,
    })
}
