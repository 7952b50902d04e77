//! `northwall papers`: what stands against each paper, then the papers themselves.

pub mod printer;
mod verify;

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use papers::{Gap, Input, Issue, Language, Paper, Reader, Size, hpxml};
use reckon::Level;
use serde_json::json;
use startup::record::{Chain, verify};

use crate::arguments::Usual;
use crate::files::{self, Loaded};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;
use crate::say::{Say, heading, wrapped};
use crate::view::{GapView, PaperView, PapersView, VERSION};
use verify::{LIST, list, named, verified};

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
    /// Also every table of these papers, and every figure of the plan, as CSV
    #[arg(long, conflicts_with_all = ["gate", "verify"])]
    pub csv: bool,
    /// Also a calendar file: filters, coil, visit, the review after the second winter
    #[arg(long, conflicts_with_all = ["gate", "verify"])]
    pub calendar: bool,
    /// Also the house and its systems as HPXML of this version
    #[arg(long, value_enum, value_name = "VERSION", conflicts_with_all = ["gate", "verify"])]
    pub hpxml: Vec<HpxmlVersion>,
    /// HPXML file the job was imported from: what it says of other things goes out again
    #[arg(long, value_name = "FILE", requires = "hpxml")]
    pub kept: Option<PathBuf>,
    /// Run the houses this could be, as `northwall bands` does, and put the band beside what the
    /// owner is promised
    #[arg(long, conflicts_with = "verify")]
    pub bands: bool,
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

/// Versions of HPXML that go out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum HpxmlVersion {
    /// 4.2
    #[value(name = "4")]
    Four,
    /// 5.0
    #[value(name = "5")]
    Five,
}

/// What an import takes.
#[derive(Debug, Args)]
pub struct Import {
    /// HPXML file, version 3 to 5
    pub audit: PathBuf,
    /// Job file to write
    #[arg(default_value = "job.toml")]
    pub job: PathBuf,
    /// Write over a file that is there
    #[arg(long)]
    pub force: bool,
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
        &named(&loaded.job, &ask.job)?,
    );
    let issue = Issue::of(&String::from_utf8_lossy(&text), &beside);
    if let Some(code) = &ask.verify {
        return Ok(verified(&issue, code, list(&ask.into)?.as_deref()));
    }
    let mut plan = plan::plan_of_chosen(&loaded.job, &loaded.catalogue, &loaded.weather);
    if loaded.job.has_bills() {
        crate::bills::figures(&loaded, &ask.job, &mut plan)?;
    }
    if ask.bands {
        // of what is chosen alone: the papers show no other
        let choices = loaded.job.choices();
        if let Some(chosen) = choices.first().filter(|c| !c.equipment.heads.is_empty()) {
            let chosen = std::slice::from_ref(chosen);
            crate::bands::figures(&loaded, &ask.job, chosen, &mut plan)
                .map_err(|why| Fault::flag("--bands", why))?;
        }
    }
    let input = Input {
        job: &loaded.job,
        plan: &plan,
        catalogue: &loaded.catalogue,
        records: records.as_ref().map(|r| &r.1),
        issue: &issue,
        system: Say::for_job(&loaded.job).system,
        language: Language::English,
    };
    let readers = ask.whose.readers();
    let of = |reader: Reader| -> Result<Set, Refusal> {
        if ask.gate {
            return Ok((reader, papers::gaps(&input, reader), None));
        }
        let paper = set(&input, reader, ask.paper)?;
        Ok((reader, paper.gaps, Some(paper.pdf)))
    };
    // each paper for itself, on as many cores as there are: they take longer than the plan
    let mut out = std::thread::scope(|scope| {
        let begun: Vec<_> = (readers.into_iter())
            .map(|reader| scope.spawn(move || of(reader)))
            .collect();
        let done = begun.into_iter().map(|t| {
            t.join()
                .unwrap_or_else(|panic| std::panic::resume_unwind(panic))
        });
        done.collect::<Result<Vec<Set>, Refusal>>()
    })?;
    let mut report = told(&loaded, &issue, &out);
    if !ask.gate {
        folder(&ask.into)?;
        let mut files: Vec<(String, Vec<u8>)> = Vec::new();
        for (reader, _, pdf) in &mut out {
            let name = format!("{}.pdf", reader.word());
            files.push((name, pdf.take().unwrap_or_default()));
        }
        files.extend(beside_the_papers(ask, &input)?);
        files.push((LIST.to_owned(), issue.list().into_bytes()));
        for (name, bytes) in files {
            let path = ask.into.join(name);
            files::write_whole(&path, bytes, true)?;
            report
                .text
                .push_str(&format!("written {}\n", path.display()));
        }
    }
    let stop = |f: &plan::Numbered| f.finding.level == Level::Stop;
    report.code = u8::from(plan.findings.iter().any(stop));
    Ok(report)
}

