//! The sun over the hours of a weather file.

use super::ephemeris::{Equatorial, days_from_2000, sun_at};
use super::position::extraterrestrial_w_per_m2;
use crate::Weather;

const DEG: f64 = core::f64::consts::PI / 180.0;

/// The sun's direction for each hour: the middle of the hour, or of its sunlit part when the
/// sun rises or sets in it. East, north and up are the components of a unit vector towards the
/// sun. In a dark hour `up` is 0, `sunlit` is 0 and east and north are 0.
#[derive(Debug, Clone, PartialEq)]
pub struct SunYear {
    /// Component to the east.
    pub east: Vec<f64>,
    /// Component to the north.
    pub north: Vec<f64>,
    /// Component straight up, the cosine of the zenith angle; above 0 when the sun is up.
    pub up: Vec<f64>,
    /// Share of the hour with the sun's middle above the horizon, 0 to 1.
    pub sunlit: Vec<f64>,
    /// Sun outside the air facing it, W/m2.
    pub extraterrestrial_w_per_m2: Vec<f64>,
}

impl SunYear {
    /// Works out the year of a weather file, each day in the year it was recorded in.
    ///
    /// The sun's place among the stars is taken at each midnight and run straight between them
    /// (off by at most 0.001 degrees); only the hour angle is turned every hour.
    pub fn of(weather: &Weather) -> Self {
        let n = weather.len();
        let mut year = Self {
            east: vec![0.0; n],
            north: vec![0.0; n],
            up: vec![0.0; n],
            sunlit: vec![0.0; n],
            extraterrestrial_w_per_m2: vec![0.0; n],
        };
        let place = &weather.station;
        let (sin_f, cos_f) = libm::sincos(place.latitude_deg * DEG);
        let shift_deg = place.longitude_deg - 15.0 * place.utc_offset_h;
        let mut last: Option<(i64, Equatorial)> = None;
        let dates = weather
            .year
            .iter()
            .zip(&weather.month)
            .zip(&weather.day)
            .step_by(24);
        for (index, ((&y, &m), &d)) in dates.enumerate() {
            let date = days_from_2000(i32::from(y), m, d);
            let midnight = date as f64 - place.utc_offset_h / 24.0;
            let begin = match last {
                Some((of, sun)) if of == date => sun,
                _ => sun_at(midnight),
            };
            let end = sun_at(midnight + 1.0);
            last = Some((date + 1, end));
            let day = Day {
                begin,
                end,
                sin_f,
                cos_f,
                shift_deg,
            };
            for hour in 0..24 {
                let h = index * 24 + hour;
                if h < n {
                    day.fill(hour, h, &mut year);
                }
            }
        }
        year
    }
}

struct Day {
    begin: Equatorial,
    end: Equatorial,
    sin_f: f64,
    cos_f: f64,
    shift_deg: f64,
}

impl Day {
    fn fill(&self, hour: usize, h: usize, year: &mut SunYear) {
        let part = (hour as f64 + 0.5) / 24.0;
        let mix = |a: f64, b: f64| a + (b - a) * part;
        let middle_d = 0.5 * (self.begin.declination_deg + self.end.declination_deg) * DEG;
        year.extraterrestrial_w_per_m2[h] =
            extraterrestrial_w_per_m2(mix(self.begin.distance_au, self.end.distance_au));
        // Declination of the hour by a small turn from the day's: x stays under 0.004, so the
        // cube that is dropped is 1e-8.
        let x = (mix(self.begin.declination_deg, self.end.declination_deg)) * DEG - middle_d;
        let (sin_m, cos_m) = libm::sincos(middle_d);
        let sin_d = sin_m * (1.0 - 0.5 * x * x) + cos_m * x;
        let cos_d = cos_m * (1.0 - 0.5 * x * x) - sin_m * x;
        let equation = mix(self.begin.equation_deg, self.end.equation_deg);
        let begin = wrap(15.0 * hour as f64 - 180.0 + self.shift_deg + equation);
        let (rise, swing) = (self.sin_f * sin_d, self.cos_f * cos_d);
        let Some((angle_deg, sunlit)) = sunlit_part(begin, rise, swing) else {
            return;
        };
        let (sin_h, cos_h) = libm::sincos(angle_deg * DEG);
        let up = rise + swing * cos_h;
        if up <= 0.0 {
            return;
        }
        year.up[h] = up;
        year.sunlit[h] = sunlit;
        year.east[h] = -cos_d * sin_h;
        year.north[h] = sin_d * self.cos_f - cos_d * self.sin_f * cos_h;
    }
}

/// To -180 up to 180 degrees.
fn wrap(deg: f64) -> f64 {
    let mut d = deg;
    while d >= 180.0 {
        d -= 360.0;
    }
    while d < -180.0 {
        d += 360.0;
    }
    d
}

/// Middle of the sunlit part of the hour that begins at hour angle `begin_deg`, and its share of
/// the hour. The sun is up where `rise + swing cos H` is above 0.
fn sunlit_part(begin_deg: f64, rise: f64, swing: f64) -> Option<(f64, f64)> {
    let end_deg = begin_deg + 15.0;
    if rise >= swing {
        return Some((begin_deg + 7.5, 1.0));
    }
    if rise <= -swing {
        return None;
    }
    let half_day_deg = libm::acos(-rise / swing) / DEG;
    let piece = |a: f64, b: f64| {
        let (a, b) = (a.max(-half_day_deg), b.min(half_day_deg));
        (b > a).then_some((0.5 * (a + b), (b - a) / 15.0))
    };
    if end_deg <= 180.0 {
        return piece(begin_deg, end_deg);
    }
    // The hour holds midnight: near the polar day the sun may be up at both its ends.
    match (piece(begin_deg, 180.0), piece(-180.0, end_deg - 360.0)) {
        (Some(a), Some(b)) => Some((if a.1 >= b.1 { a.0 } else { b.0 }, a.1 + b.1)),
        (a, b) => a.or(b),
    }
}
