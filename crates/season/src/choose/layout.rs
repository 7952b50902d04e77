//! The house's year with heads that always suffice in some rooms: what those rooms ask, hour by
//! hour, whatever unit is put behind them.

use climate::design::coldest_days;
use house::balance::{Balance, Supply};

use super::sag::{Sag, WATCHED_H};
use crate::error::SeasonError;
use crate::input::Input;
use crate::plant::{Plant, Schedule, resolve};
use crate::run::{Ask, MOST_ROUNDS, as_lived};
use house::ideal::WARM_UP_DAYS;
use jobfile::{Choice, Equipment};

/// An hour, s.
const HOUR_S: f64 = 3600.0;
/// The part of a room's heat that is held back to see how it sags, and the least of it, W.
const HELD_BACK: f64 = 0.3;
const LEAST_HELD_BACK_W: f64 = 100.0;

/// A room with a head.
#[derive(Debug, Clone)]
pub(crate) struct Served {
    /// Zone of the model.
    pub zone: usize,
    /// Heat asked of each hour, W; cooling below zero.
    pub need_w: Vec<f64>,
    /// How far its air is above the heating setting, K; 0 while it is held there.
    pub above_k: Vec<f64>,
    /// Largest hour of heating, W, and the air outdoors then, C.
    pub peak: (f64, f64),
    /// How it sags.
    pub sag: Sag,
    /// Heat more from each heater in other rooms for one lacking here.
    pub others: Vec<f64>,
    /// How far the heater behind the head is set below it, K, the most it gives, W, which heater,
    /// and the outdoor temperature above which it is locked out, C.
    pub backup: Option<(f64, f64, usize, f64)>,
}

/// A year with heads that always suffice.
#[derive(Debug, Clone)]
pub(crate) struct LayoutYear {
    /// Rooms with heads, in the order asked.
    pub rooms: Vec<Served>,
    /// Kelvin below the setting times hours in all heated rooms, K h.
    pub comfort_k_h: f64,
    /// Heat from each heater of the job, J.
    pub heater_j: Vec<f64>,
}

/// What is the same for all layouts of a house.
#[derive(Debug)]
pub(crate) struct Ground<'a> {
    pub input: Input<'a>,
    pub schedule: Schedule,
    /// The heaters beside the heat pump alone.
    pub heaters: Plant,
    /// First hour of the coldest days.
    watched_from: usize,
}

impl<'a> Ground<'a> {
    pub fn new(input: Input<'a>) -> Result<Self, SeasonError> {
        let schedule = Schedule::new(input.model);
        let nothing = Choice {
            name: String::new(),
            equipment: Equipment::default(),
        };
        let heaters = resolve(&input, &nothing, input.job.heaters_beside(), &schedule)?;
        let steps = input.drive.steps;
        if input.drive.per_hour != 1 || steps != input.weather.len() || steps == 0 {
            return Err(SeasonError::Steps {
                got: steps,
                want: input.weather.len(),
            });
        }
        Ok(Self {
            watched_from: coldest_days(input.weather, 3).map_or(0, |d| d.first_hour),
            input,
            schedule,
            heaters,
        })
    }

    /// Runs the year with heads in these zones; the flag says whether they can cool.
    pub fn year(&self, heads: &[(usize, bool)]) -> Result<LayoutYear, SeasonError> {
        let (input, drive) = (&self.input, self.input.drive);
        let steps = drive.steps;
        let lived = as_lived(input);
        let model = lived.as_ref().unwrap_or(input.model);
        let mut plant = self.heaters.clone();
        for (zone, _) in heads {
            if let Some(taps) = plant.taps_of.get_mut(*zone) {
                taps.clear();
            }
        }
        let mut house = Stepped {
            ground: self,
            plant: &plant,
            heads,
            balance: Balance::new(model, input.glasses, drive, input.doors)?,
            ask: Ask::new(&plant, model.zones.len()),
        };
        for h in steps - (WARM_UP_DAYS * 24).min(steps)..steps {
            house.step(h, &[]);
            house.balance.accept(h);
        }
        let mut year = LayoutYear {
            rooms: heads.iter().map(|(zone, _)| self.served(*zone)).collect(),
            comfort_k_h: 0.0,
            heater_j: vec![0.0; plant.heaters.len()],
        };
        let mut watched = None;
        for h in 0..steps {
            if h == self.watched_from {
                watched = Some(house.clone());
            }
            house.step(h, &[]);
            year.take(h, &house);
            house.balance.accept(h);
        }
        if let Some(start) = watched {
            self.watch(&start, &mut year);
        }
        Ok(year)
    }

    fn served(&self, zone: usize) -> Served {
        let steps = self.input.drive.steps;
        let first = self.heaters.taps_of.get(zone).and_then(|t| t.first());
        let backup = first.and_then(|t| {
            let heater = self.heaters.taps.get(*t)?.heater;
            let of = self.heaters.heaters.get(heater)?;
            let locked = of.locked_out_above_c;
            Some((of.set_below_k, of.capacity_w, heater, locked))
        });
        Served {
            zone,
            need_w: Vec::with_capacity(steps),
            above_k: Vec::with_capacity(steps),
            peak: (0.0, f64::NAN),
            sag: Sag::default(),
            others: vec![0.0; self.heaters.heaters.len()],
            backup,
        }
    }

