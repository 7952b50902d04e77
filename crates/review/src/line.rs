//! The line that bills lie on, however it was found.

use crate::calendar::iso;
use crate::{Band, Bills, Fit, Note, Observation, Refused, YearOfDays, speaks_of_heat};

/// How a line was found.
#[derive(Debug, Clone, PartialEq)]
pub enum By {
    /// Fitted to many bills.
    Fit(Box<Fit>),
    /// Use over degree days between fills, with the balance point assumed.
    FillToFill {
        /// Fills behind it.
        fills: usize,
        /// Whether a summer's use was there to subtract.
        summer: bool,
    },
}

/// Use that does not follow the weather, and use that follows the cold.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// More when colder, W of what is bought per K.
    pub slope_w_per_k: Band,
    /// The same all year, W of what is bought.
    pub base_w: Band,
    /// Outdoor temperature below which the slope begins, C.
    pub balance_c: Band,
    /// How.
    pub by: By,
    /// Remarks.
    pub notes: Vec<Note>,
}

/// Balance points a house may have, C (57 to 66 F): used only where bills cannot tell.
const USUAL_BALANCE_C: Band = Band {
    low: 14.0,
    mid: 16.5,
    high: 19.0,
};
/// Mean temperature above which a fill is summer, C.
const SUMMER_C: f64 = 17.0;
/// Mean temperature below which a fill is winter, C.
const WINTER_C: f64 = 10.0;
/// Hot water that a boiler makes, W of fuel, where no summer fill tells: 2 to 12 kWh a day at its
/// poor summer efficiency.
const HOT_WATER_W: Band = Band {
    low: 100.0,
    mid: 300.0,
    high: 600.0,
};

impl Line {
    /// From a fit that may speak of heat.
    ///
    /// # Errors
    /// As [`speaks_of_heat`], and a slope that may be nothing.
    pub fn of_fit(bills: &Bills, fit: &Fit) -> Result<Self, Refused> {
        speaks_of_heat(bills, fit)?;
        let balance_c = fit.balance_c().unwrap_or(USUAL_BALANCE_C);
        let slope_w_per_k = fit.heating_slope();
        if slope_w_per_k.low <= 0.0 {
            return Err(Refused::new(
                format!(
                    "whether the use of {} follows the cold cannot be told",
                    bills.carrier.word()
                ),
                format!("{:.1} to {:.1} W/K", slope_w_per_k.low, slope_w_per_k.high),
                "a slope whose band stays above 0",
                "give more bills of cold months, with true readings",
            ));
        }
        Ok(Self {
            slope_w_per_k,
            base_w: fit.base(),
            balance_c,
            by: By::Fit(Box::new(fit.clone())),
            notes: Vec::new(),
        })
    }

