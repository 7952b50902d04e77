//! What job and sheets ask on the day, so that nobody types it again.

use heatpump::{Head, OutdoorUnit, Sheet, System};
use install::Input;
use jobfile::Job;
use physics::refrigerant::Refrigerant;
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
    /// Its refrigerant.
    pub fluid: Option<Refrigerant>,
    /// Height of the place above the sea, m.
    pub elevation_m: Option<f64>,
    /// Part of the cooling that the gas line costs, by head.
    pub cost_share: Vec<(String, f64)>,
    sheet: Sheet,
    heads: Vec<(String, Sheet)>,
}

/// All units of a job.
#[derive(Debug)]
pub struct Asked {
    /// Units whose sheets are there.
    pub units: Vec<Unit>,
    /// What is missing.
    pub notes: Vec<String>,
}

fn least(all: impl Iterator<Item = f64>) -> Option<f64> {
    all.reduce(f64::min)
}

impl Asked {
    /// Reads it from job and sheets.
    pub fn of(job: &Job, catalogue: &Catalogue) -> Result<Self, Refused> {
        // only lengths and the charge are read from it; they rest on neither house nor year
        let input = Input {
            job,
            catalogue: catalogue.sheets(),
            model: None,
            year: None,
            glass: &[],
            winter_wind_deg: None,
            design_c: 0.0,
        };
        let done = install::installation(&input).map_err(Refused::defect)?;
        let value = |key: String| done.book.value(&key);
        let (mut units, mut notes) = (Vec::new(), Vec::new());
        for o in &job.equipment.outdoors {
            let chosen: Vec<_> = job.equipment.heads_on(&o.name).collect();
            let (Some(sheet), Some(heads)) = (
                catalogue.get(&o.unit).cloned(),
                chosen
                    .iter()
                    .map(|h| Some((h.name.clone(), catalogue.get(&h.unit)?.clone())))
                    .collect::<Option<Vec<_>>>(),
            ) else {
                notes.push(format!(
                    "{}: a data sheet of it is not in the catalogue",
                    o.name
                ));
                continue;
            };
            let rows = &job.installation.lines;
            let lines = heads.iter().map(|(head, s)| {
                let line = rows.iter().find(|l| &l.head == head);
                LineOfHead {
                    head: head.clone(),
                    liquid_m: line.and_then(|l| l.liquid_m).or(sheet.lines.liquid_m),
                    gas_m: line.and_then(|l| l.gas_m).or(sheet.lines.gas_m),
                    length_m: value(format!("lines.{head}.length")),
                    coil_m3: s.start_up.coil_m3,
                    speeds: Head::new(s.clone()).map_or(0, |h| h.data.air_m3_per_s.len()),
                }
            });
            let lines: Vec<LineOfHead> = lines.collect();
            let mine = |head: &String| heads.iter().any(|(h, _)| h == head);
            let fluid = sheet.refrigerant.as_deref();
            let fluid = fluid.and_then(|n| Refrigerant::ALL.into_iter().find(|r| r.name() == n));
            let charge = |what: &str| value(format!("charge.{}.{what}", o.name));
            let plates = std::iter::once(&sheet).chain(heads.iter().map(|h| &h.1));
            units.push(Unit {
                view: UnitView {
                    outdoor: o.name.clone(),
                    unit: o.unit.clone(),
                    refrigerant: fluid.map(|f| f.name().to_owned()),
                    burns: fluid.is_some_and(|f| f.lower_flammability_kg_per_m3().is_some()),
                    plate_pa: least(plates.filter_map(|s| s.plate.high_side_pa)),
                    target_pa: least(
                        rows.iter()
                            .filter(|l| mine(&l.head))
                            .filter_map(|l| l.test_pa),
                    ),
                    vacuum: sheet.start_up.vacuum.map(|v| VacuumView {
                        reach_pa: v.reach_pa,
                        limit_pa: v.limit_pa,
                        hold_s: v.hold_s,
                    }),
                    factory_kg: charge("factory"),
                    trim_kg: charge("to-weigh"),
                    most_kg: charge("most"),
                    superheat_k: sheet.start_up.superheat_k,
                    subcooling_k: sheet.start_up.subcooling_k,
                    page: sheet.start_up.page.clone(),
                    lines,
                },
                fluid,
                elevation_m: job.place.elevation_m,
                cost_share: heads
                    .iter()
                    .filter_map(|(h, _)| {
                        Some((h.clone(), value(format!("lines.{h}.capacity-cost"))?))
                    })
                    .collect(),
                sheet,
                heads,
            });
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

impl Unit {
    /// The system with one head running, or all.
    pub fn system(&self, only: Option<&str>) -> Result<System, Refused> {
        let unfit = |e: heatpump::NotASystem| Refused::bad(e.to_string());
        let mut heads = Vec::new();
        for (name, sheet) in &self.heads {
            if only.is_none_or(|o| o == name) {
                heads.push(Head::new(sheet.clone()).map_err(unfit)?);
            }
        }
        let outdoor = OutdoorUnit::new(self.sheet.clone()).map_err(unfit)?;
        System::new(outdoor, heads).map_err(unfit)
    }
}
