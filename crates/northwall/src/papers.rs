//! `northwall papers`: what stands against each paper, then the papers themselves.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use papers::{Gap, Input, Issue, Language, Paper, Reader, Size, Verified};
use reckon::Level;
use serde_json::json;
use startup::record::{Chain, verify};

use crate::arguments::Usual;
use crate::files::{self, Loaded};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading, wrapped};

/// What may be asked of the papers.
#[derive(Debug, Args)]
pub struct Papers {
    /// Job file
    pub job: PathBuf,
    /// Whose paper
    #[arg(long = "for", value_enum, default_value_t = Whose::All)]
    pub whose: Whose,
    /// Size of the sheets
    #[arg(long, value_enum, default_value_t = PaperSize::Letter)]
    pub paper: PaperSize,
    /// Folder to write into; made if it is not there
    #[arg(long, value_name = "DIR", default_value = "papers")]
    pub into: PathBuf,
    /// Records of the start-up day
    #[arg(long, value_name = "FILE")]
    pub record: Option<PathBuf>,
    /// Only say what is missing or contradicts; write nothing
    #[arg(long)]
    pub gate: bool,
    /// Say whether a paper with this code is of the job as it stands; write nothing
    #[arg(long, value_name = "CODE", conflicts_with = "gate")]
    pub verify: Option<String>,
}

/// Whose paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Whose {
    /// Who lives there
    Owner,
    /// Who inspects the work
    Inspector,
    /// Who decides on the rebate
    Rebate,
    /// Who does the work
    Crew,
    /// All four
    All,
}

/// Size of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperSize {
    /// US Letter
    Letter,
    /// A4
    A4,
}

impl Whose {
    fn readers(self) -> Vec<Reader> {
        match self {
            Self::Owner => vec![Reader::Owner],
            Self::Inspector => vec![Reader::Inspector],
            Self::Rebate => vec![Reader::Rebate],
            Self::Crew => vec![Reader::Crew],
            Self::All => Reader::ALL.to_vec(),
        }
    }
}

/// Most bytes of a file of records.
const MOST_RECORDS: u64 = 64_000_000;

pub fn answer(ask: &Papers, usual: &Usual) -> Result<Report, Refusal> {
    let loaded = files::load(&ask.job, usual)?;
    let text = files::bytes(&ask.job, files::MOST_TEXT, "job file")?;
    let records = ask.record.as_deref().map(records).transpose()?;
    let beside = papers::beside(
        &loaded.job,
        &loaded.catalogue,
        &loaded.weather,
        records.as_ref().map(|r| r.0.as_str()),
    );
    let issue = Issue::of(&String::from_utf8_lossy(&text), &beside);
    if let Some(code) = &ask.verify {
        return Ok(verified(&issue, code));
    }
    let plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    let input = Input {
        job: &loaded.job,
        plan: &plan,
        catalogue: &loaded.catalogue,
        records: records.as_ref().map(|r| &r.1),
        issue: &issue,
        system: Say::new(usual.si).system,
        language: Language::English,
    };
    let readers = ask.whose.readers();
    let mut out = Vec::new();
    for reader in readers {
        out.push(if ask.gate {
            (reader, papers::gaps(&input, reader), None)
        } else {
            let paper = set(&input, reader, ask.paper)?;
            (reader, paper.gaps, Some(paper.pdf))
        });
    }
    let mut report = told(&loaded, &issue, &out);
    if !ask.gate {
        folder(&ask.into)?;
        for (reader, _, pdf) in &out {
            let path = ask.into.join(format!("{}.pdf", reader.word()));
            files::write_whole(&path, pdf.as_deref().unwrap_or_default(), true)?;
            report
                .text
                .push_str(&format!("written {}\n", path.display()));
        }
    }
    let stop = |f: &plan::Numbered| f.finding.level == Level::Stop;
    report.code = u8::from(plan.findings.iter().any(stop));
    Ok(report)
}

fn set(input: &Input<'_>, reader: Reader, size: PaperSize) -> Result<Paper, Refusal> {
    let size = match size {
        PaperSize::Letter => Size::Letter,
        PaperSize::A4 => Size::A4,
    };
    papers::paper(input, reader, size).map_err(|e| {
        Fault::flag(reader.word(), e.to_string())
            .mend("this is a defect of the program: please report it")
            .into()
    })
}

/// Reads a file of records and proves it.
fn records(path: &Path) -> Result<(String, Chain), Refusal> {
    let bytes = files::bytes(path, MOST_RECORDS, "file of records")?;
    let text = String::from_utf8_lossy(&bytes).into_owned();
    let shown = path.display().to_string();
    match verify(&text) {
        Ok(chain) => Ok((text, chain)),
        Err(e) => {
            let mut fault = Fault::file(&shown, e.why)
                .mend("keep this file as it is and find the copy that was not altered");
            fault.line = Some(e.line);
            Err(fault.into())
        }
    }
}

fn folder(into: &Path) -> Result<(), Refusal> {
    std::fs::create_dir_all(into).map_err(|e| {
        Fault::file(
            &into.display().to_string(),
            format!("the folder cannot be made: {e}"),
        )
        .mend("name another with --into")
        .into()
    })
}

/// Reader, what stands against the paper, and the paper.
type Set = (Reader, Vec<Gap>, Option<Vec<u8>>);

fn told(loaded: &Loaded, issue: &Issue, out: &[Set]) -> Report {
    let mut text = heading(&loaded.job.name);
    for (reader, gaps, _) in out {
        text.push('\n');
        let says = if gaps.is_empty() {
            format!("{}: complete", reader.word())
        } else {
            format!("{}: a draft, {} against it", reader.word(), gaps.len())
        };
        text.push_str(&heading(&says));
        for g in gaps {
            text.push_str(&wrapped(
                "  ",
                &format!("{}: {} [{}]", g.kind, g.says, g.place),
            ));
            text.push_str(&wrapped("      → ", &g.mend).replace("\n      → ", "\n        "));
        }
    }
    text.push_str(&format!("\ncode {}\n", issue.code));
    let view = json!({
        "job": loaded.job.name,
        "code": issue.code,
        "hash": issue.hash,
        "papers": out.iter().map(|(reader, gaps, _)| json!({
            "for": reader.word(),
            "complete": gaps.is_empty(),
            "against": gaps,
        })).collect::<Vec<_>>(),
    });
    Report::new(text, &view)
}

fn verified(issue: &Issue, typed: &str) -> Report {
    let (word, says) = match issue.verify(typed) {
        Verified::Same => ("same", "same: the paper is of this job as it stands"),
        Verified::OtherJob => (
            "other-job",
            "differs: the job is another one, or was changed after the paper was printed",
        ),
        Verified::OtherSheets => (
            "other-sheets",
            "differs: the job is the same; sheets, weather or records are not (name the records \
             with --record if the paper had them)",
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
    let view = json!({ "verified": word, "typed": typed, "code": issue.code, "hash": issue.hash });
    let mut report = Report::new(wrapped("", says), &view);
    report.code = u8::from(word != "same");
    report
}
