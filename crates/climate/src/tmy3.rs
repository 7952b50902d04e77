//! Reads TMY3 csv files: one line for the station, one with the names of the columns, 8760 rows.

use crate::cells::{Cell, read_cell, shown};
use crate::columns::{COLS, Calendar, Col, FileYear, Spec};
use crate::cursor::Cursor;
use crate::epw::stamp;
use crate::epw_header::{far_from_zone, number};
use crate::{Note, NoteKind, Read, Station, Weather, WeatherError, Weekday};

/// A column with the words its name begins with, lower case.
///
/// Source: `tmy3-manual`, table of data fields; -9900 is missing.
const NAMED: [(&str, Spec); COLS] = [
    named(
        Col::DryBulb,
        "dry-bulb (c)",
        "dry bulb",
        (-90.0, 70.0),
        1.0,
        "-90 to 70 C (-9900 is missing)",
    ),
    named(
        Col::DewPoint,
        "dew-point (c)",
        "dew point",
        (-90.0, 70.0),
        1.0,
        "-90 to 70 C (-9900 is missing)",
    ),
    named(
        Col::Humidity,
        "rhum (%)",
        "relative humidity",
        (0.0, 110.0),
        0.01,
        "0 to 110 % (-9900 is missing)",
    ),
    named(
        Col::Pressure,
        "pressure (mbar)",
        "pressure",
        (310.0, 1200.0),
        100.0,
        "310 to 1200 mbar (-9900 is missing)",
    ),
    // TMY3 has no longwave; the name cannot match.
    named(
        Col::Infrared,
        "\u{0}",
        "sky infrared",
        (0.0, 800.0),
        1.0,
        "0 to 800 W/m2",
    ),
    named(
        Col::Ghi,
        "ghi (w/m^2)",
        "global horizontal radiation",
        (0.0, 1500.0),
        1.0,
        "0 to 1500 W/m2 (-9900 is missing)",
    ),
    named(
        Col::Dni,
        "dni (w/m^2)",
        "direct normal radiation",
        (0.0, 1450.0),
        1.0,
        "0 to 1450 W/m2 (-9900 is missing)",
    ),
    named(
        Col::Dhi,
        "dhi (w/m^2)",
        "diffuse horizontal radiation",
        (0.0, 1500.0),
        1.0,
        "0 to 1500 W/m2 (-9900 is missing)",
    ),
    named(
        Col::WindDir,
        "wdir (degrees)",
        "wind direction",
        (0.0, 360.0),
        1.0,
        "0 to 360 degrees (-9900 is missing)",
    ),
    named(
        Col::WindSpeed,
        "wspd (m/s)",
        "wind speed",
        (0.0, 60.0),
        1.0,
        "0 to 60 m/s (-9900 is missing)",
    ),
    named(
        Col::SkyCover,
        "totcld (tenths)",
        "total sky cover",
        (0.0, 10.0),
        0.1,
        "0 to 10 tenths (-9900 is missing)",
    ),
    named(
        Col::OpaqueCover,
        "opqcld (tenths)",
        "opaque sky cover",
        (0.0, 10.0),
        0.1,
        "0 to 10 tenths (-9900 is missing)",
    ),
    // Nor has it snow.
    named(
        Col::Snow,
        "\u{0}",
        "snow depth",
        (0.0, 990.0),
        0.01,
        "0 to 990 cm",
    ),
    named(
        Col::Albedo,
        "alb (unitless)",
        "albedo",
        (0.001, 1.0),
        1.0,
        "0.001 to 1 (-9900 is missing)",
    ),
];

const fn named(
    col: Col,
    head: &'static str,
    name: &'static str,
    (low, high): (f64, f64),
    factor: f64,
    allowed: &'static str,
) -> (&'static str, Spec) {
    let spare = matches!(col, Col::Albedo | Col::Snow | Col::Infrared);
    (
        head,
        Spec {
            col,
            name,
            low,
            high,
            code: -9900.0,
            factor,
            allowed,
            spare,
        },
    )
}

