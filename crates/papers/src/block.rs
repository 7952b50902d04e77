//! What a sheet is made of, as data for the template. All text has gone through
//! [`crate::printable`].

use serde::Serialize;

use crate::printable::{printable, printable_svg};

/// One paper.
#[derive(Debug, Clone, Serialize)]
pub struct Sheet {
    /// Language of the texts.
    pub lang: &'static str,
    /// `us-letter` or `a4`.
    pub paper: &'static str,
    /// Title.
    pub title: String,
    /// What it is about, for the list of files.
    pub about: String,
    /// Who made it.
    pub author: String,
    /// Year, month, day.
    pub date: [i32; 3],
    /// Line under the title.
    pub under: String,
    /// Draft: something is missing.
    pub draft: bool,
    /// Cells of the title block, without the page.
    pub cells: Vec<Cell>,
    /// Words of the frame.
    pub words: FrameWords,
    /// What stands on the sheet.
    pub blocks: Vec<Block>,
    /// What the file is known by.
    #[serde(skip)]
    pub ident: String,
}

/// Words of the frame.
#[derive(Debug, Clone, Serialize)]
pub struct FrameWords {
    /// `page`.
    pub page: String,
    /// `DRAFT`.
    pub draft: String,
}

/// A cell of the title block.
#[derive(Debug, Clone, Serialize)]
pub struct Cell {
    /// Small word.
    pub small: String,
    /// What it says.
    pub says: String,
}

/// A thing on the sheet.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum Block {
    /// Heading of a part.
    Heading {
        /// Words.
        text: String,
    },
    /// Heading of a place within a part.
    Place {
        /// Words.
        text: String,
    },
    /// What stands against the paper, in a frame of its own.
    Draft {
        /// Heading.
        text: String,
        /// Words.
        says: String,
        /// What stands against it.
        items: Vec<Note>,
    },
    /// Plain words.
    Para {
        /// Words.
        text: String,
    },
    /// Small plain words.
    Soft {
        /// Words.
        text: String,
    },
    /// Small plain words that stay with what follows.
    Fine {
        /// Words.
        text: String,
    },
    /// A sentence in large type.
    Verdict {
        /// Sentence.
        text: String,
        /// What stands under it.
        small: String,
    },
    /// Names and what they are.
    Facts {
        /// Rows.
        rows: Vec<Fact>,
    },
    /// A table.
    Table {
        /// Heads of the columns.
        head: Vec<String>,
        /// `left`, `right`, `center`.
        align: Vec<&'static str>,
        /// 0 as wide as it needs; else its share of what is left.
        widths: Vec<u32>,
        /// Rows.
        rows: Vec<Vec<String>>,
        /// The last row is a sum.
        total: bool,
        /// The last column is small: where a thing comes from.
        quiet: bool,
        /// Set small, as three parts side by side: many short rows.
        folded: bool,
    },
    /// Findings, keyed by number.
    Notes {
        /// Notes.
        items: Vec<Note>,
    },
    /// Things to tick.
    Steps {
        /// Steps.
        items: Vec<Step>,
    },
    /// A drawing.
    Picture {
        /// The drawing.
        svg: String,
        /// The drawing in words.
        alt: String,
        /// Words under it.
        caption: String,
        /// Height over width.
        tall: f64,
    },
    /// Empty lines to write on.
    Lines {
        /// How many.
        count: u32,
    },
    /// A new page.
    Turn,
}

/// A name and what it is.
#[derive(Debug, Clone, Serialize)]
pub struct Fact {
    /// Name.
    pub name: String,
    /// What it is.
    pub says: String,
    /// How sure, beside it.
    pub band: String,
}

/// A finding.
#[derive(Debug, Clone, Serialize)]
pub struct Note {
    /// Number in the plan.
    pub number: usize,
    /// `stop`, `fix`, `ask`, `note`.
    pub level: &'static str,
    /// That word in the language of the paper.
    pub word: String,
    /// Where.
    pub place: String,
    /// What.
    pub says: String,
    /// What to do.
    pub mend: String,
}

/// A thing to tick.
#[derive(Debug, Clone, Serialize)]
pub struct Step {
    /// What to do.
    pub says: String,
    /// Beside it, smaller.
    pub small: String,
}

impl Sheet {
    /// Makes every text of the sheet printable: see [`crate::printable`].
    pub(crate) fn made_printable(mut self) -> Self {
        for text in [
            &mut self.title,
            &mut self.about,
            &mut self.author,
            &mut self.under,
        ] {
            *text = printable(text);
        }
        for c in &mut self.cells {
            c.small = printable(&c.small);
            c.says = printable(&c.says);
        }
        for b in &mut self.blocks {
            b.make_printable();
        }
        self
    }
}

impl Block {
    fn make_printable(&mut self) {
        let fix = |t: &mut String| *t = printable(t);
        match self {
            Self::Heading { text }
            | Self::Place { text }
            | Self::Para { text }
            | Self::Soft { text }
            | Self::Fine { text } => fix(text),
            Self::Verdict { text, small } => {
                fix(text);
                fix(small);
            }
            Self::Facts { rows } => rows.iter_mut().for_each(|r| {
                fix(&mut r.name);
                fix(&mut r.says);
                fix(&mut r.band);
            }),
            Self::Table { head, rows, .. } => {
                head.iter_mut().for_each(fix);
                rows.iter_mut().flatten().for_each(fix);
            }
            Self::Notes { items } => items.iter_mut().for_each(Note::make_printable),
            Self::Draft { text, says, items } => {
                fix(text);
                fix(says);
                items.iter_mut().for_each(Note::make_printable);
            }
            Self::Steps { items } => items.iter_mut().for_each(|s| {
                fix(&mut s.says);
                fix(&mut s.small);
            }),
            Self::Picture {
                svg, alt, caption, ..
            } => {
                *svg = printable_svg(svg);
                fix(alt);
                fix(caption);
            }
            Self::Lines { .. } | Self::Turn => {}
        }
    }
}

impl Note {
    fn make_printable(&mut self) {
        for text in [
            &mut self.word,
            &mut self.place,
            &mut self.says,
            &mut self.mend,
        ] {
            *text = printable(text);
        }
    }
}
