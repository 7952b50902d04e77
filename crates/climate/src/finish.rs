//! From a year as read to a year that can be used: gaps filled, columns computed, remarks made.

use crate::columns::{COLS, Calendar, Col, FileYear, Spec};
use crate::design::design_temperatures;
use crate::gaps::{Names, computed, hold, hold_if_any, none_given, spare};
use crate::{Note, NoteKind, Read, Weather, WeatherError};

/// Header and hours apart by more than this are remarked: 3 F.
const APART_K: f64 = 3.0 / 1.8;

/// So many hours with the same temperature to the last digit are hardly measured.
const SAME_HOURS: usize = 24;

/// An hour that differs from both its neighbours by more, to the same side, is doubted, K. It is twice
/// the most that a shipped station does (6.1 K at Denver, a whole year each of six): a front jumps as
/// far, 14.5 K at Denver, but does not jump back within the hour. What is written wrong (a minus
/// sign lost or won, a digit twice) is mostly further off.
///
/// Source: common practice, no source.
const LONE_K: f64 = 12.0;

pub(crate) fn finish(
    file: FileYear,
    specs: &[Spec; COLS],
    mut notes: Vec<Note>,
) -> Result<Read<Weather>, WeatherError> {
    let FileYear {
        station,
        header_design,
        start_weekday,
        calendar,
        columns,
        lines,
    } = file;
    let names = Names {
        specs,
        lines: &lines,
    };
    let [
        mut dry_bulb,
        mut dew_point,
        mut humidity,
        mut pressure,
        mut infrared,
        mut ghi,
        mut dni,
        mut dhi,
        mut wind_dir,
        mut wind_speed,
        mut sky_cover,
        mut opaque_cover,
        mut snow,
        mut albedo,
    ] = columns;
    let n = dry_bulb.len();
    names.fill(Col::DryBulb, &mut dry_bulb, &mut notes)?;
    moisture(&names, &dry_bulb, &mut dew_point, &mut humidity, &mut notes)?;
    if none_given(&pressure) {
        pressure = vec![crate::altitude::pressure_pa(station.elevation_m); n];
        notes.push(computed(
            "pressure is missing all year; taken from the station's height",
        ));
    }
    names.fill(Col::Pressure, &mut pressure, &mut notes)?;
    names.fill(Col::WindSpeed, &mut wind_speed, &mut notes)?;
    hold(
        &mut wind_dir,
        0.0,
        "wind direction",
        "the last one before, or north",
        &mut notes,
    );
    names.fill(Col::Dni, &mut dni, &mut notes)?;
    names.fill(Col::Dhi, &mut dhi, &mut notes)?;
    if none_given(&ghi) {
        let sun = crate::sun::SunYear::of(&Weather {
            dni_w_per_m2: Vec::new(),
            ..bare(&station, &calendar, n)
        });
        ghi = dhi
            .iter()
            .zip(&dni)
            .zip(&sun.up)
            .map(|((d, b), u)| d + b * u)
            .collect();
        notes.push(computed(
            "global radiation is missing all year; computed from beam and diffuse",
        ));
    }
    names.fill(Col::Ghi, &mut ghi, &mut notes)?;
    covers(&mut sky_cover, &mut opaque_cover, &mut notes);
    longwave(
        &names,
        &dry_bulb,
        &dew_point,
        &mut infrared,
        &mut opaque_cover,
        &mut notes,
    )?;
    // Cloud only served the longwave; what is still missing is taken as half covered.
    hold_if_any(&mut sky_cover, &mut notes);
    for (s, o) in sky_cover.iter().zip(&mut opaque_cover) {
        if o.is_nan() {
            *o = *s;
        }
    }
    let snow_depth_m = spare(&mut snow, "snow depth", &mut notes);
    let albedo = spare(&mut albedo, "albedo", &mut notes);
    same_for_long(&names, &dry_bulb, &mut notes);
    lone_hours(&names, &calendar, &dry_bulb, &mut notes);
    mixed_years(&calendar.year, &mut notes);
    let weather = Weather {
        station,
        header_design,
        start_weekday,
        year: calendar.year,
        month: calendar.month,
        day: calendar.day,
        hour: calendar.hour,
        dry_bulb_c: dry_bulb,
        dew_point_c: dew_point,
        rel_humidity: humidity,
        pressure_pa: pressure,
        ghi_w_per_m2: ghi,
        dni_w_per_m2: dni,
        dhi_w_per_m2: dhi,
        infrared_w_per_m2: infrared,
        wind_speed_m_per_s: wind_speed,
        wind_dir_deg: wind_dir,
        sky_cover,
        opaque_sky_cover: opaque_cover,
        snow_depth_m,
        albedo,
    };
    apart_from_header(&weather, &mut notes);
    Ok(Read {
        value: weather,
        notes,
    })
}

