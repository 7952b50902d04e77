//! What is answered when something cannot be done: one form for all of it.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use utoipa::ToSchema;

/// Something wrong with a job's text, at its line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ProblemView {
    /// Dotted path: `room.living.heated_to`.
    pub path: String,
    /// Line of the text, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// What is wrong.
    pub says: String,
    /// What came.
    pub got: String,
    /// What is allowed.
    pub allowed: String,
    /// How to mend it.
    pub mend: String,
}

impl From<jobfile::Problem> for ProblemView {
    fn from(p: jobfile::Problem) -> Self {
        Self {
            path: p.path,
            line: p.span.line,
            column: p.span.column,
            says: p.says,
            got: p.got,
            allowed: p.allowed,
            mend: p.mend,
        }
    }
}

/// A refusal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Refused {
    /// Status, not repeated in the body.
    #[serde(skip)]
    #[schema(ignore)]
    pub status: u16,
    /// Stable word: `not-there`, `not-allowed`, `sign-in`, `bad-input`, `too-large`, `does-not-read`, `too-often`,
    /// `waits`, `not-built`, `defect`.
    pub kind: &'static str,
    /// What is so, in one sentence.
    pub says: String,
    /// What came.
    pub got: String,
    /// What is allowed.
    pub allowed: String,
    /// What to do.
    pub mend: String,
    /// Problems of the job's text, where that is it.
    pub problems: Vec<ProblemView>,
}

impl Refused {
    /// A refusal by status and kind.
    pub fn new(status: StatusCode, kind: &'static str, says: impl Into<String>) -> Self {
        Self {
            status: status.as_u16(),
            kind,
            says: says.into(),
            got: String::new(),
            allowed: String::new(),
            mend: String::new(),
            problems: Vec::new(),
        }
    }

    /// Nothing of this name.
    pub fn not_there(what: &str, got: &str) -> Self {
        Self::new(
            StatusCode::NOT_FOUND,
            "not-there",
            format!("there is no such {what}"),
        )
        .got(got)
    }

    /// What came cannot be used.
    pub fn bad(says: impl Into<String>) -> Self {
        Self::new(StatusCode::BAD_REQUEST, "bad-input", says)
    }

    /// The text of a job does not read.
    pub fn unreadable(problems: Vec<jobfile::Problem>) -> Self {
        let mut all = Self::new(
            StatusCode::UNPROCESSABLE_ENTITY,
            "does-not-read",
            "the job would not read so; nothing was changed",
        );
        all.problems = problems.into_iter().map(ProblemView::from).collect();
        all
    }

    /// A defect of the program; the reason goes to the log, not out.
    pub fn defect(why: impl std::fmt::Display) -> Self {
        to_terminal(&why);
        Self::new(
            StatusCode::INTERNAL_SERVER_ERROR,
            "defect",
            "this is a defect of the program or its database, not of the job",
        )
        .mend("try again; if it stays, look at what the server printed")
    }

    /// What came.
    #[must_use]
    pub fn got(mut self, got: impl Into<String>) -> Self {
        self.got = got.into();
        self
    }

    /// What is allowed.
    #[must_use]
    pub fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = allowed.into();
        self
    }

    /// What to do.
    #[must_use]
    pub fn mend(mut self, mend: impl Into<String>) -> Self {
        self.mend = mend.into();
        self
    }
}

/// To the terminal the server was started from.
fn to_terminal(why: &dyn std::fmt::Display) {
    use std::io::Write;
    let _ = writeln!(std::io::stderr(), "northwall serve: {why}");
}

/// What came may be without end; longer than this no text of a refusal quotes it.
const LONGEST: usize = 1000;

impl IntoResponse for Refused {
    fn into_response(mut self) -> Response {
        for text in [
            &mut self.says,
            &mut self.got,
            &mut self.allowed,
            &mut self.mend,
        ] {
            if text.len() > LONGEST {
                *text = units::cut(text, LONGEST);
            }
        }
        let status = StatusCode::from_u16(self.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        (status, Json(self)).into_response()
    }
}

impl From<store::NotKept> for Refused {
    fn from(why: store::NotKept) -> Self {
        use store::NotKept;
        match why {
            NotKept::NotThere(what) => Self::not_there(what, ""),
            NotKept::Taken(what) => Self::new(
                StatusCode::CONFLICT,
                "taken",
                format!("this id is taken by another {what}"),
            )
            .mend("make a new id"),
            NotKept::DoesNotRead(problems) => Self::unreadable(problems),
            NotKept::Bad(says) => Self::bad(says),
            NotKept::Record(e) => Self::bad(e.to_string()),
            NotKept::Busy => Self::new(
                StatusCode::SERVICE_UNAVAILABLE,
                "too-often",
                "the job is being changed by too many at once; nothing was changed",
            )
            .mend("send the same change again"),
            NotKept::Away(e) => {
                to_terminal(&e);
                Self::new(
                    StatusCode::SERVICE_UNAVAILABLE,
                    "database-away",
                    "the database does not answer; whether this was kept is not known",
                )
                .mend("send the same again, with the same id: it is not kept twice")
            }
            NotKept::NoRoom(e) => {
                to_terminal(&e);
                Self::new(
                    StatusCode::INSUFFICIENT_STORAGE,
                    "no-room",
                    "nothing more can be kept: the disk is full or may not be written; nothing was changed",
                )
                .mend("make room on the server's disk, then send the same again")
            }
            other => Self::defect(other),
        }
    }
}
