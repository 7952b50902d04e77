//! A table of text: separator guessed, lines above the headings passed over, cells with lines.

use crate::Refused;

/// Most bytes of a table of bills; ten years of hours are 4 MB.
pub(crate) const MOST_BYTES: usize = 24_000_000;
/// Lines that may stand above the headings: names, addresses, account numbers.
const MOST_ABOVE: usize = 40;
/// Most cells of a row.
const MOST_CELLS: usize = 400;

/// A row below the headings.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    /// Line in the file, from 1.
    pub line: usize,
    cells: Vec<String>,
}

impl Row {
    /// A cell; empty where the row is short.
    pub fn cell(&self, at: usize) -> &str {
        self.cells.get(at).map_or("", |c| c.trim())
    }

    fn is_empty(&self) -> bool {
        self.cells.iter().all(|c| c.trim().is_empty())
    }
}

/// A table.
#[derive(Debug)]
pub(crate) struct Table {
    pub head: Vec<String>,
    pub rows: Vec<Row>,
}

/// Reads a table.
///
/// # Errors
/// Nothing in it, too large, not text, a quote that does not close, no line of headings.
pub(crate) fn open(bytes: &[u8], most: usize) -> Result<Table, Refused> {
    let text = text_of(bytes, most)?;
    let separator = separator_of(&text);
    let mut rows = Vec::new();
    let reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator)
        // the kept files of this project say in their first lines what they are
        .comment(text.starts_with("# ").then_some(b'#'))
        .from_reader(text.as_bytes());
    for record in reader.into_records() {
        let record = record.map_err(|e| {
            let line = e.position().map_or(1, |p| p.line() as usize);
            Refused::new(
                "the row does not read as a table",
                e.to_string(),
                "cells between commas, semicolons or tabs, quotes in pairs",
                "open it in a spreadsheet and save it again as CSV",
            )
            .at(line)
        })?;
        if record.len() > MOST_CELLS {
            let line = record.position().map_or(1, |p| p.line() as usize);
            return Err(Refused::new(
                "the row has too many cells",
                format!("{} cells", record.len()),
                format!("up to {MOST_CELLS}"),
                "this is no table of bills: name another file",
            )
            .at(line));
        }
        rows.push(Row {
            line: record.position().map_or(1, |p| p.line() as usize),
            cells: record.iter().map(str::to_owned).collect(),
        });
    }
    let at = headings(&rows).ok_or_else(|| {
        let first = rows.first().map_or(String::new(), |r| r.cells.join(", "));
        Refused::new(
            "no line of headings was found",
            shown(&first),
            "a line that names the columns, one of them a date and one an amount",
            "put headings above the columns: from, to, use (kWh)",
        )
    })?;
    let head = rows
        .get(at)
        .map(|r| r.cells.iter().map(|c| c.trim().to_owned()).collect())
        .unwrap_or_default();
    let rows: Vec<Row> = rows
        .into_iter()
        .skip(at + 1)
        .filter(|r| !r.is_empty())
        .collect();
    Ok(Table { head, rows })
}

/// Text of the bytes; what is not UTF-8 is taken as Latin-1, in which old spreadsheets write.
fn text_of(bytes: &[u8], most: usize) -> Result<String, Refused> {
    if bytes.len() > most {
        return Err(Refused::new(
            "the file is too large for bills",
            format!("{} bytes", bytes.len()),
            format!("at most {most} bytes"),
            "give the months that matter",
        ));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let strange = |b: &u8| *b < 0x20 && !matches!(*b, b'\n' | b'\r' | b'\t' | 0x0c | 0x1a);
    if let Some(at) = bytes.iter().position(strange) {
        let line = bytes
            .get(..at)
            .unwrap_or(&[])
            .split(|b| *b == b'\n')
            .count();
        return Err(Refused::new(
            "this is not a text file",
            format!("byte {:#04x}", bytes.get(at).copied().unwrap_or(0)),
            "CSV text",
            "save the spreadsheet or the PDF's table as CSV",
        )
        .at(line));
    }
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => bytes.iter().map(|b| char::from(*b)).collect(),
    };
    if text.trim().is_empty() {
        return Err(Refused::new(
            "the file is empty",
            "nothing",
            "a table of bills",
            "ask for it again, or name another file",
        ));
    }
    Ok(text)
}

