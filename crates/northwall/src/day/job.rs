//! What the job file and the sheets say, so that nobody types it again on the day.

use std::path::Path;

use heatpump::System;
use install::{LineToHead, OnTheDay};
use jobfile::Job;
use physics::tube::Tube;

use crate::arguments::Usual;
use crate::files;
use crate::refusal::{Fault, Refusal};

/// What is taken from the job.
pub struct FromJob {
    /// Path as the person would name it.
    pub shown: String,
    /// What is asked of the outdoor unit.
    pub asked: OnTheDay,
    /// Instruments and the last day of their calibration, days since 1970.
    pub tools: Vec<(String, Option<i64>)>,
}

fn tube(outside_m: f64) -> Option<Tube> {
    Tube::ALL
        .into_iter()
        .find(|t| (t.outside_m() - outside_m).abs() < 2e-4)
}

/// Liquid and gas tube of a line; none where neither job nor sheet says.
pub fn tubes(line: &LineToHead) -> Option<(Tube, Tube)> {
    line.liquid_m.and_then(tube).zip(line.gas_m.and_then(tube))
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
        let sheets = catalogue.sheets();
        let book =
            install::lines_and_charge(&job, sheets).map_err(|why| Fault::file(&shown, why))?;
        let asked = OnTheDay::of(&job, sheets, &book, outdoor).map_err(|none| {
            Fault::file(&shown, format!("there is no data sheet of {}", none.unit))
                .mend("add its sheet to the catalogue, or name the folder with --catalogue")
        })?;
        Ok(Self {
            asked,
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
        })
    }

    /// The system with these heads running; all of them when `only` is none.
    pub fn system(&self, only: Option<&str>) -> Result<System, Refusal> {
        let system = self.asked.system(only);
        system.map_err(|e| Fault::file(&self.shown, e.to_string()).into())
    }

    /// Torque that the sheet asks at one end of a head's line, N m: the nut is the unit's there.
    pub fn flare_nm(&self, head: &str, at_head: bool, tube: Tube) -> Option<(f64, f64)> {
        let sheet = if at_head {
            &self.asked.heads.iter().find(|h| h.0 == head)?.1
        } else {
            &self.asked.unit
        };
        sheet.start_up.flare_nm(tube.outside_m())
    }

    /// Names of the heads.
    pub fn head_names(&self) -> String {
        let names: Vec<&str> = self.asked.heads.iter().map(|h| h.0.as_str()).collect();
        names.join(", ")
    }
}
