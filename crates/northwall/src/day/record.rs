//! Records on the disk: appended, pushed to the platter, proved.

use std::fs::{File, OpenOptions};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::Path;

use serde_json::{Value, json};
use startup::Stamp;
use startup::record::{Chain, Entry, Record, verify};

use super::asked::OfDay;
use super::page::{item, para, short};
use super::view::{KeptView, NORTHWALL, RecordLineView, RecordView};
use super::{Day, files};
use crate::refusal::{Fault, Refusal};
use crate::report::Report;

/// A file of records that is open for more.
pub struct Book {
    file: File,
    chain: Chain,
    shown: String,
}

impl Book {
    /// Opens and proves a file of records, or begins one. One at a time: a second is refused. What
    /// was never finished at its end is taken off and said so in a record.
    pub fn open(path: &Path, at: Stamp, who: &str) -> Result<Self, Refusal> {
        let shown = path.display().to_string();
        let fault = |e: &dyn std::fmt::Display| Fault::file(&shown, e.to_string());
        let mut file = OpenOptions::new()
            .read(true)
            .append(true)
            .create(true)
            .open(path)
            .map_err(|e| fault(&e))?;
        file.try_lock().map_err(|_| {
            fault(&"another northwall is writing this record").mend("end the other, or wait for it")
        })?;
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).map_err(|e| fault(&e))?;
        // A cut may fall inside a letter: what is not finished need not be text.
        let whole = bytes
            .iter()
            .rposition(|b| *b == b'\n')
            .map_or(0, |at| at + 1);
        let torn = bytes.len() - whole;
        bytes.truncate(whole);
        let text = String::from_utf8(bytes).map_err(|_| fault(&"this is not a record"))?;
        let chain = verify(&text).map_err(|e| broken(&shown, &e))?;
        if torn > 0 {
            file.set_len(whole as u64).map_err(|e| fault(&e))?;
            file.seek(SeekFrom::End(0)).map_err(|e| fault(&e))?;
        }
        let mut book = Self { file, chain, shown };
        if torn > 0 {
            book.add(
                at,
                who,
                "cut-off",
                json!({ "bytes_never_finished": torn }),
                None,
            )?;
        }
        Ok(book)
    }

    /// Appends one record. When this returns, it is on the disk.
    pub fn add(
        &mut self,
        at: Stamp,
        who: &str,
        kind: &str,
        says: Value,
        corrects: Option<(u64, &str)>,
    ) -> Result<u64, Refusal> {
        let entry = Entry {
            at,
            who,
            kind,
            says,
            corrects,
        };
        let (record, line) = self
            .chain
            .next(&entry)
            .map_err(|e| Fault::file(&self.shown, e.to_string()))?;
        let fault = |e: std::io::Error| {
            Fault::file(&self.shown, format!("it could not be kept: {e}")).mend(
                "make room on the disk, or mend it, then say it again: what was kept before stands",
            )
        };
        let whole = self.file.metadata().map_err(fault)?.len();
        let kept = (self.file.write_all(line.as_bytes())).and_then(|()| self.file.sync_data());
        if let Err(e) = kept {
            // Half a line must not stand before the next one.
            self.file.set_len(whole).map_err(fault)?;
            return Err(fault(e).into());
        }
        let n = record.n;
        self.chain.records.push(record);
        Ok(n)
    }

    /// What stands of a kind, after corrections.
    pub fn standing(&self, kind: &str) -> Vec<&Record> {
        self.chain
            .standing()
            .into_iter()
            .filter(|r| r.kind == kind)
            .collect()
    }

    /// The last record, for whoever writes its hash down.
    pub fn last(&self) -> KeptView {
        KeptView {
            record: self.chain.records.len() as u64,
            hash: self.chain.last_hash().to_owned(),
        }
    }
}

/// What is to be kept with the outdoor unit it is of, where the job names it: two units may share
/// a file of records.
pub fn of_unit(day: &Day, mut says: Value) -> Value {
    if let (Some(job), Some(says)) = (&day.job, says.as_object_mut()) {
        says.insert("on".to_owned(), json!(job.asked.outdoor));
    }
    says
}

/// Keeps an answer where a record is kept, as a correction where it is one.
pub fn keep(day: &Day, of: &OfDay, kind: &str, says: Value) -> Result<Option<KeptView>, Refusal> {
    let Some(path) = &of.record else {
        return Ok(None);
    };
    let at = day.now()?;
    let mut book = Book::open(path, at, &day.file.who)?;
    if let Some((n, _)) = of.correction() {
        let known = book.standing(kind).iter().any(|r| r.n == n);
        if !known {
            return Err(Fault::flag(
                "--corrects",
                format!("record {n} is no {kind}, or was corrected since"),
            )
            .mend("northwall record show FILE")
            .into());
        }
    }
    book.add(at, &day.file.who, kind, says, of.correction())?;
    Ok(Some(book.last()))
}

/// That something was kept, and what to write down.
pub fn told(kept: &[KeptView]) -> String {
    let Some(last) = kept.last() else {
        return String::new();
    };
    let which = match kept {
        [one] => format!("record {}", one.record),
        [first, ..] => format!("records {} to {}", first.record, last.record),
        [] => String::new(),
    };
    para(&format!(
        "Kept as {which}; write down: {}",
        short(&last.hash)
    ))
}

