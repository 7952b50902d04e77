//! One thing that is wrong with a job file, said so that it can be mended.

/// A stretch of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// Byte after the last.
    pub end: usize,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// One problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Dotted path: `room.living.heated_to`.
    pub path: String,
    /// Where in the file.
    pub span: Span,
    /// What is wrong, in one sentence.
    pub says: String,
    /// The value got, as written; empty when nothing was written.
    pub got: String,
    /// What is allowed.
    pub allowed: String,
    /// How to mend it.
    pub mend: String,
}

impl Problem {
    pub(crate) fn blank() -> Self {
        Self {
            path: String::new(),
            span: Span::default(),
            says: String::new(),
            got: String::new(),
            allowed: String::new(),
            mend: String::new(),
        }
    }

    /// Cut to what a person can read: a damaged file may hold an endless value.
    pub(crate) fn quotable(self) -> Self {
        const LONGEST: usize = 300;
        let cut = |text: String| units::cut(&text, LONGEST);
        Self {
            path: cut(self.path),
            span: self.span,
            says: cut(self.says),
            got: cut(self.got),
            allowed: self.allowed,
            mend: cut(self.mend),
        }
    }

    /// Line in the file, from 1.
    pub fn line(&self) -> usize {
        self.span.line
    }
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}, column {}: ", self.span.line, self.span.column)?;
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        f.write_str(&self.says)?;
        if !self.got.is_empty() {
            write!(f, "\n  got: {}", self.got)?;
        }
        if !self.allowed.is_empty() {
            write!(f, "\n  allowed: {}", self.allowed)?;
        }
        if !self.mend.is_empty() {
            write!(f, "\n  mend: {}", self.mend)?;
        }
        Ok(())
    }
}

impl std::error::Error for Problem {}
