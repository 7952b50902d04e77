//! The sun over the hours of a weather file.

use super::ephemeris::{Equatorial, days_from_2000, sun_at};
use super::position::extraterrestrial_w_per_m2;
use crate::Weather;

const DEG: f64 = core::f64::consts::PI / 180.0;

/// The sun's direction for each hour: the middle of the hour, or of its sunlit part when the
/// sun rises or sets in it. East, north and up are the components of a unit vector towards the
/// sun. In a dark hour all of them are 0.
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
        let dial: [(f64, f64); 24] = std::array::from_fn(|k| libm::sincos(15.0 * k as f64 * DEG));
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
            let day = Day::new(&begin, &end, (sin_f, cos_f), shift_deg);
            for hour in 0..24 {
                let h = index * 24 + hour;
                if h < n {
                    day.fill(hour, &dial, h, &mut year);
                }
            }
        }
        year
    }
}

/// What holds for a whole day. The declination is that of noon with its sine and cosine, and
/// moves by less than 0.004 rad from it; the hour angle of the first hour's middle likewise, and
/// drifts by the equation of time. Small turns `x` are taken to their square: what is dropped is
/// under 1e-8.
struct Day {
    sin_f: f64,
    cos_f: f64,
    noon: (f64, f64),
    declination_step: f64,
    begin_deg: f64,
    drift_deg: f64,
    first: (f64, f64),
    extraterrestrial: f64,
    /// Hour angles of sunset by the declinations of both midnights, the earlier first, degrees:
    /// 180 in the polar day, 0 in the night.
    sunsets_deg: (f64, f64),
}

/// Sine and cosine after a small turn.
fn turned((sine, cosine): (f64, f64), x: f64) -> (f64, f64) {
    let square = 1.0 - 0.5 * x * x;
    (sine * square + cosine * x, cosine * square - sine * x)
}

/// The exact sunset of the hour is worked out unless the hour is further than this from the
/// sunsets of the day, degrees.
const DOUBT_DEG: f64 = 0.1;

impl Day {
    fn new(begin: &Equatorial, end: &Equatorial, (sin_f, cos_f): (f64, f64), shift: f64) -> Self {
        let noon = libm::sincos(0.5 * (begin.declination_deg + end.declination_deg) * DEG);
        let begin_deg = wrap(shift - 180.0 + begin.equation_deg);
        let sunset = |declination_deg: f64| {
            let (sine, cosine) = libm::sincos(declination_deg * DEG);
            let level = -sin_f * sine / (cos_f * cosine).max(1e-12);
            libm::acos(level.clamp(-1.0, 1.0)) / DEG
        };
        let (a, b) = (sunset(begin.declination_deg), sunset(end.declination_deg));
        Self {
            sin_f,
            cos_f,
            noon,
            declination_step: (end.declination_deg - begin.declination_deg) * DEG / 24.0,
            begin_deg,
            drift_deg: (end.equation_deg - begin.equation_deg) / 24.0,
            first: libm::sincos((begin_deg + 7.5) * DEG),
            extraterrestrial: extraterrestrial_w_per_m2(
                0.5 * (begin.distance_au + end.distance_au),
            ),
            sunsets_deg: (a.min(b), a.max(b)),
        }
    }

    fn fill(&self, hour: usize, dial: &[(f64, f64); 24], h: usize, year: &mut SunYear) {
        year.extraterrestrial_w_per_m2[h] = self.extraterrestrial;
        let middle = hour as f64 + 0.5;
        let drift = self.drift_deg * middle;
        let begin = wrap(self.begin_deg + 15.0 * hour as f64 + drift);
        let from_noon = (begin + 7.5).abs().min(360.0 - (begin + 7.5).abs());
        if from_noon > self.sunsets_deg.1 + 7.5 + DOUBT_DEG {
            return;
        }
        let (sin_d, cos_d) = turned(self.noon, self.declination_step * (middle - 12.0));
        let (rise, swing) = (self.sin_f * sin_d, self.cos_f * cos_d);
        let (sunlit, (sin_h, cos_h)) = if from_noon < self.sunsets_deg.0 - 7.5 - DOUBT_DEG {
            let ((s1, c1), (s2, c2)) = (self.first, dial[hour]);
            (
                1.0,
                turned((s1 * c2 + c1 * s2, c1 * c2 - s1 * s2), drift * DEG),
            )
        } else {
            match sunlit_part(begin, rise, swing) {
                Some((angle_deg, sunlit)) => (sunlit, libm::sincos(angle_deg * DEG)),
                None => return,
            }
        };
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
    deg - 360.0 * libm::floor((deg + 180.0) / 360.0)
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