/// The other formats asked for.
fn beside_the_papers(ask: &Papers, input: &Input<'_>) -> Result<Vec<(String, Vec<u8>)>, Refusal> {
    let mut out = Vec::new();
    if ask.csv {
        let tables = papers::csv(input, &ask.whose.readers());
        out.extend(
            tables
                .into_iter()
                .map(|(name, text)| (name, text.into_bytes())),
        );
    }
    if ask.calendar {
        let text = papers::calendar(input).ok_or_else(|| {
            Fault::flag(
                "--calendar",
                "the job names no day of installation or hand-over",
            )
            .mend("write install_day in [codes]")
        })?;
        out.push(("calendar.ics".to_owned(), text.into_bytes()));
    }
    let kept = ask.kept.as_deref().map(kept).transpose()?;
    for version in &ask.hpxml {
        let (name, version) = match version {
            HpxmlVersion::Four => ("hpxml-4.xml", hpxml::Version::Four),
            HpxmlVersion::Five => ("hpxml-5.xml", hpxml::Version::Five),
        };
        let text = hpxml::export(input, version, kept.as_ref());
        out.push((name.to_owned(), text.into_bytes()));
    }
    Ok(out)
}

/// Most bytes of an HPXML file.
const MOST_HPXML: u64 = 16_000_000;

fn audit(path: &Path) -> Result<String, Refusal> {
    let bytes = files::bytes(path, MOST_HPXML, "HPXML file")?;
    String::from_utf8(bytes).map_err(|_| {
        Fault::file(&path.display().to_string(), "the file is not UTF-8 text")
            .mend("save it as UTF-8")
            .into()
    })
}

fn not_hpxml(path: &Path, e: &hpxml::NotHpxml) -> Refusal {
    Fault::file(&path.display().to_string(), e.to_string())
        .allowed("an HPXML file, version 3 to 5, without a DOCTYPE")
        .into()
}

fn kept(path: &Path) -> Result<hpxml::Element, Refusal> {
    let text = audit(path)?;
    hpxml::Element::read(&text).map_err(|e| not_hpxml(path, &e))
}

/// `northwall import`: an auditor's HPXML file as a first job.
pub fn import(ask: &Import) -> Result<Report, Refusal> {
    let text = audit(&ask.audit)?;
    let got = hpxml::import(&text).map_err(|e| not_hpxml(&ask.audit, &e))?;
    files::write_whole(&ask.job, &got.job, ask.force)?;
    let mut out = format!("written {}\n", ask.job.display());
    for taken in &got.taken {
        out.push_str(&wrapped("  taken: ", taken));
    }
    if !got.left.is_empty() {
        out.push_str(&wrapped("  not taken: ", &got.left.join(", ")));
    }
    out.push_str(&wrapped(
        "",
        &format!(
            "Rooms are a plain box: draw them as they are. Keep {}; `northwall papers JOB --hpxml 4 \
             --kept FILE` gives out again what it says of other things.",
            ask.audit.display()
        ),
    ));
    let view = json!({ "job": ask.job, "taken": got.taken, "not_taken": got.left });
    Ok(Report::new(out, &view))
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
    // what stands against every paper is said once
    let many = out.len() > 1;
    let first = out.first().map_or(&[][..], |o| &o.1);
    let all: Vec<&Gap> = first
        .iter()
        .filter(|g| many && out.iter().all(|o| o.1.contains(g)))
        .collect();
    if !all.is_empty() {
        text.push('\n');
        text.push_str(&heading(&format!("all of them: {} against it", all.len())));
        for g in &all {
            text.push_str(&gap(g));
        }
    }
    for (reader, gaps, _) in out {
        text.push('\n');
        let own: Vec<&Gap> = gaps.iter().filter(|g| !all.contains(g)).collect();
        let says = match (gaps.is_empty(), all.is_empty()) {
            (true, _) => format!("{}: complete", reader.word()),
            (false, true) => format!("{}: a draft, {} against it", reader.word(), gaps.len()),
            (false, false) => format!(
                "{}: a draft, {} besides those against all",
                reader.word(),
                own.len()
            ),
        };
        text.push_str(&heading(&says));
        for g in own {
            text.push_str(&gap(g));
        }
    }
    text.push_str(&format!("\ncode {}\n", issue.code));
    let view = PapersView {
        northwall: VERSION,
        job: loaded.job.name.clone(),
        code: issue.code.clone(),
        hash: issue.hash.clone(),
        papers: out
            .iter()
            .map(|(reader, gaps, _)| PaperView {
                r#for: reader.word(),
                complete: gaps.is_empty(),
                against: gaps
                    .iter()
                    .map(|g| GapView {
                        kind: g.kind,
                        says: g.says.clone(),
                        place: g.place.clone(),
                        mend: g.mend.clone(),
                    })
                    .collect(),
            })
            .collect(),
    };
    Report::new(text, &view)
}

fn gap(g: &Gap) -> String {
    wrapped("  ", &format!("{}: {} [{}]", g.kind, g.says, g.place))
        + &wrapped("      → ", &g.mend).replace("\n      → ", "\n        ")
}
