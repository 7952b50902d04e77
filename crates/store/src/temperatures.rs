//! Files of temperatures of a job, as means of days: what its bills are fitted with.

use serde::{Deserialize, Serialize};

use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms};

/// A file to be kept.
#[derive(Debug, Clone)]
pub struct NewTemperatures<'a> {
    /// Id, by the client: the same again changes nothing.
    pub id: &'a str,
    /// Where it lies beside the job file, and how the job names it: `temperatures/winter.csv`.
    pub name: &'a str,
    /// Remarks on how it was read, one a line.
    pub note: &'a str,
    /// Who.
    pub who: &'a str,
    /// Means of days, a table that the command reads too.
    pub days: &'a str,
}

/// A file that is kept. It leaves with its job, its days as a file of their own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Temperatures {
    /// Id.
    pub id: String,
    /// Where it lies beside the job file, and how the job names it: `temperatures/winter.csv`.
    pub name: String,
    /// Remarks on how it was read, one a line.
    pub note: String,
    /// Who.
    pub who: String,
    /// When it was kept, ms since 1970.
    pub kept: i64,
    /// Means of days, a table that the command reads too.
    #[serde(skip)]
    pub days: String,
}

pub(crate) type Row = (String, String, String, String, i64, String);

impl From<Row> for Temperatures {
    fn from((id, name, note, who, kept, days): Row) -> Self {
        Self {
            id,
            name,
            note,
            who,
            kept,
            days,
        }
    }
}

/// Whether a name is one that files are kept by: it leads nowhere else when it is unpacked.
pub(crate) fn is_name(name: &str) -> bool {
    let bare = name
        .strip_prefix("temperatures/")
        .and_then(|n| n.strip_suffix(".csv"));
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
    bare.is_some_and(|n| (1..=60).contains(&n.len()) && n.chars().all(plain))
}

/// All files of a job, oldest first.
pub(crate) const OF_JOB: &str =
    "select id, name, note, who, kept, days from temperatures where job = $1 order by kept, id";

/// What was worked out of the job before is no longer of the job as it stands.
const TOUCHED: &str = "update job set updated = case when updated < $2 then $2 else updated + 1 end, \
    updated_by = $3 where id = $1";

impl Store {
    /// Keeps a file. The same id again leaves the one that is there.
    ///
    /// # Errors
    /// No such job; an id that another job has; a name that another file has; the database.
    pub async fn keep_temperatures(
        &self,
        firm: &str,
        job: &str,
        new: &NewTemperatures<'_>,
    ) -> Result<Temperatures, NotKept> {
        self.job(firm, job).await?;
        if !is_name(new.name) {
            return Err(NotKept::Broken(format!("no file is kept as {}", new.name)));
        }
        const SQL: &str = "insert into temperatures (id, job, name, note, who, kept, days) \
            values ($1, $2, $3, $4, $5, $6, $7) on conflict do nothing";
        let now = now_ms();
        let _lane = self.lane(job).await;
        within!(self, tx => {
            let done = sqlx::query(SQL)
                .bind(new.id).bind(job).bind(new.name).bind(new.note).bind(new.who)
                .bind(now).bind(new.days)
                .execute(&mut *tx).await?;
            if done.rows_affected() > 0 {
                sqlx::query(TOUCHED).bind(job).bind(now).bind(new.who)
                    .execute(&mut *tx).await?;
            }
        });
        let all = self.temperatures(firm, job).await?;
        let mine = all.into_iter().find(|t| t.id == new.id);
        mine.ok_or(NotKept::Taken("file of temperatures"))
    }

    /// Files of a job, oldest first.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn temperatures(&self, firm: &str, job: &str) -> Result<Vec<Temperatures>, NotKept> {
        self.job(firm, job).await?;
        let rows: Vec<Row> =
            on!(self, pool => sqlx::query_as(OF_JOB).bind(job).fetch_all(pool).await)?;
        Ok(rows.into_iter().map(Temperatures::from).collect())
    }

    /// Takes a file away.
    ///
    /// # Errors
    /// No such job or file; the database.
    pub async fn delete_temperatures(
        &self,
        firm: &str,
        job: &str,
        id: &str,
        who: &str,
    ) -> Result<(), NotKept> {
        self.job(firm, job).await?;
        let sql = "delete from temperatures where job = $1 and id = $2";
        let now = now_ms();
        let _lane = self.lane(job).await;
        let gone = within!(self, tx => {
            let done = sqlx::query(sql).bind(job).bind(id).execute(&mut *tx).await?;
            if done.rows_affected() > 0 {
                sqlx::query(TOUCHED).bind(job).bind(now).bind(who)
                    .execute(&mut *tx).await?;
            }
            done.rows_affected()
        });
        if gone == 0 {
            return Err(NotKept::NotThere("file of temperatures"));
        }
        Ok(())
    }
}
