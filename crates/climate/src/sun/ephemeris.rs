//! Where the sun stands among the stars: right ascension, declination, distance.

/// The sun seen from the earth's middle.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Equatorial {
    /// Declination, degrees.
    pub declination_deg: f64,
    /// Greenwich hour angle less the clock's angle (apparent minus mean sun), degrees; four
    /// times it is the equation of time in minutes.
    pub equation_deg: f64,
    /// Distance, astronomical units.
    pub distance_au: f64,
}

const DEG: f64 = core::f64::consts::PI / 180.0;

fn turn(deg: f64) -> f64 {
    let t = libm::fmod(deg, 360.0);
    if t < 0.0 { t + 360.0 } else { t }
}

/// Days of the civil calendar (Gregorian) from 2000-01-01 to a date.
pub(crate) fn days_from_2000(year: i32, month: u8, day: u8) -> i64 {
    // March first, so that the leap day ends the year: count whole years, months, days.
    let (y, m) = (i64::from(year), i64::from(month));
    let y = if m <= 2 { y - 1 } else { y };
    let era = y.div_euclid(400);
    let of_era = y.rem_euclid(400);
    let of_year = (153 * ((m + 9) % 12) + 2) / 5 + i64::from(day) - 1;
    era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 730425
}

/// Earth time less clock time.
///
/// **Equation** polynomials in the year, one before 2005 and one after
///
/// **Symbols**
/// - result: terrestrial time minus universal time, s
/// - year: year with fraction
///
/// **Range** 1950 to 2100; within 3 s of the record to 2005, some 10 s of guess by 2100 (the
/// sun moves 0.0004 degrees in 10 s)
///
/// **Source** `espenak-meeus-delta-t`, 1941 to 1961, 1961 to 1986, 1986 to 2005, 2005 to 2050 and
/// after; from memory
///
/// **Example** 2020 gives 72 s by the polynomial, 69.4 s measured
fn delta_t_s(year: f64) -> f64 {
    if year < 1961.0 {
        let t = year - 1950.0;
        29.07 + 0.407 * t - t * t / 233.0 + t * t * t / 2547.0
    } else if year < 1986.0 {
        let t = year - 1975.0;
        45.45 + 1.067 * t - t * t / 260.0 - t * t * t / 718.0
    } else if year < 2005.0 {
        let t = year - 2000.0;
        63.86 + 0.3345 * t - 0.060374 * t * t + 0.0017275 * t * t * t
    } else if year < 2050.0 {
        let t = year - 2000.0;
        62.92 + 0.32217 * t + 0.005589 * t * t
    } else {
        let u = (year - 1820.0) / 100.0;
        -20.0 + 32.0 * u * u - 0.5628 * (2150.0 - year)
    }
}

/// The sun's apparent place by Newcomb's shortened theory with the five largest pulls of
/// planets and moon.
///
/// **Equation** mean longitude, mean anomaly, equation of the centre, planetary terms,
/// aberration and nutation, then rotation by the obliquity; see the lines below
///
/// **Symbols**
/// - days: days of universal time since 2000-01-01 00:00
///
/// **Range** 1950 to 2100, within 0.003 degrees of the reference there (tested at 0.01)
///
/// **Source** `meeus-formulae`, ch. 18 (high accuracy terms), nutation ch. 15, sidereal time
/// ch. 7; coefficients from memory, checked against `pvlib` over 1950 to 2100
///
/// **Example** solstice of June 2024: declination 23.44 degrees
pub(crate) fn sun_at(days_since_2000: f64) -> Equatorial {
    let year = 2000.0 + days_since_2000 / 365.25;
    let terrestrial = days_since_2000 + delta_t_s(year) / 86400.0;
    // Julian centuries from 1900 January 0.5, the epoch of the theory; 2000-01-01 00:00 is
    // 36524.5 days after it.
    let t = (terrestrial + 36524.5) / 36525.0;
    let mean_longitude = 279.69668 + 36000.76892 * t + 0.0003025 * t * t;
    let anomaly = turn(358.47583 + 35999.04975 * t - 0.000150 * t * t - 3.3e-6 * t * t * t) * DEG;
    let eccentricity = 0.01675104 - 0.0000418 * t - 1.26e-7 * t * t;
    let centre = (1.919460 - 0.004789 * t - 0.000014 * t * t) * libm::sin(anomaly)
        + (0.020094 - 0.000100 * t) * libm::sin(2.0 * anomaly)
        + 0.000293 * libm::sin(3.0 * anomaly);
    let venus_1 = turn(153.23 + 22518.7541 * t) * DEG;
    let venus_2 = turn(216.57 + 45037.5082 * t) * DEG;
    let jupiter = turn(312.69 + 32964.3577 * t) * DEG;
    let moon = turn(350.74 + 445267.1142 * t - 0.00144 * t * t) * DEG;
    let long_term = turn(231.19 + 20.20 * t) * DEG;
    let pulls = 0.00134 * libm::cos(venus_1)
        + 0.00154 * libm::cos(venus_2)
        + 0.00200 * libm::cos(jupiter)
        + 0.00179 * libm::sin(moon)
        + 0.00178 * libm::sin(long_term);
    let node = turn(259.18 - 1934.142 * t) * DEG;
    let nutation = -0.00479 * libm::sin(node) - 0.00037 * libm::sin(2.0 * mean_longitude * DEG);
    let longitude = (mean_longitude + centre + pulls - 0.00569 + nutation) * DEG;
    let obliquity = (23.452294 - 0.0130125 * t - 1.64e-6 * t * t + 0.00256 * libm::cos(node)) * DEG;
    let true_anomaly = anomaly + centre * DEG;
    let distance_au = 1.0000002 * (1.0 - eccentricity * eccentricity)
        / (1.0 + eccentricity * libm::cos(true_anomaly));
    let right_ascension = libm::atan2(
        libm::cos(obliquity) * libm::sin(longitude),
        libm::cos(longitude),
    ) / DEG;
    let declination_deg = libm::asin(libm::sin(obliquity) * libm::sin(longitude)) / DEG;
    // Greenwich sidereal angle less the clock's angle, from noon of 2000-01-01; the whole turns
    // a day are the clock's and are left out.
    let d = days_since_2000 - 0.5;
    let c = d / 36525.0;
    let sidereal =
        280.46061837 + 0.98564736629 * d + 0.000387933 * c * c + nutation * libm::cos(obliquity);
    let equation = turn(sidereal - right_ascension);
    let equation_deg = if equation > 180.0 {
        equation - 360.0
    } else {
        equation
    };
    Equatorial {
        declination_deg,
        equation_deg,
        distance_au,
    }
}
