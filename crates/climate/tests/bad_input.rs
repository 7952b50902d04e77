//! Files that must be refused, each with one message that says where, what, what is allowed and
//! how to mend it; and files that look odd but can be read, with the remark.
//!
//! Long because: one case after another, all of one kind.

use climate::{NoteKind, Read, Weather, WeatherError, read_any, read_epw, read_tmy3};
use std::io::{Read as _, Write as _};

fn shipped(name: &str) -> String {
    let path = format!("{}/../../weather/{name}.gz", env!("CARGO_MANIFEST_DIR"));
    let packed = std::fs::read(path).expect("shipped");
    let mut text = String::new();
    flate2::read::GzDecoder::new(&packed[..])
        .read_to_string(&mut text)
        .expect("text");
    text
}

fn lines() -> Vec<String> {
    shipped("denver-725650.epw")
        .lines()
        .map(str::to_owned)
        .collect()
}

/// The Denver file with its lines edited.
fn edited(edit: impl FnOnce(&mut Vec<String>)) -> Result<Read<Weather>, WeatherError> {
    let mut all = lines();
    edit(&mut all);
    read_any(all.join("\r\n").as_bytes())
}

/// Puts text into a cell of a line; both counted from 0 except the line, counted from 1.
fn put(all: &mut [String], line: usize, cell: usize, text: &str) {
    let row = &mut all[line - 1];
    let mut cells: Vec<&str> = row.split(',').collect();
    cells[cell] = text;
    *row = cells.join(",");
}

fn put_down(all: &mut [String], from: usize, count: usize, cell: usize, text: &str) {
    for line in from..from + count {
        put(all, line, cell, text);
    }
}

fn refusal(result: Result<Read<Weather>, WeatherError>) -> String {
    match result {
        Ok(_) => panic!("was read"),
        Err(e) => e.to_string(),
    }
}

#[track_caller]
fn refused(edit: impl FnOnce(&mut Vec<String>), message: &str) {
    assert_eq!(refusal(edited(edit)), message);
}

#[test]
fn what_is_no_file() {
    let empty = "the weather file is empty; give an EPW or TMY3 csv file of 8760 or 8784 hours";
    assert_eq!(refusal(read_any(b"")), empty);
    assert_eq!(refusal(read_any(b"\xef\xbb\xbf \r\n\n")), empty);
    assert_eq!(
        refusal(read_any(b"\x7fELF\x02\x01\x01\x00")),
        "line 1: the weather file is not text (byte 0x7f); give an EPW or TMY3 csv file, plain or gzip compressed"
    );
    assert_eq!(
        refusal(read_any(b"<html>\n<p>Not found")),
        "line 1: not a weather file known here: begins with `<html>`; an EPW file begins with LOCATION, a TMY3 file with the station number"
    );
    assert_eq!(
        refusal(read_any(&vec![b' '; 17 << 20])),
        "the weather file holds more than 16777216 bytes; a year of hours is about 1.6 million; give a file of one year"
    );
    let packed = refusal(read_any(&[0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3, 1]));
    assert!(
        packed.starts_with("the weather file is gzip compressed but does not unpack ("),
        "{packed}"
    );
    assert!(packed.ends_with("); fetch it again"), "{packed}");
}

/// A small file that unpacks to more than is read must not fill the memory.
#[test]
fn a_gzip_bomb_is_too_large() {
    let mut packer = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    for _ in 0..40 {
        packer.write_all(&vec![b'0'; 1 << 20]).expect("packs");
    }
    let message = refusal(read_any(&packer.finish().expect("packs")));
    assert!(
        message.starts_with("the weather file holds more than 16777216 bytes"),
        "{message}"
    );
}

