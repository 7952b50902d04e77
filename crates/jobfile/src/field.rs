//! What may stand in a job file: tables and their fields. The reader, the messages and the
//! published JSON Schema are all made from these, so they cannot drift apart.

use units::Dim;

use crate::Carrier;

/// A kind of table: which keys it may have.
#[derive(Debug)]
pub(crate) struct Table {
    /// Key of the table in the file.
    pub name: &'static str,
    /// What it says, for the schema.
    pub about: &'static str,
    /// Keys whose texts, joined, name one of several such tables in paths and messages.
    pub label: &'static [&'static str],
    /// Whether it also takes `seen` and `known`.
    pub assumed: bool,
    /// Keys.
    pub fields: &'static [Field],
}

/// A key of a table.
#[derive(Debug)]
pub(crate) struct Field {
    pub key: &'static str,
    pub kind: Kind,
    pub need: Need,
    pub what: &'static str,
}

/// Whether a key must stand there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Need {
    /// It must.
    Must,
    /// It may.
    May,
    /// Where it does not, this stands in.
    Usual(&'static str),
}

/// What a value may be.
#[derive(Debug)]
pub(crate) enum Kind {
    /// Any text that is not empty.
    Text,
    /// Text, or a list of texts.
    Texts,
    /// The name this table goes by.
    NewName,
    /// The name of another table.
    Ref(Family),
    /// One of these words.
    Word(&'static [&'static str]),
    /// true or false.
    YesNo,
    /// A whole number from the first to the second.
    Whole(i64, i64),
    /// A quantity with unit from the first to the second, SI.
    Q(Dim, f64, f64),
    /// A quantity whose units only the job file uses.
    Odd(&'static OddUnits, f64, f64),
    /// A day: 2026-11-01.
    Day,
    /// "3 ft, 4 ft".
    Point,
    /// A quantity all day, or by ranges of hours; `off` between.
    ByHour(Dim, f64, f64),
    /// "always", or ranges of hours.
    OnHours,
    /// "2100 cfm at 50 Pa".
    FlowAt,
    /// "3.90 /gal".
    Price(Carrier),
    /// Which wall: a plan direction or a number.
    Side,
    /// At least so many of a kind.
    List(&'static Kind, usize),
    /// One table.
    Sub(&'static Table),
    /// Several tables in a row: `[[name]]`.
    Rows(&'static Table),
    /// Tables by name: `[name.this]`.
    Map(&'static Table),
    /// A text, or a table written out.
    TextOr(&'static Table),
    /// Whatever stands there; looked at elsewhere.
    Any,
}

/// Kinds of things that other tables name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Family {
    Storey,
    Room,
    Construction,
    Outdoor,
    Head,
}

impl Family {
    /// Key of the table that brings such names into being.
    pub fn table(self) -> &'static str {
        match self {
            Self::Storey => "storey",
            Self::Room => "room",
            Self::Construction => "construction",
            Self::Outdoor => "outdoor",
            Self::Head => "head",
        }
    }
}

/// Units that only the job file needs.
#[derive(Debug)]
pub(crate) struct OddUnits {
    /// In words, with article.
    pub what: &'static str,
    /// Name and SI per unit; the usual one first.
    pub units: &'static [(&'static str, f64)],
    /// How to write one.
    pub example: &'static str,
}

/// One Btu (international table) per ft2 and F, J/(m2 K).
const BTU_PER_FT2_F: f64 = units::constants::BTU_IT_J
    / (units::constants::FOOT_M * units::constants::FOOT_M)
    / units::constants::F_STEP_K;

/// Heat capacity per area.
pub(crate) static AREA_HEAT: OddUnits = OddUnits {
    what: "a heat capacity per area",
    units: &[
        ("Btu/(ft2 F)", BTU_PER_FT2_F),
        ("kJ/(m2 K)", 1e3),
        ("J/(m2 K)", 1.0),
    ],
    example: "10 kJ/(m2 K)",
};

/// Heat capacity per volume.
pub(crate) static VOLUME_HEAT: OddUnits = OddUnits {
    what: "a heat capacity per volume",
    units: &[
        ("Btu/(ft3 F)", BTU_PER_FT2_F / units::constants::FOOT_M),
        ("MJ/(m3 K)", 1e6),
        ("kJ/(m3 K)", 1e3),
        ("J/(m3 K)", 1.0),
    ],
    example: "2 MJ/(m3 K)",
};

/// A key that must stand there.
pub(crate) const fn must(key: &'static str, kind: Kind, what: &'static str) -> Field {
    Field {
        key,
        kind,
        need: Need::Must,
        what,
    }
}

/// A key that may stand there.
pub(crate) const fn may(key: &'static str, kind: Kind, what: &'static str) -> Field {
    Field {
        key,
        kind,
        need: Need::May,
        what,
    }
}

/// A key that has a usual value.
pub(crate) const fn usual(
    key: &'static str,
    kind: Kind,
    value: &'static str,
    what: &'static str,
) -> Field {
    Field {
        key,
        kind,
        need: Need::Usual(value),
        what,
    }
}

/// The keys that say how a value is known.
pub(crate) static KNOWN_FIELDS: [Field; 2] = [
    may(
        "seen",
        Kind::Text,
        "How it was seen: borescope, tape; or `label`, or `assumed`",
    ),
    may(
        "known",
        Kind::Word(&["seen", "label", "assumed"]),
        "How it is known",
    ),
];

impl Table {
    /// All keys, those of how it is known included.
    pub fn all_fields(&self) -> impl Iterator<Item = &'static Field> + use<> {
        let known: &'static [Field] = if self.assumed { &KNOWN_FIELDS } else { &[] };
        self.fields.iter().chain(known)
    }

    /// A key by name.
    pub fn field(&self, key: &str) -> Option<&'static Field> {
        self.all_fields().find(|f| f.key == key)
    }
}
