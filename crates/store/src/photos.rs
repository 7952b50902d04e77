//! Photos of a job: what they show, and their bytes.

use crate::pool::{on, within};
use crate::{NotKept, Store, now_ms};

/// A photo to be kept.
#[derive(Debug, Clone)]
pub struct NewPhoto<'a> {
    /// Id, by the client: the same again changes nothing.
    pub id: &'a str,
    /// What it shows: a path of the job, or words.
    pub shows: &'a str,
    /// Remark.
    pub note: &'a str,
    /// Who.
    pub who: &'a str,
    /// When.
    pub at: &'a str,
    /// Media type of the bytes.
    pub kind: &'a str,
    /// Width and height, pixels.
    pub size: (u32, u32),
    /// The photo.
    pub bytes: &'a [u8],
    /// The same, small.
    pub small: &'a [u8],
}

/// A photo without its bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoLine {
    /// Id.
    pub id: String,
    /// What it shows.
    pub shows: String,
    /// Remark.
    pub note: String,
    /// Who.
    pub who: String,
    /// When, by the client's clock.
    pub at: String,
    /// Width, pixels.
    pub width: i64,
    /// Height, pixels.
    pub height: i64,
    /// Bytes of the photo.
    pub bytes: i64,
}

/// The bytes of a photo.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoBytes {
    /// Media type.
    pub kind: String,
    /// Bytes.
    pub bytes: Vec<u8>,
}

type Line = (String, String, String, String, String, i64, i64, i64);

impl Store {
    /// Keeps a photo. The same id again leaves the one that is there.
    ///
    /// # Errors
    /// No such job; an id that another job has; the database.
    pub async fn keep_photo(
        &self,
        firm: &str,
        job: &str,
        photo: &NewPhoto<'_>,
    ) -> Result<PhotoLine, NotKept> {
        self.job(firm, job).await?;
        const SQL: &str = "insert into photo \
            (id, job, shows, note, who, at, kept, kind, width, height, bytes, small) \
            values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12) on conflict do nothing";
        let (width, height) = (i64::from(photo.size.0), i64::from(photo.size.1));
        within!(self, tx => {
            sqlx::query(SQL)
                .bind(photo.id).bind(job).bind(photo.shows).bind(photo.note)
                .bind(photo.who).bind(photo.at).bind(now_ms()).bind(photo.kind)
                .bind(width).bind(height).bind(photo.bytes).bind(photo.small)
                .execute(&mut *tx).await?;
        });
        let all = self.photos(firm, job).await?;
        let mine = all.into_iter().find(|p| p.id == photo.id);
        mine.ok_or(NotKept::Taken("photo"))
    }

    /// Photos of a job, oldest first.
    ///
    /// # Errors
    /// No such job; the database.
    pub async fn photos(&self, firm: &str, job: &str) -> Result<Vec<PhotoLine>, NotKept> {
        self.job(firm, job).await?;
        const SQL: &str = "select id, shows, note, who, at, width, height, \
            cast(length(bytes) as bigint) from photo where job = $1 order by kept, id";
        let rows: Vec<Line> =
            on!(self, pool => sqlx::query_as(SQL).bind(job).fetch_all(pool).await)?;
        Ok(rows
            .into_iter()
            .map(|r| PhotoLine {
                id: r.0,
                shows: r.1,
                note: r.2,
                who: r.3,
                at: r.4,
                width: r.5,
                height: r.6,
                bytes: r.7,
            })
            .collect())
    }

    /// The bytes of a photo, whole or small.
    ///
    /// # Errors
    /// No such job or photo; the database.
    pub async fn photo(
        &self,
        firm: &str,
        job: &str,
        id: &str,
        small: bool,
    ) -> Result<PhotoBytes, NotKept> {
        self.job(firm, job).await?;
        let sql = if small {
            "select kind, small from photo where job = $1 and id = $2"
        } else {
            "select kind, bytes from photo where job = $1 and id = $2"
        };
        let row: Option<(String, Vec<u8>)> =
            on!(self, pool => sqlx::query_as(sql).bind(job).bind(id).fetch_optional(pool).await)?;
        let (kind, bytes) = row.ok_or(NotKept::NotThere("photo"))?;
        Ok(PhotoBytes { kind, bytes })
    }

    /// Takes a photo away.
    ///
    /// # Errors
    /// No such job or photo; the database.
    pub async fn delete_photo(&self, firm: &str, job: &str, id: &str) -> Result<(), NotKept> {
        self.job(firm, job).await?;
        let sql = "delete from photo where job = $1 and id = $2";
        let gone = within!(self, tx => sqlx::query(sql)
            .bind(job).bind(id).execute(&mut *tx).await?.rows_affected());
        if gone == 0 {
            return Err(NotKept::NotThere("photo"));
        }
        Ok(())
    }
}
