//! What reading a weather file can say: a value with notes, or one clear refusal.

/// A value that was read, and what the reader thinks the person should know about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Read<T> {
    /// What was read.
    pub value: T,
    /// Remarks, in the order of the file. Never empty words: each changes how far to trust it.
    pub notes: Vec<Note>,
}

/// What a note is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NoteKind {
    /// A short gap was filled by a straight line between its neighbours.
    GapFilled,
    /// A column was not in the file and was computed or given a stated default.
    ColumnComputed,
    /// The header is thin, contradicts the rows, or has an unknown layout.
    Header,
    /// The header's design temperature and the percentile of the hours are far apart.
    DesignApart,
    /// The file is unusual but readable (stamps, mixed years, line ends).
    Layout,
    /// Readings that look filled in or impossible together.
    Doubtful,
}

/// One remark on a file that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// What it is about.
    pub kind: NoteKind,
    /// Line of the file it is about, counted from 1, where there is one.
    pub line: Option<usize>,
    /// The remark, one or two sentences.
    pub text: String,
}

/// Why a weather file or a set of columns was refused. The text says where, what was got, what
/// is allowed and how to mend it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WeatherError {
    /// Nothing in it.
    #[error("the weather file is empty; give an EPW or TMY3 csv file of 8760 or 8784 hours")]
    Empty,
    /// More bytes than any yearly file has.
    #[error(
        "the weather file holds more than {limit_bytes} bytes; a year of hours is about 1.6 million; give a file of one year"
    )]
    TooLarge {
        /// The most that is read.
        limit_bytes: usize,
    },
    /// Not text.
    #[error(
        "line {line}: the weather file is not text (byte {byte:#04x}); give an EPW or TMY3 csv file, plain or gzip compressed"
    )]
    NotText {
        /// Line counted from 1.
        line: usize,
        /// The byte that cannot be in a text file.
        byte: u8,
    },
    /// A gzip file that does not unpack.
    #[error("the weather file is gzip compressed but does not unpack ({reason}); fetch it again")]
    Gzip {
        /// What the unpacker said.
        reason: String,
    },
    /// Neither layout is recognised.
    #[error(
        "line 1: not a weather file known here: begins with `{got}`; an EPW file begins with LOCATION, a TMY3 file with the station number"
    )]
    UnknownLayout {
        /// Begin of the first line.
        got: String,
    },
    /// A header line is missing or cannot be used.
    #[error("line {line}: {what}: got `{got}`, allowed {allowed}; {mend}")]
    Header {
        /// Line counted from 1.
        line: usize,
        /// Which header or header field.
        what: String,
        /// What stands there.
        got: String,
        /// What may stand there.
        allowed: String,
        /// How to mend it.
        mend: String,
    },
    /// A row has too few fields.
    #[error(
        "line {line}: {got} fields in the row, at least {needed} needed; the row is cut short or not comma separated: fetch the file again"
    )]
    ShortRow {
        /// Line counted from 1.
        line: usize,
        /// Fields found.
        got: usize,
        /// Fields needed.
        needed: usize,
    },
    /// A field is not a number, or out of its range.
    #[error("line {line}, {column}: got `{got}`, allowed {allowed}; {mend}")]
    Field {
        /// Line counted from 1.
        line: usize,
        /// Column by name.
        column: &'static str,
        /// What stands there.
        got: String,
        /// What may stand there.
        allowed: String,
        /// How to mend it.
        mend: String,
    },
    /// Hours are not one after the other.
    #[error(
        "line {line}: the row is for month {month} day {day} hour {hour}, expected month {want_month} day {want_day} hour {want_hour}; rows must follow one another without gap, repetition or change of order"
    )]
    OutOfOrder {
        /// Line counted from 1.
        line: usize,
        /// Month of the row.
        month: u8,
        /// Day of the row.
        day: u8,
        /// Hour of the row, 1 to 24.
        hour: u8,
        /// Month expected.
        want_month: u8,
        /// Day expected.
        want_day: u8,
        /// Hour expected.
        want_hour: u8,
    },
    /// Wrong number of hours.
    #[error(
        "{got} hourly rows, a year has 8760 or 8784; the file is cut short, holds part of a year or more than one: give a file of one whole year"
    )]
    RowCount {
        /// Rows found.
        got: usize,
    },
    /// A gap that is too long to fill.
    #[error(
        "line {line}, {column}: missing for {hours} hours in a row, at most {allowed_hours} are filled by a straight line; use another file or fill the gap from a station near by"
    )]
    LongGap {
        /// First line of the gap.
        line: usize,
        /// Column by name.
        column: &'static str,
        /// Length of the gap.
        hours: usize,
        /// Longest gap that is filled.
        allowed_hours: usize,
    },
    /// Columns handed over by a caller do not fit together.
    #[error("weather column {column}: {got} values, {want} needed")]
    ColumnLength {
        /// Column by name.
        column: &'static str,
        /// Values given.
        got: usize,
        /// Values needed.
        want: usize,
    },
    /// A value handed over by a caller is out of range.
    #[error("weather column {column}, hour {hour}: got {got}, usable {usable}")]
    Value {
        /// Column by name.
        column: &'static str,
        /// Index of the hour.
        hour: usize,
        /// The value.
        got: f64,
        /// What is usable.
        usable: &'static str,
    },
}
