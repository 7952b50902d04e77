//! The year, hour by hour.

mod alone;
mod ask;
mod book_hour;
mod close;

use house::balance::{Balance, Doors, Supply};
use house::describe::{Stands, Use};
use house::ideal::Hours;
use house::model::Model;

use crate::error::SeasonError;
use crate::input::Input;
use crate::plant::{Plant, Schedule};
use crate::year::Year;

pub(crate) use ask::Ask;
pub(crate) use book_hour::TOO_COLD_C;
use book_hour::Tally;

/// Most times an hour is solved again because a limit was passed. Every round only lowers limits.
pub(crate) const MOST_ROUNDS: usize = 8;

/// A plant's year on its way, warm-up first.
pub(crate) struct Run<'a> {
    pub input: Input<'a>,
    name: String,
    plant: Plant,
    schedule: Schedule,
    lived: Option<Model>,
    balance: Balance<'a>,
    ask: Ask,
    tally: Tally,
    hours: Hours,
}

impl<'a> Run<'a> {
    /// Sets the house up.
    pub fn new(
        input: &Input<'a>,
        name: &str,
        plant: Plant,
        schedule: Schedule,
    ) -> Result<Self, SeasonError> {
        let (drive, weather) = (input.drive, input.weather);
        let steps = drive.steps;
        if drive.per_hour != 1 || steps != weather.len() || steps == 0 {
            return Err(SeasonError::Steps {
                got: steps,
                want: weather.len(),
            });
        }
        let lived = as_lived(input);
        let model = lived.as_ref().unwrap_or(input.model);
        Ok(Self {
            balance: Balance::new(model, input.glasses, drive, input.doors)?,
            ask: Ask::new(&plant, model.zones.len()),
            tally: Tally::new(&plant, model, steps),
            hours: Hours::new(steps),
            input: *input,
            name: name.to_owned(),
            plant,
            schedule,
            lived,
        })
    }

    /// Does so many hours more, or what is left; false when nothing is.
    pub fn go_on(&mut self, hours: usize) -> bool {
        let (input, plant, schedule) = (&self.input, &self.plant, &self.schedule);
        let (balance, ask) = (&mut self.balance, &mut self.ask);
        for _ in 0..hours {
            let Some(hour) = self.hours.next() else {
                return false;
            };
            if hour.is_first() {
                balance.begin_sums();
                balance.unsettled_steps = 0;
            }
            solve(balance, ask, plant, schedule, input, hour.h);
            if hour.counts {
                self.tally.take(hour.h, plant, ask, input, schedule);
            }
            balance.accept(hour.h);
        }
        true
    }

    /// The year, once all its hours are done.
    pub fn whole(self) -> (Year, Plant, Schedule) {
        let (gap, through) = self.balance.closure_j();
        let model = self.lived.as_ref().unwrap_or(self.input.model);
        let mut year = close::close(self.tally, &self.name, &self.plant, model, &self.input);
        year.closure = if through > 0.0 { gap / through } else { 0.0 };
        year.unsettled_hours = self.balance.unsettled_steps;
        (year, self.plant, self.schedule)
    }
}

/// Tells each room of the year what it comes to in the coldest days with the heads alone.
pub(crate) fn tell_heads_alone(
    year: &mut Year,
    input: &Input<'_>,
    plant: &Plant,
    schedule: &Schedule,
) -> Result<(), SeasonError> {
    if !plant.heads.is_empty() {
        let least = alone::heads_alone(input, plant, schedule)?;
        for room in &mut year.rooms {
            room.heads_alone_c = least.get(room.zone).copied().filter(|c| c.is_finite());
        }
    }
    Ok(())
}

/// Solves one hour: what every head and heater gives within its own limits and the shared ones.
pub(crate) fn solve(
    balance: &mut Balance<'_>,
    ask: &mut Ask,
    plant: &Plant,
    schedule: &Schedule,
    input: &Input<'_>,
    h: usize,
) {
    let outdoor_c = input.drive.outdoor_c[h];
    let of_day = usize::from(input.drive.hour_of_day[h]);
    ask.open(plant, schedule, outdoor_c, of_day);
    for _ in 0..MOST_ROUNDS {
        let got = balance.step(h, &ask.supply);
        ask.share_out(plant, &got);
        if !ask.curtail(plant) {
            break;
        }
        ask.fill(plant, schedule, of_day);
    }
}

/// The model with bedroom doors as the job says people keep them, if it says so.
pub(crate) fn as_lived(input: &Input<'_>) -> Option<Model> {
    let stands: Stands = input.job.habits.bedroom_doors?;
    if input.doors != Doors::AsUsual {
        return None;
    }
    let mut model = input.model.clone();
    for opening in &mut model.openings {
        let sleeps = opening.zones.iter().any(|z| {
            model
                .zones
                .get(*z)
                .is_some_and(|z| z.used_for == Use::Sleeping)
        });
        if sleeps {
            opening.stands = stands;
        }
    }
    Some(model)
}

pub(crate) fn nothing(zones: usize) -> Vec<Supply> {
    vec![Supply::NONE; zones]
}
