//! How often something was tried, counted for all servers on one database.

use crate::pool::within;
use crate::{NotKept, Store};

/// Tries within a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tries {
    /// Tries in this window, this one included.
    pub tries: i64,
    /// When the window ends, ms since 1970.
    pub ends: i64,
}

impl Store {
    /// Counts a try under `hash` at `now` and says how many there were. The first try opens a
    /// window of so many ms; after it counting begins anew. What is over is forgotten.
    ///
    /// # Errors
    /// The database.
    pub async fn tried(&self, hash: &str, now: i64, window_ms: i64) -> Result<Tries, NotKept> {
        const COUNT: &str = "insert into pace (hash, ends, tries) values ($1, $2, 1) \
            on conflict (hash) do update set tries = pace.tries + 1 returning tries, ends";
        let (tries, ends): (i64, i64) = within!(self, tx => {
            sqlx::query("delete from pace where ends <= $1")
                .bind(now).execute(&mut *tx).await?;
            sqlx::query_as(COUNT)
                .bind(hash).bind(now + window_ms).fetch_one(&mut *tx).await?
        });
        Ok(Tries { tries, ends })
    }
}
