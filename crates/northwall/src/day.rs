//! The start-up file: what the day's tests rest on, read with lines.

pub mod asked;
pub mod charge;
pub mod curve;
pub mod guided;
pub mod job;
pub mod joints;
pub mod page;
pub mod record;
pub mod run;
pub mod setup;
pub mod sheet;
pub mod test;
mod twice;
pub mod view;
pub mod visit;

use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

use physics::refrigerant::Refrigerant;
use physics::tube::Tube;
use startup::Stamp;
use startup::caution::{Step, cautions};
use startup::instrument::Instrument;
use startup::volume::{Volume, under_test};
use units::Dim;

use crate::arguments::Usual;
use crate::files;
use crate::refusal::{Fault, Refusal};
use job::FromJob;
use page::item;
use sheet::{DayFile, InstrumentIn, Text};

/// A start-up file as read.
pub struct Day {
    /// As written.
    pub file: DayFile,
    /// What the job says, where the file names one.
    pub job: Option<FromJob>,
    shown: String,
    text: String,
}

const MOST: u64 = 1_000_000;

/// How well a coil's volume by its sheet is known. From memory: fittings are not in it.
const COIL_SHARE: f64 = 0.1;

impl Day {
    /// Reads it, and the job it names.
    pub fn read(path: &Path, usual: &Usual) -> Result<Self, Refusal> {
        let mut day = Self::alone(path)?;
        if let Some(job) = &day.file.job {
            let beside = path.parent().unwrap_or(Path::new("")).join(job);
            day.job = Some(FromJob::read(&beside, day.file.on.as_deref(), usual)?);
            day.nothing_twice()?;
        }
        Ok(day)
    }

    fn alone(path: &Path) -> Result<Self, Refusal> {
        let shown = path.display().to_string();
        let bytes = files::bytes(path, MOST, "start-up file")?;
        let text = String::from_utf8(bytes)
            .map_err(|_| Fault::file(&shown, "the file is not UTF-8 text"))?;
        match toml::from_str::<DayFile>(&text) {
            Ok(file) if file.northwall_startup == 1 => Ok(Self {
                file,
                job: None,
                shown,
                text,
            }),
            Ok(file) => Err(
                Fault::file(&shown, "this version of a start-up file is not known")
                    .got(file.northwall_startup.to_string())
                    .allowed("northwall_startup = 1")
                    .into(),
            ),
            Err(e) => {
                let mut fault = Fault::file(&shown, e.message());
                if let Some(span) = e.span() {
                    fault.line = Some(line_of(&text, span.start));
                    fault.text = shown_line(&text, span.start);
                }
                Err(fault
                    .mend("see docs/startup.md for the tables and keys")
                    .into())
            }
        }
    }

    /// The catalogue beside the file or above it.
    pub fn catalogue(&self) -> Option<std::path::PathBuf> {
        files::beside(Path::new(&self.shown))
    }

    /// A fault at a text of the file.
    pub fn fault(&self, place: &str, at: &Text, says: impl Into<String>) -> Fault {
        let mut fault = Fault::file(&self.shown, says).got(at.get_ref().clone());
        place.clone_into(&mut fault.place);
        fault.line = Some(line_of(&self.text, at.span().start));
        fault.text = shown_line(&self.text, at.span().start);
        fault
    }

    /// A fault of the whole file.
    pub fn missing(&self, place: &str, mend: &str) -> Refusal {
        let mut fault = Fault::file(&self.shown, "this table is missing").mend(mend);
        place.clone_into(&mut fault.place);
        fault.into()
    }

    /// A fault of a key that stands elsewhere already.
    pub fn twice(&self, place: &str, says: &str) -> Refusal {
        let mut fault = Fault::file(&self.shown, says).mend("take the line out here");
        place.clone_into(&mut fault.place);
        fault.into()
    }

    /// What the engine refuses, said at a table.
    pub fn wrong(&self, place: &str, e: &startup::Wrong) -> Refusal {
        let mut fault = Fault::file(&self.shown, e.what.clone())
            .got(e.got.clone())
            .allowed(e.usable.clone());
        place.clone_into(&mut fault.place);
        fault.into()
    }

