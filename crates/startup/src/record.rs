//! Records that only grow: each carries the hash of the one before.
//!
//! One record is one line of JSON. A correction is a new record that names the one it corrects,
//! with who, when and why; the old one stays. A line without its end of line was being written
//! when the power went; nobody was told it was kept, so it does not count.

use serde::{Deserialize, Serialize};
use serde_json::Value;
use sha2::{Digest, Sha256};

use crate::stamp::Stamp;

/// What stands in place of a hash before the first record.
pub const FIRST: &str = "northwall";

/// One record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Number, from 1.
    pub n: u64,
    /// When, by the clock on the wall.
    pub at: String,
    /// Who.
    pub who: String,
    /// What kind: `pressure-reading`, `joint`, `baseline`.
    pub kind: String,
    /// Number of the record this one corrects.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corrects: Option<u64>,
    /// Why, for a correction.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
    /// What was recorded.
    pub says: Value,
    /// Hash of the record before.
    pub before: String,
    /// SHA-256 of all of the above, in hexadecimal.
    pub hash: String,
}

/// What is to be recorded.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<'a> {
    /// When.
    pub at: Stamp,
    /// Who.
    pub who: &'a str,
    /// What kind.
    pub kind: &'a str,
    /// What.
    pub says: Value,
    /// The record it corrects, and why.
    pub corrects: Option<(u64, &'a str)>,
}

/// Why a record cannot be written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotARecord {
    /// Nobody named.
    #[error("a record needs who made it")]
    Who,
    /// A correction without a reason.
    #[error("a correction needs why")]
    Why,
    /// A correction of a record that is not there.
    #[error("there is no record {0} to correct")]
    NoSuch(u64),
}

/// Why a file of records does not hold.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
#[error("line {line}: {why}")]
pub struct Broken {
    /// Line, from 1.
    pub line: usize,
    /// What is wrong.
    pub why: String,
}

/// A file of records that holds together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Chain {
    /// Records, in order.
    pub records: Vec<Record>,
    /// Bytes of a last line that was never finished.
    pub unfinished: usize,
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut out, b| {
        for half in [b >> 4, b & 15] {
            out.push(char::from_digit(u32::from(half), 16).unwrap_or('0'));
        }
        out
    })
}

impl Record {
    /// It as a line of the file, with its end of line.
    pub fn line(&self) -> String {
        serde_json::to_string(self).unwrap_or_default() + "\n"
    }
}

/// Hash of a record without its own hash. Each part goes in with its length, so that nothing can
/// be moved from one part to the next.
fn hash_of(r: &Record) -> String {
    let corrects = r.corrects.map_or(String::new(), |n| n.to_string());
    let says = r.says.to_string();
    let n = r.n.to_string();
    let mut sha = Sha256::new();
    for part in [
        &n, &r.at, &r.who, &r.kind, &corrects, &r.why, &says, &r.before,
    ] {
        sha.update((part.len() as u64).to_le_bytes());
        sha.update(part.as_bytes());
    }
    hex(&sha.finalize())
}

impl Chain {
    /// Hash of the last record: written down elsewhere, it proves that none was cut off.
    pub fn last_hash(&self) -> &str {
        self.records.last().map_or(FIRST, |r| &r.hash)
    }

    /// The line to append for an entry, with its end of line.
    ///
    /// # Errors
    /// Nobody named, a correction without a reason or of a record that is not there.
    pub fn next(&self, entry: &Entry<'_>) -> Result<(Record, String), NotARecord> {
        if entry.who.trim().is_empty() {
            return Err(NotARecord::Who);
        }
        let n = self.records.len() as u64 + 1;
        if let Some((old, why)) = entry.corrects {
            if old == 0 || old >= n {
                return Err(NotARecord::NoSuch(old));
            }
            if why.trim().is_empty() {
                return Err(NotARecord::Why);
            }
        }
        let mut record = Record {
            n,
            at: entry.at.written(),
            who: entry.who.trim().to_owned(),
            kind: entry.kind.to_owned(),
            corrects: entry.corrects.map(|c| c.0),
            why: entry
                .corrects
                .map_or(String::new(), |c| c.1.trim().to_owned()),
            says: entry.says.clone(),
            before: self.last_hash().to_owned(),
            hash: String::new(),
        };
        // Hashed as it will be read again: floats need serde_json's `float_roundtrip` for that.
        if let Ok(again) = serde_json::from_str(&record.says.to_string()) {
            record.says = again;
        }
        record.hash = hash_of(&record);
        let line = record.line();
        Ok((record, line))
    }

    /// What stands after corrections: the last word on each record, in the order of the first.
    pub fn standing(&self) -> Vec<&Record> {
        let root = |mut n: u64| {
            // A correction names an earlier record, so this ends.
            while let Some(old) = self.at(n).and_then(|r| r.corrects) {
                n = old;
            }
            n
        };
        let mut last: std::collections::BTreeMap<u64, &Record> = std::collections::BTreeMap::new();
        for r in &self.records {
            last.insert(root(r.n), r);
        }
        last.into_values().collect()
    }

    fn at(&self, n: u64) -> Option<&Record> {
        self.records.get(usize::try_from(n.checked_sub(1)?).ok()?)
    }
}

/// Reads a file of records and proves that none was altered, taken out, put in or moved.
///
/// What is cut off at the end can only be seen with the last hash written down elsewhere.
///
/// # Errors
/// The first line that does not hold, and why.
pub fn verify(text: &str) -> Result<Chain, Broken> {
    let whole = text.rfind('\n').map_or(0, |at| at + 1);
    let (kept, rest) = text.split_at(whole);
    let mut chain = Chain {
        records: Vec::new(),
        unfinished: rest.len(),
    };
    for (i, line) in kept.lines().enumerate() {
        let broken = |why: String| Broken { line: i + 1, why };
        let r: Record = serde_json::from_str(line).map_err(|e| {
            let why = units::cut(&e.to_string(), 200);
            broken(format!("this is not a record: {why}"))
        })?;
        if r.n != i as u64 + 1 {
            return Err(broken(format!(
                "this is record {}, and {} belongs here: one was taken out, put in or moved",
                r.n,
                i + 1
            )));
        }
        if r.before != chain.last_hash() {
            return Err(broken(format!(
                "record {} does not follow the one before: that one was altered or exchanged",
                r.n
            )));
        }
        if r.hash != hash_of(&r) {
            return Err(broken(format!(
                "record {} was altered after it was made",
                r.n
            )));
        }
        if r.corrects.is_some_and(|n| n == 0 || n >= r.n) {
            return Err(broken(format!(
                "record {} corrects one that is not before it",
                r.n
            )));
        }
        chain.records.push(r);
    }
    Ok(chain)
}
