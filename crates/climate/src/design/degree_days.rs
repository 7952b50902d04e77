//! Degree days.

use crate::Weather;

/// Degree days of one year to one base, by both ways of counting, K d.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DegreeDays {
    /// From the mean of each day: what weather services and bills use.
    pub by_daily_mean_k_d: f64,
    /// From every hour: what the heat loss follows; never less.
    pub by_hour_k_d: f64,
}

/// Heating degree days.
///
/// **Equation** by day: sum of max(0, b - mean of 24 hours); by hour: sum of max(0, b - t) / 24
///
/// **Symbols**
/// - b: base temperature, C; t: dry bulb of the hour, C
///
/// **Range** any base; 18.3 C (65 F) is usual
///
/// **Source** `ashrae-fundamentals-2017`, ch. 14, degree-days (daily mean)
///
/// **Example** a year at 8.3 C to base 18.3 C: 3650 K d both ways
pub fn heating_degree_days(weather: &Weather, base_c: f64) -> DegreeDays {
    count(weather, |t| base_c - t)
}

/// Cooling degree days.
///
/// **Equation** by day: sum of max(0, mean of 24 hours - b); by hour: sum of max(0, t - b) / 24
///
/// **Symbols**
/// - b: base temperature, C; t: dry bulb of the hour, C
///
/// **Range** any base; 10 and 18.3 C are usual
///
/// **Source** `ashrae-fundamentals-2017`, ch. 14, degree-days (daily mean)
///
/// **Example** a year at 28.3 C to base 18.3 C: 3650 K d both ways
pub fn cooling_degree_days(weather: &Weather, base_c: f64) -> DegreeDays {
    count(weather, |t| t - base_c)
}

fn count(weather: &Weather, beyond: impl Fn(f64) -> f64) -> DegreeDays {
    let mut days = DegreeDays {
        by_daily_mean_k_d: 0.0,
        by_hour_k_d: 0.0,
    };
    for day in weather.dry_bulb_c.chunks(24) {
        let mean = day.iter().sum::<f64>() / day.len() as f64;
        days.by_daily_mean_k_d += beyond(mean).max(0.0);
        days.by_hour_k_d += day.iter().map(|t| beyond(*t).max(0.0)).sum::<f64>() / 24.0;
    }
    days
}