    /// A quantity.
    pub fn value(&self, place: &str, at: &Text, dim: Dim) -> Result<f64, Refusal> {
        units::parse(at.get_ref(), dim).map_err(|e| self.fault(place, at, e.to_string()).into())
    }

    /// A quantity, or what stands in for it.
    pub fn value_or(
        &self,
        place: &str,
        at: Option<&Text>,
        dim: Dim,
        usual: f64,
    ) -> Result<f64, Refusal> {
        at.map_or(Ok(usual), |t| self.value(place, t, dim))
    }

    /// The refrigerant.
    pub fn refrigerant(&self) -> Result<Refrigerant, Refusal> {
        if let Some(known) = self.job.as_ref().and_then(|j| j.asked.refrigerant) {
            return Ok(known);
        }
        let typed = (self.file.refrigerant.as_ref()).ok_or_else(|| {
            self.missing(
                "refrigerant",
                "refrigerant = \"R-32\", or job = \"job.toml\"",
            )
        })?;
        let said = typed.get_ref().replace(['-', ' '], "").to_uppercase();
        Refrigerant::ALL
            .into_iter()
            .find(|r| r.name().replace('-', "") == said)
            .ok_or_else(|| {
                self.fault("refrigerant", typed, "this refrigerant is not known")
                    .allowed("R-32, R-410A, R-454B, R-290")
                    .into()
            })
    }

    /// Height above the sea, m.
    pub fn altitude_m(&self) -> Result<f64, Refusal> {
        if let Some(known) = self.job.as_ref().and_then(|j| j.asked.elevation_m) {
            return Ok(known);
        }
        self.value_or("elevation", self.file.elevation.as_ref(), Dim::Length, 0.0)
    }

    /// Air pressure at the place, Pa.
    pub fn air_pa(&self) -> Result<f64, Refusal> {
        physics::standard_air::pressure_pa(self.altitude_m()?)
            .map_err(|e| Fault::file(&self.shown, e.to_string()).into())
    }

    /// Minutes east of UTC.
    pub fn offset_min(&self) -> Result<i32, Refusal> {
        let Some(text) = &self.file.offset else {
            return Ok(0);
        };
        let probe = format!("2026-01-01T00:00:00{}", text.get_ref());
        Stamp::read(&probe, None)
            .map(|s| s.offset_min)
            .map_err(|_| {
                self.fault("offset", text, "this is no offset from UTC")
                    .allowed("like -05:00")
                    .into()
            })
    }

    /// Now, by the clock on the wall.
    pub fn now(&self) -> Result<Stamp, Refusal> {
        let offset_min = self.offset_min()?;
        let epoch_s = SystemTime::now()
            .duration_since(UNIX_EPOCH)
            .map_or(0.0, |d| d.as_secs_f64());
        Ok(Stamp {
            epoch_s,
            offset_min,
        })
    }

    /// An instrument; limits in the units of `dim`.
    pub fn instrument(
        &self,
        place: &str,
        from: &InstrumentIn,
        dim: Dim,
    ) -> Result<Instrument, Refusal> {
        let accuracy = self.value(&format!("{place}.accuracy"), &from.accuracy, dim)?;
        let step = self.value(&format!("{place}.step"), &from.step, dim)?;
        let mut made = Instrument::new(&from.id, accuracy, step);
        if let Some(t) = &from.stability {
            made.stability = self.value(&format!("{place}.stability"), t, dim)?;
        }
        if let Some(t) = &from.calibrated {
            let day = startup::stamp::read_day(t.get_ref())
                .map_err(|e| self.fault(&format!("{place}.calibrated"), t, e.why))?;
            made.calibrated_day = Some(day);
        } else if let Some(job) = &self.job {
            let known = job.tools.iter().find(|t| t.0 == from.id);
            made.until_day = known.and_then(|t| t.1);
        }
        Ok(made)
    }

    /// Tube by its outside diameter.
    pub fn tube(&self, place: &str, at: &Text) -> Result<Tube, Refusal> {
        let m = self.value(place, at, Dim::SmallLength)?;
        Tube::ALL
            .into_iter()
            .find(|t| (t.outside_m() - m).abs() < 1e-4)
            .ok_or_else(|| {
                self.fault(place, at, "there is no such coil tube")
                    .allowed("1/4, 3/8, 1/2, 5/8, 3/4, 7/8 in outside")
                    .into()
            })
    }

