//! What a paper is made from, and how its numbers and names are said.

use jobfile::Job;
use plan::{Catalogue, Plan};
use season::Year;
use startup::record::{Chain, Record};
use units::{Dim, System, show_figure};

use crate::issue::Issue;
use crate::words::{Language, Words};

/// What the papers are made from.
#[derive(Debug, Clone, Copy)]
pub struct Input<'a> {
    /// Job.
    pub job: &'a Job,
    /// Plan of that job: every number on the papers is in it.
    pub plan: &'a Plan,
    /// Sheets.
    pub catalogue: &'a Catalogue,
    /// Records of the start-up day, where they were given.
    pub records: Option<&'a Chain>,
    /// What the papers are made of, as a hash.
    pub issue: &'a Issue,
    /// Units of the papers.
    pub system: System,
    /// Language of the papers.
    pub language: Language,
}

/// A unit of the job with its place, model and serial number.
#[derive(Debug, Clone)]
pub(crate) struct Unit<'a> {
    /// `outdoor.east wall`, `head.living`.
    pub path: String,
    pub model: &'a str,
    pub serials: Vec<&'a str>,
    pub made: Option<u32>,
}

impl<'a> Input<'a> {
    pub(crate) fn words(&self) -> &'static Words {
        self.language.words()
    }

    /// A figure of the plan, said.
    pub(crate) fn figure(&self, key: &str) -> Option<String> {
        let (value, dim) = self.plan.value(key)?;
        Some(self.show(value, dim))
    }

    /// A figure of the year of the chosen equipment: `house.cost`.
    pub(crate) fn chosen(&self, what: &str) -> Option<String> {
        self.figure(&format!("season.chosen.{what}"))
    }

    pub(crate) fn show(&self, value: f64, dim: Dim) -> String {
        show_figure(value, dim, self.system)
    }

    pub(crate) fn year(&self) -> Option<&'a Year> {
        self.plan.year()
    }

    /// Outdoor units, then heads.
    pub(crate) fn units(&self) -> Vec<Unit<'a>> {
        let job = self.job;
        let outdoors = job.equipment.outdoors.iter();
        let outdoors = outdoors.map(|o| self.unit("outdoor", &o.name, &o.unit, o.serial.as_ref()));
        let heads = job.equipment.heads.iter();
        let heads = heads.map(|h| self.unit("head", &h.name, &h.unit, h.serial.as_ref()));
        outdoors.chain(heads).collect()
    }

    fn unit(
        &self,
        kind: &str,
        name: &'a str,
        model: &'a str,
        serial: Option<&'a String>,
    ) -> Unit<'a> {
        let path = format!("{kind}.{name}");
        let mut serials: Vec<&str> = serial.iter().map(|s| s.as_str()).collect();
        let wanted = format!("{path}.serial");
        for entry in self.job.as_built.iter().filter(|a| a.path == wanted) {
            if let jobfile::AsBuiltValue::Serial(s) = &entry.value {
                serials.push(s);
            }
        }
        let plates = self.job.paperwork.plates.iter().filter(|p| p.unit == path);
        let mut made = None;
        for plate in plates {
            serials.push(&plate.serial);
            made = made.or(plate.made);
        }
        Unit {
            path,
            model,
            serials,
            made,
        }
    }

    /// Records that stand of a kind.
    pub(crate) fn standing(&self, kind: &str) -> Vec<&'a Record> {
        let all = self.records.map(Chain::standing).unwrap_or_default();
        all.into_iter().filter(|r| r.kind == kind).collect()
    }

    /// A day of the job by its name in `[days]`; `installed` is of `[codes]`.
    pub(crate) fn day(&self, name: &str) -> Option<&'a str> {
        if name == "installed" {
            return self.job.installation.codes.install_day.as_deref();
        }
        let days = &self.job.paperwork.days;
        days.iter()
            .find(|(n, _)| *n == name)
            .map(|(_, d)| d.as_str())
    }

    /// The days that are known, in the order in which they should come.
    pub(crate) fn days(&self) -> Vec<(&'static str, &'a str)> {
        const ORDER: [&str; 7] = [
            "quoted",
            "approved",
            "begun",
            "installed",
            "started",
            "inspected",
            "handed_over",
        ];
        ORDER
            .into_iter()
            .filter_map(|name| Some((name, self.day(name)?)))
            .collect()
    }

    /// Outdoor design temperature, said.
    pub(crate) fn design(&self) -> String {
        self.show(self.plan.site.heating.used_c, Dim::Temperature)
    }
}
