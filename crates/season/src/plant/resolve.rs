//! From the names of a choice to a plant.

use heatpump::{Conditions, Duty, Head, OutdoorUnit, Performance, Sheet, System};
use house::model::Model;
use jobfile::{Choice, HeadChoice, Heater, HeaterKind};

use super::{HeadAt, HeaterAt, PanTable, Plant, Schedule, Tap, Unit};
use crate::error::SeasonError;
use crate::input::{Catalogue, Input};

/// Indoor air where no room of a unit has a setting, C (70 F), as sheets are tested.
pub(crate) const TESTED_INDOOR_C: f64 = 190.0 / 9.0;
/// Indoor air for cooling where no room has a setting, C (80 F), as sheets are tested.
const TESTED_COOLING_C: f64 = 240.0 / 9.0;

/// Wires the choice and the heaters to the zones.
pub(crate) fn resolve<'h>(
    input: &Input<'_>,
    choice: &Choice,
    heaters: impl Iterator<Item = &'h Heater>,
    schedule: &Schedule,
) -> Result<Plant, SeasonError> {
    let zones = input.model.zones.len();
    let hours = input.weather.len().max(1) as f64;
    let pressure_pa = input.weather.pressure_pa.iter().sum::<f64>() / hours;
    let mut plant = Plant {
        units: Vec::new(),
        heads: Vec::new(),
        heaters: Vec::new(),
        taps: Vec::new(),
        heads_of: vec![Vec::new(); zones],
        taps_of: vec![Vec::new(); zones],
        off_below_c: input.job.habits.off_below_c.unwrap_or(f64::NEG_INFINITY),
    };
    for head in &choice.equipment.heads {
        if !choice.equipment.outdoors.iter().any(|o| o.name == head.on) {
            return Err(SeasonError::NoOutdoor {
                head: head.name.clone(),
                on: head.on.clone(),
            });
        }
    }
    for outdoor in &choice.equipment.outdoors {
        let sheet = sheet_of(
            input.catalogue,
            "outdoor unit",
            &outdoor.name,
            &outdoor.unit,
        )?;
        let not = |why| SeasonError::NotASystem {
            name: outdoor.name.clone(),
            why,
        };
        let mut heads = Vec::new();
        let mut at = Vec::new();
        for head in choice.equipment.heads_on(&outdoor.name) {
            let sheet = sheet_of(input.catalogue, "head", &head.name, &head.unit)?;
            heads.push(Head::new(sheet.clone()).map_err(not)?);
            at.push((head, zone_of(input.model, "head", &head.name, &head.room)?));
        }
        let system = OutdoorUnit::new(sheet.clone())
            .and_then(|o| System::new(o, heads))
            .map_err(not)?;
        plant.add(&outdoor.name, system, &at, pressure_pa, schedule);
    }
    for heater in heaters {
        plant.add_heater(input.model, heater)?;
    }
    plant.sort_taps();
    Ok(plant)
}