    /// Heads of the job whose lines are under test; all of them where the file names none.
    pub fn tested(&self, job: &FromJob) -> Result<Vec<String>, Refusal> {
        let mut out = Vec::new();
        for text in &self.file.tested {
            if !job.asked.lines.iter().any(|l| &l.head == text.get_ref()) {
                return Err(self
                    .fault("tested", text, "there is no such head on this outdoor unit")
                    .allowed(job.head_names())
                    .into());
            }
            out.push(text.get_ref().clone());
        }
        if out.is_empty() {
            out.extend(job.asked.lines.iter().map(|l| l.head.clone()));
        }
        Ok(out)
    }

    fn lines_of(&self, job: &FromJob) -> Result<Vec<(Tube, f64)>, Refusal> {
        let mut out = Vec::new();
        let tested = self.tested(job)?;
        for line in job.asked.lines.iter().filter(|l| tested.contains(&l.head)) {
            let Some(((liquid, gas), length_m)) = job::tubes(line).zip(line.length_m) else {
                return Err(Fault::file(
                    &job.shown,
                    format!("length or tubes of the line to {} are not there", line.head),
                )
                .mend("a [[line]] for the head, or its length as built in [[as_built]]")
                .into());
            };
            out.extend([(liquid, length_m), (gas, length_m)]);
        }
        Ok(out)
    }

    /// The lines under test and where their lengths are from, in words.
    pub fn lines_words(&self, system: units::System) -> Result<Vec<String>, Refusal> {
        let Some(job) = &self.job else {
            return Ok(Vec::new());
        };
        let tested = self.tested(job)?;
        Ok(job
            .asked
            .lines
            .iter()
            .filter(|l| tested.contains(&l.head))
            .filter_map(|l| {
                let ((liquid, gas), length_m) = job::tubes(l).zip(l.length_m)?;
                let coil = l.coil_m3.map_or(String::new(), |m3| {
                    format!("; coil {:.2} L by its sheet", m3 * 1000.0)
                });
                Some(format!(
                    "{}: {} and {}, {} as {}{coil}",
                    l.head,
                    page::tube(liquid),
                    page::tube(gas),
                    units::show(length_m, Dim::Length, system),
                    if l.built { "built" } else { "planned" }
                ))
            })
            .collect())
    }

    /// Lines as built: liquid and gas each.
    pub fn lines(&self) -> Result<Vec<(Tube, f64)>, Refusal> {
        if let Some(job) = &self.job {
            return self.lines_of(job);
        }
        self.file
            .line
            .iter()
            .map(|l| {
                Ok((
                    self.tube("line.tube", &l.tube)?,
                    self.value("line.length", &l.length, Dim::Length)?,
                ))
            })
            .collect()
    }

    /// What holds the gas.
    pub fn volume(&self) -> Result<Volume, Refusal> {
        let mut others = Vec::new();
        if let Some(job) = &self.job {
            let tested = self.tested(job)?;
            let coils = job.asked.lines.iter().filter(|l| tested.contains(&l.head));
            others.extend(coils.filter_map(|l| Some((l.coil_m3?, COIL_SHARE))));
        }
        for v in &self.file.volume {
            others.push((
                self.value("volume.volume", &v.volume, Dim::Volume)?,
                self.value_or("volume.within", v.within.as_ref(), Dim::Share, 0.3)?,
            ));
        }
        under_test(&self.lines()?, &others).map_err(|e| self.wrong("line, volume", &e))
    }

    /// The cautions of a step, as text.
    pub fn cautions(&self, step: Step) -> Result<String, Refusal> {
        let burns = self.refrigerant()?.lower_flammability_kg_per_m3().is_some();
        Ok(cautions(step, burns)
            .into_iter()
            .map(|c| item("! ", c))
            .collect())
    }
}

fn line_of(text: &str, at: usize) -> usize {
    text.get(..at).map_or(1, |t| t.matches('\n').count() + 1)
}

fn shown_line(text: &str, at: usize) -> String {
    text.lines()
        .nth(line_of(text, at) - 1)
        .unwrap_or("")
        .to_owned()
}
