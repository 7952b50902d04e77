//! Changes kept one after another, each with the text it led to.

use serde_json::Value;

use crate::jobs::JobRow;
use crate::merge::{Change, Edit, Merged, Outcome, inverse, merge, trial};
use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms, packed};

/// Tries before a job counts as too busy; each failed one means that somebody else got through.
const TRIES: usize = 60;

/// One revision.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// Number.
    pub revision: i64,
    /// Id of its change.
    pub change: String,
    /// `new`, `edits`, `text`, `undo`, `settled`.
    pub kind: String,
    /// Who.
    pub who: String,
    /// When, by the client's clock.
    pub at: String,
    /// When it was kept, ms since 1970.
    pub kept: i64,
    /// Edits with what stood there before.
    pub edits: Vec<Edit>,
}

/// A text that is to become the next revision.
pub(crate) struct Next<'a> {
    pub change: &'a str,
    pub kind: &'static str,
    pub who: &'a str,
    pub at: &'a str,
    pub edits: &'a [Edit],
    pub text: &'a str,
    /// A change held back that is settled by this one.
    pub settles: Option<&'a str>,
}

impl<'a> Next<'a> {
    /// What a change makes of the text.
    fn of(change: &Change<'a>, kind: &'static str, edits: &'a [Edit], text: &'a str) -> Self {
        Self {
            change: change.id,
            kind,
            who: change.who,
            at: change.at,
            edits,
            text,
            settles: None,
        }
    }
}

impl Store {
    /// Keeps a change on top of whatever stands now, holds it back for a person, or refuses it.
    /// The same id again gives the same answer.
    ///
    /// # Errors
    /// No such job or base revision; the database.
    pub async fn change(
        &self,
        firm: &str,
        job: &str,
        change: &Change<'_>,
    ) -> Result<Outcome, NotKept> {
        let _lane = self.lane(job).await;
        for _ in 0..TRIES {
            let row = self.job(firm, job).await?;
            if let Some(revision) = self.kept_as(job, change.id).await? {
                return Ok(Outcome::Kept { revision });
            }
            let base = self.text_at(&row, change.base).await?;
            if self.settled(job, change.id).await? {
                let revision = row.revision;
                return Ok(Outcome::Kept { revision });
            }
            let ready = match merge(&base, &row.text, change.edits) {
                Merged::Both(both) => {
                    self.hold(job, change).await?;
                    return Ok(Outcome::Conflict(both));
                }
                Merged::Clean(ready) => ready,
            };
            let text = match trial(&row.text, &ready) {
                Ok(text) => text,
                Err(problems) => return Ok(Outcome::Refused(problems)),
            };
            let next = Next::of(change, "edits", &ready, &text);
            if let Some(revision) = self.keep(&row, &next).await? {
                return Ok(Outcome::Kept { revision });
            }
        }
        Err(NotKept::Busy)
    }