/// Only place and calendar, for the sun.
fn bare(station: &crate::Station, calendar: &crate::columns::Calendar, n: usize) -> Weather {
    Weather {
        station: station.clone(),
        header_design: None,
        start_weekday: crate::Weekday::Sunday,
        year: calendar.year.clone(),
        month: calendar.month.clone(),
        day: calendar.day.clone(),
        hour: calendar.hour.clone(),
        dry_bulb_c: vec![0.0; n],
        dew_point_c: Vec::new(),
        rel_humidity: Vec::new(),
        pressure_pa: Vec::new(),
        ghi_w_per_m2: Vec::new(),
        dni_w_per_m2: Vec::new(),
        dhi_w_per_m2: Vec::new(),
        infrared_w_per_m2: Vec::new(),
        wind_speed_m_per_s: Vec::new(),
        wind_dir_deg: Vec::new(),
        sky_cover: Vec::new(),
        opaque_sky_cover: Vec::new(),
        snow_depth_m: None,
        albedo: None,
    }
}

/// Dew point and relative humidity each stand in for the other.
fn moisture(
    names: &Names<'_>,
    dry_bulb: &[f64],
    dew_point: &mut [f64],
    humidity: &mut [f64],
    notes: &mut Vec<Note>,
) -> Result<(), WeatherError> {
    let (mut from_humidity, mut from_dew_point) = (0, 0);
    for h in 0..dry_bulb.len() {
        if dew_point[h].is_nan() && !humidity[h].is_nan() {
            dew_point[h] = crate::humidity::dew_point_c(dry_bulb[h], humidity[h]);
            from_humidity += 1;
        } else if humidity[h].is_nan() && !dew_point[h].is_nan() {
            humidity[h] = crate::humidity::relative(dry_bulb[h], dew_point[h]);
            from_dew_point += 1;
        }
    }
    for (hours, what, of) in [
        (from_humidity, "dew point", "relative humidity"),
        (from_dew_point, "relative humidity", "dew point"),
    ] {
        if hours > 0 {
            notes.push(computed(&format!(
                "{what} missing in {hours} h; computed from the {of}"
            )));
        }
    }
    names.fill(Col::DewPoint, dew_point, notes)?;
    names.fill(Col::Humidity, humidity, notes)
}

/// Total and opaque cover each stand in for the other.
fn covers(total: &mut [f64], opaque: &mut [f64], notes: &mut Vec<Note>) {
    let mut hours = 0;
    for (t, o) in total.iter_mut().zip(opaque) {
        if o.is_nan() && !t.is_nan() {
            *o = *t;
            hours += 1;
        } else if t.is_nan() && !o.is_nan() {
            *t = *o;
            hours += 1;
        }
    }
    if hours > 0 {
        notes.push(computed(&format!(
            "one of total and opaque sky cover missing in {hours} h; taken from the other"
        )));
    }
}

/// Longwave from the sky where the file has none; below 30 W/m2 no sky of this world sends.
fn longwave(
    names: &Names<'_>,
    dry_bulb: &[f64],
    dew_point: &[f64],
    infrared: &mut [f64],
    opaque: &mut [f64],
    notes: &mut Vec<Note>,
) -> Result<(), WeatherError> {
    let mut hours = 0;
    for h in 0..infrared.len() {
        if infrared[h] >= 30.0 {
            continue;
        }
        if opaque[h].is_nan() {
            names.fill(Col::OpaqueCover, opaque, notes)?;
        }
        infrared[h] =
            crate::sky::infrared_w_per_m2(dry_bulb[h], dew_point[h], opaque[h]).map_err(|e| {
                WeatherError::Field {
                    line: names.line(h),
                    column: names.of(Col::Infrared),
                    got: format!("none, and {} {} {}", e.what, e.got, e.unit),
                    allowed: format!(
                        "{} {} to {} {} to compute it",
                        e.what, e.low, e.high, e.unit
                    ),
                    mend: "correct the value or give the sky infrared".to_owned(),
                }
            })?;
        hours += 1;
    }
    if hours > 0 {
        notes.push(computed(&format!(
            "sky infrared missing in {hours} h; computed from dew point and sky cover"
        )));
    }
    Ok(())
}

