//! A job as it leaves and comes back: its text, its history, its records, its photos, its files
//! of temperatures.

use serde::{Deserialize, Serialize};

use crate::pool::{looking, on, within};
use crate::{NotKept, Store, Temperatures, now_ms, packed, temperatures};

/// A job with everything that hangs on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Whole {
    /// Id.
    pub id: String,
    /// Firm it belongs to.
    pub firm: String,
    /// Name of that firm.
    pub firm_name: String,
    /// Last change, ms since 1970.
    pub updated: i64,
    /// By whom.
    pub updated_by: String,
    /// History, oldest first, each with its text.
    pub revisions: Vec<WholeRevision>,
    /// Changes held back.
    pub conflicts: Vec<WholeConflict>,
    /// Ids of the records, in the order of their lines.
    pub record_ids: Vec<String>,
    /// Photos without their bytes.
    pub photos: Vec<WholePhoto>,
    /// Files of temperatures, their days beside the rest as files of their own; archives of before
    /// have none.
    #[serde(default)]
    pub temperatures: Vec<Temperatures>,
    /// Lines of the records, each with its end; beside the rest as a file of its own.
    #[serde(skip)]
    pub records: String,
}

/// A revision with its text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub struct WholeRevision {
    pub revision: i64,
    pub change: String,
    pub kind: String,
    pub who: String,
    pub at: String,
    pub kept: i64,
    pub edits: String,
    pub text: String,
}

/// A change held back.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub struct WholeConflict {
    pub change: String,
    pub who: String,
    pub at: String,
    pub kept: i64,
    pub base: i64,
    pub edits: String,
    pub settled: Option<i64>,
    pub settled_by: String,
}

/// A photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub struct WholePhoto {
    pub id: String,
    pub shows: String,
    pub note: String,
    pub who: String,
    pub at: String,
    pub kept: i64,
    pub kind: String,
    pub width: i64,
    pub height: i64,
    #[serde(skip)]
    pub bytes: Vec<u8>,
    #[serde(skip)]
    pub small: Vec<u8>,
}

type RevisionRow = (i64, String, String, String, String, i64, String, Vec<u8>);
type ConflictRow = (
    String,
    String,
    String,
    i64,
    i64,
    String,
    Option<i64>,
    String,
);
type PhotoRow = (
    String,
    String,
    String,
    String,
    String,
    i64,
    String,
    i64,
    i64,
);

impl Store {
    /// Firm and id of every job, of one firm or of all.
    ///
    /// # Errors
    /// The database.
    pub async fn every_job(&self, firm: Option<&str>) -> Result<Vec<(String, String)>, NotKept> {
        let sql = "select firm, id from job where $1 = '' or firm = $1 order by firm, id";
        let of = firm.unwrap_or("");
        Ok(on!(self, pool => sqlx::query_as(sql).bind(of).fetch_all(pool).await)?)
    }

    /// Fetches the bytes of a photo; false where it was taken away meanwhile.
    ///
    /// # Errors
    /// The database.
    pub async fn with_bytes(
        &self,
        firm: &str,
        job: &str,
        photo: &mut WholePhoto,
    ) -> Result<bool, NotKept> {
        for (small, to) in [(false, &mut photo.bytes), (true, &mut photo.small)] {
            match self.photo(firm, job, &photo.id, small).await {
                Ok(kept) => *to = kept.bytes,
                Err(NotKept::NotThere(_)) => return Ok(false),
                Err(e) => return Err(e),
            }
        }
        Ok(true)
    }

    /// A job with everything that hangs on it, as it stood at one moment; of the photos all but
    /// their bytes ([`Self::with_bytes`]).
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn whole_but_photos(&self, firm: &str, id: &str) -> Result<Whole, NotKept> {
        const JOB: &str = "select firm.name, updated, updated_by from job \
            join firm on firm.id = job.firm where job.firm = $1 and job.id = $2";
        const REVISIONS: &str = "select revision, change, kind, who, at, kept, edits, packed \
            from revision where job = $1 order by revision";
        const CONFLICTS: &str = "select change, who, at, kept, base, edits, settled, settled_by \
            from conflict where job = $1 order by kept, change";
        const RECORDS: &str = "select id, line from record where job = $1 order by n";
        const PHOTOS: &str = "select id, shows, note, who, at, kept, kind, width, height \
            from photo where job = $1 order by kept, id";
        let (job, revisions, conflicts, records, photos, files) = looking!(self, tx => {
            let job: Option<(String, i64, String)> = sqlx::query_as(JOB)
                .bind(firm).bind(id).fetch_optional(&mut *tx).await?;
            let revisions: Vec<RevisionRow> =
                sqlx::query_as(REVISIONS).bind(id).fetch_all(&mut *tx).await?;
            let conflicts: Vec<ConflictRow> =
                sqlx::query_as(CONFLICTS).bind(id).fetch_all(&mut *tx).await?;
            let records: Vec<(String, String)> =
                sqlx::query_as(RECORDS).bind(id).fetch_all(&mut *tx).await?;
            let photos: Vec<PhotoRow> =
                sqlx::query_as(PHOTOS).bind(id).fetch_all(&mut *tx).await?;
            let files: Vec<temperatures::Row> =
                sqlx::query_as(temperatures::OF_JOB).bind(id).fetch_all(&mut *tx).await?;
            (job, revisions, conflicts, records, photos, files)
        });
        let (firm_name, updated, updated_by) = job.ok_or(NotKept::NotThere("job"))?;
        Ok(Whole {
            id: id.to_owned(),
            firm: firm.to_owned(),
            firm_name,
            updated,
            updated_by,
            revisions: revisions
                .into_iter()
                .map(|r| {
                    Ok(WholeRevision {
                        text: packed::unpack(&r.7)?,
                        revision: r.0,
                        change: r.1,
                        kind: r.2,
                        who: r.3,
                        at: r.4,
                        kept: r.5,
                        edits: r.6,
                    })
                })
                .collect::<Result<_, NotKept>>()?,
            conflicts: conflicts
                .into_iter()
                .map(|r| WholeConflict {
                    change: r.0,
                    who: r.1,
                    at: r.2,
                    kept: r.3,
                    base: r.4,
                    edits: r.5,
                    settled: r.6,
                    settled_by: r.7,
                })
                .collect(),
            records: records.iter().map(|r| r.1.as_str()).collect(),
            record_ids: records.into_iter().map(|r| r.0).collect(),
            photos: photos
                .into_iter()
                .map(|r| WholePhoto {
                    id: r.0,
                    shows: r.1,
                    note: r.2,
                    who: r.3,
                    at: r.4,
                    kept: r.5,
                    kind: r.6,
                    width: r.7,
                    height: r.8,
                    bytes: Vec::new(),
                    small: Vec::new(),
                })
                .collect(),
            temperatures: files.into_iter().map(Temperatures::from).collect(),
        })
    }

