//! The coldest days in a row, for what a house must come through.

use crate::Weather;

/// Some days in a row, colder on average than any others of the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdSnap {
    /// Index of the first hour, always a midnight.
    pub first_hour: usize,
    /// Hours it lasts.
    pub hours: usize,
    /// Mean dry bulb, C.
    pub mean_c: f64,
    /// Least dry bulb, C.
    pub least_c: f64,
    /// Mean wind, m/s.
    pub wind_m_per_s: f64,
}

/// The coldest so many whole days in a row; three is usual. The year is not joined at its ends,
/// because December and January of a typical year are from different years. None for no days or
/// more than the year has.
///
/// **Equation** the first midnight for which the mean of the hours that follow is least
///
/// **Symbols**
/// - days: how many in a row
///
/// **Range** 1 to 365 days
///
/// **Source** `common-practice`
///
/// **Example** a year at -5 C with 10 to 12 January at -30 C: first hour 216, mean -30 C
pub fn coldest_days(weather: &Weather, days: usize) -> Option<ColdSnap> {
    let hours = days.checked_mul(24).filter(|h| *h > 0)?;
    let mut best: Option<ColdSnap> = None;
    for first_hour in (0..weather.len()).step_by(24) {
        let Some(span) = weather.dry_bulb_c.get(first_hour..first_hour + hours) else {
            break;
        };
        let mean_c = span.iter().sum::<f64>() / hours as f64;
        if best.is_none_or(|b| mean_c < b.mean_c) {
            let wind = weather
                .wind_speed_m_per_s
                .get(first_hour..first_hour + hours)?;
            best = Some(ColdSnap {
                first_hour,
                hours,
                mean_c,
                least_c: span.iter().copied().fold(f64::INFINITY, f64::min),
                wind_m_per_s: wind.iter().sum::<f64>() / hours as f64,
            });
        }
    }
    best
}
