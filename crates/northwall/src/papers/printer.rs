//! The papers for the interface: what the server hands over goes through the same door as the
//! command.

use jobfile::{Job, Photo};
use papers::{Input, Issue, Language, Reader, Size};
use server::papers::{AgainstLine, From, PaperLine, PapersView, Printer};

use super::verify::names;

/// Sets papers.
#[derive(Debug)]
pub struct Engine;

/// Photos kept beside the job count as those that the job names.
fn with_photos(from: &From<'_>) -> Job {
    let mut job = from.job.clone();
    job.photos.extend(from.photos.iter().map(|of| Photo {
        file: String::new(),
        of: of.clone(),
        note: String::new(),
    }));
    job
}

/// The files that a job names lie beside it where the command runs, not here.
const FILES: &str = "The job names files (bills, temperatures or readings) that are not on the server: the papers made \
     here do not use them, and their code does not cover them. The command northwall papers, beside \
     the job file, uses and covers them.";

/// A file that the job names, where it is on the server.
fn kept<'a>(from: &From<'a>, name: &str) -> Option<&'a (String, Vec<u8>)> {
    from.named.iter().find(|n| n.0 == name)
}

/// Of the files that a job names a server has those of temperatures that were read in; besides, what
/// it keeps is the text, the sheets, the weather and the records.
fn issue(from: &From<'_>) -> Issue {
    let records = from.records.map(|r| r.0);
    // in the order of the command, so that it finds the same code beside the job taken out
    let here = names(from.job).into_iter().filter_map(|n| kept(from, n));
    let named: Vec<_> = here.cloned().collect();
    let beside = papers::beside(from.job, from.catalogue, from.weather, records, &named);
    Issue::of(from.text, &beside)
}

fn input<'a>(from: &From<'a>, job: &'a Job, issue: &'a Issue) -> Input<'a> {
    Input {
        job,
        plan: from.plan,
        catalogue: from.catalogue,
        records: from.records.map(|r| r.1),
        issue,
        system: if from.si {
            units::System::Si
        } else {
            units::System::Us
        },
        language: Language::English,
    }
}

impl Printer for Engine {
    fn against(&self, from: &From<'_>) -> PapersView {
        let (job, issue) = (with_photos(from), issue(from));
        let input = input(from, &job, &issue);
        let line = |reader: Reader| PaperLine {
            reader: reader.word().to_owned(),
            name: input.language.name_of(reader),
            against: papers::gaps(&input, reader)
                .into_iter()
                .map(|g| AgainstLine {
                    kind: g.kind.to_owned(),
                    says: g.says,
                    place: g.place,
                    mend: g.mend,
                })
                .collect(),
        };
        let missing = names(from.job).iter().any(|n| kept(from, n).is_none());
        PapersView {
            code: issue.code.clone(),
            papers: Reader::ALL.into_iter().map(line).collect(),
            notes: missing.then(|| FILES.to_owned()).into_iter().collect(),
        }
    }

    fn paper(&self, from: &From<'_>, reader: &str, a4: bool) -> Result<Option<Vec<u8>>, String> {
        let Some(reader) = Reader::ALL.into_iter().find(|r| r.word() == reader) else {
            return Ok(None);
        };
        let (job, issue) = (with_photos(from), issue(from));
        let size = if a4 { Size::A4 } else { Size::Letter };
        let paper = papers::paper(&input(from, &job, &issue), reader, size);
        paper.map(|p| Some(p.pdf)).map_err(|e| e.to_string())
    }
}
