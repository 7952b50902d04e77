//! From text to a job.

use crate::cell::Row;
use crate::check::{Check, Names};
use crate::tables::{self, Desk};
use crate::tree::{Lines, Node, Raw, grow};
use crate::{Job, Problem, Span, VERSION, geometry};

/// Reads the text of a job file.
///
/// # Example
/// ```
/// let problems = jobfile::read("northwall = 1\n[jobb]\n").err().unwrap_or_default();
/// let slip = problems.iter().find(|p| p.path == "jobb");
/// assert_eq!(slip.map(|p| p.line()), Some(2));
/// assert_eq!(slip.map(|p| p.mend.as_str()), Some("did you mean `job`?"));
/// ```
///
/// # Errors
/// Every problem found, in the order of the file. Problems of geometry are looked for only when
/// everything reads.
pub fn read(text: &str) -> Result<Job, Vec<Problem>> {
    whole(text).map_err(|problems| problems.into_iter().map(Problem::quotable).collect())
}

fn whole(text: &str) -> Result<Job, Vec<Problem>> {
    let lines = Lines::new(text);
    if text.trim().is_empty() {
        return Err(vec![Problem {
            span: Span {
                line: 1,
                column: 1,
                ..Span::default()
            },
            says: "the file is empty".to_owned(),
            allowed: "a job file, which begins with `northwall = 1`".to_owned(),
            mend: "write a first job with `northwall new`".to_owned(),
            ..Problem::blank()
        }]);
    }
    let mut root = grow(text).map_err(|p| vec![p])?;
    version(&root, &lines).map_err(|p| vec![p])?;
    let mut problems = Vec::new();
    let planned = tables::overlay(&mut root, &lines, &mut problems);
    let names = Names::gather(&root);
    let mut check = Check::new(&lines, names);
    let file: Row = check.table(&root, &tables::FILE, "", "");
    problems.append(&mut check.problems);
    let mut desk = Desk::default();
    let mut job = tables::assemble(&file, &mut desk);
    problems.append(&mut desk.problems);
    job.given = std::mem::take(&mut desk.given);
    job.places = check.places;
    for entry in &mut job.as_built {
        if let Some((_, was)) = planned.iter().find(|(path, _)| *path == entry.path) {
            entry.planned.clone_from(was);
        }
    }
    if problems.is_empty() {
        problems = geometry::problems(&job, &desk);
    }
    if problems.is_empty() {
        return Ok(job);
    }
    problems.sort_by(|a, b| a.span.cmp(&b.span).then_with(|| a.path.cmp(&b.path)));
    problems.dedup();
    Err(problems)
}

/// Reads the bytes of a job file.
///
/// # Errors
/// As [`read`]; also bytes that are not UTF-8 text.
pub fn read_bytes(bytes: &[u8]) -> Result<Job, Vec<Problem>> {
    match std::str::from_utf8(bytes) {
        Ok(text) => read(text.strip_prefix('\u{feff}').unwrap_or(text)),
        Err(error) => {
            let good = bytes.get(..error.valid_up_to()).unwrap_or(&[]);
            let line = good.split(|b| *b == b'\n').count();
            let column = good.rsplit(|b| *b == b'\n').next().map_or(0, <[u8]>::len) + 1;
            let at = error.valid_up_to();
            let byte = bytes.get(at).copied().unwrap_or(0);
            Err(vec![Problem {
                span: Span {
                    start: at,
                    end: at + 1,
                    line,
                    column,
                },
                says: "the file is not UTF-8 text".to_owned(),
                got: format!("byte 0x{byte:02x}"),
                allowed: "text in UTF-8".to_owned(),
                mend: "save the file as UTF-8 in the editor; a photo or a word processor's file \
                       is not a job"
                    .to_owned(),
                ..Problem::blank()
            }])
        }
    }
}

/// Looks at the version first: another version's keys would only confuse.
fn version(root: &Node, lines: &Lines<'_>) -> Result<(), Problem> {
    let blank = || Problem {
        path: "northwall".to_owned(),
        span: Span {
            line: 1,
            column: 1,
            ..Span::default()
        },
        allowed: format!("northwall = {VERSION}"),
        ..Problem::blank()
    };
    match root.get("northwall") {
        None => Err(Problem {
            says: "the version of the format is missing".to_owned(),
            mend: format!("put `northwall = {VERSION}` in the first line"),
            ..blank()
        }),
        Some(Node {
            span,
            raw: Raw::Whole(n),
        }) if *n > i64::from(VERSION) => Err(Problem {
            span: lines.span(span),
            says: "this job was written for a newer program".to_owned(),
            got: n.to_string(),
            mend: "get the newer program; do not change the number".to_owned(),
            ..blank()
        }),
        Some(Node {
            raw: Raw::Whole(n), ..
        }) if *n >= 1 => Ok(()),
        Some(Node { span, .. }) => Err(Problem {
            span: lines.span(span),
            says: "this is not a version of the format".to_owned(),
            got: lines.written(span),
            mend: format!("write `northwall = {VERSION}`, without quotes"),
            ..blank()
        }),
    }
}
