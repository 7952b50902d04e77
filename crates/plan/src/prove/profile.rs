//! Hourly profiles of cases 600 and 900 on the standard's check days, beside the spread.

use super::houses::{CASES, denver, year_of};
use super::{number, rows};

const TABLE: &str = include_str!("../../../../checks/values/std140_2020_hourly_days.csv");

/// The spread of one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourSpread {
    /// Least of the programs.
    pub least: f64,
    /// Greatest.
    pub most: f64,
    /// This program.
    pub got: f64,
}

/// A case on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct DayProfile {
    /// Case: `600`.
    pub case: String,
    /// Day as the file names it: `feb_1`.
    pub day: String,
    /// `kWh` (heating above zero, cooling below) or `C`.
    pub unit: String,
    /// 24 hours.
    pub hours: Vec<HourSpread>,
}

/// Hour of the year at which a day of the file begins.
fn first_hour(day: &str) -> usize {
    match day {
        "feb_1" => 31 * 24,
        "july_14" => (181 + 13) * 24,
        _ => 0,
    }
}

/// All profiles of the file, in its order. Cases that do not run are left out.
pub fn day_profiles() -> Vec<DayProfile> {
    let Some(weather) = denver() else {
        return Vec::new();
    };
    let mut all: Vec<DayProfile> = Vec::new();
    for row in rows(TABLE) {
        let (case, day) = (
            row.first().copied().unwrap_or(""),
            row.get(1).copied().unwrap_or(""),
        );
        if !all.iter().any(|p| p.case == case && p.day == day) {
            all.push(DayProfile {
                case: case.to_owned(),
                day: day.to_owned(),
                unit: row.get(3).copied().unwrap_or("").to_owned(),
                hours: Vec::new(),
            });
        }
        if let Some(p) = all.last_mut() {
            p.hours.push(HourSpread {
                least: number(&row, 5),
                most: number(&row, 6),
                got: f64::NAN,
            });
        }
    }
    let mut years: Vec<(String, crate::IdealYear)> = Vec::new();
    for p in &mut all {
        let of = CASES.iter().find(|(c, _)| c.eq_ignore_ascii_case(&p.case));
        let Some((case, text)) = of else { continue };
        if !years.iter().any(|(c, _)| c == case)
            && let Ok(year) = year_of(text, &weather)
        {
            years.push(((*case).to_owned(), year));
        }
        let Some((_, year)) = years.iter().find(|(c, _)| c == case) else {
            continue;
        };
        let first = first_hour(&p.day);
        let air = year.hourly_air_c.first();
        for (k, hour) in p.hours.iter_mut().enumerate() {
            let got = if p.unit.eq_ignore_ascii_case("kwh") {
                year.hourly_heat_w.get(first + k).map(|w| w / 1000.0)
            } else {
                air.and_then(|a| a.get(first + k).copied())
            };
            hour.got = got.unwrap_or(f64::NAN);
        }
    }
    all.retain(|p| p.hours.iter().all(|h| h.got.is_finite()));
    all
}