#[test]
fn headers() {
    refused(
        |l| put(l, 1, 6, "91"),
        "line 1: station latitude: got `91`, allowed -90 to 90 degrees; correct the station's line at the top of the file",
    );
    refused(
        |l| put(l, 1, 7, "west"),
        "line 1: station longitude: got `west`, allowed -180 to 180 degrees; correct the station's line at the top of the file",
    );
    refused(
        |l| put(l, 1, 8, ""),
        "line 1: station time zone: got ``, allowed -12 to 14 hours; correct the station's line at the top of the file",
    );
    refused(
        |l| l[0] = "LOCATION,Denver".to_owned(),
        "line 1: station latitude: got ``, allowed -90 to 90 degrees; correct the station's line at the top of the file",
    );
    refused(
        |l| put(l, 1, 9, "NaN"),
        "line 1: station elevation: got `NaN`, allowed -500 to 6000 m; correct the station's line at the top of the file",
    );
    refused(
        |l| {
            l.remove(7);
        },
        "line 8: header line DATA PERIODS: got `nothing`, allowed the eight header lines of an EPW file, LOCATION to DATA PERIODS; fetch the file again, its beginning is missing",
    );
    refused(
        |l| put(l, 8, 1, "2"),
        "line 8: number of data periods: got `2`, allowed 1; give a file of one whole year",
    );
    refused(
        |l| put(l, 8, 2, "4"),
        "line 8: records per hour: got `4`, allowed 1; give a file with one row an hour",
    );
    refused(
        |l| l.truncate(1),
        "line 1: header line DATA PERIODS: got `nothing`, allowed the eight header lines of an EPW file, LOCATION to DATA PERIODS; fetch the file again, its beginning is missing",
    );
}

#[test]
fn wrong_numbers_of_rows() {
    let count = |n: usize| {
        format!(
            "{n} hourly rows, a year has 8760 or 8784; the file is cut short, holds part of a year or more than one: give a file of one whole year"
        )
    };
    refused(|l| l.truncate(8), &count(0));
    refused(|l| l.truncate(8 + 744), &count(744));
    refused(|l| l.truncate(8 + 8759), &count(8759));
    refused(
        |l| {
            let year = l[8..].to_vec();
            l.extend(year);
        },
        &count(17520),
    );
    refused(
        |l| {
            l.remove(8 + 99);
        },
        "line 108: the row is for month 1 day 5 hour 5, expected month 1 day 5 hour 4; rows must follow one another without gap, repetition or change of order",
    );
    refused(
        |l| l.swap(20, 21),
        "line 21: the row is for month 1 day 1 hour 14, expected month 1 day 1 hour 13; rows must follow one another without gap, repetition or change of order",
    );
    refused(
        |l| l.insert(30, l[29].clone()),
        "line 31: the row is for month 1 day 1 hour 22, expected month 1 day 1 hour 23; rows must follow one another without gap, repetition or change of order",
    );
    refused(
        |l| {
            let last = l.len() - 1;
            l[last].truncate(70);
        },
        "line 8768: 7 fields in the row, at least 24 needed; the row is cut short or not comma separated: fetch the file again",
    );
    // Leap years must have all of the 29th of February.
    refused(
        |l| {
            let row = l[8 + 59 * 24 - 1].clone();
            l.insert(8 + 59 * 24, row);
            put(l, 8 + 59 * 24 + 1, 2, "29");
            put(l, 8 + 59 * 24 + 1, 3, "1");
        },
        "line 1426: the row is for month 3 day 1 hour 1, expected month 2 day 29 hour 2; rows must follow one another without gap, repetition or change of order",
    );
}

