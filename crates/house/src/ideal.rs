//! A year with heating and cooling that always suffice: what the house needs, and how rooms
//! without either float.

use climate::{Weather, WeatherError};

use crate::assembly::AssemblyError;
use crate::balance::{Balance, Doors, Supply};
use crate::describe::Setting;
use crate::drive::Drive;
use crate::glazing::Glass;
use crate::model::Model;

/// Days run before the first of January, with the weather of the year's last days, so that walls
/// and ground forget how they were set up.
pub const WARM_UP_DAYS: usize = 21;

/// What can go wrong before the first hour.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum HeatError {
    /// A construction.
    #[error(transparent)]
    Assembly(#[from] AssemblyError),
    /// The weather.
    #[error(transparent)]
    Weather(#[from] WeatherError),
}

/// A peak and when it was.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Peak {
    /// W.
    pub heat_w: f64,
    /// Hour of the year, 0 first.
    pub hour: usize,
}

/// Temperatures nearer to each other than this are one, K: a room that is held at its setting is
/// as cold in a thousand hours.
const ALIKE_K: f64 = 0.1;

/// The least or the greatest air of a room and when it was. Of hours that are alike it is the one
/// with the coldest or the warmest weather, so that rounding does not choose it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme {
    /// 1 for the least, -1 for the greatest.
    sign: f64,
    /// Air, C.
    pub air_c: f64,
    /// Hour of the year, 0 first.
    pub hour: usize,
    outdoor_c: f64,
}

impl Extreme {
    /// None yet.
    pub fn least() -> Self {
        Self {
            sign: 1.0,
            air_c: f64::INFINITY,
            hour: 0,
            outdoor_c: f64::INFINITY,
        }
    }

    /// None yet.
    pub fn greatest() -> Self {
        Self {
            sign: -1.0,
            air_c: f64::NEG_INFINITY,
            hour: 0,
            outdoor_c: f64::NEG_INFINITY,
        }
    }

    /// Takes an hour in.
    pub fn take(&mut self, air_c: f64, hour: usize, outdoor_c: f64) {
        let past = self.sign * (self.air_c - air_c);
        let alike = past > -ALIKE_K && self.sign * (self.outdoor_c - outdoor_c) > 0.0;
        if past > ALIKE_K || alike {
            (self.hour, self.outdoor_c) = (hour, outdoor_c);
        }
        if past > 0.0 {
            self.air_c = air_c;
        }
    }
}

/// One zone's year.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneYear {
    /// Zone name.
    pub name: String,
    /// Heating need, J.
    pub heating_j: f64,
    /// Cooling need (sensible), J.
    pub cooling_j: f64,
    /// Largest hour of heating.
    pub heating_peak: Peak,
    /// Largest hour of cooling.
    pub cooling_peak: Peak,
    /// Least air temperature.
    pub least: Extreme,
    /// Mean air temperature, C.
    pub mean_c: f64,
    /// Greatest air temperature.
    pub greatest: Extreme,
}

/// The year of a house.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseYear {
    /// By zone.
    pub zones: Vec<ZoneYear>,
    /// Whole house heating, J.
    pub heating_j: f64,
    /// Whole house cooling, J.
    pub cooling_j: f64,
    /// Largest hour of the house.
    pub heating_peak: Peak,
    /// Largest hour of the house.
    pub cooling_peak: Peak,
    /// Heat in minus out minus stored over heat through.
    pub closure: f64,
    /// Steps whose iteration did not settle.
    pub unsettled_steps: usize,
    /// Iterations over steps.
    pub iterations_per_step: f64,
    /// Heating less cooling of each hour, W, whole house.
    pub hourly_heat_w: Vec<f64>,
    /// Hourly air by zone, C; `[zone][hour]`.
    pub hourly_air_c: Vec<Vec<f64>>,
}

/// Runs the year.
///
/// # Errors
/// A construction or weather that cannot be used.
pub fn year(model: &Model, weather: &Weather, doors: Doors) -> Result<HouseYear, HeatError> {
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = Drive::new(model, &glasses, weather)?.finer(model.steps_an_hour);
    year_on(model, &glasses, &drive, doors)
}

/// As [`year`], with the weather on the faces worked out before.
///
/// # Errors
/// A construction that cannot be used.
pub fn year_on(
    model: &Model,
    glasses: &[Glass],
    drive: &Drive,
    doors: Doors,
) -> Result<HouseYear, HeatError> {
    let mut running = Running::new(model, glasses, drive, doors)?;
    while running.go_on(drive.steps) {}
    Ok(running.whole())
}

/// An hour of a year that is run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hour {
    /// Hour of the year, 0 first.
    pub h: usize,
    /// It is of the year, not of the warm-up.
    pub counts: bool,
}

impl Hour {
    /// The year begins with it.
    pub fn is_first(self) -> bool {
        self.counts && self.h == 0
    }
}

/// The hours of a year one after another, those of the warm-up before them.
#[derive(Debug, Clone)]
pub struct Hours {
    all: usize,
    warm_up: usize,
    done: usize,
}

impl Hours {
    /// Of a year of so many hours.
    pub fn new(all: usize) -> Self {
        Self {
            all,
            warm_up: (WARM_UP_DAYS * 24).min(all),
            done: 0,
        }
    }
}

impl Iterator for Hours {
    type Item = Hour;

    #[inline]
    fn next(&mut self) -> Option<Hour> {
        if self.done == self.warm_up + self.all {
            return None;
        }
        let hour = Hour {
            h: (self.done + self.all - self.warm_up) % self.all,
            counts: self.done >= self.warm_up,
        };
        self.done += 1;
        Some(hour)
    }
}