    /// Holds back heat from each room in turn, in the coldest days, and fits how it sags.
    fn watch(&self, start: &Stepped<'_, 'a>, year: &mut LayoutYear) {
        let hour = |i: usize| (self.watched_from + i) % self.input.drive.steps;
        let as_asked: Vec<Hour> = start.clone().run(WATCHED_H, hour, None);
        for (head, room) in year.rooms.iter_mut().enumerate() {
            let z = room.zone;
            let asked: Vec<f64> = as_asked.iter().map(|h| h.zone_w[z].max(0.0)).collect();
            let mean = asked.iter().sum::<f64>() / WATCHED_H as f64;
            let back = (HELD_BACK * mean).max(LEAST_HELD_BACK_W);
            let limits: Vec<f64> = asked.iter().map(|q| (q - back).max(0.0)).collect();
            let got = start.clone().run(WATCHED_H, hour, Some((head, &limits)));
            let mut lacked = Vec::with_capacity(WATCHED_H);
            let mut sagged = Vec::with_capacity(WATCHED_H);
            let mut others_k_h = 0.0;
            for (a, b) in as_asked.iter().zip(&got) {
                lacked.push(a.zone_w[z] - b.zone_w[z]);
                sagged.push(a.air_c[z] - b.air_c[z]);
                for (k, of) in self.input.model.zones.iter().enumerate() {
                    if k != z && of.heated.is_some() {
                        others_k_h += (a.air_c[k] - b.air_c[k]).max(0.0);
                    }
                }
                for (i, share) in room.others.iter_mut().enumerate() {
                    *share += b.heater_w[i] - a.heater_w[i];
                }
            }
            let lacking: f64 = lacked.iter().sum();
            let sags: f64 = sagged.iter().sum();
            for share in &mut room.others {
                *share = if lacking > 0.0 {
                    (*share / lacking).max(0.0)
                } else {
                    0.0
                };
            }
            room.sag = Sag::fit(&lacked, &sagged);
            room.sag.others = if sags > 0.0 { others_k_h / sags } else { 0.0 };
        }
    }
}

/// What is kept of a watched hour.
struct Hour {
    zone_w: Vec<f64>,
    air_c: Vec<f64>,
    heater_w: Vec<f64>,
}

/// The house with its ideal heads, stepped.
#[derive(Clone)]
struct Stepped<'p, 'a> {
    ground: &'p Ground<'a>,
    plant: &'p Plant,
    heads: &'p [(usize, bool)],
    balance: Balance<'p>,
    ask: Ask,
}

impl Stepped<'_, '_> {
    /// Solves an hour; `limits` names heads that may give so much heat and no more.
    fn step(&mut self, h: usize, limits: &[(usize, f64)]) {
        let (ground, input) = (self.ground, &self.ground.input);
        let of_day = usize::from(input.drive.hour_of_day[h]);
        let outdoor_c = input.drive.outdoor_c[h];
        self.ask
            .open(self.plant, &ground.schedule, outdoor_c, of_day);
        let heat_c = ground.schedule.heat_c(of_day);
        let cool_c = ground.schedule.cool_c(of_day);
        for (head, (zone, cools)) in self.heads.iter().enumerate() {
            let most = limits.iter().find(|(i, _)| *i == head);
            self.ask.supply[*zone] = Supply {
                heat_to_c: heat_c[*zone],
                heat_most_w: most.map_or(f64::INFINITY, |(_, w)| *w),
                cool_to_c: cool_c[*zone],
                cool_most_w: if *cools { f64::INFINITY } else { 0.0 },
                ..Supply::NONE
            };
        }
        for _ in 0..MOST_ROUNDS {
            let got = self.balance.step(h, &self.ask.supply);
            self.ask.share_out(self.plant, &got);
            if !self.ask.curtail(self.plant) {
                break;
            }
            self.ask.fill(self.plant, &ground.schedule, of_day);
        }
    }

    fn run(
        mut self,
        hours: usize,
        hour: impl Fn(usize) -> usize,
        held: Option<(usize, &[f64])>,
    ) -> Vec<Hour> {
        let mut all = Vec::with_capacity(hours);
        for i in 0..hours {
            let limit = held.and_then(|(head, w)| Some((head, *w.get(i)?)));
            self.step(hour(i), limit.as_slice());
            all.push(Hour {
                zone_w: self.ask.zone_w.clone(),
                air_c: self.ask.air_c.clone(),
                heater_w: self.heaters_w(),
            });
            self.balance.accept(hour(i));
        }
        all
    }

    fn heaters_w(&self) -> Vec<f64> {
        let heaters = self.plant.heaters.iter();
        heaters
            .map(|h| self.ask.tap_w[h.first_tap..h.end_tap].iter().sum())
            .collect()
    }
}

impl LayoutYear {
    fn take(&mut self, h: usize, house: &Stepped<'_, '_>) {
        let input = &house.ground.input;
        let of_day = usize::from(input.drive.hour_of_day[h]);
        let heat_c = house.ground.schedule.heat_c(of_day);
        for (z, setting) in heat_c.iter().enumerate() {
            self.comfort_k_h += (setting - house.ask.air_c[z]).max(0.0);
        }
        for (sum, w) in self.heater_j.iter_mut().zip(house.heaters_w()) {
            *sum += w * HOUR_S;
        }
        for room in &mut self.rooms {
            let q = house.ask.zone_w[room.zone];
            room.need_w.push(q);
            let above = house.ask.air_c[room.zone] - heat_c[room.zone];
            room.above_k
                .push(if q > 0.0 { 0.0 } else { above.max(0.0) });
            if q > room.peak.0 {
                room.peak = (q, input.drive.outdoor_c[h]);
            }
        }
    }
}
