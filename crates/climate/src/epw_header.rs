//! The header lines of an EPW file.

use crate::cells::{Cell, read_cell, shown};
use crate::cursor::Cursor;
use crate::{
    DesignKind, HeaderDesign, HeaderValue, Note, NoteKind, Station, WeatherError, Weekday,
};

/// What the header gives.
pub(crate) struct Header {
    pub station: Station,
    pub design: Option<HeaderDesign>,
    pub start_weekday: Weekday,
}

/// More lines than this before the hours is not a header.
const MOST_LINES: usize = 40;

/// Reads to the end of the line DATA PERIODS; the place is then the first row of hours.
pub(crate) fn read_header(
    cursor: &mut Cursor<'_>,
    notes: &mut Vec<Note>,
) -> Result<Header, WeatherError> {
    let mut station = None;
    let mut design = None;
    while cursor.find_row() && cursor.line <= MOST_LINES {
        let text = cursor.line_text();
        let cells: Vec<&str> = text.split(',').map(str::trim).collect();
        let key = cells
            .first()
            .copied()
            .unwrap_or_default()
            .to_ascii_uppercase();
        match key.as_str() {
            "LOCATION" => station = Some(location(&cells, cursor.line)?),
            "DESIGN CONDITIONS" => design = design_conditions(&cells, cursor.line, notes),
            "DATA PERIODS" => {
                let start_weekday = data_periods(&cells, cursor.line, notes)?;
                cursor.next_line();
                let station = station.ok_or_else(|| absent("LOCATION", 1))?;
                far_from_zone(&station, notes);
                return Ok(Header {
                    station,
                    design,
                    start_weekday,
                });
            }
            // A row of hours already: the header was cut off.
            k if k.len() == 4 && k.bytes().all(|b| b.is_ascii_digit()) => break,
            _ => {}
        }
        cursor.next_line();
    }
    Err(absent(
        if station.is_none() {
            "LOCATION"
        } else {
            "DATA PERIODS"
        },
        cursor.line,
    ))
}

fn absent(what: &str, line: usize) -> WeatherError {
    WeatherError::Header {
        line,
        what: format!("header line {what}"),
        got: "nothing".to_owned(),
        allowed: "the eight header lines of an EPW file, LOCATION to DATA PERIODS".to_owned(),
        mend: "fetch the file again, its beginning is missing".to_owned(),
    }
}

/// A number of a header line within its range.
pub(crate) fn number(
    cells: &[&str],
    at: usize,
    line: usize,
    what: &str,
    (low, high): (f64, f64),
    unit: &str,
) -> Result<f64, WeatherError> {
    let cell = cells.get(at).copied().unwrap_or_default();
    match read_cell(cell.as_bytes()) {
        Cell::Number(v) if v >= low && v <= high => Ok(v),
        _ => Err(WeatherError::Header {
            line,
            what: format!("station {what}"),
            got: shown(cell.as_bytes()),
            allowed: format!("{low} to {high} {unit}"),
            mend: "correct the station's line at the top of the file".to_owned(),
        }),
    }
}

fn location(cells: &[&str], line: usize) -> Result<Station, WeatherError> {
    let text = |at: usize| cells.get(at).copied().unwrap_or_default().to_owned();
    let place = [text(2), text(3)]
        .into_iter()
        .filter(|t| !t.is_empty() && t != "-")
        .collect::<Vec<_>>();
    Ok(Station {
        name: text(1),
        place: place.join(", "),
        source: text(4),
        wmo: text(5),
        latitude_deg: number(cells, 6, line, "latitude", (-90.0, 90.0), "degrees")?,
        longitude_deg: number(cells, 7, line, "longitude", (-180.0, 180.0), "degrees")?,
        utc_offset_h: number(cells, 8, line, "time zone", (-12.0, 14.0), "hours")?,
        elevation_m: number(cells, 9, line, "elevation", (-500.0, 6000.0), "m")?,
    })
}

/// A clock far from the sun: a wrong zone or a longitude without its minus sign.
pub(crate) fn far_from_zone(station: &Station, notes: &mut Vec<Note>) {
    let apart = (station.longitude_deg / 15.0 - station.utc_offset_h).abs();
    // The clock is a ring.
    let apart = apart.min(24.0 - apart);
    if apart > 3.0 {
        notes.push(Note {
            kind: NoteKind::Header,
            line: Some(1),
            text: format!(
                "longitude {} and time zone {} are {apart:.1} h apart; check the sign of both, the sun hangs on them",
                station.longitude_deg, station.utc_offset_h
            ),
        });
    }
}

