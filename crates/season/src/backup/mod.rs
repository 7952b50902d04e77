//! Backup: who carries which hours at which price, when to switch over, how to set what, and what
//! happens in the cold and without power.

mod charged;
mod settings;
mod snap;

pub use charged::{Charged, charged};
pub use settings::{Set, Setting};
pub use snap::{RoomInCold, Snap};

use jobfile::Carrier;

use crate::compare::year;
use crate::error::SeasonError;
use crate::input::{Design, Input};
use crate::line::Crossing;
use crate::switchover::break_even_cop;
use crate::year::Year;

/// What carries part of the year.
#[derive(Debug, Clone, PartialEq)]
pub struct Carried {
    /// `heads`, or the heater in words.
    pub by: String,
    /// What is bought for it.
    pub carrier: Carrier,
    /// Hours in which it gives heat.
    pub hours: usize,
    /// Heat, J.
    pub heat_j: f64,
    /// Bought, J.
    pub bought_j: f64,
    /// Money, by the flat price for a fuel and by the tariff for electricity; None without a price.
    pub cost: Option<f64>,
}

/// Prices a fifth up and down, and the temperature above which a unit is the cheaper heat.
#[derive(Debug, Clone, PartialEq)]
pub struct Sensitivity {
    /// Heater, in words.
    pub heater: String,
    /// Unit.
    pub unit: String,
    /// Price of electricity over the job's, price of the fuel over the job's, COP at which both
    /// cost the same, and where the unit's COP crosses it.
    pub cases: Vec<(f64, f64, f64, Crossing)>,
}

/// What backup must be able to give, W.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Needed {
    /// Outdoors, C.
    pub design_c: f64,
    /// What the house asks there.
    pub asks_w: f64,
    /// What the units give there; None where a sheet cannot tell, which counts as nothing.
    pub units_w: Option<f64>,
    /// What backup must add.
    pub adds_w: f64,
    /// What holds the house at 10 C (50 F) there without any unit.
    pub holds_w: f64,
    /// What all heaters that stay can give; infinite where the job does not say.
    pub there_is_w: f64,
}

/// Hot water that the heater taken out made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotWater {
    /// It goes with the heater, and something else must make it.
    pub lost: bool,
    /// People it is counted for.
    pub people: f64,
    /// Heat in the water of a year, J.
    pub heat_j: f64,
}

/// Everything of backup.
#[derive(Debug, Clone, PartialEq)]
pub struct Backup {
    /// The year it rests on.
    pub year: Year,
    /// Who carries what.
    pub carried: Vec<Carried>,
    /// Electricity of the units and electric heaters by the tariff; None without a tariff.
    pub charged: Option<Charged>,
    /// Switchover against prices.
    pub sensitivity: Vec<Sensitivity>,
    /// What backup must give; None without a design temperature or a line.
    pub needed: Option<Needed>,
    /// What to set.
    pub settings: Vec<Setting>,
    /// Three days at the design temperature, and an outage.
    pub snap: Option<Snap>,
    /// Hot water; None where the heater does not make it.
    pub hot_water: Option<HotWater>,
}

/// Backup of `input.choice`.
///
/// # Errors
/// As [`crate::year`].
pub fn backup(input: &Input<'_>) -> Result<Backup, SeasonError> {
    let year = year(input)?;
    let design = Design::of(input.job, input.weather);
    let needed = needed(input, &year, design.as_ref());
    let snap = match &design {
        Some(d) => snap::snap(input, d.outdoor_c)?,
        None => None,
    };
    let charged = by_tariff(input, &year);
    Ok(Backup {
        carried: carried(input, &year, charged.as_ref()),
        charged,
        sensitivity: sensitivity(input, &year),
        settings: settings::settings(input, &year, needed.as_ref()),
        needed,
        snap,
        hot_water: hot_water(input),
        year,
    })
}

/// Cost of the year's electricity for heating and cooling by the tariff: the bill with it, less the
/// bill of the rest of the house alone.
fn by_tariff(input: &Input<'_>, year: &Year) -> Option<Charged> {
    let prices = &input.job.prices;
    let tariff = prices.tariff.as_ref()?;
    let all_hours = tariff.periods.is_empty() && tariff.tiers.is_empty();
    let flat = prices.per_j(Carrier::Electricity);
    // Hours outside the periods need a price.
    let flat = match flat {
        Some(flat) => flat,
        None if all_hours || tariff.tiers.is_empty() => return None,
        None => 0.0,
    };
    let hours = year.electric_w.len().max(1) as f64;
    let other_w = tariff.other_j / (hours * 3600.0);
    let with: Vec<f64> = year.electric_w.iter().map(|w| w + other_w).collect();
    let without = vec![other_w; with.len()];
    let drive = input.drive;
    let bill = |w: &[f64]| charged(tariff, flat, w, &drive.month, &drive.hour_of_day);
    let (a, b) = (bill(&with), bill(&without));
    Some(Charged {
        energy: a.energy - b.energy,
        demand: a.demand - b.demand,
        fixed: a.fixed - b.fixed,
    })
}