/// The separator that splits the most of the first lines.
fn separator_of(text: &str) -> u8 {
    let mut best = (b',', 0);
    // a comma may stand in a date or a number, so it comes last
    for separator in [b'\t', b';', b'|', b','] {
        let most = text
            .lines()
            .filter(|l| !l.starts_with("# "))
            .take(MOST_ABOVE)
            .map(|l| l.bytes().filter(|b| *b == separator).count())
            .max()
            .unwrap_or(0);
        if most > best.1 {
            best = (separator, most);
        }
    }
    best.0
}

/// The line that names a date and something else.
fn headings(rows: &[Row]) -> Option<usize> {
    const DATES: [&str; 14] = [
        "date",
        "from",
        "start",
        "day",
        "end",
        "to",
        "through",
        "time",
        "dt",
        "read",
        "reading",
        "period",
        "delivered",
        "month",
    ];
    rows.iter().take(MOST_ABOVE).position(|r| {
        let named = r.cells.iter().filter(|c| {
            let c = c.trim();
            !c.is_empty() && !c.starts_with(|f: char| f.is_ascii_digit() || f == '-' || f == '+')
        });
        let dated = r
            .cells
            .iter()
            .any(|c| words(c).iter().any(|w| DATES.contains(&w.as_str())));
        dated && named.count() >= 2
    })
}

/// Words of a heading, small letters.
pub(crate) fn words(heading: &str) -> Vec<String> {
    heading
        .to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| !w.is_empty())
        .map(str::to_owned)
        .collect()
}

/// A value short enough to show, without line breaks.
pub(crate) fn shown(text: &str) -> String {
    let flat: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    format!("\"{}\"", units::cut(&flat, 48))
}

/// The headings, to look columns up in.
pub(crate) struct Head<'a> {
    names: &'a [String],
}

impl<'a> Head<'a> {
    pub fn of(table: &'a Table) -> Self {
        Self { names: &table.head }
    }

    pub fn name(&self, at: usize) -> &'a str {
        self.names.get(at).map_or("", String::as_str)
    }

    /// A column by its exact heading, whatever its case.
    pub fn named(&self, name: &str) -> Option<usize> {
        self.names
            .iter()
            .position(|n| n.eq_ignore_ascii_case(name.trim()))
    }

    /// The first column whose heading has one of these words or runs of words, in the order of
    /// the list.
    pub fn find(&self, any: &[&str]) -> Option<usize> {
        self.find_but(any, &[])
    }

    /// As [`Head::find`], passing over headings with one of the other words.
    pub fn find_but(&self, any: &[&str], none: &[&str]) -> Option<usize> {
        let split: Vec<Vec<String>> = self.names.iter().map(|n| words(n)).collect();
        any.iter().find_map(|want| {
            let want = words(want);
            split.iter().position(|have| {
                let has = have
                    .windows(want.len().max(1))
                    .any(|w| w == want.as_slice());
                has && !none.iter().any(|n| have.iter().any(|h| h == n))
            })
        })
    }

    /// A refusal that lists the headings there are; the job can name a column of bills.
    pub fn missing(&self, what: &str, example: &str) -> Refused {
        Refused {
            mend: "rename the column, or name it in the job's [[bills]]".to_owned(),
            ..self.lacks(what, example)
        }
    }

    /// The same for a file whose columns the job cannot name.
    pub fn lacks(&self, what: &str, example: &str) -> Refused {
        let names: Vec<&str> = self
            .names
            .iter()
            .map(String::as_str)
            .filter(|n| !n.is_empty())
            .take(12)
            .collect();
        Refused::new(
            format!("no heading tells {what}"),
            shown(&names.join(", ")),
            format!("a heading such as {example}"),
            "rename the column",
        )
    }
}