/// Reads a plain TMY3 csv file.
///
/// # Errors
/// The first thing in the file that makes it unusable, with line and column; see
/// [`WeatherError`].
pub fn read_tmy3(bytes: &[u8]) -> Result<Read<Weather>, WeatherError> {
    let mut cursor = Cursor::new(crate::read::plain_text(bytes)?);
    let mut notes = Vec::new();
    cursor.find_row();
    let station = station(&cursor.line_text(), cursor.line)?;
    far_from_zone(&station, &mut notes);
    cursor.next_line();
    cursor.find_row();
    let places = places(&cursor.line_text(), cursor.line)?;
    let needed = places.iter().flatten().max().map_or(0, |m| m + 1);
    cursor.next_line();
    let mut file = FileYear {
        station,
        header_design: None,
        start_weekday: Weekday::Sunday,
        calendar: Calendar::new(),
        columns: std::array::from_fn(|_| Vec::with_capacity(8784)),
        lines: Vec::with_capacity(8784),
    };
    let mut row = cursor.row();
    let mut rows = 0;
    while cursor.find_row() {
        rows += 1;
        let line = cursor.line;
        cursor.take_row(&mut row);
        if file.calendar.is_done() {
            continue;
        }
        if row.count() < needed {
            return Err(WeatherError::ShortRow {
                line,
                got: row.count(),
                needed,
            });
        }
        let [month, day, year] = date(row.raw(0).unwrap_or_default(), line)?;
        let hour = clock(row.raw(1).unwrap_or_default(), line)?;
        for ((place, (_, spec)), column) in places.iter().zip(&NAMED).zip(&mut file.columns) {
            column.push(match place {
                Some(place) => spec.read(&row, *place, line)?,
                None => f64::NAN,
            });
        }
        file.lines.push(u32::try_from(line).unwrap_or(u32::MAX));
        file.calendar
            .take(year, month as u8, day as u8, hour as u8, line)?;
    }
    if !file.calendar.is_whole() || rows != file.lines.len() {
        return Err(WeatherError::RowCount { got: rows });
    }
    notes.push(Note {
        kind: NoteKind::Header,
        line: Some(1),
        text: "a TMY3 csv file has no design temperatures and no weekdays; the year begins on a Sunday"
            .to_owned(),
    });
    let specs = NAMED.map(|(_, spec)| spec);
    crate::finish::finish(file, &specs, notes)
}

/// `723170,"NAME",NC,-5.0,36.100,-79.950,273`; a comma inside quotes belongs to the name.
fn station(text: &str, line: usize) -> Result<Station, WeatherError> {
    let mut inside = false;
    let cells: Vec<&str> = text
        .split(|c: char| {
            inside ^= c == '"';
            c == ',' && !inside
        })
        .map(|c| c.trim().trim_matches('"'))
        .collect();
    let words = |at: usize| cells.get(at).copied().unwrap_or_default().to_owned();
    Ok(Station {
        wmo: words(0),
        name: words(1),
        place: words(2),
        source: "TMY3".to_owned(),
        utc_offset_h: number(&cells, 3, line, "time zone", (-12.0, 14.0), "hours")?,
        latitude_deg: number(&cells, 4, line, "latitude", (-90.0, 90.0), "degrees")?,
        longitude_deg: number(&cells, 5, line, "longitude", (-180.0, 180.0), "degrees")?,
        elevation_m: number(&cells, 6, line, "elevation", (-500.0, 6000.0), "m")?,
    })
}

/// Where each column stands; longwave, snow and albedo may be absent.
fn places(text: &str, line: usize) -> Result<[Option<usize>; COLS], WeatherError> {
    let heads: Vec<String> = text
        .split(',')
        .map(|h| h.trim().to_ascii_lowercase())
        .collect();
    let mut at = [None; COLS];
    for (place, (head, spec)) in at.iter_mut().zip(&NAMED) {
        *place = heads.iter().position(|h| h == head);
        if place.is_none() && !spec.spare {
            return Err(WeatherError::Header {
                line,
                what: format!("column `{head}`"),
                got: "nothing".to_owned(),
                allowed: "the names of a TMY3 file, `Date (MM/DD/YYYY)` to `PresWth`".to_owned(),
                mend: "do not rename or drop columns; fetch the file again".to_owned(),
            });
        }
    }
    Ok(at)
}

/// `MM/DD/YYYY`.
fn date(cell: &[u8], line: usize) -> Result<[i16; 3], WeatherError> {
    if cell.split(|b| *b == b'/').count() != 3 {
        return Err(bad_stamp(cell, line, "date"));
    }
    let mut parts = cell.split(|b| *b == b'/').map(read_cell);
    let mut next = || parts.next().unwrap_or(Cell::Absent);
    let (month, day, year) = (next(), next(), next());
    Ok([
        stamp(month, line, "month", 1, 12)?,
        stamp(day, line, "day", 1, 31)?,
        stamp(year, line, "year", 1900, 2100)?,
    ])
}

/// `HH:MM`, 01:00 to 24:00.
fn clock(cell: &[u8], line: usize) -> Result<i16, WeatherError> {
    let mut parts = cell.split(|b| *b == b':').map(read_cell);
    match (parts.next(), parts.next(), parts.next()) {
        (Some(hour), Some(Cell::Number(_)), None) => stamp(hour, line, "hour", 1, 24),
        _ => Err(bad_stamp(cell, line, "time")),
    }
}

fn bad_stamp(cell: &[u8], line: usize, column: &'static str) -> WeatherError {
    WeatherError::Field {
        line,
        column,
        got: shown(cell),
        allowed: "a date MM/DD/YYYY and a time HH:MM, 01:00 to 24:00".to_owned(),
        mend: "keep the stamps as the laboratory wrote them; a spreadsheet may have changed them"
            .to_owned(),
    }
}
