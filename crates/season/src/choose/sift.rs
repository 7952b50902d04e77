//! The quick year of every candidate, and how wrong it can be.

use std::collections::BTreeMap;

use jobfile::{Carrier, Choice, Equipment};

use super::Wishes;
use super::layout::{Ground, LayoutYear};
use super::measure::{Aim, Measure};
use super::quick::{SystemYear, system_year};
use crate::error::SeasonError;
use crate::hands::each;
use crate::plant::{Plant, resolve};

/// Rooms with heads and whether they cool, in the order of the model.
pub(super) type Layout = Vec<(usize, bool)>;
/// An outdoor unit and its heads by zone.
type SystemKey = (String, Vec<(usize, String)>);

/// A candidate's quick year.
#[derive(Debug, Clone, Copy)]
pub(super) struct Quick {
    pub measure: Measure,
    /// Heat asked and not given, as a share of the heat of the year.
    lacked: f64,
    /// Kelvin hours that come of it.
    short_k_h: f64,
    /// Room hours of it.
    short_h: f64,
}

impl Quick {
    /// How far the whole year may lie from the quick one: what was seen on the example jobs, and
    /// as much again (`docs/decisions`).
    pub fn off(&self, aim: Aim) -> f64 {
        let share = 0.002 + self.lacked;
        match aim {
            Aim::Comfort => 10.0 + 0.8 * self.short_k_h,
            Aim::Cycling => 10.0 + 0.01 * self.measure.cycling_h + 0.3 * self.short_h,
            Aim::Cost => 1.0 + share * self.measure.cost.unwrap_or(0.0),
            Aim::Carbon => 5.0 + share * self.measure.carbon_kg.unwrap_or(0.0),
            Aim::Equipment | Aim::Holes => 0.0,
        }
    }
}

/// How much was worked out.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Effort {
    pub layouts: usize,
    pub systems: usize,
}

/// The quick year of every choice; None where it has none (two heads in a room, units that do not
/// go together), so that it is run whole. `known` are layouts that have been run already.
pub(super) fn quick_years(
    ground: &Ground<'_>,
    choices: &[Choice],
    wishes: &Wishes,
    known: &mut BTreeMap<Layout, LayoutYear>,
) -> Result<(Vec<Option<Quick>>, Effort), SeasonError> {
    let parsed: Vec<Option<(Layout, Vec<SystemKey>)>> = choices
        .iter()
        .map(|c| parts(ground, &c.equipment))
        .collect();
    let mut layouts: Vec<Layout> = parsed.iter().flatten().map(|(l, _)| l.clone()).collect();
    layouts.sort_unstable();
    layouts.dedup();
    run_layouts(ground, &layouts, wishes, known)?;

    let mut keys: Vec<(&Layout, &SystemKey)> = parsed
        .iter()
        .flatten()
        .flat_map(|(l, systems)| systems.iter().map(move |s| (l, s)))
        .collect();
    keys.sort_unstable();
    keys.dedup();
    let mut plants: Vec<&SystemKey> = keys.iter().map(|(_, s)| *s).collect();
    plants.sort_unstable();
    plants.dedup();
    let made = each(wishes.threads, plants.len(), |i| {
        plants.get(i).and_then(|key| plant(ground, key))
    });
    let made: BTreeMap<&SystemKey, Option<Plant>> = plants.iter().copied().zip(made).collect();
    let years = each(wishes.threads, keys.len(), |i| {
        let (layout, key) = keys.get(i)?;
        let of = known.get(*layout)?;
        let plant = made.get(key)?.as_ref()?;
        let rooms: Option<Vec<usize>> = key
            .1
            .iter()
            .map(|(z, _)| of.rooms.iter().position(|r| r.zone == *z))
            .collect();
        Some(system_year(&ground.input, of, plant, &rooms?))
    });
    let effort = Effort {
        layouts: layouts.len(),
        systems: keys.len(),
    };
    let years: BTreeMap<(&Layout, &SystemKey), Option<SystemYear>> =
        keys.iter().copied().zip(years).collect();
    let quick = choices
        .iter()
        .zip(&parsed)
        .map(|(choice, parts)| {
            let (layout, systems) = parts.as_ref()?;
            let of = known.get(layout)?;
            let all: Option<Vec<&SystemYear>> = systems
                .iter()
                .map(|s| years.get(&(layout, s))?.as_ref())
                .collect();
            Some(sum(ground, of, &all?, &choice.equipment, wishes))
        })
        .collect();
    Ok((quick, effort))
}

