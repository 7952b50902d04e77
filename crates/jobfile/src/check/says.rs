//! What a problem says, before its place is known.

use crate::Problem;

/// What a problem says, put together part by part.
#[derive(Debug, Clone, Default)]
pub(crate) struct Says {
    pub(super) what: String,
    pub(super) got: String,
    pub(super) allowed: String,
    pub(super) mend: String,
}

impl Says {
    pub fn new(says: impl Into<String>) -> Self {
        Self {
            what: says.into(),
            ..Self::default()
        }
    }
    pub fn got(mut self, got: impl Into<String>) -> Self {
        self.got = got.into();
        self
    }
    pub fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = allowed.into();
        self
    }
    pub fn mend(mut self, mend: impl Into<String>) -> Self {
        self.mend = mend.into();
        self
    }

    /// As a problem at a place already known.
    pub fn at(self, path: &str, span: crate::Span) -> Problem {
        Problem {
            path: path.to_owned(),
            span,
            says: self.what,
            got: self.got,
            allowed: self.allowed,
            mend: self.mend,
        }
    }
}
