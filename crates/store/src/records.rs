//! Readings and other records of the start-up day: a chain per job that only grows.

use serde_json::Value;
use startup::Stamp;
use startup::record::{Chain, Entry, Record, verify};

use crate::pool::{on, within};
use crate::{NotKept, Store};

/// A record to be made.
#[derive(Debug, Clone)]
pub struct NewRecord<'a> {
    /// Id, by the client: the same again changes nothing.
    pub id: &'a str,
    /// When.
    pub at: Stamp,
    /// Who.
    pub who: &'a str,
    /// What kind: `pressure-reading`.
    pub kind: &'a str,
    /// What.
    pub says: Value,
    /// The record it corrects, and why.
    pub corrects: Option<(u64, &'a str)>,
}

/// A record that is on the disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recorded {
    /// Id.
    pub id: String,
    /// Number in the chain.
    pub n: u64,
}

impl Store {
    /// Appends records. When this returns they are on the disk.
    ///
    /// # Errors
    /// No such job; a record that cannot be made; the database.
    pub async fn record(
        &self,
        firm: &str,
        job: &str,
        new: &[NewRecord<'_>],
    ) -> Result<Vec<Recorded>, NotKept> {
        let _lane = self.lane(job).await;
        for _ in 0..60 {
            self.job(firm, job).await?;
            let (mut chain, ids) = self.chain_and_ids(job).await?;
            let (mut made, mut lines) = (Vec::new(), Vec::new());
            for r in new {
                if let Some(at) = ids.iter().position(|id| id == r.id) {
                    made.push(Recorded {
                        id: r.id.to_owned(),
                        n: at as u64 + 1,
                    });
                    continue;
                }
                let entry = Entry {
                    at: r.at,
                    who: r.who,
                    kind: r.kind,
                    says: r.says.clone(),
                    corrects: r.corrects,
                };
                let (record, line) = chain.next(&entry)?;
                made.push(Recorded {
                    id: r.id.to_owned(),
                    n: record.n,
                });
                let n = i64::try_from(record.n).unwrap_or(i64::MAX);
                lines.push((n, r.id, line));
                chain.records.push(record);
            }
            if self.append(job, &lines).await? {
                return Ok(made);
            }
        }
        Err(NotKept::Busy)
    }

    /// Whether all lines went in; not so where another process took their numbers.
    async fn append(&self, job: &str, lines: &[(i64, &str, String)]) -> Result<bool, NotKept> {
        if lines.is_empty() {
            return Ok(true);
        }
        let sql = "insert into record (job, n, id, line) values ($1, $2, $3, $4) \
            on conflict do nothing";
        within!(self, tx => {
            for (n, id, line) in lines {
                let done = sqlx::query(sql)
                    .bind(job).bind(n).bind(*id).bind(line)
                    .execute(&mut *tx).await?;
                if done.rows_affected() == 0 {
                    return Ok(false);
                }
            }
        });
        Ok(true)
    }

    async fn chain_and_ids(&self, job: &str) -> Result<(Chain, Vec<String>), NotKept> {
        let sql = "select id, line from record where job = $1 order by n";
        let rows: Vec<(String, String)> =
            on!(self, pool => sqlx::query_as(sql).bind(job).fetch_all(pool).await)?;
        let text: String = rows.iter().map(|r| r.1.as_str()).collect();
        let chain = verify(&text).map_err(|e| NotKept::Broken(e.to_string()))?;
        Ok((chain, rows.into_iter().map(|r| r.0).collect()))
    }

    /// The chain of a job, proved.
    ///
    /// # Errors
    /// No such job; a chain that was altered; the database.
    pub async fn records(&self, firm: &str, job: &str) -> Result<Vec<Record>, NotKept> {
        self.job(firm, job).await?;
        let (chain, _) = self.chain_and_ids(job).await?;
        Ok(chain.records)
    }
}