    /// From a few full fills: use less what is used all year, over degree days.
    ///
    /// **Equation** `slope = sum((P - base) d) / sum(h(Tb) d)`
    ///
    /// **Symbols**
    /// - P: mean use between two fills, W; d: its days
    /// - base: use of the summer fill, W; where there is none, what a boiler burns for hot water
    /// - h: degree days a day, K; Tb: balance point, 14 to 19 C
    ///
    /// **Range** fills of the winter: a mean temperature below 10 C
    ///
    /// **Source** `trade-cards`, F2
    ///
    /// **Example** 780 gal less 60 gal over 7,400 F d: 0.097 gal a F day
    ///
    /// # Errors
    /// No fill of the winter.
    pub fn of_fills(fills: &[Observation], hot_water: bool) -> Result<Self, Refused> {
        let mean = |set: &[&Observation]| {
            let days: f64 = set.iter().map(|o| o.days()).sum();
            set.iter().map(|o| o.power_w * o.days()).sum::<f64>() / days
        };
        let summer: Vec<&Observation> = fills.iter().filter(|o| o.mean_c() > SUMMER_C).collect();
        let winter: Vec<&Observation> = fills.iter().filter(|o| o.mean_c() < WINTER_C).collect();
        if winter.is_empty() {
            let first = fills.first().map_or(String::new(), |o| iso(o.from));
            return Err(Refused::new(
                "no fill covers a winter",
                format!("{} fills from {first}", fills.len()),
                "two full fills with the cold months between them",
                "ask the dealer for last winter's slips",
            ));
        }
        let mut notes = Vec::new();
        let base_w = if summer.is_empty() {
            if hot_water {
                notes.push(Note::new(
                    None,
                    "no summer fill tells what the hot water takes; 2 to 12 kWh a day were assumed",
                ));
                HOT_WATER_W
            } else {
                Band::exact(0.0)
            }
        } else {
            // a summer fill is one reading of a tank that is never quite full
            let w = mean(&summer);
            Band::new(0.8 * w, w, 1.2 * w)
        };
        let slope = |base: f64, balance: f64| {
            let used: f64 = winter.iter().map(|o| (o.power_w - base) * o.days()).sum();
            let degrees: f64 = winter
                .iter()
                .map(|o| crate::Days::degree_days(&o.days_c, balance) * o.days())
                .sum();
            used / degrees
        };
        let b = USUAL_BALANCE_C;
        let mid = slope(base_w.mid, b.mid);
        let by_balance = Band::new(slope(base_w.mid, b.high), mid, slope(base_w.mid, b.low));
        let by_base = Band::new(slope(base_w.high, b.mid), mid, slope(base_w.low, b.mid));
        // a fill more or less full moves 5 % of one winter from year to year
        let by_fill = Band::new(0.95 * mid, mid, 1.05 * mid);
        let off = |pick: fn(&Band) -> f64| -> f64 {
            [by_balance, by_base, by_fill]
                .iter()
                .map(|x| (pick(x) - mid) * (pick(x) - mid))
                .sum::<f64>()
                .sqrt()
        };
        if mid.is_nan() || mid <= 0.0 {
            return Err(Refused::new(
                "the winter's fill is not more than the summer's",
                format!("{mid:.1} W/K"),
                "more use when colder",
                "are these the right fills, and were they full?",
            ));
        }
        Ok(Self {
            slope_w_per_k: Band::new(mid - off(|x| x.low), mid, mid + off(|x| x.high)),
            base_w,
            balance_c: b,
            by: By::FillToFill {
                fills: winter.len() + summer.len(),
                summer: !summer.is_empty(),
            },
            notes,
        })
    }

    /// Widened because the temperatures are those of a typical year: a fit has it in its bands.
    #[must_use]
    pub fn on_typical_days(mut self) -> Self {
        if matches!(self.by, By::FillToFill { .. }) {
            let m = self.slope_w_per_k.mid;
            let wide = crate::TYPICAL_SHARE * m;
            let more = |d: f64| (d * d + wide * wide).sqrt();
            let s = self.slope_w_per_k;
            self.slope_w_per_k = Band::new(m - more(m - s.low), m, m + more(s.high - m));
        }
        self
    }

    /// Energy of a year that follows the cold, J.
    pub fn heating_of(&self, year: &YearOfDays) -> Band {
        match &self.by {
            By::Fit(fit) => fit.year(year).1,
            By::FillToFill { .. } => {
                let k_d = year.heating_k_d(self.balance_c.mid);
                self.slope_w_per_k.times(k_d * 86_400.0)
            }
        }
    }
}

/// The same line through the year that a plan computes: what the bills' line is set beside.
///
/// # Errors
/// As [`crate::fit`].
pub fn fit_of_hours(hourly_w: &[f64], year: &YearOfDays) -> Result<Fit, Refused> {
    // a year without a date: 2023 has the days of a common one, 2024 of a leap one
    let leap = year.mean_c.len() > 365;
    let first = crate::calendar::day_of(if leap { 2024 } else { 2023 }, 1, 1).unwrap_or(0);
    let days: Vec<crate::runs::Day> = (first..)
        .zip(hourly_w.chunks(24))
        .map(|(on, hours)| crate::runs::Day {
            on,
            energy_j: hours.iter().map(|w| w.max(0.0) * 3600.0).sum(),
            line: 0,
        })
        .collect();
    let mut notes = Vec::new();
    let periods = crate::runs::months(&days, &mut notes);
    let mut bills = Bills::from_exact(jobfile::Carrier::Oil, periods, notes)?;
    bills.from_days = true;
    let mut own = year.over(
        first,
        first + i32::try_from(year.mean_c.len()).unwrap_or(365),
    );
    own.typical = false;
    let (seen, _) = crate::observations(&bills, &own);
    crate::fit(seen, false, false)
}