#[test]
fn cells_out_of_place() {
    let mend = "correct the value or write the missing code";
    for (cell, text, column, allowed) in [
        (6, "cold", "dry bulb", "-90 to 70 C (99.9 is missing)"),
        (6, "NaN", "dry bulb", "-90 to 70 C (99.9 is missing)"),
        (6, "inf", "dry bulb", "-90 to 70 C (99.9 is missing)"),
        (6, "-95", "dry bulb", "-90 to 70 C (99.9 is missing)"),
        (6, "-18;0", "dry bulb", "-90 to 70 C (99.9 is missing)"),
        (7, "1e3", "dew point", "-90 to 70 C (99.9 is missing)"),
        (8, "120", "relative humidity", "0 to 110 % (999 is missing)"),
        (
            9,
            "837",
            "pressure",
            "31000 to 120000 Pa (999999 is missing)",
        ),
        (
            13,
            "-5",
            "global horizontal radiation",
            "0 to 1500 W/m2 (9999 is missing)",
        ),
        (
            14,
            "1600",
            "direct normal radiation",
            "0 to 1450 W/m2 (9999 is missing)",
        ),
        (
            15,
            "x",
            "diffuse horizontal radiation",
            "0 to 1500 W/m2 (9999 is missing)",
        ),
        (
            20,
            "400",
            "wind direction",
            "0 to 360 degrees (999 is missing)",
        ),
        (21, "-1", "wind speed", "0 to 60 m/s (999 is missing)"),
        (
            22,
            "11",
            "total sky cover",
            "0 to 10 tenths (99 is missing)",
        ),
    ] {
        let got = text.parse::<f64>().map_or_else(
            |_| text.to_owned(),
            |v| {
                if v.is_finite() {
                    v.to_string()
                } else {
                    text.to_owned()
                }
            },
        );
        refused(
            |l| put(l, 500, cell, text),
            &format!("line 500, {column}: got `{got}`, allowed {allowed}; {mend}"),
        );
    }
    let mend = "a row begins with year, month, day, hour, minute; fetch the file again if it was cut or joined";
    for (cell, text, column, allowed) in [
        (0, "95", "year", "1900 to 2100"),
        (1, "13", "month", "1 to 12"),
        (1, "Jan", "month", "1 to 12"),
        (2, "1.5", "day", "1 to 31"),
        (3, "0", "hour", "1 to 24"),
    ] {
        refused(
            |l| put(l, 9, cell, text),
            &format!("line 9, {column}: got `{text}`, allowed a whole number, {allowed}; {mend}"),
        );
    }
    refused(
        |l| l[500] = "\u{fffd}\u{0}\u{1}".to_owned(),
        &format!(
            "line 501, year: got `\u{fffd}\\0\\u{{1}}`, allowed a whole number, 1900 to 2100; {mend}"
        ),
    );
}

#[test]
fn long_gaps() {
    let tail = "at most 6 are filled by a straight line; use another file or fill the gap from a station near by";
    refused(
        |l| put_down(l, 1000, 7, 6, "99.9"),
        &format!("line 1000, dry bulb: missing for 7 hours in a row, {tail}"),
    );
    refused(
        |l| put_down(l, 9, 8760, 14, "9999"),
        &format!("line 9, direct normal radiation: missing for 8760 hours in a row, {tail}"),
    );
    refused(
        |l| {
            put_down(l, 300, 10, 7, "99.9");
            put_down(l, 300, 10, 8, "999");
        },
        &format!("line 300, dew point: missing for 10 hours in a row, {tail}"),
    );
    // Without longwave the clouds are needed.
    refused(
        |l| {
            put_down(l, 2000, 9, 12, "9999");
            put_down(l, 2000, 9, 22, "99");
            put_down(l, 2000, 9, 23, "99");
        },
        &format!("line 2000, opaque sky cover: missing for 9 hours in a row, {tail}"),
    );
    // The year is a ring: four hours at its end and four at its begin make one gap of eight.
    refused(
        |l| {
            put_down(l, 8765, 4, 21, "999");
            put_down(l, 9, 4, 21, "999");
        },
        &format!("line 8765, wind speed: missing for 8 hours in a row, {tail}"),
    );
}

fn texts(read: &Read<Weather>, kind: NoteKind) -> Vec<(Option<usize>, &str)> {
    read.notes
        .iter()
        .filter(|n| n.kind == kind)
        .map(|n| (n.line, n.text.as_str()))
        .collect()
}

