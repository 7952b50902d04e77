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
    /// The database.
    #[error("the database: {0}")]
    Database(#[from] sqlx::Error),
    /// The folder.
    #[error("the folder: {0}")]
    Folder(#[from] std::io::Error),
}
