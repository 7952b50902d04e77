//! `northwall season --many`: houses by the thousand, a row in and a row out.

use std::path::{Path, PathBuf};

use clap::Args;

use crate::arguments::Usual;
#[cfg(not(feature = "many"))]
use crate::refusal::Fault;
use crate::refusal::Refusal;
use crate::report::Report;

#[cfg(feature = "many")]
mod folder;
#[cfg(feature = "many")]
mod run;
#[cfg(feature = "many")]
mod weathers;

/// How houses by the thousand are asked.
#[derive(Debug, Args)]
#[allow(
    clippy::struct_field_names,
    reason = "the flag is called as the thing it asks for"
)]
pub struct Many {
    /// Houses by the thousand in place of a job: a Parquet file, a row a house; docs/many.md
    #[arg(long, value_name = "FILE", requires = "out",
          conflicts_with_all = ["job", "ideal", "option", "chart", "svg"])]
    pub many: Option<PathBuf>,
    /// Folder for the parts; made if it is not there. A run that was ended goes on in it
    #[arg(long, value_name = "DIR", requires = "many")]
    pub out: Option<PathBuf>,
    /// Houses at a time [default: as many as this machine has cores]
    #[arg(long, value_name = "NUMBER", requires = "many", value_parser = threads_in_range)]
    pub threads: Option<usize>,
    /// Rows of a part, 1 to 1000000
    #[arg(long, value_name = "ROWS", requires = "many", default_value_t = 1000, value_parser = rows_in_range)]
    pub part: u64,
}

fn threads_in_range(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(n @ 1..=1024) => Ok(n),
        _ => Err("1 to 1024 houses can be run at a time".to_owned()),
    }
}

fn rows_in_range(text: &str) -> Result<u64, String> {
    match text.parse() {
        Ok(n @ 1..=1_000_000) => Ok(n),
        _ => Err("a part has 1 to 1000000 rows".to_owned()),
    }
}

#[cfg(not(feature = "many"))]
pub fn answer(_houses: &Path, _many: &Many, _usual: &Usual) -> Result<Report, Refusal> {
    Err(Fault::flag("--many", "this build does not read Parquet")
        .mend("build it with: cargo build --release -p northwall --features many")
        .into())
}

#[cfg(feature = "many")]
pub fn answer(houses: &Path, many: &Many, usual: &Usual) -> Result<Report, Refusal> {
    use crate::view::{ColumnView, ManyView, VERSION};

    let out = many.out.as_deref().unwrap_or(Path::new("."));
    let asked = run::Asked {
        houses,
        out,
        threads: many.threads.unwrap_or_else(season::cores),
        rows_a_part: many.part,
        usual,
    };
    let found = run::run(&asked)?;
    let [done, waits, refused, defects] = found.counts;
    let view = ManyView {
        northwall: VERSION,
        file: houses.display().to_string(),
        folder: out.display().to_string(),
        parts: found.parts,
        kept: found.kept,
        rows_a_part: many.part,
        houses: found.counts.iter().sum(),
        done,
        waits,
        refused,
        defects,
        unread: found.unread,
        columns: programme::COLUMNS
            .iter()
            .map(|c| ColumnView {
                name: c.name,
                kind: c.word(),
                says: c.says,
            })
            .collect(),
    };
    let mut report = Report::new(text(&view), &view);
    if defects > 0 {
        report.code = crate::DEFECT;
    } else if refused > 0 {
        report.code = crate::STOPPED;
    }
    Ok(report)
}

#[cfg(feature = "many")]
fn text(view: &crate::view::ManyView) -> String {
    use crate::say::{Table, heading, wrapped};

    let mut out = heading(&format!("{} houses of {}", view.houses, view.file));
    let mut table = Table::new(["state", "houses", "what that says"]);
    for (word, n, says) in [
        ("done", view.done, "loads and year are there"),
        (
            "waits",
            view.waits,
            "something is missing that somebody has",
        ),
        ("refused", view.refused, "the row cannot be used"),
        ("defect", view.defects, "the program failed: a defect of it"),
    ] {
        if n > 0 {
            table.row([word.to_owned(), n.to_string(), says.to_owned()]);
        }
    }
    out.push_str(&table.text());
    out.push('\n');
    let kept = match view.kept {
        0 => String::new(),
        kept => format!(", {kept} of them kept from a run before"),
    };
    out.push_str(&wrapped(
        "  ",
        &format!(
            "{} part{} of {} rows in {}{kept}. A house that is not done says why in the column \
             says; docs/many.md has the columns and their units.",
            view.parts,
            if view.parts == 1 { "" } else { "s" },
            view.rows_a_part,
            view.folder
        ),
    ));
    if !view.unread.is_empty() {
        out.push_str(&wrapped(
            "  ",
            &format!("Not looked at: {}.", view.unread.join(", ")),
        ));
    }
    out
}