/// A year on its way, warm-up first.
pub struct Running<'a> {
    drive: &'a Drive,
    balance: Balance<'a>,
    /// By step of the day.
    supplies: Vec<Vec<Supply>>,
    year: HouseYear,
    /// Heat and air of each zone, mean over the hour.
    mean: Vec<(f64, f64)>,
    hours: Hours,
}

impl<'a> Running<'a> {
    /// Sets the house up.
    ///
    /// # Errors
    /// A construction that cannot be used.
    pub fn new(
        model: &Model,
        glasses: &[Glass],
        drive: &'a Drive,
        doors: Doors,
    ) -> Result<Self, HeatError> {
        let zones = model.zones.iter().map(|z| ZoneYear {
            name: z.name.clone(),
            heating_j: 0.0,
            cooling_j: 0.0,
            heating_peak: Peak::default(),
            cooling_peak: Peak::default(),
            least: Extreme::least(),
            mean_c: 0.0,
            greatest: Extreme::greatest(),
        });
        let hours = drive.steps / drive.per_hour;
        Ok(Self {
            drive,
            balance: Balance::new(model, glasses, drive, doors)?,
            supplies: through_the_day(model, drive.per_hour),
            year: HouseYear {
                zones: zones.collect(),
                hourly_air_c: vec![Vec::with_capacity(hours); model.zones.len()],
                ..HouseYear::default()
            },
            mean: vec![(0.0, 0.0); model.zones.len()],
            hours: Hours::new(hours),
        })
    }

    /// Does so many hours more, or what is left; false when nothing is.
    pub fn go_on(&mut self, hours: usize) -> bool {
        for _ in 0..hours {
            let Some(hour) = self.hours.next() else {
                return false;
            };
            if hour.is_first() {
                self.balance.begin_sums();
                (self.balance.iterations, self.balance.unsettled_steps) = (0, 0);
            }
            self.run(hour.h);
            if hour.counts {
                let outdoor_c = self.drive.outdoor_c[hour.h * self.drive.per_hour];
                self.year.take(hour.h, outdoor_c, &self.mean);
            }
        }
        true
    }

    fn run(&mut self, h: usize) {
        let n = self.drive.per_hour;
        self.mean.fill((0.0, 0.0));
        for s in h * n..(h + 1) * n {
            let of_day = usize::from(self.drive.hour_of_day[s]) * n + s % n;
            let got = self.balance.step(s, &self.supplies[of_day]);
            for (m, (q, air)) in self.mean.iter_mut().zip(got.heat_w.iter().zip(got.air_c)) {
                m.0 += q / n as f64;
                m.1 += air / n as f64;
            }
            self.balance.accept(s);
        }
    }

    /// The year, once all its hours are done.
    pub fn whole(self) -> HouseYear {
        let (mut year, balance, drive) = (self.year, self.balance, self.drive);
        for zone in &mut year.zones {
            zone.mean_c /= (drive.steps / drive.per_hour) as f64;
            year.heating_j += zone.heating_j;
            year.cooling_j += zone.cooling_j;
        }
        let (gap, through) = balance.closure_j();
        year.closure = if through > 0.0 { gap / through } else { 0.0 };
        year.unsettled_steps = balance.unsettled_steps;
        year.iterations_per_step = balance.iterations as f64 / drive.steps as f64;
        year
    }
}

impl HouseYear {
    /// Takes an hour in: mean heat and air of every zone.
    fn take(&mut self, h: usize, outdoor_c: f64, mean: &[(f64, f64)]) {
        let (mut heats, mut cools) = (0.0, 0.0);
        for ((zone, hourly), (q, air)) in
            self.zones.iter_mut().zip(&mut self.hourly_air_c).zip(mean)
        {
            zone.take(h, outdoor_c, *q, *air);
            hourly.push(*air);
            heats += q.max(0.0);
            cools += (-q).max(0.0);
        }
        self.hourly_heat_w.push(heats - cools);
        if heats > self.heating_peak.heat_w {
            self.heating_peak = Peak {
                heat_w: heats,
                hour: h,
            };
        }
        if cools > self.cooling_peak.heat_w {
            self.cooling_peak = Peak {
                heat_w: cools,
                hour: h,
            };
        }
    }
}

impl ZoneYear {
    fn take(&mut self, h: usize, outdoor_c: f64, q: f64, air: f64) {
        if q > 0.0 {
            self.heating_j += q * 3600.0;
        } else {
            self.cooling_j -= q * 3600.0;
        }
        if q > self.heating_peak.heat_w {
            self.heating_peak = Peak { heat_w: q, hour: h };
        }
        if -q > self.cooling_peak.heat_w {
            self.cooling_peak = Peak {
                heat_w: -q,
                hour: h,
            };
        }
        self.least.take(air, h, outdoor_c);
        self.greatest.take(air, h, outdoor_c);
        self.mean_c += air;
    }
}

/// Ideal supply of every zone for each step of the day.
pub fn through_the_day(model: &Model, per_hour: usize) -> Vec<Vec<Supply>> {
    (0..24 * per_hour)
        .map(|s| {
            let (hour, part) = (s / per_hour, (s % per_hour + 1) as f64 / per_hour as f64);
            let at = |set: &Option<Setting>| set.as_ref().and_then(|set| set.at(hour, part));
            model
                .zones
                .iter()
                .map(|z| Supply::ideal(at(&z.heated), at(&z.cooled)))
                .collect()
        })
        .collect()
}
