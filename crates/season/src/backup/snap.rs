//! Three days at the design temperature, and what happens when everything stops.

use house::balance::{Balance, Supply};
use house::drive::Drive;
use house::ideal::WARM_UP_DAYS;

use climate::design::coldest_days;

use crate::error::SeasonError;
use crate::input::Input;
use crate::plant::{Plant, Schedule, resolve};
use crate::run::{Ask, as_lived, solve};

/// Hours of the cold snap.
const SNAP_H: usize = 72;
/// Hours an outage is followed at most: two weeks.
const OUTAGE_H: usize = 336;
/// Water freezes, C.
const FREEZES_C: f64 = 0.0;
/// A house is held at this so that nothing freezes, C (50 F, trade card F10).
pub(crate) const HELD_C: f64 = 10.0;

/// A room in the cold.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomInCold {
    /// Name.
    pub room: String,
    /// Has a heating setting.
    pub heated: bool,
    /// Least air in three days at the design temperature, C.
    pub least_c: f64,
    /// The same with the heads alone, C.
    pub heads_alone_c: f64,
    /// Hours from the stop of everything until it is at 10 C (50 F); None within two weeks.
    pub at_10c_h: Option<usize>,
    /// Hours until it freezes; None within two weeks.
    pub freezes_h: Option<usize>,
}

/// Three days at the design temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct Snap {
    /// Outdoors, C.
    pub outdoor_c: f64,
    /// Heat by heads over the three days, J.
    pub heads_j: f64,
    /// Heat by heaters, J.
    pub heaters_j: f64,
    /// Hours in which a heater gives heat.
    pub heaters_h: usize,
    /// Largest hour of heaters, W.
    pub heaters_most_w: f64,
    /// Rooms.
    pub rooms: Vec<RoomInCold>,
}

/// Runs three days at `outdoor_c`, day and night, without sun, after the weather that led up to the
/// coldest days of the file; and from the same start a stop of everything in the same cold.
pub(crate) fn snap(input: &Input<'_>, outdoor_c: f64) -> Result<Option<Snap>, SeasonError> {
    let Some(coldest) = coldest_days(input.weather, 3) else {
        return Ok(None);
    };
    let schedule = Schedule::new(input.model);
    let plant = resolve(input, input.choice, input.job.heaters_beside(), &schedule)?;
    let mut alone = plant.clone();
    alone.heaters.clear();
    alone.taps.clear();
    alone.taps_of = vec![Vec::new(); input.model.zones.len()];
    let steps = input.drive.steps;
    let first = coldest.first_hour;
    let cold = dark(input.drive, first, OUTAGE_H.min(steps), outdoor_c);
    let cold_input = Input {
        drive: &cold,
        ..*input
    };
    let mut with = Stepped::new(&cold_input, &plant, &schedule)?;
    let lead = (WARM_UP_DAYS * 24).min(steps);
    for i in 0..lead {
        with.step((first + steps - lead + i) % steps);
    }
    let mut without = Stepped {
        plant: &alone,
        ask: Ask::new(&alone, input.model.zones.len()),
        ..with.clone()
    };
    let mut stopped = with.balance.clone();
    let zones = input.model.zones.len();
    let mut least = vec![f64::INFINITY; zones];
    let mut least_alone = vec![f64::INFINITY; zones];
    let mut found = Snap {
        outdoor_c,
        heads_j: 0.0,
        heaters_j: 0.0,
        heaters_h: 0,
        heaters_most_w: 0.0,
        rooms: Vec::new(),
    };
    for i in 0..SNAP_H {
        let h = (first + i) % steps;
        with.step(h);
        without.step(h);
        let heads: f64 = with.ask.head_heat_w.iter().sum();
        let heaters: f64 = with.ask.tap_w.iter().sum();
        found.heads_j += heads * 3600.0;
        found.heaters_j += heaters * 3600.0;
        found.heaters_h += usize::from(heaters > 0.0);
        found.heaters_most_w = found.heaters_most_w.max(heaters);
        for (low, air) in least.iter_mut().zip(&with.ask.air_c) {
            *low = low.min(*air);
        }
        for (low, air) in least_alone.iter_mut().zip(&without.ask.air_c) {
            *low = low.min(*air);
        }
    }
    let mut at_held = vec![None; zones];
    let mut freezes = vec![None; zones];
    let off = vec![Supply::NONE; zones];
    for i in 0..OUTAGE_H.min(steps) {
        let h = (first + i) % steps;
        let got = stopped.step(h, &off);
        for (z, air) in got.air_c.iter().enumerate() {
            if *air <= HELD_C && at_held[z].is_none() {
                at_held[z] = Some(i + 1);
            }
            if *air <= FREEZES_C && freezes[z].is_none() {
                freezes[z] = Some(i + 1);
            }
        }
        stopped.accept(h);
        if freezes.iter().all(Option::is_some) {
            break;
        }
    }
    found.rooms = input
        .model
        .zones
        .iter()
        .enumerate()
        .filter(|(_, zone)| zone.room.is_some())
        .map(|(z, zone)| RoomInCold {
            room: zone.name.clone(),
            heated: zone.heated.is_some(),
            least_c: least[z],
            heads_alone_c: least_alone[z],
            at_10c_h: at_held[z],
            freezes_h: freezes[z],
        })
        .collect();
    Ok(Some(found))
}

/// The weather with so many hours from `first` at one temperature, without sun.
fn dark(drive: &Drive, first: usize, hours: usize, outdoor_c: f64) -> Drive {
    let mut cold = drive.clone();
    for i in 0..hours {
        let h = (first + i) % drive.steps;
        cold.outdoor_c[h] = outdoor_c;
        cold.felt_c[h * drive.faces..(h + 1) * drive.faces].fill(outdoor_c);
        let panes = h * drive.apertures..(h + 1) * drive.apertures;
        cold.beam_w_per_m2[panes.clone()].fill(0.0);
        cold.diffuse_w_per_m2[panes.clone()].fill(0.0);
        cold.outer_w_per_m2[panes.clone()].fill(0.0);
        cold.inner_w_per_m2[panes].fill(0.0);
    }
    cold
}

#[derive(Clone)]
struct Stepped<'s, 'a> {
    input: &'s Input<'a>,
    plant: &'s Plant,
    schedule: &'s Schedule,
    balance: Balance<'a>,
    ask: Ask,
}

impl<'s, 'a> Stepped<'s, 'a> {
    fn new(
        input: &'s Input<'a>,
        plant: &'s Plant,
        schedule: &'s Schedule,
    ) -> Result<Self, SeasonError> {
        let lived = as_lived(input);
        let model = lived.as_ref().unwrap_or(input.model);
        Ok(Self {
            input,
            plant,
            schedule,
            balance: Balance::new(model, input.glasses, input.drive, input.doors)?,
            ask: Ask::new(plant, model.zones.len()),
        })
    }

    fn step(&mut self, h: usize) {
        solve(
            &mut self.balance,
            &mut self.ask,
            self.plant,
            self.schedule,
            self.input,
            h,
        );
        self.balance.accept(h);
    }
}
