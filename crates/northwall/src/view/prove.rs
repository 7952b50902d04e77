//! `northwall prove --json`: a list of these.

use schemars::JsonSchema;
use serde::Serialize;

/// One outside check.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ProofView {
    /// Stable name.
    pub id: String,
    /// What is compared.
    pub what: String,
    /// Where the expected value is from.
    pub source: String,
    /// What is expected, with unit.
    pub expected: String,
    /// What this program gives, with unit.
    pub got: String,
    /// holds, fails or cannot tell.
    pub verdict: &'static str,
    /// It fails and is known to, with the reason in the remark; alone it does not set exit code 1.
    pub known: bool,
    /// Which of two limits, how far outside, why.
    pub remark: String,
}
