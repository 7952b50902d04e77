//! Why something about bills was refused.

/// A refusal: where, what, what came, what is usable, what would do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}{says}: got {got}; usable: {usable}; {mend}", at(*line))]
pub struct Refused {
    /// Line of the file, counted from 1, where there is one.
    pub line: Option<usize>,
    /// What is wrong.
    pub says: String,
    /// What came.
    pub got: String,
    /// What is usable.
    pub usable: String,
    /// What would do.
    pub mend: String,
}

/// Characters of what is quoted from a file.
const LONGEST: usize = 200;

fn at(line: Option<usize>) -> String {
    line.map_or_else(String::new, |l| format!("line {l}: "))
}

impl Refused {
    pub(crate) fn new(
        says: impl Into<String>,
        got: impl Into<String>,
        usable: impl Into<String>,
        mend: impl Into<String>,
    ) -> Self {
        Self {
            line: None,
            says: units::cut(&says.into(), LONGEST),
            got: units::cut(&got.into(), LONGEST),
            usable: usable.into(),
            mend: mend.into(),
        }
    }

    pub(crate) fn at(mut self, line: usize) -> Self {
        self.line = Some(line);
        self
    }
}
