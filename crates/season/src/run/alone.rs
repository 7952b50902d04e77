//! The coldest days with the heads alone: what rooms come to when no heater answers.

use climate::design::coldest_days;
use house::balance::Balance;

use super::ask::Ask;
use super::{as_lived, solve};
use crate::error::SeasonError;
use crate::input::Input;
use crate::plant::{Plant, Schedule};

/// Days in a row that are looked at.
const DAYS: usize = 3;
/// Days run before them.
const LEAD_DAYS: usize = 10;

/// Least air of each zone in the three coldest days with heads and no heater, C.
pub(crate) fn heads_alone(
    input: &Input<'_>,
    plant: &Plant,
    schedule: &Schedule,
) -> Result<Vec<f64>, SeasonError> {
    let zones = input.model.zones.len();
    let mut least = vec![f64::INFINITY; zones];
    let Some(snap) = coldest_days(input.weather, DAYS) else {
        return Ok(least);
    };
    let mut alone = plant.clone();
    alone.heaters.clear();
    alone.taps.clear();
    alone.taps_of = vec![Vec::new(); zones];
    let lived = as_lived(input);
    let model = lived.as_ref().unwrap_or(input.model);
    let mut balance = Balance::new(model, input.glasses, input.drive, input.doors)?;
    let mut ask = Ask::new(&alone, zones);
    let (steps, lead) = (input.drive.steps, LEAD_DAYS * 24);
    let first = snap.first_hour + steps - lead.min(steps);
    for i in 0..lead + snap.hours {
        let h = (first + i) % steps;
        solve(&mut balance, &mut ask, &alone, schedule, input, h);
        if i >= lead {
            for (low, air) in least.iter_mut().zip(&ask.air_c) {
                *low = low.min(*air);
            }
        }
        balance.accept(h);
    }
    Ok(least)
}
