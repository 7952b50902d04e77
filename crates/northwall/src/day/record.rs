//! Records on the disk: appended, pushed to the platter, proved.

use std::fs::{File, OpenOptions};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::Path;

use serde_json::{Value, json};
use startup::Stamp;
use startup::record::{Chain, Entry, Record, verify};

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
        self.file
            .write_all(line.as_bytes())
            .and_then(|()| self.file.sync_data())
            .map_err(|e| Fault::file(&self.shown, format!("it could not be kept: {e}")))?;
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

    /// Hash of the last record.
    pub fn last_hash(&self) -> &str {
        self.chain.last_hash()
    }
}

fn broken(shown: &str, e: &startup::record::Broken) -> Fault {
    let mut fault = Fault::file(shown, e.why.clone())
        .mend("keep this file as it is and find the copy that was not altered");
    fault.line = Some(e.line);
    fault
}

/// `record verify`: exit 1 where it was altered.
pub fn check(path: &Path, last: Option<&str>) -> Result<Report, Refusal> {
    let shown = path.display().to_string();
    let text = std::fs::read(path).map_err(|e| Fault::file(&shown, e.to_string()))?;
    let text = String::from_utf8_lossy(&text);
    let (code, says, json) = match verify(&text) {
        Err(e) => (
            1,
            format!("altered: {e}\n"),
            json!({ "holds": false, "line": e.line, "why": e.why }),
        ),
        Ok(chain) => {
            let hash = chain.last_hash().to_owned();
            let known = last.is_none_or(|l| chain.records.iter().any(|r| r.hash == l));
            let mut says = format!(
                "{} records, each as it was made\nlast {hash}\n",
                chain.records.len()
            );
            if chain.unfinished > 0 {
                says.push_str("the last line was never finished: it was not acknowledged and does not count\n");
            }
            if let Some(l) = last {
                says.push_str(&if known {
                    format!("the record {l} written down elsewhere is there\n")
                } else {
                    format!("altered: the record {l} written down elsewhere is not there: the end was cut off or made anew\n")
                });
            } else {
                says.push_str("Records cut off at the end show only against a hash written down elsewhere: --last HASH\n");
            }
            (
                u8::from(!known),
                says,
                json!({ "holds": known, "records": chain.records.len(), "last": hash, "unfinished_bytes": chain.unfinished }),
            )
        }
    };
    Ok(Report {
        text: says,
        json,
        svg: None,
        code,
    })
}
