//! Tables, brought up one version after another.

use sqlx::Row;

use crate::pool::Pool;
use crate::{NotKept, Store};

const SQLITE: [&str; 4] = [
    include_str!("../migrations/sqlite/1.sql"),
    include_str!("../migrations/sqlite/2.sql"),
    include_str!("../migrations/sqlite/3.sql"),
    include_str!("../migrations/sqlite/4.sql"),
];
const POSTGRES: [&str; 4] = [
    include_str!("../migrations/postgres/1.sql"),
    include_str!("../migrations/postgres/2.sql"),
    include_str!("../migrations/postgres/3.sql"),
    include_str!("../migrations/postgres/4.sql"),
];

/// Two programs that start at once take turns by this number.
const TURN: &str = "select pg_advisory_xact_lock(7238140)";

pub(crate) async fn bring_up(store: &Store) -> Result<(), NotKept> {
    match &store.pool {
        Pool::Sqlite(pool) => {
            let mut tx = pool.begin_with("begin immediate").await?;
            let made =
                "create table if not exists northwall_tables (version integer not null) strict";
            sqlx::query(made).execute(&mut *tx).await?;
            let row = sqlx::query("select coalesce(max(version), 0) from northwall_tables");
            let have: i64 = row.fetch_one(&mut *tx).await?.try_get(0)?;
            for (version, sql) in fresh(have, &SQLITE)? {
                sqlx::raw_sql(sql).execute(&mut *tx).await?;
                sqlx::query("insert into northwall_tables (version) values ($1)")
                    .bind(version)
                    .execute(&mut *tx)
                    .await?;
            }
            tx.commit().await?;
        }
        Pool::Postgres(pool) => {
            let mut tx = pool.begin().await?;
            sqlx::query(TURN).execute(&mut *tx).await?;
            let made = "create table if not exists northwall_tables (version bigint not null)";
            sqlx::query(made).execute(&mut *tx).await?;
            let row = sqlx::query("select coalesce(max(version), 0) from northwall_tables");
            let have: i64 = row.fetch_one(&mut *tx).await?.try_get(0)?;
            for (version, sql) in fresh(have, &POSTGRES)? {
                sqlx::raw_sql(sql).execute(&mut *tx).await?;
                sqlx::query("insert into northwall_tables (version) values ($1)")
                    .bind(version)
                    .execute(&mut *tx)
                    .await?;
            }
            tx.commit().await?;
        }
    }
    Ok(())
}

fn fresh<'a>(
    have: i64,
    all: &'a [&'static str],
) -> Result<impl Iterator<Item = (i64, &'static str)> + use<'a>, NotKept> {
    let newest = i64::try_from(all.len()).unwrap_or(i64::MAX);
    if have > newest {
        return Err(NotKept::Newer(have));
    }
    let numbered = (1..).zip(all.iter().copied());
    Ok(numbered.filter(move |(version, _)| *version > have))
}
