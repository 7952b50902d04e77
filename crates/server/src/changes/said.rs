//! What is sent and answered about changes.

use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};

use crate::refused::ProblemView;

/// One edit.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct EditIn {
    /// Dotted path: `room.living.heated_to`, `window.2.width`, `room.living.outline`.
    pub path: String,
    /// The new value as in the file: a text with its unit, a list, true or false. An object adds
    /// an entry to a list (`window`) or a named table (`construction.wall`). Null takes the value
    /// or the entry out.
    #[serde(default)]
    pub value: serde_json::Value,
    /// What the person saw there before; null for nothing. Left out: what stood there in the base
    /// revision.
    #[serde(
        default,
        deserialize_with = "said",
        skip_serializing_if = "Option::is_none"
    )]
    #[schema(value_type = Option<serde_json::Value>)]
    pub was: Option<serde_json::Value>,
}

/// Null is a value here; only a missing key is none.
fn said<'de, D: serde::Deserializer<'de>>(d: D) -> Result<Option<serde_json::Value>, D::Error> {
    serde_json::Value::deserialize(d).map(Some)
}

/// A change: edits that belong together. All are kept, or none.
#[derive(Debug, Deserialize, ToSchema)]
pub struct ChangeIn {
    /// UUID made by the client. The same id again gives the same answer and changes nothing.
    pub id: String,
    /// Revision the person looked at.
    pub base_revision: i64,
    /// When, by the client's clock, RFC 3339.
    #[serde(default)]
    pub at: Option<String>,
    /// Who, where nobody signs in.
    #[serde(default)]
    pub who: Option<String>,
    /// The edits, in order. The job is judged once after the last.
    pub edits: Vec<EditIn>,
}

/// The whole text at once.
#[derive(Debug, Deserialize, ToSchema)]
pub struct TextIn {
    /// UUID made by the client.
    pub id: String,
    /// Revision the person looked at. Where the job was changed since, nothing is replaced.
    pub base_revision: i64,
    /// When.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// The new text.
    pub text: String,
}

/// Takes an option.
#[derive(Debug, Deserialize, ToSchema)]
pub struct TakeIn {
    /// UUID made by the client. The same id again gives the same answer and changes nothing.
    pub id: String,
    /// Name of the option in the job.
    pub option: String,
    /// When.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
}

/// Takes a change back.
#[derive(Debug, Deserialize, ToSchema)]
pub struct UndoIn {
    /// UUID of this new change.
    pub id: String,
    /// When.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
}

/// A change that was kept.
#[derive(Debug, Serialize, ToSchema)]
pub struct Kept {
    /// Id of the change.
    pub id: String,
    /// Revision of the job with this change.
    pub revision: i64,
    /// Revision of the job now; more than `revision` where others changed it since.
    pub now: i64,
    /// Name of the job.
    pub name: String,
    /// The plan's headline now.
    pub headline: crate::seen::HeadlineView,
    /// Number of findings by level.
    pub counts: crate::seen::Counts,
}

/// Both values of one path that two people changed.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct Both {
    /// Path.
    pub path: String,
    /// What the person saw; null for nothing.
    pub was: serde_json::Value,
    /// What this change wanted.
    pub mine: serde_json::Value,
    /// What stands there now.
    pub theirs: serde_json::Value,
    /// Who put that there.
    pub theirs_by: String,
    /// When that was kept, RFC 3339.
    pub theirs_at: String,
}

/// A change held back. Nothing is lost: it stays here until a person decides.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ConflictView {
    /// `conflict`.
    pub kind: String,
    /// Id of the change.
    pub id: String,
    /// Who made it.
    pub who: String,
    /// When, by that person's clock.
    pub at: String,
    /// Revision the job has.
    pub revision: i64,
    /// What both changed.
    pub both: Vec<Both>,
    /// All edits of the change, so that none is lost.
    pub edits: Vec<EditIn>,
}

/// How a person decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub enum Keep {
    /// The change held back.
    Mine,
    /// What stands in the job.
    Theirs,
}

/// A decision.
#[derive(Debug, Deserialize, ToSchema)]
pub struct SettleIn {
    /// UUID of this decision.
    pub id: String,
    /// When.
    #[serde(default)]
    pub at: Option<String>,
    /// Who.
    #[serde(default)]
    pub who: Option<String>,
    /// `mine` keeps the change held back, `theirs` what stands.
    pub keep: Keep,
}

/// Edits to try without keeping them.
#[derive(Debug, Deserialize, ToSchema)]
pub struct TrialIn {
    /// The edits, on top of the job as it stands.
    pub edits: Vec<EditIn>,
}

/// What a trial gives.
#[derive(Debug, Serialize, ToSchema)]
pub struct TrialView {
    /// What would be wrong with the job's text; empty where it reads.
    pub problems: Vec<ProblemView>,
    /// The plan's headline with these edits; none where it does not read.
    pub headline: Option<crate::seen::HeadlineView>,
    /// Heating load by room, W.
    pub room_loss_w: std::collections::BTreeMap<String, f64>,
    /// Number of findings by level.
    pub counts: crate::seen::Counts,
}

/// One revision of the history.
#[derive(Debug, Serialize, ToSchema)]
pub struct RevisionView {
    /// Revision.
    pub revision: i64,
    /// Id of its change.
    pub id: String,
    /// `new`, `edits`, `text`, `undo`, `settled`.
    pub kind: String,
    /// Who.
    pub who: String,
    /// When, by that person's clock.
    pub at: String,
    /// When it was kept here.
    pub kept: String,
    /// The edits with what stood there before; empty for a whole text.
    pub edits: Vec<EditIn>,
}

/// The history, newest first.
#[derive(Debug, Serialize, ToSchema)]
pub struct History {
    /// Revisions.
    pub revisions: Vec<RevisionView>,
}

/// Which part of the history.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct Since {
    /// Only revisions after this one.
    pub after: Option<i64>,
    /// Only revisions before this one: 1,000 are given at most, and the least of them says where
    /// to go on.
    pub before: Option<i64>,
}
