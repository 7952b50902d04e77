//! Jobs as rows: listed, made, read, taken away.

use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms, packed};

/// A job in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobLine {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Stage, as a word.
    pub stage: String,
    /// Revision.
    pub revision: i64,
    /// Last change, ms since 1970.
    pub updated: i64,
    /// By whom.
    pub updated_by: String,
    /// Changes held back.
    pub conflicts: i64,
}

/// A job with its text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobRow {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// Stage, as a word.
    pub stage: String,
    /// Revision.
    pub revision: i64,
    /// Text.
    pub text: String,
    /// Last change, ms since 1970.
    pub updated: i64,
    /// By whom.
    pub updated_by: String,
}

/// A job to be made.
#[derive(Debug, Clone)]
pub struct NewJob<'a> {
    /// Id, by the client.
    pub id: &'a str,
    /// Text; it must read.
    pub text: &'a str,
    /// Who.
    pub who: &'a str,
    /// When, by the client's clock.
    pub at: &'a str,
}

/// What came of making one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    /// It is new.
    New,
    /// It was there already.
    Already,
}

type Row = (String, String, String, i64, String, i64, String);

impl Store {
    /// Jobs of a firm, the one changed last first.
    ///
    /// # Errors
    /// The database.
    pub async fn jobs(&self, firm: &str) -> Result<Vec<JobLine>, NotKept> {
        const SQL: &str = "select id, name, stage, revision, updated, updated_by, \
            (select count(*) from conflict where conflict.job = job.id and settled is null) \
            from job where firm = $1 order by updated desc, id limit 5000";
        type Line = (String, String, String, i64, i64, String, i64);
        let rows: Vec<Line> =
            on!(self, pool => sqlx::query_as(SQL).bind(firm).fetch_all(pool).await)?;
        Ok(rows
            .into_iter()
            .map(|r| JobLine {
                id: r.0,
                name: r.1,
                stage: r.2,
                revision: r.3,
                updated: r.4,
                updated_by: r.5,
                conflicts: r.6,
            })
            .collect())
    }

    /// A job of a firm.
    ///
    /// # Errors
    /// It is not there, or it is another firm's.
    pub async fn job(&self, firm: &str, id: &str) -> Result<JobRow, NotKept> {
        const SQL: &str = "select id, name, stage, revision, text, updated, updated_by \
            from job where firm = $1 and id = $2";
        let row: Option<Row> =
            on!(self, pool => sqlx::query_as(SQL).bind(firm).bind(id).fetch_optional(pool).await)?;
        let r = row.ok_or(NotKept::NotThere("job"))?;
        Ok(JobRow {
            id: r.0,
            name: r.1,
            stage: r.2,
            revision: r.3,
            text: r.4,
            updated: r.5,
            updated_by: r.6,
        })
    }

    /// Makes a job. The same id again leaves the job that is there.
    ///
    /// # Errors
    /// A text that does not read; an id that another firm has.
    pub async fn new_job(&self, firm: &str, new: &NewJob<'_>) -> Result<Made, NotKept> {
        match self.job(firm, new.id).await {
            Ok(_) => return Ok(Made::Already),
            Err(NotKept::NotThere(_)) => {}
            Err(other) => return Err(other),
        }
        let job = jobfile::read(new.text).map_err(NotKept::DoesNotRead)?;
        let packed = packed::pack(new.text)?;
        let now = now_ms();
        let stage = job.stage.word();
        const JOB: &str = "insert into job \
            (id, firm, name, stage, revision, text, updated, updated_by) \
            values ($1, $2, $3, $4, 1, $5, $6, $7) on conflict do nothing";
        const REVISION: &str = "insert into revision \
            (job, revision, change, kind, who, at, kept, edits, packed) \
            values ($1, 1, $2, 'new', $3, $4, $5, '[]', $6)";
        within!(self, tx => {
            let done = sqlx::query(JOB)
                .bind(new.id).bind(firm).bind(&job.name).bind(stage)
                .bind(new.text).bind(now).bind(new.who)
                .execute(&mut *tx).await?;
            if done.rows_affected() == 0 {
                return self.taken(firm, new.id).await;
            }
            sqlx::query(REVISION)
                .bind(new.id).bind(new.id).bind(new.who).bind(new.at).bind(now)
                .bind(&packed)
                .execute(&mut *tx).await?;
        });
        Ok(Made::New)
    }

    /// Somebody was faster with this id: the same person twice, or another firm.
    async fn taken(&self, firm: &str, id: &str) -> Result<Made, NotKept> {
        match self.job(firm, id).await {
            Ok(_) => Ok(Made::Already),
            Err(NotKept::NotThere(_)) => Err(NotKept::Taken("job")),
            Err(other) => Err(other),
        }
    }

    /// Takes a job away with its history, readings, photos and files of temperatures.
    ///
    /// # Errors
    /// It is not there.
    pub async fn delete_job(&self, firm: &str, id: &str) -> Result<(), NotKept> {
        let sql = "delete from job where firm = $1 and id = $2";
        let gone = within!(self, tx => sqlx::query(sql)
            .bind(firm).bind(id).execute(&mut *tx).await?.rows_affected());
        if gone == 0 {
            return Err(NotKept::NotThere("job"));
        }
        Ok(())
    }
}
