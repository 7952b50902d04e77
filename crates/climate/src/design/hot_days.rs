//! Clear hot days, for the cooling load.

use crate::Weather;

/// A day that asks for cooling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotDay {
    /// Index of its first hour, a midnight.
    pub first_hour: usize,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
    /// Greatest dry bulb, C.
    pub greatest_c: f64,
    /// Sun on the horizontal over the day, Wh/m2.
    pub sun_wh_per_m2: f64,
}

/// For each month the hottest of its sunny days, warmest month first. A day is sunny when the
/// sun on the horizontal is at least nine tenths of the best day of its month, so that low autumn
/// sun through south glass is asked about as well as July. Months in which no day passes
/// `warmest_from_c` are left out.
///
/// **Equation** per month: among days with sum G >= 0.9 max sum G, the day of greatest dry bulb
///
/// **Symbols**
/// - G: global on the horizontal, W/m2
///
/// **Range** whole years
///
/// **Source** `common-practice`: cooling is sized on clear days of several months
///
/// **Example** see the test on the Denver station
pub fn clear_hot_days(weather: &Weather, warmest_from_c: f64) -> Vec<HotDay> {
    let mut days = Vec::with_capacity(366);
    let both = weather
        .dry_bulb_c
        .chunks(24)
        .zip(weather.ghi_w_per_m2.chunks(24));
    for (index, (air, sun)) in both.enumerate() {
        let first_hour = index * 24;
        let (Some(&month), Some(&day)) =
            (weather.month.get(first_hour), weather.day.get(first_hour))
        else {
            continue;
        };
        days.push(HotDay {
            first_hour,
            month,
            day,
            greatest_c: air.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            sun_wh_per_m2: sun.iter().sum(),
        });
    }
    let mut picked: Vec<HotDay> = (1..=12u8)
        .filter_map(|month| {
            let of_month = || days.iter().filter(move |d| d.month == month);
            let best = of_month().map(|d| d.sun_wh_per_m2).fold(0.0, f64::max);
            of_month()
                .filter(|d| d.sun_wh_per_m2 >= 0.9 * best && d.greatest_c >= warmest_from_c)
                .max_by(|a, b| a.greatest_c.total_cmp(&b.greatest_c))
                .copied()
        })
        .collect();
    picked.sort_by(|a, b| b.greatest_c.total_cmp(&a.greatest_c));
    picked
}
