//! Input that cannot be used, said at the edge: file, line, value, what is allowed, how to mend.

use serde::Serialize;

/// One thing that is wrong.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Fault {
    /// File, as the person named it; empty for a flag.
    pub file: String,
    /// Line, from 1.
    pub line: Option<usize>,
    /// Column, from 1.
    pub column: Option<usize>,
    /// Where: dotted path or flag.
    pub place: String,
    /// What is wrong.
    pub says: String,
    /// What stands there.
    pub got: String,
    /// What is allowed.
    pub allowed: String,
    /// How to mend it.
    pub mend: String,
    /// The line of the file, to show.
    #[serde(skip)]
    pub text: String,
    /// Characters to underline.
    #[serde(skip)]
    pub width: usize,
}

impl Fault {
    /// A fault of a whole file.
    pub fn file(file: &str, says: impl Into<String>) -> Self {
        Self {
            file: file.to_owned(),
            says: says.into(),
            ..Self::default()
        }
    }

    /// A fault of a flag or argument.
    pub fn flag(place: &str, says: impl Into<String>) -> Self {
        Self {
            place: place.to_owned(),
            says: says.into(),
            ..Self::default()
        }
    }

    /// With what stands there.
    #[must_use]
    pub fn got(mut self, got: impl Into<String>) -> Self {
        self.got = got.into();
        self
    }

    /// With what is allowed.
    #[must_use]
    pub fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = allowed.into();
        self
    }

    /// With how to mend it.
    #[must_use]
    pub fn mend(mut self, mend: impl Into<String>) -> Self {
        self.mend = mend.into();
        self
    }
}

/// Why nothing was done. Exit code 2.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Refusal {
    /// Faults, in the order of the file.
    pub refused: Vec<Fault>,
    /// What was written all the same, and stands; nothing, but for a run of many parts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stands: Option<String>,
}

impl From<Vec<Fault>> for Refusal {
    fn from(refused: Vec<Fault>) -> Self {
        Self {
            refused: refused.into_iter().map(Fault::quoted_short).collect(),
            stands: None,
        }
    }
}

impl From<Fault> for Refusal {
    fn from(fault: Fault) -> Self {
        vec![fault].into()
    }
}

/// Faults shown in full; the rest is counted.
const MOST_SHOWN: usize = 12;

impl Refusal {
    /// The text for the terminal.
    pub fn text(&self) -> String {
        let mut out = String::new();
        for fault in self.refused.iter().take(MOST_SHOWN) {
            fault.write(&mut out);
            out.push('\n');
        }
        if self.refused.len() > MOST_SHOWN {
            let more = self.refused.len() - MOST_SHOWN;
            out.push_str(&format!("and {more} more; mend these first\n\n"));
        }
        out.push_str(self.stands.as_deref().unwrap_or("nothing was written"));
        out.push('\n');
        out
    }
}

/// A file without end quotes itself without end; longer than this no text of a fault is.
const LONGEST: usize = 1000;
/// Nor a line of a file that is shown.
const LONGEST_LINE: usize = 100;

impl Fault {
    fn quoted_short(mut self) -> Self {
        let texts = [&mut self.place, &mut self.says, &mut self.got];
        for text in texts.into_iter().chain([&mut self.allowed, &mut self.mend]) {
            if text.len() > LONGEST {
                *text = units::cut(text, LONGEST);
            }
        }
        if self.text.len() > LONGEST_LINE {
            self.text = units::cut(&self.text, LONGEST_LINE);
        }
        self
    }

    /// The fault in one line, for a cell of a table.
    #[cfg(feature = "many")]
    pub fn in_a_line(&self) -> String {
        let parts = [
            ("", &self.file),
            ("", &self.says),
            ("got ", &self.got),
            ("allowed: ", &self.allowed),
            ("mend: ", &self.mend),
        ];
        let told = parts.iter().filter(|(_, text)| !text.is_empty());
        let told: Vec<String> = told.map(|(word, text)| format!("{word}{text}")).collect();
        told.join("; ")
    }

    fn write(&self, out: &mut String) {
        let at = match (self.line, self.column) {
            (Some(line), Some(column)) => format!(", line {line}, column {column}"),
            (Some(line), None) => format!(", line {line}"),
            _ => String::new(),
        };
        if self.file.is_empty() {
            out.push_str("cannot be used\n");
        } else {
            out.push_str(&format!("cannot use {}{at}\n", self.file));
        }
        if !self.text.is_empty() {
            let number = self.line.map_or(String::new(), |l| l.to_string());
            out.push_str(&format!("  {number} | {}\n", self.text));
            if let Some(column) = self.column {
                let gap = " ".repeat(number.len() + 2 + column);
                let marks = "^".repeat(self.width.clamp(1, 60));
                out.push_str(&format!("  {gap}\x1b[31m{marks}\x1b[0m\n"));
            }
        }
        let place = if self.place.is_empty() {
            String::new()
        } else {
            format!("{}: ", self.place)
        };
        out.push_str(&crate::say::wrapped("  ", &format!("{place}{}", self.says)));
        for (word, text) in [
            ("got", &self.got),
            ("allowed", &self.allowed),
            ("mend", &self.mend),
        ] {
            if !text.is_empty() {
                let text = crate::say::wrapped("           ", text);
                out.push_str(&format!("  {word:<9}{}", text.trim_start()));
            }
        }
    }
}