    /// Replaces the whole text, if nobody changed the job since `base`.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn replace(
        &self,
        firm: &str,
        job: &str,
        change: &Change<'_>,
        text: &str,
    ) -> Result<Outcome, NotKept> {
        let _lane = self.lane(job).await;
        let row = self.job(firm, job).await?;
        if let Some(revision) = self.kept_as(job, change.id).await? {
            return Ok(Outcome::Kept { revision });
        }
        if row.revision != change.base {
            return Ok(Outcome::ChangedSince { now: row.revision });
        }
        if let Err(problems) = jobfile::read(text) {
            return Ok(Outcome::Refused(problems));
        }
        let next = Next::of(change, "text", &[], text);
        match self.keep(&row, &next).await? {
            Some(revision) => Ok(Outcome::Kept { revision }),
            None => Ok(Outcome::ChangedSince {
                now: self.job(firm, job).await?.revision,
            }),
        }
    }

    /// Makes the text anew from the text as it stands, whatever that is by now: one change that is
    /// kept whole or not at all.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn remake(
        &self,
        firm: &str,
        job: &str,
        change: &Change<'_>,
        make: impl Fn(&str) -> Result<String, Vec<jobfile::Problem>> + Send,
    ) -> Result<Outcome, NotKept> {
        let _lane = self.lane(job).await;
        for _ in 0..TRIES {
            let row = self.job(firm, job).await?;
            if let Some(revision) = self.kept_as(job, change.id).await? {
                return Ok(Outcome::Kept { revision });
            }
            let text = match make(&row.text) {
                Ok(text) => text,
                Err(problems) => return Ok(Outcome::Refused(problems)),
            };
            let next = Next::of(change, "text", &[], &text);
            if let Some(revision) = self.keep(&row, &next).await? {
                return Ok(Outcome::Kept { revision });
            }
        }
        Err(NotKept::Busy)
    }

    /// Takes a change back: the last one to the letter, an earlier one by its inverse, which may
    /// conflict with what came since.
    ///
    /// # Errors
    /// No such job or change; one that has no inverse; the database.
    pub async fn undo(
        &self,
        firm: &str,
        job: &str,
        undone: &str,
        change: &Change<'_>,
    ) -> Result<Outcome, NotKept> {
        let _lane = self.lane(job).await;
        for _ in 0..TRIES {
            let row = self.job(firm, job).await?;
            if let Some(revision) = self.kept_as(job, change.id).await? {
                return Ok(Outcome::Kept { revision });
            }
            let of = self
                .revision_of(job, undone)
                .await?
                .ok_or(NotKept::NotThere("change"))?;
            if of.revision == 1 {
                let why = "this is how the job began; there is nothing before it";
                return Err(NotKept::Bad(why.to_owned()));
            }
            // What came since may have been taken back already: then it is the last all the same.
            let last = of.revision == row.revision
                || (of.edits.is_empty() && self.text_at(&row, of.revision).await? == row.text);
            let (text, edits) = if last {
                (self.text_at(&row, of.revision - 1).await?, Vec::new())
            } else if of.edits.is_empty() {
                let why = "the whole text was exchanged then, and the job was changed since";
                return Err(NotKept::Bad(why.to_owned()));
            } else {
                let then = self.text_at(&row, of.revision).await?;
                let back = inverse(&of.edits, &then);
                match merge(&then, &row.text, &back) {
                    Merged::Both(both) => return Ok(Outcome::Conflict(both)),
                    Merged::Clean(ready) => match trial(&row.text, &ready) {
                        Ok(text) => (text, ready),
                        Err(problems) => return Ok(Outcome::Refused(problems)),
                    },
                }
            };
            let next = Next::of(change, "undo", &edits, &text);
            if let Some(revision) = self.keep(&row, &next).await? {
                return Ok(Outcome::Kept { revision });
            }
        }
        Err(NotKept::Busy)
    }

    /// The history of a job after one revision and before another, newest first, 1,000 at most.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn history(
        &self,
        firm: &str,
        job: &str,
        (after, before): (i64, i64),
    ) -> Result<Vec<Revision>, NotKept> {
        self.job(firm, job).await?;
        const SQL: &str = "select revision, change, kind, who, at, kept, edits from revision \
            where job = $1 and revision > $2 and revision < $3 order by revision desc limit 1000";
        let rows: Vec<RevisionRow> = on!(self, pool => sqlx::query_as(SQL)
            .bind(job).bind(after).bind(before).fetch_all(pool).await)?;
        rows.into_iter().map(revision).collect()
    }

    /// Text of a job at a revision.
    pub(crate) async fn text_at(&self, row: &JobRow, at: i64) -> Result<String, NotKept> {
        if at == row.revision {
            return Ok(row.text.clone());
        }
        let sql = "select packed from revision where job = $1 and revision = $2";
        let found: Option<(Vec<u8>,)> = on!(self, pool => sqlx::query_as(sql)
            .bind(&row.id).bind(at).fetch_optional(pool).await)?;
        let (bytes,) = found.ok_or_else(|| {
            NotKept::Bad(format!(
                "the job has no revision {at}; it is at {}",
                row.revision
            ))
        })?;
        packed::unpack(&bytes)
    }

    /// The revision a change was kept as.
    pub(crate) async fn kept_as(&self, job: &str, change: &str) -> Result<Option<i64>, NotKept> {
        let sql = "select revision from revision where job = $1 and change = $2";
        let found: Option<(i64,)> = on!(self, pool => sqlx::query_as(sql)
            .bind(job).bind(change).fetch_optional(pool).await)?;
        Ok(found.map(|r| r.0))
    }

    async fn revision_of(&self, job: &str, change: &str) -> Result<Option<Revision>, NotKept> {
        const SQL: &str = "select revision, change, kind, who, at, kept, edits from revision \
            where job = $1 and change = $2";
        let found: Option<RevisionRow> = on!(self, pool => sqlx::query_as(SQL)
            .bind(job).bind(change).fetch_optional(pool).await)?;
        found.map(revision).transpose()
    }

    /// Makes a text the next revision; none where somebody else was faster.
    pub(crate) async fn keep(&self, row: &JobRow, next: &Next<'_>) -> Result<Option<i64>, NotKept> {
        let read = jobfile::read(next.text).map_err(NotKept::DoesNotRead)?;
        let packed = packed::pack(next.text)?;
        let edits = serde_json::to_string(next.edits).unwrap_or_else(|_| "[]".to_owned());
        let (now, revision) = (now_ms(), row.revision + 1);
        let stage = read.stage.word();
        const JOB: &str = "update job set revision = $1, text = $2, name = $3, stage = $4, \
            updated = $5, updated_by = $6 where id = $7 and revision = $8";
        const REVISION: &str = "insert into revision \
            (job, revision, change, kind, who, at, kept, edits, packed) \
            values ($1, $2, $3, $4, $5, $6, $7, $8, $9) on conflict do nothing";
        const SETTLE: &str = "update conflict set settled = $1, settled_by = $2 \
            where job = $3 and change = $4";
        within!(self, tx => {
            let done = sqlx::query(JOB)
                .bind(revision).bind(next.text).bind(&read.name).bind(stage)
                .bind(now).bind(next.who).bind(&row.id).bind(row.revision)
                .execute(&mut *tx).await?;
            if done.rows_affected() == 0 {
                return Ok(None);
            }
            let done = sqlx::query(REVISION)
                .bind(&row.id).bind(revision).bind(next.change).bind(next.kind)
                .bind(next.who).bind(next.at).bind(now).bind(&edits).bind(&packed)
                .execute(&mut *tx).await?;
            if done.rows_affected() == 0 {
                return Ok(None);
            }
            if let Some(held) = next.settles {
                sqlx::query(SETTLE)
                    .bind(now).bind(next.who).bind(&row.id).bind(held)
                    .execute(&mut *tx).await?;
            }
        });
        Ok(Some(revision))
    }
}

type RevisionRow = (i64, String, String, String, String, i64, String);

fn revision(r: RevisionRow) -> Result<Revision, NotKept> {
    Ok(Revision {
        revision: r.0,
        change: r.1,
        kind: r.2,
        who: r.3,
        at: r.4,
        kept: r.5,
        edits: edits(&r.6)?,
    })
}

pub(crate) fn edits(text: &str) -> Result<Vec<Edit>, NotKept> {
    serde_json::from_str::<Vec<Edit>>(text)
        .map(|all| {
            let known = |mut e: Edit| {
                e.was.get_or_insert(Value::Null);
                e
            };
            all.into_iter().map(known).collect()
        })
        .map_err(|e| NotKept::Broken(e.to_string()))
}