    /// Brings a job back. One that is there stays, unless `over`. Whether it came back.
    ///
    /// # Errors
    /// It does not hold together; another firm has the id; the database.
    pub async fn bring_back(&self, whole: &Whole, over: bool) -> Result<bool, NotKept> {
        let last = whole.revisions.last();
        let last = last.ok_or_else(|| NotKept::Broken("a job without a text".to_owned()))?;
        let job = jobfile::read(&last.text).map_err(NotKept::DoesNotRead)?;
        let chain = startup::record::verify(&whole.records)
            .map_err(|e| NotKept::Broken(format!("records of {}: {e}", whole.id)))?;
        if chain.records.len() != whole.record_ids.len() {
            return Err(NotKept::Broken(format!(
                "records of {}: some are missing",
                whole.id
            )));
        }
        if let Some(t) = whole
            .temperatures
            .iter()
            .find(|t| !temperatures::is_name(&t.name))
        {
            return Err(NotKept::Broken(format!("no file is kept as {}", t.name)));
        }
        self.make_firm(&whole.firm, &whole.firm_name).await?;
        let _lane = self.lane(&whole.id).await;
        const JOB: &str = "insert into job \
            (id, firm, name, stage, revision, text, updated, updated_by) \
            values ($1, $2, $3, $4, $5, $6, $7, $8) on conflict do nothing";
        const REVISION: &str = "insert into revision \
            (job, revision, change, kind, who, at, kept, edits, packed) \
            values ($1, $2, $3, $4, $5, $6, $7, $8, $9)";
        const CONFLICT: &str = "insert into conflict \
            (job, change, who, at, kept, base, edits, settled, settled_by) \
            values ($1, $2, $3, $4, $5, $6, $7, $8, $9)";
        const PHOTO: &str = "insert into photo \
            (id, job, shows, note, who, at, kept, kind, width, height, bytes, small) \
            values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)";
        const FILE: &str = "insert into temperatures (id, job, name, note, who, kept, days) \
            values ($1, $2, $3, $4, $5, $6, $7)";
        // A plan made of what stood here before must not be taken for one of what comes back.
        let updated = if over { now_ms() } else { whole.updated };
        let stage = job.stage.word();
        let id = &whole.id;
        within!(self, tx => {
            if over {
                sqlx::query("delete from job where id = $1 and firm = $2")
                    .bind(id).bind(&whole.firm).execute(&mut *tx).await?;
            }
            let done = sqlx::query(JOB)
                .bind(id).bind(&whole.firm).bind(&job.name).bind(stage)
                .bind(last.revision).bind(&last.text).bind(updated).bind(&whole.updated_by)
                .execute(&mut *tx).await?;
            if done.rows_affected() == 0 {
                return Ok(false);
            }
            for r in &whole.revisions {
                sqlx::query(REVISION)
                    .bind(id).bind(r.revision).bind(&r.change).bind(&r.kind).bind(&r.who)
                    .bind(&r.at).bind(r.kept).bind(&r.edits).bind(packed::pack(&r.text)?)
                    .execute(&mut *tx).await?;
            }
            for c in &whole.conflicts {
                sqlx::query(CONFLICT)
                    .bind(id).bind(&c.change).bind(&c.who).bind(&c.at).bind(c.kept)
                    .bind(c.base).bind(&c.edits).bind(c.settled).bind(&c.settled_by)
                    .execute(&mut *tx).await?;
            }
            for ((n, line), record) in (1_i64..).zip(whole.records.lines()).zip(&whole.record_ids) {
                sqlx::query("insert into record (job, n, id, line) values ($1, $2, $3, $4)")
                    .bind(id).bind(n).bind(record).bind(format!("{line}\n"))
                    .execute(&mut *tx).await?;
            }
            for p in &whole.photos {
                sqlx::query(PHOTO)
                    .bind(&p.id).bind(id).bind(&p.shows).bind(&p.note).bind(&p.who)
                    .bind(&p.at).bind(p.kept).bind(&p.kind).bind(p.width).bind(p.height)
                    .bind(&p.bytes).bind(&p.small)
                    .execute(&mut *tx).await?;
            }
            for t in &whole.temperatures {
                sqlx::query(FILE)
                    .bind(&t.id).bind(id).bind(&t.name).bind(&t.note).bind(&t.who)
                    .bind(t.kept).bind(&t.days)
                    .execute(&mut *tx).await?;
            }
        });
        Ok(true)
    }
}
