//! What may be asked on the start-up day.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::{Day, charge, record, run, test, visit};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::Say;

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
    /// Take readings from the keyboard, each kept before it is acknowledged
    #[arg(long, requires = "record")]
    pub live: bool,
    /// Name of this test, where a record holds several
    #[arg(long, value_name = "NAME", default_value = "1")]
    pub name: String,
}

/// Tests.
#[derive(Debug, Subcommand)]
pub enum Test {
    /// Nitrogen shut in: holds, fails or cannot tell, and the smallest leak it could have seen
    Pressure(Readings),
    /// The rise after the pump is shut off: dry, wet, leaking, or too cold to tell
    Vacuum(Readings),
}

/// Records.
#[derive(Debug, Subcommand)]
pub enum Records {
    /// Prove that no record was altered; exit 1 where one was
    Verify {
        /// File of records
        file: PathBuf,
        /// Hash of a record, written down elsewhere, that must be there
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
}

/// The first run.
#[derive(Debug, Args)]
pub struct Run {
    /// File and record
    #[command(flatten)]
    pub day: OfDay,
    /// Keep it as the baseline that later visits are compared with
    #[arg(long)]
    pub accept: bool,
}

/// `test`.
pub fn tested(ask: &Test, si: bool) -> Result<Report, Refusal> {
    let (Test::Pressure(r) | Test::Vacuum(r)) = ask;
    let day = Day::read(&r.file)?;
    let how = test::How {
        log: r.log.as_deref(),
        record: r.record.as_deref(),
        live: r.live,
        name: &r.name,
    };
    match ask {
        Test::Pressure(_) => test::pressure_answer(&day, &how, Say::new(si)),
        Test::Vacuum(_) => test::vacuum_answer(&day, &how),
    }
}

/// `charge`.
pub fn charged(ask: &OfDay) -> Result<Report, Refusal> {
    charge::answer(&Day::read(&ask.file)?, ask.record.as_deref())
}

/// `run`. Sheets come from `folder`, or from a `catalogue` beside the file or above it.
pub fn ran(ask: &Run, folder: Option<&std::path::Path>, si: bool) -> Result<Report, Refusal> {
    let day = Day::read(&ask.day.file)?;
    let found = folder
        .map(std::path::Path::to_path_buf)
        .or_else(|| crate::files::beside(&ask.day.file))
        .unwrap_or_else(|| PathBuf::from("catalogue"));
    run::answer(
        &day,
        &found,
        ask.day.record.as_deref(),
        ask.accept,
        Say::new(si),
    )
}

/// `visit`.
pub fn visited(ask: &OfDay) -> Result<Report, Refusal> {
    visit::answer(&Day::read(&ask.file)?, ask.record.as_deref())
}

/// `record`.
pub fn recorded(ask: &Records) -> Result<Report, Refusal> {
    let Records::Verify { file, last } = ask;
    record::check(file, last.as_deref())
}
