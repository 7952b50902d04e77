//! Why something was not kept.

/// Why.
#[derive(Debug, thiserror::Error)]
pub enum NotKept {
    /// Nothing of this id, or not of this firm.
    #[error("there is no such {0}")]
    NotThere(&'static str),
    /// The id is taken by something else.
    #[error("this id is taken by another {0}")]
    Taken(&'static str),
    /// The text of a job does not read.
    #[error("the job does not read")]
    DoesNotRead(Vec<jobfile::Problem>),
    /// Something in what came cannot be used.
    #[error("{0}")]
    Bad(String),
    /// A record that cannot be made.
    #[error(transparent)]
    Record(#[from] startup::record::NotARecord),
    /// Too many changes of one job at once.
    #[error("the job is being changed by too many at once")]
    Busy,
    /// The file in the folder belongs to a newer program.
    #[error("the database was made by a newer northwall (version {0} of its tables)")]
    Newer(i64),
    /// What is kept does not hold together.
    #[error("what is kept does not hold together: {0}")]
    Broken(String),
    /// The database is not reached, or is going down or coming up; whether a change was kept is
    /// not known.
    #[error("the database does not answer: {0}")]
    Away(sqlx::Error),
    /// The disk under the database is full, broken or read-only; nothing was kept.
    #[error("the disk of the database is full or may not be written: {0}")]
    NoRoom(sqlx::Error),
    /// The database.
    #[error("the database: {0}")]
    Database(sqlx::Error),
    /// The folder.
    #[error("the folder: {0}")]
    Folder(#[from] std::io::Error),
}

impl From<sqlx::Error> for NotKept {
    fn from(e: sqlx::Error) -> Self {
        if away(&e) {
            Self::Away(e)
        } else if no_room(&e) {
            Self::NoRoom(e)
        } else {
            Self::Database(e)
        }
    }
}

fn away(e: &sqlx::Error) -> bool {
    match e {
        sqlx::Error::Io(_) | sqlx::Error::PoolTimedOut | sqlx::Error::PoolClosed => true,
        // PostgreSQL, appendix A: connection exceptions, and the server ending or starting.
        sqlx::Error::Database(e) => e
            .code()
            .is_some_and(|c| c.starts_with("08") || c.starts_with("57P0")),
        _ => false,
    }
}

fn no_room(e: &sqlx::Error) -> bool {
    let sqlx::Error::Database(e) = e else {
        return false;
    };
    let Some(code) = e.code() else { return false };
    if e.try_downcast_ref::<sqlx::postgres::PgDatabaseError>()
        .is_some()
    {
        // PostgreSQL, appendix A: disk_full, read_only_sql_transaction.
        return matches!(&*code, "53100" | "25006");
    }
    // SQLite, result codes: the low byte is READONLY, IOERR or FULL, or the file does not open.
    code.parse::<u32>()
        .is_ok_and(|c| matches!(c & 0xff, 8 | 10 | 13 | 14))
}