/// Runs the layouts that have not been run yet.
pub(super) fn run_layouts(
    ground: &Ground<'_>,
    layouts: &[Layout],
    wishes: &Wishes,
    known: &mut BTreeMap<Layout, LayoutYear>,
) -> Result<(), SeasonError> {
    let fresh: Vec<&Layout> = layouts.iter().filter(|l| !known.contains_key(*l)).collect();
    let run = each(wishes.threads, fresh.len(), |i| {
        ground.year(fresh.get(i).map_or(&[], |l| l.as_slice()))
    });
    for (layout, year) in fresh.into_iter().zip(run) {
        known.insert(layout.clone(), year?);
    }
    Ok(())
}

/// Rooms and systems of a choice; None where the quick year does not know it.
fn parts(ground: &Ground<'_>, equipment: &Equipment) -> Option<(Layout, Vec<SystemKey>)> {
    let zones = &ground.input.model.zones;
    let mut layout = Layout::new();
    let mut systems = Vec::new();
    for outdoor in &equipment.outdoors {
        let cools = !ground
            .input
            .catalogue
            .get(&outdoor.unit)?
            .cooling
            .is_empty();
        let mut heads = Vec::new();
        for head in equipment.heads_on(&outdoor.name) {
            let zone = zones
                .iter()
                .position(|z| z.room.is_some() && z.name == head.room)?;
            if layout.iter().any(|(z, _)| *z == zone) {
                return None;
            }
            layout.push((zone, cools));
            heads.push((zone, head.unit.clone()));
        }
        systems.push((outdoor.unit.clone(), heads));
    }
    layout.sort_unstable();
    Some((layout, systems))
}

fn plant(ground: &Ground<'_>, (outdoor, heads): &SystemKey) -> Option<Plant> {
    let name = |zone: usize| ground.input.model.zones.get(zone).map(|z| z.name.clone());
    let choice = Choice {
        name: String::new(),
        equipment: Equipment {
            outdoors: vec![jobfile::OutdoorChoice {
                name: String::new(),
                unit: outdoor.clone(),
                serial: None,
            }],
            heads: heads
                .iter()
                .map(|(zone, unit)| {
                    let room = name(*zone)?;
                    Some(jobfile::HeadChoice {
                        name: room.clone(),
                        room,
                        unit: unit.clone(),
                        on: String::new(),
                        serial: None,
                    })
                })
                .collect::<Option<_>>()?,
        },
    };
    resolve(&ground.input, &choice, std::iter::empty(), &ground.schedule).ok()
}

