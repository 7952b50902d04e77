//! The command: arguments, files, tables, plots, exit codes. No formula lives here.

// A page of text is put together once; a saved allocation is not worth an unread result. A
// refusal carries its words and is made once.
#![allow(clippy::format_push_string, clippy::result_large_err)]

mod archive;
mod arguments;
mod backup;
mod bands;
mod bills;
mod check;
mod choose;
mod day;
mod demand;
mod draw;
mod files;
mod house_of;
mod installation;
mod loads;
mod man;
mod many;
mod new;
#[cfg(feature = "papers")]
mod papers;
mod placed;
mod prove;
mod refusal;
mod report;
mod say;
mod season;
mod serve;
mod sheet;
mod view;
mod why;

use std::io::Write;
use std::process::ExitCode;

use clap::{CommandFactory, Parser};

use arguments::{Arguments, Ask, Usual};
use installation::Part;
use refusal::{Fault, Refusal};
use report::Report;

/// Years and plans allocate much and at once; this one keeps what is freed at hand.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Findings with a stop, or a failed proof.
const STOPPED: u8 = 1;
/// Input that cannot be used.
const REFUSED: u8 = 2;
/// A defect of the program.
const DEFECT: u8 = 3;

fn main() -> ExitCode {
    std::panic::set_hook(Box::new(|info| {
        let _ = writeln!(
            std::io::stderr(),
            "northwall: a defect of the program, not of the job: {info}\n\
             mend: send the job file and this line to whoever keeps the program"
        );
    }));
    let code = std::panic::catch_unwind(run).unwrap_or(DEFECT);
    ExitCode::from(code)
}

fn run() -> u8 {
    let arguments = Arguments::parse();
    let json = arguments.usual.json;
    match answer(&arguments).and_then(|report| {
        if let Some(path) = &arguments.usual.svg {
            let svg = report
                .svg
                .as_deref()
                .ok_or_else(|| no_chart(&arguments.ask))?;
            files::write_chart(path, svg)?;
        }
        Ok(report)
    }) {
        Ok(report) => {
            let text = if json {
                serde_json::to_string_pretty(&report.json).unwrap_or_default() + "\n"
            } else {
                report.text
            };
            match told(&text) {
                Ok(()) => report.code,
                Err(e) => {
                    let _ = writeln!(
                        std::io::stderr(),
                        "the answer could not be written out: {e}\n\
                         mend: make room where it goes, or write it elsewhere"
                    );
                    REFUSED
                }
            }
        }
        Err(refusal) => {
            let text = if json {
                serde_json::to_string_pretty(&refusal).unwrap_or_default() + "\n"
            } else {
                refusal.text()
            };
            let _ = anstream::stderr().write_all(text.as_bytes());
            REFUSED
        }
    }
}

/// Writes the answer out whole. A closed pipe (`| head`) is not our affair.
fn told(text: &str) -> std::io::Result<()> {
    let mut out = anstream::stdout();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(e) if e.kind() != std::io::ErrorKind::BrokenPipe => Err(e),
        _ => Ok(()),
    }
}

fn answer(arguments: &Arguments) -> Result<Report, Refusal> {
    let usual: &Usual = &arguments.usual;
    match &arguments.ask {
        Ask::Check { job } => check::answer(job, usual),
        Ask::Loads { job, chart } => loads::answer(job, *chart, usual),
        Ask::Season {
            job,
            ideal,
            option,
            chart,
            many,
        } => match (&many.many, job) {
            (Some(houses), _) => many::answer(houses, many, usual),
            (None, Some(job)) => season::answer(job, *ideal, option.as_deref(), *chart, usual),
            (None, None) => Err(Fault::flag("JOB", "a job file is wanted")
                .mend("northwall season JOB, or --many FILE for houses by the thousand")
                .into()),
        },
        Ask::Backup { job, option } => backup::answer(job, option.as_deref(), usual),
        Ask::Bands { job, houses } => bands::answer(job, houses, usual),
        Ask::Choose { job, looking } => choose::answer(job, looking, usual),
        Ask::Place {
            job,
            suggest,
            chart,
        } => placed::answer(job, *suggest, *chart, usual),
        Ask::Lines { job } => installation::answer(job, Part::Lines, usual),
        Ask::Wires { job } => installation::answer(job, Part::Wires, usual),
        Ask::List { job } => installation::answer(job, Part::List, usual),
        #[cfg(feature = "papers")]
        Ask::Papers(of) => papers::answer(of, usual),
        #[cfg(feature = "papers")]
        Ask::Import(of) => papers::import(of),
        Ask::Bills { job, given } => bills::answer(job, given, usual),
        Ask::Review { job, given } => bills::review(job, given, usual),
        Ask::Why { job, key, down } => why::answer(job, key, down, usual),
        Ask::Test(test) => day::asked::tested(test, usual),
        Ask::Charge(of) => day::asked::charged(of, usual),
        Ask::Run(run) => day::asked::ran(run, usual),
        Ask::Visit(visit) => day::asked::visited(visit, usual),
        Ask::Record(records) => day::asked::recorded(records),
        Ask::Serve(of) => serve::answer(of, usual),
        Ask::Invite(of) => serve::invite(of),
        Ask::Archive(of) => archive::archive(of),
        Ask::Restore(of) => archive::restore(of),
        Ask::Prove { only } => prove::answer(only.as_deref(), usual),
        Ask::New(new) => new::answer(new, usual),
        Ask::Sheet { sheet, duty } => sheet::answer(sheet, *duty, usual),
        Ask::Completions { shell } => {
            let mut out = Vec::new();
            clap_complete::generate(*shell, &mut Arguments::command(), "northwall", &mut out);
            Ok(plain(&out))
        }
        Ask::Man => {
            let page = man::page();
            let page =
                page.map_err(|e| Fault::flag("man", format!("the page cannot be made: {e}")))?;
            Ok(plain(&page))
        }
        Ask::Schema { name } => schema(name),
    }
}

fn schema(name: &str) -> Result<Report, Refusal> {
    if name == "openapi.json" {
        return Ok(plain(server::openapi().as_bytes()));
    }
    let all = view::schemas();
    let found = all.iter().find(|(n, _)| n == &name).map(|(_, s)| s);
    let text = found.and_then(|s| serde_json::to_string_pretty(s).ok());
    let text = text.ok_or_else(|| {
        let names: Vec<&str> = all.iter().map(|(n, _)| *n).collect();
        Fault::flag("NAME", "there is no such schema")
            .got(name)
            .allowed(names.join(", "))
    })?;
    Ok(plain((text + "\n").as_bytes()))
}

fn plain(bytes: &[u8]) -> Report {
    let text = String::from_utf8_lossy(bytes).into_owned();
    Report {
        json: serde_json::Value::String(text.clone()),
        text,
        ..Report::default()
    }
}

fn no_chart(ask: &Ask) -> Refusal {
    let word = match ask {
        Ask::Why { .. } => "why",
        Ask::Wires { .. } => "wires",
        Ask::List { .. } => "list",
        Ask::New(_) => "new",
        Ask::Completions { .. } => "completions",
        Ask::Man => "man",
        _ => "this answer",
    };
    Fault::flag("--svg", format!("{word} has no chart to write"))
        .allowed(
            "check, loads, season, place, lines, wires, list, sheet, prove, bills and the tests of \
             the day have one, where their answer is there",
        )
        .mend("leave --svg out")
        .into()
}
