//! One paper, put together.

use crate::block::{Block, Cell, FrameWords, Note, Sheet};
use crate::desk::Input;
use crate::gate::{Gap, gaps};
use crate::press::{NotSet, pdf};
use crate::{Reader, Size, crew, inspector, owner, parts, rebate};

/// A paper as set.
#[derive(Debug, Clone)]
pub struct Paper {
    /// Who it is for.
    pub reader: Reader,
    /// What stands against it; printed as a draft if anything does.
    pub gaps: Vec<Gap>,
    /// PDF.
    pub pdf: Vec<u8>,
}

/// Day on a paper whose job names none: there is no clock here, and the same job gives the same
/// bytes.
const NO_DAY: [i32; 3] = [2000, 1, 1];

/// Sets the paper of a reader.
///
/// # Errors
/// The document engine refuses: a defect of this program.
pub fn paper(input: &Input<'_>, reader: Reader, size: Size) -> Result<Paper, NotSet> {
    let gaps = gaps(input, reader);
    let sheet = sheet(input, reader, size, &gaps);
    let pdf = pdf(&sheet)?;
    Ok(Paper { reader, gaps, pdf })
}

/// What stands on the paper, as data: what is printed is this and nothing else.
pub fn sheet(input: &Input<'_>, reader: Reader, size: Size, gaps: &[Gap]) -> Sheet {
    let words = input.words();
    let mut blocks = parts::draft(input, gaps);
    blocks.extend(match reader {
        Reader::Owner => owner::blocks(input),
        Reader::Inspector => inspector::blocks(input),
        Reader::Rebate => rebate::blocks(input),
        Reader::Crew => crew::blocks(input),
    });
    blocks.extend(parts::issue(input));
    let title = words.say(match reader {
        Reader::Owner => "owner.title",
        Reader::Inspector => "inspector.title",
        Reader::Rebate => "rebate.title",
        Reader::Crew => "crew.title",
    });
    let paperwork = &input.job.paperwork;
    let author =
        (paperwork.firm.as_ref()).map_or_else(|| words.say("frame.nobody"), |f| f.name.clone());
    Sheet {
        lang: input.language.code(),
        paper: size.word(),
        title,
        about: words.say("frame.about"),
        author,
        date: last_day(input).unwrap_or(NO_DAY),
        under: under(input),
        draft: !gaps.is_empty(),
        cells: cells(input, reader),
        words: FrameWords {
            page: words.say("frame.page"),
            draft: words.say("frame.draft"),
        },
        blocks,
        ident: format!("{}-{}", input.issue.hash, reader.word()),
    }
    .made_printable()
}

fn under(input: &Input<'_>) -> String {
    let owner = input.job.paperwork.owner.as_ref();
    let owner = owner.map(|o| format!("{}, {}", o.name, o.address));
    let all = [Some(input.job.name.clone()), owner];
    all.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

fn cells(input: &Input<'_>, reader: Reader) -> Vec<Cell> {
    let words = input.words();
    let cell = |key: &str, says: String| Cell {
        small: words.say(key),
        says,
    };
    let mut out = vec![
        cell("frame.job", units::cut(&input.job.name, NAME_IN_BLOCK)),
        cell("frame.paper", words.say(reader.key())),
        cell("frame.design", input.design()),
    ];
    if let Some((_, day)) = input.days().last() {
        out.push(cell("frame.dated", (*day).to_owned()));
    }
    out.push(cell("frame.code", input.issue.code.clone()));
    out
}

/// Letters of the job's name that stand in the title block; the whole name is under the title.
const NAME_IN_BLOCK: usize = 42;

/// The last day the job names.
fn last_day(input: &Input<'_>) -> Option<[i32; 3]> {
    let day = input.days().into_iter().map(|(_, d)| d).max()?;
    let mut parts = day.split('-').map(|p| p.parse::<i32>().ok());
    let day = [parts.next()??, parts.next()??, parts.next()??];
    ((1..=9999).contains(&day[0])).then_some(day)
}

impl Sheet {
    /// All words of the sheet, in the order in which they stand, for tests and for search.
    pub fn text(&self) -> String {
        let mut out = vec![self.title.clone(), self.under.clone()];
        for b in &self.blocks {
            match b {
                Block::Heading { text } => out.push(format!("\n## {text}")),
                Block::Place { text } => out.push(format!("### {text}")),
                Block::Para { text } | Block::Soft { text } | Block::Fine { text } => {
                    out.push(text.clone());
                }
                Block::Draft { text, says, items } => {
                    out.push(format!("\n## {text}\n{says}"));
                    out.extend(items.iter().map(Note::line));
                }
                Block::Verdict { text, small } => out.push(format!("\"{text}\" {small}")),
                Block::Facts { rows } => out.extend(
                    rows.iter()
                        .map(|r| format!("{}: {} {}", r.name, r.says, r.band)),
                ),
                Block::Table { head, rows, .. } => {
                    out.push(head.join(" | "));
                    out.extend(rows.iter().map(|r| r.join(" | ")));
                }
                Block::Notes { items } => out.extend(items.iter().map(Note::line)),
                Block::Steps { items } => {
                    out.extend(items.iter().map(|s| format!("[ ] {} {}", s.says, s.small)));
                }
                Block::Picture { caption, .. } => out.push(format!("<{caption}>")),
                Block::Lines { count } => out.push(format!("<{count} lines>")),
                Block::Turn => {}
            }
        }
        let lines: Vec<&str> = out.iter().map(|l| l.trim_end()).collect();
        lines.join("\n") + "\n"
    }
}

impl Note {
    fn line(&self) -> String {
        format!(
            "{} {} {} ({}) {}",
            self.number, self.word, self.says, self.place, self.mend
        )
    }
}