fn sum(
    ground: &Ground<'_>,
    layout: &LayoutYear,
    systems: &[&SystemYear],
    equipment: &Equipment,
    wishes: &Wishes,
) -> Quick {
    let prices = &ground.input.job.prices;
    let electric: f64 = systems.iter().map(|s| s.electric_j).sum();
    let (mut bought, mut heat) = (vec![(Carrier::Electricity, electric)], 0.0);
    for (i, (heater, base)) in ground
        .heaters
        .heaters
        .iter()
        .zip(&layout.heater_j)
        .enumerate()
    {
        let j = base
            + systems
                .iter()
                .filter_map(|s| s.heater_j.get(i))
                .sum::<f64>();
        heat += j;
        bought.push((heater.carrier, j / heater.efficiency));
    }
    heat += systems.iter().map(|s| s.heat_j).sum::<f64>();
    let lacked: f64 = systems.iter().map(|s| s.lacked_j).sum();
    let short_k_h: f64 = systems.iter().map(|s| s.short_k_h).sum();
    Quick {
        measure: Measure {
            comfort_k_h: layout.comfort_k_h + short_k_h,
            cycling_h: systems.iter().map(|s| f64::from(s.cycling_h)).sum(),
            cost: bought
                .iter()
                .map(|(c, j)| prices.per_j(*c).map(|p| p * j))
                .sum(),
            carbon_kg: bought
                .iter()
                .map(|(c, j)| prices.carbon_of(*c).map(|k| k.kg_per_j * j))
                .sum(),
            equipment: equipment_cost(equipment, wishes),
            holes: holes(equipment),
        },
        lacked: if heat > 0.0 { lacked / heat } else { 0.0 },
        short_k_h,
        short_h: systems.iter().map(|s| f64::from(s.short_h)).sum(),
    }
}

/// Price of all units; None where one has none.
pub(super) fn equipment_cost(equipment: &Equipment, wishes: &Wishes) -> Option<f64> {
    let outdoors = equipment.outdoors.iter().map(|o| &o.unit);
    let heads = equipment.heads.iter().map(|h| &h.unit);
    outdoors
        .chain(heads)
        .map(|unit| wishes.prices.get(unit).copied())
        .sum()
}

/// Holes in the outside wall: one for the lines of each head, one for the feed of each outdoor
/// unit (common practice, no source).
pub(super) fn holes(equipment: &Equipment) -> f64 {
    (equipment.heads.len() + equipment.outdoors.len()) as f64
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use jobfile::{Equipment, HeadChoice, OutdoorChoice};

    use super::{Aim, Measure, Quick, Wishes, equipment_cost, holes};

    #[test]
    fn what_is_lacking_widens_the_bound() {
        // Example: 3 % of the heat lacking, which made 100 K h in 20 hours.
        let quick = Quick {
            measure: Measure {
                cycling_h: 1000.0,
                cost: Some(2000.0),
                carbon_kg: Some(5000.0),
                ..Measure::default()
            },
            lacked: 0.03,
            short_k_h: 100.0,
            short_h: 20.0,
        };
        for (aim, want) in [
            (Aim::Comfort, 10.0 + 80.0),
            (Aim::Cycling, 10.0 + 10.0 + 6.0),
            // 0.2 % for what is not lacking
            (Aim::Cost, 1.0 + 64.0),
            (Aim::Carbon, 5.0 + 160.0),
            // known without a year
            (Aim::Equipment, 0.0),
            (Aim::Holes, 0.0),
        ] {
            let got = quick.off(aim);
            assert!((got - want).abs() < 1e-9, "{aim:?}: {got}");
        }
    }

    #[test]
    fn every_unit_is_paid_and_every_line_has_a_hole() {
        let outdoor = OutdoorChoice {
            name: "a".to_owned(),
            unit: "Grebe 20".to_owned(),
            serial: None,
        };
        let head = HeadChoice {
            name: "living".to_owned(),
            room: "living".to_owned(),
            unit: "Teal 9".to_owned(),
            on: "a".to_owned(),
            serial: None,
        };
        let two = Equipment {
            outdoors: vec![outdoor],
            heads: vec![head.clone(), head],
        };
        let prices = [
            ("Grebe 20".to_owned(), 2400.0),
            ("Teal 9".to_owned(), 700.0),
        ];
        let mut wishes = Wishes {
            prices: BTreeMap::from(prices),
            ..Wishes::default()
        };
        assert_eq!(equipment_cost(&two, &wishes), Some(3800.0));
        wishes.prices.remove("Teal 9");
        assert_eq!(equipment_cost(&two, &wishes), None);
        // Two lines and the feed of the outdoor unit.
        assert_eq!(holes(&two), 3.0);
    }
}
