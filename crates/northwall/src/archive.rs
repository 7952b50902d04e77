//! `northwall archive` and `restore`: while the server runs, or not.

use std::fs::File;
use std::io::{BufReader, BufWriter};
use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::json;

use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::serve::{Kept, wait_for};

/// What `archive` is told.
#[derive(Debug, Args)]
pub struct Archive {
    /// Archive to write: a tar of plain job files, photos, records and histories
    file: PathBuf,
    #[command(flatten)]
    kept: Kept,
}

/// What `restore` is told.
#[derive(Debug, Args)]
pub struct Restore {
    /// Archive written by `archive`, or a job or an export taken out of the page
    file: PathBuf,
    /// Also jobs that are there: what stands is replaced by what the archive has
    #[arg(long)]
    over: bool,
    #[command(flatten)]
    kept: Kept,
}

/// `northwall archive`. The file is there whole or not at all.
pub fn archive(of: &Archive) -> Result<Report, Refusal> {
    let shown = of.file.display().to_string();
    let fault = |e: &dyn std::fmt::Display| Fault::file(&shown, format!("it does not write: {e}"));
    wait_for(async {
        if of.file.exists() {
            return Err(Fault::file(&shown, "the file is there already")
                .mend("name another file")
                .into());
        }
        let store = of.kept.open().await?;
        let folder = of.file.parent().filter(|p| !p.as_os_str().is_empty());
        let file = tempfile::Builder::new()
            .prefix(".northwall-")
            .tempfile_in(folder.unwrap_or_else(|| Path::new(".")))
            .map_err(|e| fault(&e))?;
        let (to, jobs) = server::archive::back_up(&store, BufWriter::new(file))
            .await
            .map_err(|e| fault(&e))?;
        let file = to.into_inner().map_err(|e| fault(e.error()))?;
        file.as_file().sync_all().map_err(|e| fault(&e))?;
        file.persist_noclobber(&of.file)
            .map_err(|e| fault(&e.error))?;
        store.close().await;
        let many = counted(jobs);
        let text = format!("{many} of {} in {shown}\n", of.kept.words());
        Ok(Report {
            text,
            json: json!({ "jobs": jobs, "file": shown }),
            ..Report::default()
        })
    })
}

fn counted(jobs: usize) -> String {
    match jobs {
        1 => "1 job".to_owned(),
        n => format!("{n} jobs"),
    }
}

/// `northwall restore`.
pub fn restore(of: &Restore) -> Result<Report, Refusal> {
    let shown = of.file.display().to_string();
    wait_for(async {
        let file = File::open(&of.file)
            .map_err(|e| Fault::file(&shown, format!("the archive does not open: {e}")))?;
        let store = of.kept.open().await?;
        let done = server::archive::bring_back(&store, BufReader::new(file), of.over)
            .await
            .map_err(|e| Fault::file(&shown, e).mend("what came before this in it is back"))?;
        store.close().await;
        let stayed = match done.stayed {
            0 => String::new(),
            n => format!("; {} stayed as it was (--over replaces it)", counted(n)),
        };
        Ok(Report {
            text: format!("Back: {}{stayed}\n", counted(done.back)),
            json: json!({ "back": done.back, "stayed": done.stayed }),
            ..Report::default()
        })
    })
}