/// One hour that cannot be: 12 K from both its neighbours, to one side. A front that stays is none.
#[test]
fn a_lone_hour_is_doubted() {
    let hour = |t: &'static str| edited(move |l| put(l, 5000, 6, t)).expect("reads");
    let read = hour("-60.0");
    let [(Some(5000), text)] = texts(&read, NoteKind::Doubtful)[..] else {
        panic!("{:?}", read.notes);
    };
    let (before, after) = (read.value.dry_bulb_c[4990], read.value.dry_bulb_c[4992]);
    assert_eq!(
        text,
        format!(
            "dry bulb is -60.0 C on month 7 day 27 hour 24, between {before:.1} C and {after:.1} C: air \
             does not jump so and back within an hour; correct it, or write 99.9 there to have it filled \
             by a straight line"
        )
    );
    // Just under and just over 12 K from the nearer neighbour.
    let near = before.max(after);
    for (t, notes) in [(near + 11.9, 0), (near + 12.1, 1)] {
        let cell = format!("{t:.1}");
        let read = edited(|l| put(l, 5000, 6, &cell)).expect("reads");
        assert_eq!(texts(&read, NoteKind::Doubtful).len(), notes, "{t}");
    }
    let front = edited(|l| put_down(l, 5000, 2, 6, "-10.0")).expect("reads");
    assert_eq!(texts(&front, NoteKind::Doubtful), []);
    let many = edited(|l| {
        for line in [5000, 6000, 8768] {
            put(l, line, 6, "-60.0");
        }
    })
    .expect("reads");
    let doubts = texts(&many, NoteKind::Doubtful);
    assert!(
        matches!(doubts[..], [(Some(5000), t)] if t.contains("; 2 more hours do so; ")),
        "{doubts:?}"
    );
}

/// What a threshold of 12 K was set by: no whole year of a station that ships has such an hour.
#[test]
fn no_station_that_ships_has_a_lone_hour() {
    let folder = format!("{}/../../weather", env!("CARGO_MANIFEST_DIR"));
    let mut read = 0;
    for file in std::fs::read_dir(folder).expect("shipped") {
        let path = file.expect("a file").path();
        if path.extension().is_some_and(|e| e == "gz") {
            let notes = read_any(&std::fs::read(&path).expect("bytes"))
                .expect("reads")
                .notes;
            let lone = notes.iter().find(|n| n.text.contains("and back within"));
            assert!(lone.is_none(), "{}: {lone:?}", path.display());
            read += 1;
        }
    }
    assert!(read >= 6, "{read} stations");
}

#[test]
fn short_gaps_are_filled_and_said() {
    let read = edited(|l| {
        put(l, 999, 6, "-2.0");
        put_down(l, 1000, 3, 6, "99.9");
        put(l, 1003, 6, "2.0");
        put(l, 1500, 7, "99.9");
        put(l, 1600, 8, "");
        put(l, 1700, 20, "999");
        put(l, 1800, 12, "9999");
    })
    .expect("reads");
    let w = &read.value;
    assert_eq!(w.dry_bulb_c[1000 - 9..1003 - 9], [-1.0, 0.0, 1.0]);
    assert_eq!(
        texts(&read, NoteKind::GapFilled),
        [(
            Some(1000),
            "dry bulb missing for 3 h, filled by a straight line"
        )]
    );
    let computed: Vec<&str> = texts(&read, NoteKind::ColumnComputed)
        .into_iter()
        .map(|(_, t)| t)
        .collect();
    assert_eq!(
        computed[..4],
        [
            "dew point missing in 1 h; computed from the relative humidity",
            "relative humidity missing in 1 h; computed from the dew point",
            "wind direction missing in 1 h; taken as the last one before, or north",
            "sky infrared missing in 1 h; computed from dew point and sky cover",
        ]
    );
    // What stands in for a value must be near what the file had there; its own humidity and dew
    // point are 1 % apart in dry air.
    let whole = read_any(lines().join("\n").as_bytes())
        .expect("reads")
        .value;
    assert!((w.dew_point_c[1491] - whole.dew_point_c[1491]).abs() < 1.0);
    assert!((w.rel_humidity[1591] - whole.rel_humidity[1591]).abs() < 0.05);
    assert!((w.infrared_w_per_m2[1791] - whole.infrared_w_per_m2[1791]).abs() < 5.0);
}