impl Plant {
    fn add(
        &mut self,
        name: &str,
        system: System,
        at: &[(&HeadChoice, usize)],
        pressure_pa: f64,
        schedule: &Schedule,
    ) {
        let zones: Vec<usize> = at.iter().map(|(_, z)| *z).collect();
        let conditions = |indoor_c| Conditions {
            indoor_c,
            pressure_pa,
            humidity: None,
        };
        let warm = conditions(schedule.mean_heat_c(&zones).unwrap_or(TESTED_INDOOR_C));
        let heating = Performance::new(&system, Duty::Heating, warm);
        // Nobody is asked for cooling data where no room has a cooling setting.
        let cooling = schedule.mean_cool_c(&zones).and_then(|indoor_c| {
            // Sheets are tested at 80 F; rooms kept cooler than the table reaches are taken there.
            Performance::new(&system, Duty::Cooling, conditions(indoor_c))
                .or_else(|_| Performance::new(&system, Duty::Cooling, conditions(TESTED_COOLING_C)))
                .ok()
        });
        let pan = heating
            .as_ref()
            .map_or_else(|_| PanTable::default(), |p| PanTable::new(&system, p, warm));
        let first_head = self.heads.len();
        for (i, (head, zone)) in at.iter().enumerate() {
            let limits = heating
                .as_ref()
                .ok()
                .and_then(|p| p.heads().get(i))
                .copied();
            let cools = cooling.as_ref().and_then(|p| p.heads().get(i)).copied();
            let alone = heating
                .as_ref()
                .ok()
                .and_then(|p| p.range(p.span_c().1.min(MILD_C)))
                .map_or(0.0, |r| r.min_w);
            self.heads_of[*zone].push(self.heads.len());
            self.heads.push(HeadAt {
                name: head.name.clone(),
                sheet: head.unit.clone(),
                room: head.room.clone(),
                zone: *zone,
                heat_most_w: limits.map_or(0.0, |l| l.max_w),
                heat_min_w: if at.len() > 1 {
                    limits.map_or(0.0, |l| l.min_w)
                } else {
                    alone
                },
                cool_most_w: cools.map_or(0.0, |l| l.max_w),
            });
        }
        self.units.push(Unit {
            name: name.to_owned(),
            system,
            heating,
            cooling,
            pan,
            warm,
            first_head,
            end_head: self.heads.len(),
        });
    }

    fn add_heater(&mut self, model: &Model, heater: &Heater) -> Result<(), SeasonError> {
        let index = self.heaters.len();
        let first_tap = self.taps.len();
        if heater.serves.is_empty() {
            for (zone, z) in model.zones.iter().enumerate() {
                if z.heated.is_some() {
                    self.taps.push(Tap {
                        heater: index,
                        zone,
                    });
                }
            }
        } else {
            for room in &heater.serves {
                let zone = zone_of(model, "heater", &heater.name, room)?;
                self.taps.push(Tap {
                    heater: index,
                    zone,
                });
            }
        }
        for tap in first_tap..self.taps.len() {
            self.taps_of[self.taps[tap].zone].push(tap);
        }
        self.heaters.push(HeaterAt {
            name: heater.name.clone(),
            carrier: heater.carrier,
            efficiency: heater.efficiency,
            capacity_w: heater.capacity_w.unwrap_or(f64::INFINITY),
            set_below_k: heater.set_below_k,
            locked_out_above_c: heater.locked_out_above_c.unwrap_or(f64::INFINITY),
            room_by_room: matches!(heater.kind, HeaterKind::Baseboard | HeaterKind::Stove),
            first_tap,
            end_tap: self.taps.len(),
        });
        Ok(())
    }

    /// The heater set highest comes first; among equals the order of the job.
    fn sort_taps(&mut self) {
        let (heaters, taps) = (&self.heaters, &self.taps);
        for of in &mut self.taps_of {
            of.sort_by(|a, b| {
                let below = |t: usize| heaters[taps[t].heater].set_below_k;
                below(*a).total_cmp(&below(*b))
            });
        }
    }
}

/// Mild weather in which the least of a unit is looked at, C (47 F).
const MILD_C: f64 = 15.0 / 1.8;

fn zone_of(
    model: &Model,
    what: &'static str,
    name: &str,
    room: &str,
) -> Result<usize, SeasonError> {
    model
        .zones
        .iter()
        .position(|z| z.room.is_some() && z.name == room)
        .ok_or_else(|| SeasonError::NoRoom {
            what,
            name: name.to_owned(),
            room: room.to_owned(),
        })
}

fn sheet_of<'c>(
    catalogue: &'c Catalogue,
    what: &'static str,
    name: &str,
    unit: &str,
) -> Result<&'c Sheet, SeasonError> {
    catalogue.get(unit).ok_or_else(|| {
        let near = catalogue
            .keys()
            .map(|k| {
                let like = strsim::jaro_winkler(&k.to_lowercase(), &unit.to_lowercase());
                (k, like)
            })
            .filter(|(_, like)| *like > 0.75)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(k, _)| k.clone());
        SeasonError::NoSheet {
            what,
            name: name.to_owned(),
            unit: unit.to_owned(),
            near,
        }
    })
}
