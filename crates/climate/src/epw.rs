//! Reads EPW files.

use crate::cells::{Cell, Row, shown};
use crate::columns::{COLS, Calendar, Col, FileYear, Spec};
use crate::cursor::Cursor;
use crate::epw_header::{Header, read_header};
use crate::{Note, NoteKind, Read, Weather, WeatherError};

/// Cells of a row up to the opaque sky cover; what follows may be cut off.
const NEEDED: usize = 24;

/// The columns that are read, in the order of the row.
///
/// Source: `epw-dictionary`, data fields with their missing codes.
const SPECS: [Spec; COLS] = [
    spec(
        Col::DryBulb,
        "dry bulb",
        -90.0,
        70.0,
        99.9,
        1.0,
        "-90 to 70 C (99.9 is missing)",
    ),
    spec(
        Col::DewPoint,
        "dew point",
        -90.0,
        70.0,
        99.9,
        1.0,
        "-90 to 70 C (99.9 is missing)",
    ),
    spec(
        Col::Humidity,
        "relative humidity",
        0.0,
        110.0,
        999.0,
        0.01,
        "0 to 110 % (999 is missing)",
    ),
    spec(
        Col::Pressure,
        "pressure",
        31_000.0,
        120_000.0,
        999_999.0,
        1.0,
        "31000 to 120000 Pa (999999 is missing)",
    ),
    spec(
        Col::Infrared,
        "sky infrared",
        0.0,
        800.0,
        9999.0,
        1.0,
        "0 to 800 W/m2 (9999 is missing)",
    ),
    spec(
        Col::Ghi,
        "global horizontal radiation",
        0.0,
        1500.0,
        9999.0,
        1.0,
        "0 to 1500 W/m2 (9999 is missing)",
    ),
    spec(
        Col::Dni,
        "direct normal radiation",
        0.0,
        1450.0,
        9999.0,
        1.0,
        "0 to 1450 W/m2 (9999 is missing)",
    ),
    spec(
        Col::Dhi,
        "diffuse horizontal radiation",
        0.0,
        1500.0,
        9999.0,
        1.0,
        "0 to 1500 W/m2 (9999 is missing)",
    ),
    spec(
        Col::WindDir,
        "wind direction",
        0.0,
        360.0,
        999.0,
        1.0,
        "0 to 360 degrees (999 is missing)",
    ),
    spec(
        Col::WindSpeed,
        "wind speed",
        0.0,
        60.0,
        999.0,
        1.0,
        "0 to 60 m/s (999 is missing)",
    ),
    spec(
        Col::SkyCover,
        "total sky cover",
        0.0,
        10.0,
        99.0,
        0.1,
        "0 to 10 tenths (99 is missing)",
    ),
    spec(
        Col::OpaqueCover,
        "opaque sky cover",
        0.0,
        10.0,
        99.0,
        0.1,
        "0 to 10 tenths (99 is missing)",
    ),
    spare(
        Col::Snow,
        "snow depth",
        0.0,
        990.0,
        999.0,
        0.01,
        "0 to 990 cm (999 is missing)",
    ),
    spare(
        Col::Albedo,
        "albedo",
        0.001,
        1.0,
        999.0,
        1.0,
        "0.001 to 1 (999 is missing)",
    ),
];

const fn spec(
    col: Col,
    name: &'static str,
    low: f64,
    high: f64,
    code: f64,
    factor: f64,
    allowed: &'static str,
) -> Spec {
    Spec {
        col,
        name,
        low,
        high,
        code,
        factor,
        allowed,
        spare: false,
    }
}

/// As [`spec`], for a column that can be done without.
const fn spare(
    col: Col,
    name: &'static str,
    low: f64,
    high: f64,
    code: f64,
    factor: f64,
    allowed: &'static str,
) -> Spec {
    let mut spec = spec(col, name, low, high, code, factor, allowed);
    spec.spare = true;
    spec
}

/// Where in the row each column of [`SPECS`] stands; the stamp and the flags stand before them.
const PLACES: [usize; COLS] = [6, 7, 8, 9, 12, 13, 14, 15, 20, 21, 22, 23, 30, 32];

