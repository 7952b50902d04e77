//! Who a paper is for, and on what it is printed.

/// Who a paper is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reader {
    /// Who lives there.
    Owner,
    /// Who inspects the work.
    Inspector,
    /// Who decides on the rebate.
    Rebate,
    /// Who does the work.
    Crew,
}

impl Reader {
    /// All, in the order in which they are printed.
    pub const ALL: [Self; 4] = [Self::Owner, Self::Inspector, Self::Rebate, Self::Crew];

    /// One word, as in file names.
    pub fn word(self) -> &'static str {
        match self {
            Self::Owner => "owner",
            Self::Inspector => "inspector",
            Self::Rebate => "rebate",
            Self::Crew => "crew",
        }
    }

    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Owner => "reader.owner",
            Self::Inspector => "reader.inspector",
            Self::Rebate => "reader.rebate",
            Self::Crew => "reader.crew",
        }
    }
}

/// Size of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Size {
    /// US Letter.
    #[default]
    Letter,
    /// A4.
    A4,
}

impl Size {
    /// As the document engine names it.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Letter => "us-letter",
            Self::A4 => "a4",
        }
    }
}