fn broken(shown: &str, e: &startup::record::Broken) -> Fault {
    let mut fault = Fault::file(shown, e.why.clone())
        .mend("keep this file as it is and find the copy that was not altered");
    fault.line = Some(e.line);
    fault
}

const MOST: u64 = 200_000_000;

fn read(path: &Path) -> Result<String, Refusal> {
    let bytes = files::bytes(path, MOST, "file of records")?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Letters of a hash that are enough to know it by.
const ENOUGH: usize = 16;

/// `record verify`: exit 1 where it was altered.
pub fn check(path: &Path, last: Option<&str>) -> Result<Report, Refusal> {
    let wanted = last.map(|l| l.replace(' ', "").to_lowercase());
    if let Some(l) = wanted.as_ref().filter(|l| l.len() < ENOUGH) {
        return Err(Fault::flag("--last", "this is too short for a hash")
            .got(l.clone())
            .allowed("its first 16 letters or more")
            .into());
    }
    let mut view = RecordView {
        northwall: NORTHWALL,
        holds: false,
        records: 0,
        last: String::new(),
        line: None,
        why: None,
        unfinished_bytes: 0,
        shown: Vec::new(),
    };
    let text = match verify(&read(path)?) {
        Err(e) => {
            view.line = Some(e.line);
            view.why = Some(e.why.clone());
            para(&format!("altered: {e}"))
        }
        Ok(chain) => {
            let there = |l: &String| chain.records.iter().any(|r| r.hash.starts_with(l.as_str()));
            view.holds = wanted.as_ref().is_none_or(there);
            view.records = chain.records.len();
            chain.last_hash().clone_into(&mut view.last);
            view.unfinished_bytes = chain.unfinished;
            let mut text = para(&format!(
                "{} records, each as it was made; the last is {}",
                chain.records.len(),
                short(chain.last_hash())
            ));
            if chain.unfinished > 0 {
                text.push_str(&para(
                    "The last line was never finished: it was not acknowledged and does not count.",
                ));
            }
            match (&wanted, view.holds) {
                (None, _) => text.push_str(&para(
                    "Records cut off at the end show only against a hash written down elsewhere: --last HASH",
                )),
                (Some(l), true) => text.push_str(&para(&format!("Record {} is there.", short(l)))),
                (Some(l), false) => {
                    let why = format!("record {} is not there: the end was cut off or made anew", short(l));
                    text.push_str(&para(&format!("altered: {why}")));
                    view.why = Some(why);
                }
            }
            text
        }
    };
    let mut report = Report::new(text, &view);
    report.code = u8::from(!view.holds);
    Ok(report)
}

/// What stands in a record, in a few words.
fn summary(r: &Record) -> String {
    let text = |v: &Value| v.as_str().map(str::to_owned);
    let says = &r.says;
    let answer = says.get("answer").unwrap_or(says);
    let number = |key: &str| says.get(key).and_then(Value::as_f64);
    match r.kind.as_str() {
        "pressure-reading" => match (number("pa"), number("line_c")) {
            (Some(pa), Some(c)) => format!(
                "{:.1} psi, {:.1} F",
                pa / 6_894.757_293_168_361,
                c * 1.8 + 32.0
            ),
            _ => String::new(),
        },
        "vacuum-reading" => number("pa").map_or(String::new(), |pa| {
            format!("{:.0} micron", pa / startup::vacuum::MICRON_PA)
        }),
        "joint" => format!(
            "{}, {}",
            says.get("place").and_then(text).unwrap_or_default(),
            says.get("initials").and_then(text).unwrap_or_default()
        ),
        "charge" => says
            .pointer("/weighed/says")
            .and_then(text)
            .unwrap_or_default(),
        _ => ["verdict", "says", "step"]
            .iter()
            .filter_map(|k| answer.get(*k).and_then(text))
            .collect::<Vec<_>>()
            .join(": "),
    }
}

/// `record show`.
pub fn show(path: &Path) -> Result<Report, Refusal> {
    let shown = path.display().to_string();
    let chain = verify(&read(path)?).map_err(|e| broken(&shown, &e))?;
    let standing: Vec<u64> = chain.standing().iter().map(|r| r.n).collect();
    let mut text = String::new();
    let mut lines = Vec::new();
    for r in &chain.records {
        let stands = standing.contains(&r.n);
        let mut words = format!(
            "{} {} {} {}",
            r.at.get(..16).unwrap_or(&r.at).replace('T', " "),
            r.kind,
            r.who,
            summary(r)
        );
        if let Some(old) = r.corrects {
            words.push_str(&format!(" (corrects {old}: {})", r.why));
        }
        if !stands {
            words.push_str(" (corrected since)");
        }
        text.push_str(&item(&format!("{:>3} ", r.n), &words));
        lines.push(RecordLineView {
            n: r.n,
            at: r.at.clone(),
            who: r.who.clone(),
            kind: r.kind.clone(),
            corrects: r.corrects,
            why: r.why.clone(),
            corrected: !stands,
            says: r.says.clone(),
        });
    }
    text.push_str(&para(&format!("The last is {}", short(chain.last_hash()))));
    Ok(Report::new(
        text,
        &RecordView {
            northwall: NORTHWALL,
            holds: true,
            records: chain.records.len(),
            last: chain.last_hash().to_owned(),
            line: None,
            why: None,
            unfinished_bytes: chain.unfinished,
            shown: lines,
        },
    ))
}
