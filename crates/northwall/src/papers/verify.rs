//! Whether a paper is of the job as it stands, and what became of the rest by name.

use std::path::Path;

use papers::{Issue, Since, Verified};

use crate::files;
use crate::refusal::Refusal;
use crate::report::Report;
use crate::say::wrapped;
use crate::view::{MarkView, SinceView, VERSION, VerifiedView};

/// The list of marks beside the papers.
pub const LIST: &str = "marks.txt";
/// Most bytes of a list of marks.
const MOST_LIST: u64 = 1_000_000;

/// The list of marks that lies beside the papers, if it does.
pub fn list(into: &Path) -> Result<Option<String>, Refusal> {
    let path = into.join(LIST);
    if !path.exists() {
        return Ok(None);
    }
    let bytes = files::bytes(&path, MOST_LIST, "list of marks")?;
    Ok(Some(String::from_utf8_lossy(&bytes).into_owned()))
}

/// The names of files in a job: bills, temperatures, readings of the meter.
pub fn names(job: &jobfile::Job) -> Vec<&String> {
    let bills = job.bill_files.iter().map(|b| &b.file);
    let readings = job.installation.panel.iter();
    let readings = readings.filter_map(|p| p.readings.as_ref());
    let mut names: Vec<&String> = bills
        .chain(&job.winters.temperatures)
        .chain(readings)
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// The files that the job names, by their names in it.
pub fn named(job: &jobfile::Job, path: &Path) -> Result<Vec<(String, Vec<u8>)>, Refusal> {
    let folder = path.parent().unwrap_or(Path::new(""));
    let read = |name: &String| {
        let bytes = files::bytes(&folder.join(name), MOST_NAMED, "file that the job names")?;
        Ok((name.clone(), bytes))
    };
    names(job).into_iter().map(read).collect()
}

/// Most bytes of a file that the job names: a year of minutes.
const MOST_NAMED: u64 = 200_000_000;

/// What a typed code says of the job, with the list that lay beside the paper.
pub fn verified(issue: &Issue, typed: &str, list: Option<&str>) -> Report {
    let (word, says) = match issue.verify(typed) {
        Verified::Same => ("same", "same: the paper is of this job as it stands"),
        Verified::OtherJob => (
            "other-job",
            "differs: the job is another one, or was changed after the paper was printed",
        ),
        Verified::OtherSheets => (
            "other-sheets",
            "differs: the job is the same; sheets, weather, records or the files it names are not \
             (name the records with --record if the paper had them)",
        ),
        Verified::OtherProgram => (
            "other-program",
            "differs: job and sheets are the same; the program or its rules are of another version",
        ),
        Verified::NoCode => (
            "no-code",
            "this is not a code: it has four groups of four letters and digits",
        ),
    };
    let since = list.and_then(|list| issue.since(list, typed));
    let mut text = wrapped("", says);
    if !["same", "no-code"].contains(&word) {
        text.push_str(&differing(issue, since.as_deref()));
    }
    let view = VerifiedView {
        northwall: VERSION,
        verified: word,
        typed: typed.to_owned(),
        code: issue.code.clone(),
        hash: issue.hash.clone(),
        since: since.map(|all| {
            let one = |s: &Since| {
                let (what, name) = match s {
                    Since::Changed(name) => ("changed", name.clone()),
                    Since::Gone(name) => ("gone", name.clone()),
                    Since::New(name) => ("new", name.clone()),
                };
                SinceView { what, name }
            };
            all.iter().map(one).collect()
        }),
        marks: (issue.marks.iter())
            .map(|m| MarkView {
                name: m.name.clone(),
                mark: m.mark.clone(),
                hash: m.hash.clone(),
            })
            .collect(),
    };
    let mut report = Report::new(text, &view);
    report.code = u8::from(word != "same");
    report
}

/// What differs by name, or, without the list that was written beside the paper, the marks as they
/// are now, to be held beside those on its last sheet.
fn differing(issue: &Issue, since: Option<&[Since]>) -> String {
    let Some(since) = since else {
        let all = issue.marks.iter();
        let all = all.fold(String::new(), |out, m| {
            out + "  " + &m.mark + "  " + &m.name + "\n"
        });
        let says = format!(
            "No list of that paper lies in the folder of --into ({LIST}). The marks as they are now, \
             to hold beside those on its last sheet:"
        );
        return wrapped("", &says) + &all;
    };
    since.iter().fold(String::new(), |out, s| {
        out + &match s {
            Since::Changed(name) => format!("  changed: {name}\n"),
            Since::Gone(name) => format!("  gone: {name}\n"),
            Since::New(name) => format!("  new: {name}\n"),
        }
    })
}
