//! `papers` as JSON: what stands against each paper, and whether a code is of this job.
#![cfg_attr(not(feature = "papers"), allow(dead_code))] // the schema is published all the same

use schemars::JsonSchema;
use serde::Serialize;

/// `northwall papers --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PapersView {
    /// Version of the program.
    pub northwall: &'static str,
    /// Name of the job.
    pub job: String,
    /// Code on every sheet.
    pub code: String,
    /// SHA-256 of the job, what it was made with, and the program.
    pub hash: String,
    /// The papers.
    pub papers: Vec<PaperView>,
}

/// A paper.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PaperView {
    /// `owner`, `inspector`, `rebate`, `crew`.
    pub r#for: &'static str,
    /// Nothing stands against it.
    pub complete: bool,
    /// What does.
    pub against: Vec<GapView>,
}

/// What stands against a paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct GapView {
    /// `missing`, `contradicts` or `standing`.
    pub kind: &'static str,
    /// What.
    pub says: String,
    /// Where in the job file it belongs.
    pub place: String,
    /// What to do.
    pub mend: String,
}

/// `northwall papers --verify CODE --json`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct VerifiedView {
    /// Version of the program.
    pub northwall: &'static str,
    /// `same`, `other-job`, `other-sheets`, `other-program`, `no-code`.
    pub verified: &'static str,
    /// The code as typed.
    pub typed: String,
    /// The code of the job as it stands.
    pub code: String,
    /// Its SHA-256.
    pub hash: String,
    /// What is not as it was when the paper was made; null where the list written beside it is not
    /// in the folder.
    pub since: Option<Vec<SinceView>>,
    /// The job, what lies beside it, and the program, as they are now.
    pub marks: Vec<MarkView>,
}

/// A piece that is not as it was.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SinceView {
    /// `changed`, `gone`, `new`.
    pub what: &'static str,
    /// `job`, `sheet NAME`, `weather NAME`, `records`, `file NAME`, `program VERSION`.
    pub name: String,
}

/// A piece with its mark.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MarkView {
    /// `job`, `sheet NAME`, `weather NAME`, `records`, `file NAME`, `program VERSION`.
    pub name: String,
    /// Eight signs of the hash, as on the last sheet.
    pub mark: String,
    /// SHA-256, hexadecimal.
    pub hash: String,
}