fn same_for_long(names: &Names<'_>, dry_bulb: &[f64], notes: &mut Vec<Note>) {
    let mut begin = 0;
    for h in 1..=dry_bulb.len() {
        if h < dry_bulb.len() && dry_bulb[h] == dry_bulb[begin] {
            continue;
        }
        if h - begin >= SAME_HOURS {
            notes.push(Note {
                kind: NoteKind::Doubtful,
                line: Some(names.line(begin)),
                text: format!(
                    "dry bulb stays at {:.1} C for {} h, as if filled in; percentiles near it are in doubt",
                    dry_bulb[begin],
                    h - begin
                ),
            });
        }
        begin = h;
    }
}

/// Hours that stand alone, far from both their neighbours; the year is a ring. Only the first is
/// named: many are one fault.
fn lone_hours(names: &Names<'_>, calendar: &Calendar, dry_bulb: &[f64], notes: &mut Vec<Note>) {
    let lone = |before: f64, t: f64, after: f64| {
        let (up, down) = (t - before, t - after);
        up.min(down) > LONE_K || up.max(down) < -LONE_K
    };
    let n = dry_bulb.len();
    let around = |h: usize| (dry_bulb[(h + n - 1) % n], dry_bulb[(h + 1) % n]);
    let at_end = |h: &usize| {
        let (before, after) = around(*h);
        lone(before, dry_bulb[*h], after)
    };
    let between = dry_bulb.windows(3).enumerate();
    let between = between.filter_map(|(k, w)| lone(w[0], w[1], w[2]).then_some(k + 1));
    // The ends of the ring apart: no division an hour.
    let mut all = Some(0)
        .filter(at_end)
        .into_iter()
        .chain(between)
        .chain(Some(n - 1).filter(at_end));
    let Some(h) = all.next() else {
        return;
    };
    let (before, after) = around(h);
    let more = match all.count() {
        0 => String::new(),
        more => format!("; {more} more hours do so"),
    };
    notes.push(Note {
        kind: NoteKind::Doubtful,
        line: Some(names.line(h)),
        text: format!(
            "dry bulb is {:.1} C on month {} day {} hour {}, between {before:.1} C and {after:.1} C: air \
             does not jump so and back within an hour{more}; correct it, or write {} there to have it \
             filled by a straight line",
            dry_bulb[h],
            calendar.month[h],
            calendar.day[h],
            calendar.hour[h] + 1,
            names.code(Col::DryBulb),
        ),
    });
}

fn mixed_years(years: &[i16], notes: &mut Vec<Note>) {
    let (Some(least), Some(most)) = (years.iter().min(), years.iter().max()) else {
        return;
    };
    if least != most {
        notes.push(Note {
            kind: NoteKind::Layout,
            line: None,
            text: format!(
                "months are from different years, {least} to {most}: a typical year, milder at its ends than real ones"
            ),
        });
    }
}

/// Header and percentile of the hours, where they are far apart.
fn apart_from_header(weather: &Weather, notes: &mut Vec<Note>) {
    if weather.header_design.is_none() {
        return;
    }
    for d in design_temperatures(weather) {
        let (Some(header), Some(apart)) = (d.header, d.apart_k()) else {
            continue;
        };
        if apart.abs() > APART_K {
            notes.push(Note {
                kind: NoteKind::DesignApart,
                line: None,
                text: format!(
                    "{}: the header says {:.1} C, the hours of this typical year {:.1} C ({apart:+.1} K); prefer the header or the code's value",
                    d.kind.name(),
                    header.dry_bulb_c,
                    d.own_c
                ),
            });
        }
    }
}