/// Design temperatures. Editions of 2009 and later put the same values first after the words
/// Heating (month, 99.6 %, 99 %) and Cooling (month, range, then dry bulb and coincident wet
/// bulb at 0.4, 1 and 2 %) and differ only further on, so one reading does for all of them.
fn design_conditions(cells: &[&str], line: usize, notes: &mut Vec<Note>) -> Option<HeaderDesign> {
    let mut remark = |text: &str| {
        notes.push(Note {
            kind: NoteKind::Header,
            line: Some(line),
            text: text.to_owned(),
        });
    };
    let count = cells.get(1).copied().unwrap_or_default();
    if count.is_empty() || count == "0" {
        remark(
            "the header has no design temperatures; type the code's value or use the percentiles of the hours with care",
        );
        return None;
    }
    let word = |w: &str| cells.iter().position(|c| c.eq_ignore_ascii_case(w));
    let value = |at: usize| match read_cell(cells.get(at).copied().unwrap_or_default().as_bytes()) {
        Cell::Number(v) if (-90.0..=70.0).contains(&v) => Some(v),
        _ => None,
    };
    let mut values = Vec::new();
    if let Some(at) = word("Heating") {
        for (kind, place) in [
            (DesignKind::Heating996, at + 2),
            (DesignKind::Heating99, at + 3),
        ] {
            if let Some(dry_bulb_c) = value(place) {
                values.push(HeaderValue {
                    kind,
                    dry_bulb_c,
                    coincident_wet_bulb_c: None,
                });
            }
        }
    }
    if let Some(at) = word("Cooling") {
        for (kind, place) in [
            (DesignKind::Cooling04, at + 3),
            (DesignKind::Cooling1, at + 5),
            (DesignKind::Cooling2, at + 7),
        ] {
            if let Some(dry_bulb_c) = value(place) {
                let coincident_wet_bulb_c = value(place + 1).filter(|w| *w <= dry_bulb_c);
                values.push(HeaderValue {
                    kind,
                    dry_bulb_c,
                    coincident_wet_bulb_c,
                });
            }
        }
    }
    let falls = |a: DesignKind, b: DesignKind| {
        let of = |k| {
            values
                .iter()
                .find(|v: &&HeaderValue| v.kind == k)
                .map(|v| v.dry_bulb_c)
        };
        matches!((of(a), of(b)), (Some(x), Some(y)) if x > y)
    };
    if values.is_empty()
        || falls(DesignKind::Heating996, DesignKind::Heating99)
        || falls(DesignKind::Heating99, DesignKind::Cooling2)
        || falls(DesignKind::Cooling2, DesignKind::Cooling1)
        || falls(DesignKind::Cooling1, DesignKind::Cooling04)
    {
        remark(
            "the design temperatures of the header are of a layout not known here and are left out; type the code's value",
        );
        return None;
    }
    Some(HeaderDesign {
        source: cells.get(2).copied().unwrap_or_default().to_owned(),
        values,
    })
}

fn data_periods(
    cells: &[&str],
    line: usize,
    notes: &mut Vec<Note>,
) -> Result<Weekday, WeatherError> {
    for (at, what, mend) in [
        (1, "number of data periods", "give a file of one whole year"),
        (2, "records per hour", "give a file with one row an hour"),
    ] {
        let cell = cells.get(at).copied().unwrap_or_default();
        if read_cell(cell.as_bytes()) != Cell::Number(1.0) {
            return Err(WeatherError::Header {
                line,
                what: what.to_owned(),
                got: shown(cell.as_bytes()),
                allowed: "1".to_owned(),
                mend: mend.to_owned(),
            });
        }
    }
    let name = cells.get(4).copied().unwrap_or_default();
    let day = Weekday::ALL
        .into_iter()
        .find(|d| format!("{d:?}").eq_ignore_ascii_case(name));
    Ok(day.unwrap_or_else(|| {
        notes.push(Note {
            kind: NoteKind::Header,
            line: Some(line),
            text: format!(
                "the first weekday reads `{}`, not a day's name; the year begins on a Sunday",
                shown(name.as_bytes())
            ),
        });
        Weekday::Sunday
    }))
}
