//! Sun position and sun on surfaces.

use climate::sun::{Facet, Instant, SunYear, on_facets_with, position};
use climate::{Columns, Station, Weather};

use super::houses::denver;
use super::{Check, number, rows};

const POSITIONS: &str = include_str!("../../../../checks/values/climate_sun_position.csv");
const TILTED: &str = include_str!("../../../../checks/values/climate_tilted.csv");
const LIBRARY: &str = "reference library pvlib 0.16.1";
const STANDARD: &str = "ANSI/ASHRAE Standard 140-2020, range of programs";

pub(super) fn checks() -> Vec<Check> {
    let mut all = vec![places(), tilted()];
    all.extend(of_the_year());
    all
}

/// Angle between two directions given by zenith and azimuth, degrees.
fn apart_deg(a: (f64, f64), b: (f64, f64)) -> f64 {
    let rad = |d: f64| d * core::f64::consts::PI / 180.0;
    let half = |d: f64| {
        let s = libm::sin(rad(d) / 2.0);
        s * s
    };
    let both = libm::sin(rad(a.0)) * libm::sin(rad(b.0));
    let h = half(a.0 - b.0) + both * half(a.1 - b.1);
    2.0 * libm::asin(h.sqrt().min(1.0)) * 180.0 / core::f64::consts::PI
}

fn places() -> Check {
    let (mut worst, mut n) = (0.0_f64, 0);
    for r in rows(POSITIONS) {
        let when = Instant {
            year: number(&r, 3) as i32,
            month: number(&r, 4) as u8,
            day: number(&r, 5) as u8,
            hour_utc: number(&r, 6),
        };
        let p = position(number(&r, 0), number(&r, 1), when);
        let want = (number(&r, 7), number(&r, 9));
        worst = worst.max(apart_deg((p.zenith_deg, p.azimuth_deg), want));
        n += 1;
    }
    Check::new("sun-position", "the sun's place, 1950 to 2100", LIBRARY)
        .worst(0.01, worst, n, "degrees")
}

/// The grid of the reference, each row in an hour of its own of an invented year.
fn tilted() -> Check {
    let check = Check::new("sun-on-surfaces", "Perez sky on tilted surfaces", LIBRARY);
    let grid: Vec<Vec<&str>> = rows(TILTED).collect();
    let n = 8760;
    let mut columns = Columns {
        dry_bulb_c: vec![0.0; n],
        dew_point_c: vec![-5.0; n],
        pressure_pa: vec![101_325.0; n],
        ghi_w_per_m2: vec![0.0; n],
        dni_w_per_m2: vec![0.0; n],
        dhi_w_per_m2: vec![0.0; n],
        infrared_w_per_m2: vec![250.0; n],
        wind_speed_m_per_s: vec![0.0; n],
        wind_dir_deg: vec![0.0; n],
        sky_cover: vec![0.0; n],
    };
    let mut sun = SunYear {
        east: vec![0.0; n],
        north: vec![0.0; n],
        up: vec![0.0; n],
        sunlit: vec![1.0; n],
        extraterrestrial_w_per_m2: vec![1366.1; n],
    };
    for (h, r) in grid.iter().enumerate().take(n) {
        let rad = core::f64::consts::PI / 180.0;
        let (sin_z, cos_z) = libm::sincos(number(r, 0) * rad);
        let (sin_a, cos_a) = libm::sincos(number(r, 1) * rad);
        sun.up[h] = cos_z;
        sun.east[h] = sin_z * sin_a;
        sun.north[h] = sin_z * cos_a;
        columns.dni_w_per_m2[h] = number(r, 2);
        columns.dhi_w_per_m2[h] = number(r, 3);
        columns.ghi_w_per_m2[h] = number(r, 7);
    }
    let station = Station {
        name: "grid".to_owned(),
        place: String::new(),
        wmo: "0".to_owned(),
        latitude_deg: 45.0,
        longitude_deg: -90.0,
        utc_offset_h: -6.0,
        elevation_m: 0.0,
        source: "grid".to_owned(),
    };
    let Ok(weather) = Weather::from_columns(station, columns) else {
        return check.cannot_tell("", "the grid is no weather");
    };
    let (mut worst, mut of) = (0.0_f64, 0);
    for (h, r) in grid.iter().enumerate().take(n) {
        // Every eighth row is enough for a table; the tests take all.
        if h % 8 != 0 {
            continue;
        }
        let facet = Facet {
            tilt_deg: number(r, 5),
            azimuth_deg: number(r, 6),
        };
        let want = number(r, 8) + number(r, 9) + number(r, 10);
        let Ok(got) = on_facets_with(&sun, &weather, &[facet], 0.2) else {
            return check.cannot_tell("", "a facet is refused");
        };
        let got = got.first().map_or(f64::NAN, |f| f.total_w_per_m2(h));
        if want > 20.0 {
            worst = worst.max((got / want - 1.0).abs());
            of += 1;
        }
    }
    check.worst(0.01, worst, of, "of the total")
}

fn of_the_year() -> Vec<Check> {
    let Some(weather) = denver() else {
        return Vec::new();
    };
    let faces = [
        ("horizontal", 0.0, 0.0, 1663.0, 1670.0),
        ("south", 180.0, 90.0, 1291.0, 1387.0),
        ("east", 90.0, 90.0, 1017.0, 1068.0),
        ("west", 270.0, 90.0, 903.0, 997.0),
        ("north", 0.0, 90.0, 399.0, 477.0),
    ];
    let facets = faces.map(|f| Facet {
        azimuth_deg: f.1,
        tilt_deg: f.2,
    });
    let Ok(sun) = on_facets_with(&SunYear::of(&weather), &weather, &facets, 0.2) else {
        return Vec::new();
    };
    faces
        .iter()
        .zip(&sun)
        .map(|((name, _, _, lo, hi), sun)| {
            let kwh = (0..weather.len())
                .map(|h| sun.total_w_per_m2(h))
                .sum::<f64>()
                / 1000.0;
            Check::new(
                format!("std140-sun-{name}"),
                format!("sun of the year, {name}"),
                STANDARD,
            )
            .within(*lo, *hi, kwh, 0, "kWh/m2")
        })
        .collect()
}
