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
}
