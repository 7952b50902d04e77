//! What the job file and the sheets say, so that nobody types it again on the day.

use std::path::Path;

use heatpump::{Head, OutdoorUnit, Sheet, System};
use install::Input;
use jobfile::{AsBuiltValue, Job};
use physics::refrigerant::Refrigerant;
use physics::tube::Tube;

use crate::arguments::Usual;
use crate::files;
use crate::refusal::{Fault, Refusal};

/// The line to one head.
pub struct HeadLine {
    /// Head by its name in the job.
    pub head: String,
    /// Liquid and gas tube; `None` where neither job nor sheet says.
    pub tubes: Option<(Tube, Tube)>,
    /// Length, m, as built where that is known.
    pub length_m: Option<f64>,
    /// It is as built.
    pub built: bool,
    /// Refrigerant side of the head's coil by its sheet, m3.
    pub coil_m3: Option<f64>,
    /// Part of the cooling that the gas line costs, 0 to 1.
    pub cost_share: Option<f64>,
}

/// What is taken from the job.
pub struct FromJob {
    /// Path as the person would name it.
    pub shown: String,
    /// Name of the outdoor unit in the job.
    pub outdoor: String,
    /// Its sheet.
    pub unit: Sheet,
    /// Heads with their sheets.
    pub heads: Vec<(String, Sheet)>,
    /// Lines.
    pub lines: Vec<HeadLine>,
    /// Height above the sea, m.
    pub elevation_m: Option<f64>,
    /// Refrigerant of the sheet.
    pub refrigerant: Option<Refrigerant>,
    /// Lowest of what the plates allow, Pa above the air.
    pub plate_pa: Option<f64>,
    /// Test pressure planned, Pa above the air.
    pub target_pa: Option<f64>,
    /// Charge from the factory, kg.
    pub factory_kg: Option<f64>,
    /// To weigh in, signed, kg.
    pub trim_kg: Option<f64>,
    /// Most the sheet allows, kg.
    pub most_kg: Option<f64>,
    /// Instruments and the last day of their calibration, days since 1970.
    pub tools: Vec<(String, Option<i64>)>,
}

fn tube(outside_m: f64) -> Option<Tube> {
    Tube::ALL
        .into_iter()
        .find(|t| (t.outside_m() - outside_m).abs() < 2e-4)
}

