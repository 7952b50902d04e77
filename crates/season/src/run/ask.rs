//! What every head and heater may give in an hour, and what each is asked for.

use house::balance::{Outcome, Supply};

use crate::plant::{Plant, Schedule};

/// Passing a limit by less than this share is rounding.
const ROUNDING: f64 = 1e-9;

/// Limits and answers of one hour; kept over the year to spare allocation.
#[derive(Debug, Clone)]
pub(crate) struct Ask {
    /// What the balance is given.
    pub supply: Vec<Supply>,
    /// Heat of each zone, W (cooling below zero), and its air, C.
    pub zone_w: Vec<f64>,
    pub air_c: Vec<f64>,
    /// By head: most heat, most sensible cooling, what it gives of each, W.
    heat_limit_w: Vec<f64>,
    cool_limit_w: Vec<f64>,
    pub head_heat_w: Vec<f64>,
    pub head_cool_w: Vec<f64>,
    /// By tap: most heat, what it gives, W.
    tap_limit_w: Vec<f64>,
    pub tap_w: Vec<f64>,
    /// By unit: most heat and sensible cooling of all its heads, sensible share of cooling.
    pub unit_heat_w: Vec<f64>,
    unit_cool_w: Vec<f64>,
    pub sensible: Vec<f64>,
    /// By unit: its heads were cut because together they asked for more than it gives.
    pub cut: Vec<bool>,
}

impl Ask {
    pub fn new(plant: &Plant, zones: usize) -> Self {
        let (heads, taps, units) = (plant.heads.len(), plant.taps.len(), plant.units.len());
        Self {
            supply: super::nothing(zones),
            zone_w: vec![0.0; zones],
            air_c: vec![0.0; zones],
            heat_limit_w: vec![0.0; heads],
            cool_limit_w: vec![0.0; heads],
            head_heat_w: vec![0.0; heads],
            head_cool_w: vec![0.0; heads],
            tap_limit_w: vec![0.0; taps],
            tap_w: vec![0.0; taps],
            unit_heat_w: vec![0.0; units],
            unit_cool_w: vec![0.0; units],
            sensible: vec![1.0; units],
            cut: vec![false; units],
        }
    }

    /// Sets the limits of an hour by its outdoor temperature.
    pub fn open(&mut self, plant: &Plant, schedule: &Schedule, outdoor_c: f64, of_day: usize) {
        for (u, unit) in plant.units.iter().enumerate() {
            let off = outdoor_c < plant.off_below_c;
            let heat = unit.heating.as_ref().ok().and_then(|p| p.range(outdoor_c));
            let cool = unit.cooling.as_ref().and_then(|p| p.range(outdoor_c));
            let sensible = unit
                .cooling
                .as_ref()
                .and_then(|p| p.sensible_share(outdoor_c))
                .unwrap_or(1.0);
            self.unit_heat_w[u] = heat.filter(|_| !off).map_or(0.0, |r| r.max_w);
            self.unit_cool_w[u] = cool.map_or(0.0, |r| r.max_w * sensible);
            self.sensible[u] = sensible;
            self.cut[u] = false;
            for i in unit.first_head..unit.end_head {
                let head = &plant.heads[i];
                self.heat_limit_w[i] = head.heat_most_w.min(self.unit_heat_w[u]);
                self.cool_limit_w[i] = (head.cool_most_w * sensible).min(self.unit_cool_w[u]);
            }
        }
        for (limit, tap) in self.tap_limit_w.iter_mut().zip(&plant.taps) {
            let heater = &plant.heaters[tap.heater];
            let locked = outdoor_c > heater.locked_out_above_c;
            *limit = if locked { 0.0 } else { heater.capacity_w };
        }
        self.fill(plant, schedule, of_day);
    }

    /// Writes the limits into what the balance is given.
    pub fn fill(&mut self, plant: &Plant, schedule: &Schedule, of_day: usize) {
        let (heat_c, cool_c) = (schedule.heat_c(of_day), schedule.cool_c(of_day));
        for (z, supply) in self.supply.iter_mut().enumerate() {
            let (heads, taps) = (&plant.heads_of[z], &plant.taps_of[z]);
            if heads.is_empty() && taps.is_empty() {
                continue;
            }
            let sum = |of: &[usize], limit: &[f64]| of.iter().map(|i| limit[*i]).sum::<f64>();
            let below = plant.set_below_k(z).unwrap_or(0.0);
            *supply = Supply {
                heat_to_c: heat_c[z],
                heat_most_w: sum(heads, &self.heat_limit_w),
                backup_to_c: heat_c[z] - below,
                backup_most_w: sum(taps, &self.tap_limit_w),
                cool_to_c: cool_c[z],
                cool_most_w: sum(heads, &self.cool_limit_w),
            };
        }
    }

