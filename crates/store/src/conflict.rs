//! Changes held back until a person decides. Nothing of them is lost.

use crate::history::{Next, Revision};
use crate::jobs::JobRow;
use crate::merge::{Both, Change, Edit, Merged, Outcome, merge, trial};
use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms};

/// A change held back.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Id of the change.
    pub change: String,
    /// Who made it.
    pub who: String,
    /// When, by that person's clock.
    pub at: String,
    /// What both changed, as it stands now; empty where others have changed it back meanwhile.
    pub both: Vec<Both>,
    /// All its edits.
    pub edits: Vec<Edit>,
}

type HeldRow = (String, String, String, i64, String);

impl Store {
    pub(crate) async fn hold(&self, job: &str, change: &Change<'_>) -> Result<(), NotKept> {
        const SQL: &str = "insert into conflict \
            (job, change, who, at, kept, base, edits, settled, settled_by) \
            values ($1, $2, $3, $4, $5, $6, $7, null, '') on conflict do nothing";
        let text = serde_json::to_string(change.edits).unwrap_or_else(|_| "[]".to_owned());
        within!(self, tx => {
            sqlx::query(SQL)
                .bind(job).bind(change.id).bind(change.who).bind(change.at)
                .bind(now_ms()).bind(change.base).bind(&text)
                .execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// Whether a change held back was decided.
    pub(crate) async fn settled(&self, job: &str, change: &str) -> Result<bool, NotKept> {
        let sql = "select settled from conflict where job = $1 and change = $2";
        let found: Option<(Option<i64>,)> = on!(self, pool => sqlx::query_as(sql)
            .bind(job).bind(change).fetch_optional(pool).await)?;
        Ok(found.is_some_and(|r| r.0.is_some()))
    }

    /// Changes of a job that wait for a decision, oldest first.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn held(&self, firm: &str, job: &str) -> Result<Vec<Held>, NotKept> {
        let row = self.job(firm, job).await?;
        const SQL: &str = "select change, who, at, base, edits from conflict \
            where job = $1 and settled is null order by kept";
        let rows: Vec<HeldRow> =
            on!(self, pool => sqlx::query_as(SQL).bind(job).fetch_all(pool).await)?;
        let past = if rows.is_empty() {
            Vec::new()
        } else {
            self.history(firm, job, (0, i64::MAX)).await?
        };
        let mut out = Vec::with_capacity(rows.len());
        for (change, who, at, base, text) in rows {
            let edits = wanted(&text)?;
            let base = self.text_at(&row, base).await?;
            let both = match merge(&base, &row.text, &edits) {
                Merged::Both(both) => both.into_iter().map(|b| by(b, &past, &row)).collect(),
                Merged::Clean(_) => Vec::new(),
            };
            out.push(Held {
                change,
                who,
                at,
                both,
                edits,
            });
        }
        Ok(out)
    }

    /// A person decides: `mine` keeps the change held back over what stands, otherwise what
    /// stands stays. `by` is the decision's own id, time and person.
    ///
    /// # Errors
    /// No such job or change; the database.
    pub async fn settle(
        &self,
        firm: &str,
        job: &str,
        held: &str,
        by: &Change<'_>,
        mine: bool,
    ) -> Result<Outcome, NotKept> {
        let _lane = self.lane(job).await;
        for _ in 0..60 {
            let row = self.job(firm, job).await?;
            if self.settled(job, held).await? {
                return Ok(Outcome::Kept {
                    revision: row.revision,
                });
            }
            let found = self.held(firm, job).await?;
            let found = found
                .into_iter()
                .find(|h| h.change == held)
                .ok_or(NotKept::NotThere("change held back"))?;
            if !mine {
                const SQL: &str = "update conflict set settled = $1, settled_by = $2 \
                    where job = $3 and change = $4";
                within!(self, tx => {
                    sqlx::query(SQL)
                        .bind(now_ms()).bind(by.who).bind(job).bind(held)
                        .execute(&mut *tx).await?;
                });
                return Ok(Outcome::Kept {
                    revision: row.revision,
                });
            }
            // What stands is what the person saw when deciding.
            let edits: Vec<Edit> = found
                .edits
                .iter()
                .map(|e| Edit {
                    was: Some(crate::values::value_at(&row.text, &e.path)),
                    ..e.clone()
                })
                .collect();
            let text = match trial(&row.text, &edits) {
                Ok(text) => text,
                Err(problems) => return Ok(Outcome::Refused(problems)),
            };
            let next = Next {
                change: by.id,
                kind: "settled",
                who: by.who,
                at: by.at,
                edits: &edits,
                text: &text,
                settles: Some(held),
            };
            if let Some(revision) = self.keep(&row, &next).await? {
                return Ok(Outcome::Kept { revision });
            }
        }
        Err(NotKept::Busy)
    }
}

/// Edits as they came: what the person did not say stays unsaid.
fn wanted(text: &str) -> Result<Vec<Edit>, NotKept> {
    serde_json::from_str(text).map_err(|e| NotKept::Broken(e.to_string()))
}

/// Says who put there what stands there now: the last change of this path, or of the whole text.
fn by(mut both: Both, past: &[Revision], row: &JobRow) -> Both {
    let touches = |r: &&Revision| {
        r.edits.is_empty()
            || r.edits.iter().any(|e| {
                both.path.starts_with(e.path.as_str()) || e.path.starts_with(both.path.as_str())
            })
    };
    let last = past.iter().find(touches);
    both.theirs_by = last.map_or_else(|| row.updated_by.clone(), |r| r.who.clone());
    both.theirs_at = last.map_or(row.updated, |r| r.kept);
    both
}
