//! What may be asked on the start-up day.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use startup::call_back::Cause;

use super::{Day, charge, joints, record, run, test, visit};
use crate::arguments::Usual;
use crate::refusal::Refusal;
use crate::report::Report;

/// Where readings come from and are kept.
#[derive(Debug, Args)]
pub struct Readings {
    /// Start-up file (docs/startup.md)
    pub file: PathBuf,
    /// Logger file; the table [logger] of the start-up file names its columns
    #[arg(long, value_name = "FILE", conflicts_with = "live")]
    pub log: Option<PathBuf>,
    /// File of records; it only grows
    #[arg(long, value_name = "FILE")]
    pub record: Option<PathBuf>,
    /// Step by step, readings from the keyboard, each kept before it is acknowledged
    #[arg(long, requires = "record")]
    pub live: bool,
    /// Name of this test, where a record holds several
    #[arg(long, value_name = "NAME", default_value = "1")]
    pub name: String,
}

/// Tests.
#[derive(Debug, Subcommand)]
pub enum Test {
    /// Flares and brazed joints: what to set the wrench to, and who made which
    Joints(OfDay),
    /// Nitrogen shut in: holds, fails or cannot tell, and the smallest leak it could have seen
    Pressure(Readings),
    /// The rise after the pump is shut off: dry, wet, leaking, or too cold to tell
    Vacuum(Readings),
}

/// Records.
#[derive(Debug, Subcommand)]
pub enum Records {
    /// The records in order, and which of them were corrected
    Show {
        /// File of records
        file: PathBuf,
    },
    /// Prove that no record was altered; exit 1 where one was
    Verify {
        /// File of records
        file: PathBuf,
        /// Hash of a record, or its first 16 letters, written down elsewhere, that must be there
        #[arg(long, value_name = "HASH")]
        last: Option<String>,
    },
}

/// A day's file and its record.
#[derive(Debug, Args)]
pub struct OfDay {
    /// Start-up file (docs/startup.md)
    pub file: PathBuf,
    /// File of records; it only grows
    #[arg(long, value_name = "FILE")]
    pub record: Option<PathBuf>,
    /// Number of the record that this one corrects; the old one stays
    #[arg(long, value_name = "NUMBER", requires_all = ["record", "why"])]
    pub corrects: Option<u64>,
    /// Why it is corrected
    #[arg(long, value_name = "TEXT", requires = "corrects")]
    pub why: Option<String>,
}

impl OfDay {
    /// The record corrected, and why.
    pub fn correction(&self) -> Option<(u64, &str)> {
        self.corrects.zip(self.why.as_deref())
    }
}

/// The first run.
#[derive(Debug, Args)]
pub struct Run {
    /// File and record
    #[command(flatten)]
    pub day: OfDay,
    /// Keep it as the baseline that later visits are compared with
    #[arg(long, requires = "record")]
    pub accept: bool,
}

fn cause(text: &str) -> Result<Cause, String> {
    serde_json::from_value(serde_json::Value::String(text.to_owned())).map_err(|_| {
        "low-charge, dirty-indoors, blocked-outdoors, drain, settings or parts".to_owned()
    })
}

/// A later visit.
#[derive(Debug, Args)]
pub struct Visit {
    /// File and record
    #[command(flatten)]
    pub day: OfDay,
    /// The firm's log of call-backs, over all jobs: ranking learns from it
    #[arg(long, value_name = "FILE")]
    pub firm: Option<PathBuf>,
    /// What it turned out to be: low-charge, dirty-indoors, blocked-outdoors, drain, settings,
    /// parts; goes into the firm's log
    #[arg(long, value_name = "CAUSE", value_parser = cause, requires_all = ["firm", "hours", "cost"])]
    pub found: Option<Cause>,
    /// Hours it took
    #[arg(long, requires = "found")]
    pub hours: Option<f64>,
    /// What it cost
    #[arg(long, requires = "found")]
    pub cost: Option<f64>,
}

/// `test`.
pub fn tested(ask: &Test, usual: &Usual) -> Result<Report, Refusal> {
    match ask {
        Test::Joints(of) => joints::answer(&Day::read(&of.file, usual)?, of),
        Test::Pressure(r) | Test::Vacuum(r) => {
            let day = Day::read(&r.file, usual)?;
            let how = test::How {
                log: r.log.as_deref(),
                record: r.record.as_deref(),
                live: r.live,
                name: &r.name,
                json: usual.json,
            };
            if matches!(ask, Test::Pressure(_)) {
                test::pressure::answer(&day, &how, crate::say::Say::new(usual.si))
            } else {
                test::vacuum::answer(&day, &how)
            }
        }
    }
}

/// `charge`.
pub fn charged(ask: &OfDay, usual: &Usual) -> Result<Report, Refusal> {
    charge::answer(&Day::read(&ask.file, usual)?, ask)
}

/// `run`.
pub fn ran(ask: &Run, usual: &Usual) -> Result<Report, Refusal> {
    run::answer(&Day::read(&ask.day.file, usual)?, ask, usual)
}

/// `visit`.
pub fn visited(ask: &Visit, usual: &Usual) -> Result<Report, Refusal> {
    visit::answer(&Day::read(&ask.day.file, usual)?, ask, usual.si)
}

/// `record`.
pub fn recorded(ask: &Records) -> Result<Report, Refusal> {
    match ask {
        Records::Show { file } => record::show(file),
        Records::Verify { file, last } => record::check(file, last.as_deref()),
    }
}