impl FromJob {
    /// Reads job and sheets; `on` is the outdoor unit, where the job has several.
    pub fn read(path: &Path, on: Option<&str>, usual: &Usual) -> Result<Self, Refusal> {
        let shown = path.display().to_string();
        let job: Job = files::job(path)?;
        let catalogue = files::catalogue(path, usual)?;
        let outdoors = &job.equipment.outdoors;
        let names = || {
            let all: Vec<&str> = outdoors.iter().map(|o| o.name.as_str()).collect();
            all.join(", ")
        };
        let chosen = match on {
            Some(name) => outdoors.iter().find(|o| o.name == name),
            None if outdoors.len() == 1 => outdoors.first(),
            None => None,
        };
        let Some(outdoor) = chosen else {
            return Err(Fault::flag("on", "the job has no such outdoor unit")
                .got(on.unwrap_or("nothing"))
                .allowed(names())
                .mend(format!("on = \"...\" with an outdoor unit of {shown}"))
                .into());
        };
        let sheet = |name: &str| {
            catalogue.get(name).cloned().ok_or_else(|| {
                Refusal::from(
                    Fault::file(&shown, format!("there is no data sheet of {name}")).mend(
                        "add its sheet to the catalogue, or name the folder with --catalogue",
                    ),
                )
            })
        };
        let unit = sheet(&outdoor.unit)?;
        let mut heads = Vec::new();
        for head in job.equipment.heads_on(&outdoor.name) {
            heads.push((head.name.clone(), sheet(&head.unit)?));
        }
        // Only lengths and the charge are read from it; they rest on neither house nor year.
        let input = Input {
            job: &job,
            catalogue: catalogue.sheets(),
            model: None,
            year: None,
            glass: &[],
            winter_wind_deg: None,
            design_c: 0.0,
        };
        let done = install::installation(&input).map_err(|why| Fault::file(&shown, why))?;
        let value = |key: String| done.book.value(&key);
        let all = &job.installation.lines;
        let lines: Vec<HeadLine> = heads
            .iter()
            .map(|(head, sheet)| {
                let line = all.iter().find(|l| &l.head == head);
                let liquid = line.and_then(|l| l.liquid_m).or(unit.lines.liquid_m);
                let gas = line.and_then(|l| l.gas_m).or(unit.lines.gas_m);
                let path = format!("head.{head}.line_length");
                HeadLine {
                    head: head.clone(),
                    coil_m3: sheet.start_up.coil_m3,
                    tubes: liquid.and_then(tube).zip(gas.and_then(tube)),
                    length_m: value(format!("lines.{head}.length")),
                    cost_share: value(format!("lines.{head}.capacity-cost")),
                    built: job
                        .as_built
                        .iter()
                        .any(|b| b.path == path && matches!(b.value, AsBuiltValue::LineLength(_))),
                }
            })
            .collect();
        let least = |a: Option<f64>, b: f64| Some(a.map_or(b, |a: f64| a.min(b)));
        let target_pa = all
            .iter()
            .filter(|l| heads.iter().any(|(h, _)| *h == l.head))
            .filter_map(|l| l.test_pa)
            .fold(None, least);
        let plate_pa = std::iter::once(&unit)
            .chain(heads.iter().map(|(_, s)| s))
            .filter_map(|s| s.plate.high_side_pa)
            .fold(None, least);
        let charge = |what: &str| value(format!("charge.{}.{what}", outdoor.name));
        Ok(Self {
            outdoor: outdoor.name.clone(),
            lines,
            elevation_m: job.place.elevation_m,
            refrigerant: unit
                .refrigerant
                .as_deref()
                .and_then(|name| Refrigerant::ALL.into_iter().find(|r| r.name() == name)),
            plate_pa,
            target_pa,
            factory_kg: charge("factory"),
            trim_kg: charge("to-weigh"),
            most_kg: charge("most"),
            tools: job
                .installation
                .tools
                .iter()
                .map(|t| {
                    let until = t.calibrated_until.as_deref();
                    let day = until.and_then(|d| startup::stamp::read_day(d).ok());
                    (t.name.clone(), day)
                })
                .collect(),
            shown,
            unit,
            heads,
        })
    }

    /// The system with these heads running; all of them when `only` is none.
    pub fn system(&self, only: Option<&str>) -> Result<System, Refusal> {
        let unfit =
            |e: heatpump::NotASystem| Refusal::from(Fault::file(&self.shown, e.to_string()));
        let mut heads = Vec::new();
        for (name, sheet) in &self.heads {
            if only.is_none_or(|o| o == name) {
                heads.push(Head::new(sheet.clone()).map_err(unfit)?);
            }
        }
        let outdoor = OutdoorUnit::new(self.unit.clone()).map_err(unfit)?;
        System::new(outdoor, heads).map_err(unfit)
    }

    /// Torque that the sheet asks at one end of a head's line, N m: the nut is the unit's there.
    pub fn flare_nm(&self, head: &str, at_head: bool, tube: Tube) -> Option<(f64, f64)> {
        let sheet = if at_head {
            &self.heads.iter().find(|h| h.0 == head)?.1
        } else {
            &self.unit
        };
        sheet.start_up.flare_nm(tube.outside_m())
    }

    /// Names of the heads.
    pub fn head_names(&self) -> String {
        let names: Vec<&str> = self.heads.iter().map(|h| h.0.as_str()).collect();
        names.join(", ")
    }
}