    /// Shares each zone's heat among its heads and heaters: heads by what they can give, heaters
    /// one after the other.
    pub fn share_out(&mut self, plant: &Plant, got: &Outcome<'_>) {
        self.zone_w.copy_from_slice(got.heat_w);
        self.air_c.copy_from_slice(got.air_c);
        self.head_heat_w.fill(0.0);
        self.head_cool_w.fill(0.0);
        self.tap_w.fill(0.0);
        for z in 0..self.supply.len() {
            let (q, supply) = (self.zone_w[z], &self.supply[z]);
            if q > 0.0 {
                let backup = if plant.heads_of[z].is_empty() {
                    q
                } else {
                    got.backup_w(z, supply)
                };
                let by_heads = q - backup;
                for &i in &plant.heads_of[z] {
                    self.head_heat_w[i] = part(by_heads, self.heat_limit_w[i], supply.heat_most_w);
                }
                let mut left = backup;
                for &t in &plant.taps_of[z] {
                    self.tap_w[t] = left.min(self.tap_limit_w[t]);
                    left -= self.tap_w[t];
                }
            } else if q < 0.0 {
                for &i in &plant.heads_of[z] {
                    self.head_cool_w[i] = part(-q, self.cool_limit_w[i], supply.cool_most_w);
                }
            }
        }
    }

    /// Lowers the limits of what is asked for more than it gives; true if any was lowered and the
    /// hour must be solved again. Heads that did not ask get nothing more in such an hour.
    pub fn curtail(&mut self, plant: &Plant) -> bool {
        let mut lowered = false;
        for (u, unit) in plant.units.iter().enumerate() {
            let heads = unit.first_head..unit.end_head;
            let heat: f64 = self.head_heat_w[heads.clone()].iter().sum();
            let cool: f64 = self.head_cool_w[heads.clone()].iter().sum();
            // One outdoor unit either heats or cools: the greater asking wins.
            if heat > 0.0 && cool > 0.0 {
                let loses = if heat >= cool {
                    &mut self.cool_limit_w
                } else {
                    &mut self.heat_limit_w
                };
                loses[heads].fill(0.0);
                lowered = true;
                continue;
            }
            let heat_most = self.unit_heat_w[u];
            if heat > heat_most * (1.0 + ROUNDING) {
                for i in heads.clone() {
                    self.heat_limit_w[i] = self.head_heat_w[i] * heat_most / heat;
                }
                self.cut[u] = true;
                lowered = true;
            }
            let cool_most = self.unit_cool_w[u];
            if cool > cool_most * (1.0 + ROUNDING) {
                for i in heads {
                    self.cool_limit_w[i] = self.head_cool_w[i] * cool_most / cool;
                }
                lowered = true;
            }
        }
        for heater in &plant.heaters {
            let taps = heater.first_tap..heater.end_tap;
            let asked: f64 = self.tap_w[taps.clone()].iter().sum();
            if asked > heater.capacity_w * (1.0 + ROUNDING) {
                for t in taps {
                    self.tap_limit_w[t] = self.tap_w[t] * heater.capacity_w / asked;
                }
                lowered = true;
            }
        }
        lowered
    }

    /// Whether the heads of a zone give all they may.
    pub fn head_full(&self, zone: usize, plant: &Plant) -> bool {
        let heads = &plant.heads_of[zone];
        let gives: f64 = heads.iter().map(|i| self.head_heat_w[*i]).sum();
        let most: f64 = heads.iter().map(|i| self.heat_limit_w[*i]).sum();
        gives > 0.0 && gives >= most * (1.0 - ROUNDING)
    }
}

/// The part of `q` that falls to one of several, by its limit in the sum of limits.
#[inline]
fn part(q: f64, limit: f64, of: f64) -> f64 {
    if of > 0.0 { q * (limit / of) } else { 0.0 }
}