/// Reads a plain EPW file.
///
/// # Errors
/// The first thing in the file that makes it unusable, with line and column; see
/// [`WeatherError`].
pub fn read_epw(bytes: &[u8]) -> Result<Read<Weather>, WeatherError> {
    let bytes = crate::read::plain_text(bytes)?;
    let mut cursor = Cursor::new(bytes);
    let mut notes = Vec::new();
    let Header {
        station,
        design,
        start_weekday,
    } = read_header(&mut cursor, &mut notes)?;
    let mut file = FileYear {
        station,
        header_design: design,
        start_weekday,
        calendar: Calendar::new(),
        columns: std::array::from_fn(|_| Vec::with_capacity(8784)),
        lines: Vec::with_capacity(8784),
    };
    let mut minutes = Minutes::default();
    let mut rows = 0;
    let mut row = cursor.row();
    while cursor.find_row() {
        rows += 1;
        let line = cursor.line;
        cursor.take_row(&mut row);
        if !file.calendar.is_done() {
            read_row(&row, line, &mut file, &mut minutes)?;
        }
    }
    if !file.calendar.is_whole() || rows != file.lines.len() {
        return Err(WeatherError::RowCount { got: rows });
    }
    minutes.remark(&mut notes);
    crate::finish::finish(file, &SPECS, notes)
}

/// What stands in the minute field over the year.
#[derive(Default)]
struct Minutes {
    zero: usize,
    sixty: usize,
    other: usize,
}

impl Minutes {
    fn remark(&self, notes: &mut Vec<Note>) {
        let text = match (self.zero, self.sixty, self.other) {
            (_, 0, 0) | (0, _, 0) => return,
            (zero, sixty, 0) => format!(
                "the minute field is 0 in {zero} rows and 60 in {sixty}; both are read as the hour that ends there"
            ),
            (_, _, other) => format!(
                "the minute field is neither 0 nor 60 in {other} rows; each row is read as one whole hour"
            ),
        };
        notes.push(Note {
            kind: NoteKind::Layout,
            line: None,
            text,
        });
    }
}

fn read_row(
    row: &Row<'_>,
    line: usize,
    file: &mut FileYear,
    minutes: &mut Minutes,
) -> Result<(), WeatherError> {
    let whole = |k, column, low: i16, high: i16| match row.number(k).map(|v| (v, v as i16)) {
        Some((v, whole)) if v == f64::from(whole) && (low..=high).contains(&whole) => Ok(whole),
        _ => stamp(row.cell(k), line, column, low, high),
    };
    let year = whole(0, "year", 1900, 2100)?;
    let month = whole(1, "month", 1, 12)?;
    let day = whole(2, "day", 1, 31)?;
    let hour = whole(3, "hour", 1, 24)?;
    match row.cell(4) {
        Cell::Number(0.0) => minutes.zero += 1,
        Cell::Number(60.0) => minutes.sixty += 1,
        _ => minutes.other += 1,
    }
    if row.count() < NEEDED {
        return Err(WeatherError::ShortRow {
            line,
            got: row.count(),
            needed: NEEDED,
        });
    }
    for ((spec, place), column) in SPECS.iter().zip(PLACES).zip(&mut file.columns) {
        column.push(spec.read(row, place, line)?);
    }
    file.lines.push(u32::try_from(line).unwrap_or(u32::MAX));
    file.calendar
        .take(year, month as u8, day as u8, hour as u8, line)
}

/// A whole number of the row's stamp.
pub(crate) fn stamp(
    cell: Cell<'_>,
    line: usize,
    column: &'static str,
    low: i16,
    high: i16,
) -> Result<i16, WeatherError> {
    let got = match cell {
        Cell::Number(v)
            if v >= f64::from(low) && v <= f64::from(high) && v == f64::from(v as i16) =>
        {
            return Ok(v as i16);
        }
        Cell::Number(v) => format!("{v}"),
        Cell::Text(t) => shown(t),
        Cell::Empty | Cell::Absent => String::new(),
    };
    Err(WeatherError::Field {
        line,
        column,
        got,
        allowed: format!("a whole number, {low} to {high}"),
        mend: "a row begins with year, month, day, hour, minute; fetch the file again if it was cut or joined"
            .to_owned(),
    })
}
