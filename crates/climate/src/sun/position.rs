//! The sun at one instant.

use super::ephemeris::{days_from_2000, sun_at};

const DEG: f64 = core::f64::consts::PI / 180.0;

/// A moment in universal time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instant {
    /// Calendar year.
    pub year: i32,
    /// 1 to 12.
    pub month: u8,
    /// 1 to 31.
    pub day: u8,
    /// Hours of universal time since the date's midnight; may be negative or over 24.
    pub hour_utc: f64,
}

/// Where the sun's middle stands in the sky of a place, without refraction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Position {
    /// Angle from straight up, degrees.
    pub zenith_deg: f64,
    /// From north clockwise, degrees, 0 to 360.
    pub azimuth_deg: f64,
    /// Sundial minus clock, minutes.
    pub equation_of_time_min: f64,
    /// Distance of the sun, astronomical units.
    pub distance_au: f64,
}

impl Position {
    /// Angle above the horizon, degrees, without refraction.
    pub fn elevation_deg(&self) -> f64 {
        90.0 - self.zenith_deg
    }
}

/// Sun position for a place and a moment.
///
/// **Equation** cos z = sin f sin d + cos f cos d cos H, less the parallax 0.00244 sin z
///
/// **Symbols**
/// - z: zenith angle; f: latitude; d: declination; H: hour angle, degrees
///
/// **Range** 1950 to 2100; within 0.01 degrees (angle between directions) of the reference
///
/// **Source** `meeus-formulae`, ch. 8 and 18; checked against `pvlib` (its NREL SPA)
///
/// **Example**
/// ```
/// use climate::sun::{Instant, position};
/// let noon = Instant { year: 2024, month: 6, day: 20, hour_utc: 12.0 };
/// let p = position(23.44, 0.0, noon);
/// assert!(p.zenith_deg < 0.6);
/// ```
pub fn position(latitude_deg: f64, longitude_deg: f64, when: Instant) -> Position {
    let midnight = days_from_2000(when.year, when.month, when.day) as f64;
    let sun = sun_at(midnight + when.hour_utc / 24.0);
    let hour_angle = (15.0 * when.hour_utc - 180.0 + longitude_deg + sun.equation_deg) * DEG;
    let (sin_h, cos_h) = libm::sincos(hour_angle);
    let (sin_d, cos_d) = libm::sincos(sun.declination_deg * DEG);
    let (sin_f, cos_f) = libm::sincos(latitude_deg * DEG);
    let up = sin_f * sin_d + cos_f * cos_d * cos_h;
    let east = -cos_d * sin_h;
    let north = sin_d * cos_f - cos_d * sin_f * cos_h;
    let across = libm::sqrt(east * east + north * north);
    let zenith = libm::atan2(across, up) / DEG;
    let azimuth = libm::atan2(east, north) / DEG;
    Position {
        zenith_deg: zenith + PARALLAX_DEG * across / sun.distance_au,
        azimuth_deg: if azimuth < 0.0 {
            azimuth + 360.0
        } else {
            azimuth
        },
        equation_of_time_min: 4.0 * sun.equation_deg,
        distance_au: sun.distance_au,
    }
}

/// Half the earth seen from the sun: 8.794 seconds of arc.
const PARALLAX_DEG: f64 = 8.794 / 3600.0;

/// How much the air lifts the sun.
///
/// **Equation** r = (p / 101000) (283 / (273 + t)) 1.02 / (60 tan(e + 10.3 / (e + 5.11)))
///
/// **Symbols**
/// - r: lift, degrees; e: true elevation, degrees
/// - p: air pressure, Pa; t: air temperature, C
///
/// **Range** e from -0.8333 (upper limb at the horizon) to 90; below it 0
///
/// **Source** `nrel-spa`, eq. 42
///
/// **Example**
/// ```
/// let r = climate::sun::refraction_deg(0.0, 101_000.0, 10.0);
/// assert!((r - 0.48).abs() < 0.01);
/// ```
pub fn refraction_deg(elevation_deg: f64, pressure_pa: f64, temperature_c: f64) -> f64 {
    if elevation_deg < -0.8333 {
        return 0.0;
    }
    let angle = (elevation_deg + 10.3 / (elevation_deg + 5.11)) * DEG;
    pressure_pa / 101_000.0 * 283.0 / (273.0 + temperature_c) * 1.02 / (60.0 * libm::tan(angle))
}

/// Sun outside the air on a surface facing it.
///
/// **Equation** E = 1366.1 / r^2
///
/// **Symbols**
/// - E: irradiance, W/m2
/// - r: distance of the sun, astronomical units
///
/// **Range** r 0.98 to 1.02
///
/// **Source** `pvlib`, default solar constant of its extraterrestrial functions, that of ASTM
/// E490
///
/// **Example**
/// ```
/// assert_eq!(climate::sun::extraterrestrial_w_per_m2(1.0), 1366.1);
/// ```
pub fn extraterrestrial_w_per_m2(distance_au: f64) -> f64 {
    1366.1 / (distance_au * distance_au)
}