#[test]
fn odd_but_readable() {
    let plain = read_any(lines().join("\n").as_bytes())
        .expect("reads")
        .value;
    // Byte order mark, lone carriage returns, trailing blank lines and an old end-of-file mark.
    for (begin, end_of_line, end) in [
        ("\u{feff}", "\r\n", "\r\n"),
        ("", "\r", ""),
        ("", "\n", "\n \n\n\u{1a}"),
        ("", "\n\n", ""),
    ] {
        let text = format!("{begin}{}{end}", lines().join(end_of_line));
        assert_eq!(read_any(text.as_bytes()).expect("reads").value, plain);
    }
    let read = edited(|l| put(l, 600, 4, "60")).expect("reads");
    assert_eq!(read.value, plain);
    assert!(
        texts(&read, NoteKind::Layout).iter().any(|(_, t)| *t
            == "the minute field is 0 in 8759 rows and 60 in 1; both are read as the hour that ends there")
    );
    let none = edited(|l| l[1] = "DESIGN CONDITIONS,0".to_owned()).expect("reads");
    assert_eq!(none.value.header_design, None);
    assert_eq!(
        texts(&none, NoteKind::Header),
        [(
            Some(2),
            "the header has no design temperatures; type the code's value or use the percentiles of the hours with care"
        )]
    );
    let strange = edited(|l| put(l, 2, 6, "-3.0e1")).expect("reads");
    assert!(
        strange.value.header_design.is_some(),
        "a 99.6 % value below the 99 % one stands"
    );
    let swapped = edited(|l| put(l, 2, 6, "5")).expect("reads");
    assert_eq!(swapped.value.header_design, None);
    let far = edited(|l| put(l, 1, 7, "104.65")).expect("reads");
    assert_eq!(
        texts(&far, NoteKind::Header),
        [(
            Some(1),
            "longitude 104.65 and time zone -7 are 10.0 h apart; check the sign of both, the sun hangs on them"
        )]
    );
    let no_snow = edited(|l| put(l, 700, 30, "999")).expect("reads").value;
    assert!(no_snow.snow_depth_m.is_none() && plain.snow_depth_m.is_some());
    let day = edited(|l| put(l, 8, 4, "Tuesday")).expect("reads").value;
    assert_eq!(
        (day.start_weekday, day.weekday(24)),
        (climate::Weekday::Tuesday, climate::Weekday::Wednesday)
    );
}

#[test]
fn a_leap_year_has_its_day() {
    let read = edited(|l| {
        let day: Vec<String> = l[8 + 58 * 24..8 + 59 * 24].to_vec();
        let at = 8 + 59 * 24;
        l.splice(at..at, day);
        put_down(l, at + 1, 24, 2, "29");
    })
    .expect("reads");
    assert_eq!(read.value.len(), 8784);
    assert_eq!((read.value.month[1416], read.value.day[1416]), (2, 29));
}