fn carried(input: &Input<'_>, year: &Year, charged: Option<&Charged>) -> Vec<Carried> {
    let prices = &input.job.prices;
    let electric_j: f64 = year.electric_w.iter().sum::<f64>() * 3600.0;
    let per_j = match charged {
        // The whole bill, spread over what was used.
        Some(c) if electric_j > 0.0 => Some(c.all() / electric_j),
        _ => prices.per_j(Carrier::Electricity),
    };
    let units: f64 = year
        .units
        .iter()
        .map(|u| u.electric.heating_j() + u.electric.standby_j)
        .sum();
    let mut all = vec![Carried {
        by: "heads".to_owned(),
        carrier: Carrier::Electricity,
        hours: year.heads_w.iter().filter(|w| **w > 0.0).count(),
        heat_j: year.by_heads_j(),
        bought_j: units,
        cost: per_j.map(|p| p * units),
    }];
    all.extend(year.heaters.iter().map(|h| {
        let price = if h.carrier == Carrier::Electricity {
            per_j
        } else {
            prices.per_j(h.carrier)
        };
        Carried {
            by: h.words.clone(),
            carrier: h.carrier,
            hours: h.hours as usize,
            heat_j: h.heat_j,
            bought_j: h.bought_j,
            cost: price.map(|p| p * h.bought_j),
        }
    }));
    all
}

/// Prices looked at: electricity and fuel, over those of the job.
const CASES: [(f64, f64); 5] = [(1.0, 1.0), (0.8, 1.0), (1.2, 1.0), (1.0, 0.8), (1.0, 1.2)];

fn sensitivity(input: &Input<'_>, year: &Year) -> Vec<Sensitivity> {
    let prices = &input.job.prices;
    let Some(electricity) = prices.per_j(Carrier::Electricity) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for heater in year
        .heaters
        .iter()
        .filter(|h| h.carrier != Carrier::Electricity)
    {
        let Some(fuel) = prices.per_j(heater.carrier).filter(|p| *p > 0.0) else {
            continue;
        };
        for unit in &year.units {
            let cases = CASES
                .into_iter()
                .map(|(e, f)| {
                    let cop = break_even_cop(electricity * e, fuel * f, heater.efficiency);
                    (e, f, cop, unit.cheaper_above(cop))
                })
                .collect();
            all.push(Sensitivity {
                heater: heater.words.clone(),
                unit: unit.name.clone(),
                cases,
            });
        }
    }
    all
}

/// What backup must give at the design temperature.
///
/// **Equation** adds = asks - units, not below 0; holds = per_k (10 C - T)
///
/// **Symbols**
/// - asks: the house's line at the design temperature, W
/// - units: most of all units there, W
/// - per_k: slope of the line, W/K; T: design temperature, C
///
/// **Range** a house whose line could be drawn
///
/// **Source** `trade-cards`, F10
///
/// **Example** 9,000 W asked, 7,000 W given: 2,000 W
fn needed(input: &Input<'_>, year: &Year, design: Option<&Design>) -> Option<Needed> {
    let (design, line) = (design?, year.need?);
    let asks_w = line.at(design.outdoor_c);
    let units_w: Option<f64> = year
        .units
        .iter()
        .map(|u| u.at_design.map(|g| g.max_w))
        .sum();
    let there_is_w = input
        .job
        .heaters_beside()
        .map(|h| h.capacity_w.unwrap_or(f64::INFINITY))
        .sum();
    Some(Needed {
        design_c: design.outdoor_c,
        asks_w,
        units_w,
        adds_w: (asks_w - units_w.unwrap_or(0.0)).max(0.0),
        holds_w: (line.per_k_w * (snap::HELD_C - design.outdoor_c)).max(0.0),
        there_is_w,
    })
}

/// Hot water for a person and a day, and how far it is warmed: 50 L by 40 K (common practice).
const WATER_KG_A_DAY: f64 = 50.0;
const WATER_WARMED_K: f64 = 40.0;
/// Specific heat of water, J/(kg K).
const WATER_J_PER_KGK: f64 = 4186.0;

/// Hot water of the heater that is there now.
///
/// **Equation** Q = 365 n m c dT
///
/// **Symbols** n people; m 50 kg a person and day; c 4186 J/(kg K); dT 40 K
///
/// **Range** at least one person
///
/// **Source** `common-practice`, no source for the use
///
/// **Example** three people: 2,546 kWh a year in the water
fn hot_water(input: &Input<'_>) -> Option<HotWater> {
    let existing = input.job.existing.as_ref().filter(|h| h.hot_water)?;
    let slept: f64 = input
        .model
        .zones
        .iter()
        .filter(|z| z.used_for == house::describe::Use::Sleeping)
        .map(|z| z.people)
        .sum();
    let people = slept.max(1.0);
    Some(HotWater {
        lost: !existing.stays,
        people,
        heat_j: 365.0 * people * WATER_KG_A_DAY * WATER_J_PER_KGK * WATER_WARMED_K,
    })
}
