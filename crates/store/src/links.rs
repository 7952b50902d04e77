//! Links for the homeowner, and the trail of who did what.

use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms};

/// A link.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// Id.
    pub id: String,
    /// When it was made, ms since 1970.
    pub made: i64,
    /// By whom.
    pub made_by: String,
    /// Until when, ms since 1970.
    pub ends: i64,
    /// When it was withdrawn.
    pub withdrawn: Option<i64>,
}

/// One line of the trail.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Noted {
    /// Number.
    pub n: i64,
    /// When, ms since 1970.
    pub at: i64,
    /// Who.
    pub who: String,
    /// What.
    pub what: String,
    /// Of what.
    pub place: String,
}

type LinkRow = (String, i64, String, i64, Option<i64>);
type NotedRow = (i64, i64, String, String, String);

impl Store {
    /// Makes a link to a job; `hash` is that of the token in it.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn make_link(
        &self,
        firm: &str,
        job: &str,
        (id, hash, made_by): (&str, &str, &str),
        ends: i64,
    ) -> Result<(), NotKept> {
        self.job(firm, job).await?;
        const SQL: &str = "insert into link (id, job, hash, made, made_by, ends, withdrawn) \
            values ($1, $2, $3, $4, $5, $6, null)";
        within!(self, tx => {
            sqlx::query(SQL)
                .bind(id).bind(job).bind(hash).bind(now_ms()).bind(made_by).bind(ends)
                .execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// Links of a job, newest first.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn links(&self, firm: &str, job: &str) -> Result<Vec<Link>, NotKept> {
        self.job(firm, job).await?;
        const SQL: &str = "select id, made, made_by, ends, withdrawn from link \
            where job = $1 order by made desc, id";
        let rows: Vec<LinkRow> =
            on!(self, pool => sqlx::query_as(SQL).bind(job).fetch_all(pool).await)?;
        Ok(rows
            .into_iter()
            .map(|r| Link {
                id: r.0,
                made: r.1,
                made_by: r.2,
                ends: r.3,
                withdrawn: r.4,
            })
            .collect())
    }

    /// Withdraws a link.
    ///
    /// # Errors
    /// No such job or link; the database.
    pub async fn withdraw(&self, firm: &str, job: &str, id: &str) -> Result<(), NotKept> {
        self.job(firm, job).await?;
        let sql = "update link set withdrawn = $1 where job = $2 and id = $3";
        let done = within!(self, tx => sqlx::query(sql)
            .bind(now_ms()).bind(job).bind(id).execute(&mut *tx).await?.rows_affected());
        if done == 0 {
            return Err(NotKept::NotThere("link"));
        }
        Ok(())
    }

    /// Firm and job of a link that holds.
    ///
    /// # Errors
    /// No such link, withdrawn, or its time is over: one answer for all three; the database.
    pub async fn linked(&self, hash: &str) -> Result<(String, String), NotKept> {
        const SQL: &str = "select job.firm, job.id from link join job on job.id = link.job \
            where link.hash = $1 and link.withdrawn is null and link.ends > $2";
        let row: Option<(String, String)> = on!(self, pool => sqlx::query_as(SQL)
            .bind(hash).bind(now_ms()).fetch_optional(pool).await)?;
        row.ok_or(NotKept::NotThere("link"))
    }

    /// Writes a line of the trail.
    ///
    /// # Errors
    /// The database.
    pub async fn note(
        &self,
        firm: &str,
        who: &str,
        what: &str,
        place: &str,
    ) -> Result<(), NotKept> {
        const SQL: &str = "insert into audit (firm, at, who, what, place) \
            values ($1, $2, $3, $4, $5)";
        within!(self, tx => {
            sqlx::query(SQL)
                .bind(firm).bind(now_ms()).bind(who).bind(what).bind(place)
                .execute(&mut *tx).await?;
        });
        Ok(())
    }

    /// The trail of a firm, newest first.
    ///
    /// # Errors
    /// The database.
    pub async fn trail(&self, firm: &str, before: i64) -> Result<Vec<Noted>, NotKept> {
        const SQL: &str = "select n, at, who, what, place from audit \
            where firm = $1 and n < $2 order by n desc limit 200";
        let rows: Vec<NotedRow> =
            on!(self, pool => sqlx::query_as(SQL).bind(firm).bind(before).fetch_all(pool).await)?;
        Ok(rows
            .into_iter()
            .map(|r| Noted {
                n: r.0,
                at: r.1,
                who: r.2,
                what: r.3,
                place: r.4,
            })
            .collect())
    }
}
