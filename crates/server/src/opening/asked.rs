//! What job and sheets ask on the day, so that nobody types it again.

use heatpump::{Head, System};
use install::{NoSheet, OnTheDay};
use jobfile::Job;
use plan::Catalogue;
use serde::Serialize;
use utoipa::ToSchema;

use crate::given::short;
use crate::refused::Refused;

/// When a sheet calls an evacuation done.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct VacuumView {
    /// Pump down to this, Pa absolute.
    pub reach_pa: f64,
    /// Not above this in the hold, Pa absolute.
    pub limit_pa: f64,
    /// Hold with the pump shut off, s.
    pub hold_s: f64,
}

/// The line to a head.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LineOfHead {
    /// Head by its name in the job.
    pub head: String,
    /// Liquid tube, outside, m; null where neither job nor sheet says.
    pub liquid_m: Option<f64>,
    /// Gas tube, outside, m.
    pub gas_m: Option<f64>,
    /// Length, m, as built where that is known.
    pub length_m: Option<f64>,
    /// Refrigerant side of the coil, m3.
    pub coil_m3: Option<f64>,
    /// Air speeds that the sheet gives a flow for.
    pub speeds: usize,
}

/// An outdoor unit and what is asked of it on the day.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UnitView {
    /// Name in the job.
    pub outdoor: String,
    /// Name of its sheet.
    pub unit: String,
    /// Refrigerant; null where the sheet gives none that is known.
    pub refrigerant: Option<String>,
    /// It burns.
    pub burns: bool,
    /// Lines to its heads.
    pub lines: Vec<LineOfHead>,
    /// Lowest of what the plates allow, Pa above the air.
    pub plate_pa: Option<f64>,
    /// Test pressure planned, Pa above the air.
    pub target_pa: Option<f64>,
    /// What the sheet asks of the vacuum.
    pub vacuum: Option<VacuumView>,
    /// Charge from the factory, kg.
    pub factory_kg: Option<f64>,
    /// What the lines ask for, signed, kg.
    pub trim_kg: Option<f64>,
    /// Most the sheet allows, kg.
    pub most_kg: Option<f64>,
    /// Superheat in the test mode, least and most, K.
    pub superheat_k: Option<(f64, f64)>,
    /// Subcooling in the test mode, least and most, K.
    pub subcooling_k: Option<(f64, f64)>,
    /// Page of the sheet that asks.
    pub page: Option<String>,
}

/// A unit with its sheets.
#[derive(Debug)]
pub struct Unit {
    /// As it is shown.
    pub view: UnitView,
    /// What is asked of it.
    pub asked: OnTheDay,
}

/// All units of a job.
#[derive(Debug)]
pub struct Asked {
    /// Units whose sheets are there.
    pub units: Vec<Unit>,
    /// What is missing.
    pub notes: Vec<String>,
}

impl Asked {
    /// Reads it from job and sheets.
    pub fn of(job: &Job, catalogue: &Catalogue) -> Result<Self, Refused> {
        let sheets = catalogue.sheets();
        let book = install::lines_and_charge(job, sheets).map_err(Refused::defect)?;
        let (mut units, mut notes) = (Vec::new(), Vec::new());
        for o in &job.equipment.outdoors {
            match OnTheDay::of(job, sheets, &book, o) {
                Ok(asked) => units.push(Unit {
                    view: UnitView::of(&asked),
                    asked,
                }),
                Err(NoSheet { outdoor, .. }) => {
                    notes.push(format!(
                        "{outdoor}: a data sheet of it is not in the catalogue"
                    ));
                }
            }
        }
        if job.equipment.outdoors.is_empty() {
            notes.push("The job names no outdoor unit.".to_owned());
        }
        Ok(Self { units, notes })
    }

    /// One unit by its name in the job.
    pub fn one(&self, outdoor: &str) -> Result<&Unit, Refused> {
        let found = self.units.iter().find(|u| u.view.outdoor == outdoor);
        found.ok_or_else(|| {
            let names: Vec<&str> = self.units.iter().map(|u| u.view.outdoor.as_str()).collect();
            Refused::bad("the job has no such outdoor unit with a sheet")
                .got(short(outdoor))
                .allowed(names.join(", "))
                .mend(self.notes.join("; "))
        })
    }
}

impl UnitView {
    fn of(asked: &OnTheDay) -> Self {
        let start_up = &asked.unit.start_up;
        let lines = asked
            .lines
            .iter()
            .zip(&asked.heads)
            .map(|(line, (_, sheet))| LineOfHead {
                head: line.head.clone(),
                liquid_m: line.liquid_m,
                gas_m: line.gas_m,
                length_m: line.length_m,
                coil_m3: line.coil_m3,
                speeds: Head::new(sheet.clone()).map_or(0, |h| h.data.air_m3_per_s.len()),
            });
        let fluid = asked.refrigerant;
        Self {
            outdoor: asked.outdoor.clone(),
            unit: asked.unit.name.clone(),
            refrigerant: fluid.map(|f| f.name().to_owned()),
            burns: fluid.is_some_and(|f| f.lower_flammability_kg_per_m3().is_some()),
            lines: lines.collect(),
            plate_pa: asked.plate_pa,
            target_pa: asked.target_pa,
            vacuum: start_up.vacuum.map(|v| VacuumView {
                reach_pa: v.reach_pa,
                limit_pa: v.limit_pa,
                hold_s: v.hold_s,
            }),
            factory_kg: asked.factory_kg,
            trim_kg: asked.trim_kg,
            most_kg: asked.most_kg,
            superheat_k: start_up.superheat_k,
            subcooling_k: start_up.subcooling_k,
            page: start_up.page.clone(),
        }
    }
}

impl Unit {
    /// The system with one head running, or all.
    pub fn system(&self, only: Option<&str>) -> Result<System, Refused> {
        let system = self.asked.system(only);
        system.map_err(|e| Refused::bad(e.to_string()))
    }
}