#[test]
fn tmy3_files() {
    let text = shipped("greensboro-723170.tmy3.csv");
    let all: Vec<&str> = text.lines().collect();
    let with = |at: usize, line: &str| {
        let mut l = all.clone();
        l[at] = line;
        refusal(read_tmy3(l.join("\n").as_bytes()))
    };
    assert_eq!(
        with(0, "723170,\"GREENSBORO, NC\",NC,-5.0,136.1,-79.95,273"),
        "line 1: station latitude: got `136.1`, allowed -90 to 90 degrees; correct the station's line at the top of the file"
    );
    assert_eq!(
        with(1, &all[1].replace("Dry-bulb (C)", "Temperature")),
        "line 2: column `dry-bulb (c)`: got `nothing`, allowed the names of a TMY3 file, `Date (MM/DD/YYYY)` to `PresWth`; do not rename or drop columns; fetch the file again"
    );
    assert_eq!(
        with(9, &all[9].replacen("01/01/1988", "1988-01-01", 1)),
        "line 10, date: got `1988-01-01`, allowed a date MM/DD/YYYY and a time HH:MM, 01:00 to 24:00; keep the stamps as the laboratory wrote them; a spreadsheet may have changed them"
    );
    assert_eq!(
        with(9, &all[9].replacen("08:00", "8 h", 1)),
        "line 10, time: got `8 h`, allowed a date MM/DD/YYYY and a time HH:MM, 01:00 to 24:00; keep the stamps as the laboratory wrote them; a spreadsheet may have changed them"
    );
    assert_eq!(
        with(9, "01/01/1988,08:00,0"),
        "line 10: 3 fields in the row, at least 62 needed; the row is cut short or not comma separated: fetch the file again"
    );
    assert_eq!(
        refusal(read_tmy3(all[..500].join("\n").as_bytes())),
        "498 hourly rows, a year has 8760 or 8784; the file is cut short, holds part of a year or more than one: give a file of one whole year"
    );
    let mut cells: Vec<&str> = all[4000].split(',').collect();
    let heads: Vec<&str> = all[1].split(',').collect();
    let dry = heads.iter().position(|h| *h == "Dry-bulb (C)");
    cells[dry.expect("a column")] = "-60.0";
    let row = cells.join(",");
    let mut lone = all.clone();
    lone[4000] = &row;
    let notes = read_tmy3(lone.join("\n").as_bytes()).expect("reads").notes;
    assert!(
        notes.iter().any(|n| n.line == Some(4001)
            && n.text
                .starts_with("dry bulb is -60.0 C on month 6 day 16 hour ")
            && n.text.contains("write -9900 there")),
        "{notes:?}"
    );
    let w = read_any(text.as_bytes()).expect("reads").value;
    assert_eq!(
        (w.station.name.as_str(), w.station.place.as_str()),
        ("GREENSBORO PIEDMONT TRIAD INT", "NC")
    );
    assert_eq!(
        (w.pressure_pa[0], w.dew_point_c[0], w.sky_cover[0]),
        (99_300.0, 6.1, 1.0)
    );
    assert!(w.albedo.is_none(), "the file's albedo begins with 0");
    assert!(
        w.infrared_w_per_m2
            .iter()
            .all(|i| (100.0..500.0).contains(i))
    );
}

#[test]
fn columns_by_hand() {
    let station = read_epw(lines().join("\n").as_bytes())
        .expect("reads")
        .value
        .station;
    let year = |n: usize| climate::Columns {
        dry_bulb_c: vec![1.0; n],
        dew_point_c: vec![0.0; n],
        pressure_pa: vec![90_000.0; n],
        ghi_w_per_m2: vec![0.0; n],
        dni_w_per_m2: vec![0.0; n],
        dhi_w_per_m2: vec![0.0; n],
        infrared_w_per_m2: vec![250.0; n],
        wind_speed_m_per_s: vec![1.0; n],
        wind_dir_deg: vec![0.0; n],
        sky_cover: vec![0.0; n],
    };
    let says = |c| {
        Weather::from_columns(station.clone(), c)
            .map(|w| w.len())
            .map_err(|e| e.to_string())
    };
    assert_eq!(says(year(8784)), Ok(8784));
    assert!(says(year(100)).is_err_and(|e| e.starts_with("100 hourly rows")));
    let mut short = year(8760);
    short.wind_dir_deg.pop();
    assert_eq!(
        says(short),
        Err("weather column wind direction: 8759 values, 8760 needed".to_owned())
    );
    let mut nan = year(8760);
    nan.ghi_w_per_m2[5] = f64::NAN;
    assert_eq!(
        says(nan),
        Err("weather column global horizontal, hour 5: got NaN, usable 0 to 2000 W/m2".to_owned())
    );
}
