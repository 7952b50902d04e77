//! From the sums to the year.

use heatpump::Performance;
use house::model::Model;
use jobfile::Carrier;

use super::book_hour::{FIRST_SPAN, Tally};
use crate::bought::Bought;
use crate::charts::BinWidth;
use crate::input::{Design, Input};
use crate::line::{Crossing, NeedLine, crossing};
use crate::plant::{Plant, Unit};
use crate::year::{CopPoint, Gives, HeadYear, HeaterYear, RoomYear, SpanOfUnit, UnitYear, Year};

/// Mild weather in which the least of a unit is looked at, C (47 F).
const MILD_C: f64 = 15.0 / 1.8;
/// Spans with fewer hours than this have no COP of their own.
const FEWEST_BIN_HOURS: f64 = 5.0;

pub(super) fn close(
    mut tally: Tally,
    name: &str,
    plant: &Plant,
    model: &Model,
    input: &Input<'_>,
) -> Year {
    let hours = input.drive.steps;
    let design = Design::of(input.job, input.weather);
    let units = units(&mut tally, plant, design.as_ref());
    let heaters: Vec<HeaterYear> = plant
        .heaters
        .iter()
        .zip(&tally.heaters)
        .map(|(at, sums)| HeaterYear {
            words: match &input.job.existing {
                Some(e) if e.name == at.name => format!("the {}", e.kind.word()),
                _ => at.name.clone(),
            },
            name: at.name.clone(),
            carrier: at.carrier,
            heat_j: sums.heat_j,
            bought_j: sums.heat_j / at.efficiency,
            hours: sums.hours,
            peak: sums.peak,
            capacity_w: at.capacity_w,
            efficiency: at.efficiency,
        })
        .collect();
    let rooms = rooms(&tally, plant, model, hours);
    let need = tally.line.line();
    let balance = need.map_or(Crossing::None, |line| whole_balance(plant, line));
    Year {
        choice: name.to_owned(),
        hours,
        heat_j: tally
            .zones
            .iter()
            .map(|z| z.by_heads_j + z.by_heaters_j)
            .sum(),
        cooling_j: tally.zones.iter().map(|z| z.cooling_j).sum(),
        rooms,
        heating_peak: tally.heating_peak,
        cooling_peak: tally.cooling_peak,
        electric_peak: tally.electric_peak,
        bought: bought(&units, &heaters, input),
        units,
        heaters,
        design,
        need,
        balance,
        outdoor_c: input.drive.outdoor_c.clone(),
        heads_w: tally.heads_w,
        heaters_w: tally.heaters_w,
        electric_w: tally.electric_w,
        closure: 0.0,
        unsettled_hours: 0,
    }
}

fn rooms(tally: &Tally, plant: &Plant, model: &Model, hours: usize) -> Vec<RoomYear> {
    model
        .zones
        .iter()
        .zip(&tally.zones)
        .enumerate()
        .filter(|(_, (zone, _))| zone.room.is_some())
        .map(|(z, (zone, t))| RoomYear {
            name: zone.name.clone(),
            zone: z,
            used_for: zone.used_for,
            heated: zone.heated.is_some(),
            cooled: zone.cooled.is_some(),
            heads: plant.heads_of[z].len(),
            heaters: plant.taps_of[z].len(),
            own_heater: plant.taps_of[z]
                .iter()
                .any(|t| plant.heaters[plant.taps[*t].heater].room_by_room),
            by_heads_j: t.by_heads_j,
            by_heaters_j: t.by_heaters_j,
            cooling_j: t.cooling_j,
            heating_peak: t.heating_peak,
            cooling_peak: t.cooling_peak,
            short_1k_h: t.short_1k_h,
            short_2k_h: t.short_2k_h,
            short_k_h: t.short_k_h,
            under_62f_h: t.under_62f_h,
            head_full_h: t.head_full_h,
            least_c: t.least.air_c,
            least_hour: t.least.hour,
            mean_c: t.air_c_h / hours.max(1) as f64,
            greatest_c: t.greatest.air_c,
            greatest_hour: t.greatest.hour,
            at_coldest_c: t.at_coldest_c,
            heads_alone_c: None,
            need: t.line.line(),
        })
        .collect()
}

fn spans(sums: &[[f64; 3]]) -> Vec<SpanOfUnit> {
    let numbered = (FIRST_SPAN..)
        .zip(sums)
        .filter(|(_, [_, _, time])| *time > 0.0);
    let span = |(number, [heat_j, compressor_j, time_s]): (i32, &[f64; 3])| SpanOfUnit {
        low_c: BinWidth::Fahrenheit5.low_c(number),
        heat_j: *heat_j,
        compressor_j: *compressor_j,
        time_s: *time_s,
    };
    numbered.map(span).collect()
}

fn units(tally: &mut Tally, plant: &Plant, design: Option<&Design>) -> Vec<UnitYear> {
    let mut all = Vec::with_capacity(plant.units.len());
    for (unit, sums) in plant.units.iter().zip(&mut tally.units) {
        let need = sums.line.line();
        let heating = unit.heating.as_ref().ok();
        let at = |c: f64| {
            let range = heating?.range(c).filter(|_| c >= plant.off_below_c)?;
            Some(Gives {
                min_w: range.min_w,
                max_w: range.max_w,
                made_of: heatpump::most_made_of(&unit.system, c, unit.warm),
            })
        };
        let heads = (unit.first_head..unit.end_head)
            .map(|i| {
                let head = &plant.heads[i];
                HeadYear {
                    name: head.name.clone(),
                    sheet: head.sheet.clone(),
                    room: head.room.clone(),
                    heat_j: tally.head_heat_j[i],
                    cooling_j: tally.head_cool_j[i],
                    min_w: head.heat_min_w,
                }
            })
            .collect();
        all.push(UnitYear {
            name: unit.name.clone(),
            sheet: unit.system.outdoor.sheet.name.clone(),
            heads,
            hours: sums.hours,
            heat_by_regime_j: sums.heat_by_regime_j,
            heat_j: sums.heat_j,
            cooling_j: sums.cooling_j,
            apart_j: sums.apart_j,
            electric: sums.electric,
            electric_peak: sums.peak,
            by_hour: std::mem::take(&mut sums.by_hour),
            cop_by_bin: sums
                .cop
                .iter()
                .filter(|s| s[3] >= FEWEST_BIN_HOURS && s[1] > 0.0)
                .map(|s| CopPoint {
                    outdoor_c: s[2] / s[3],
                    cop: s[0] / s[1],
                    hours: s[3] as u32,
                })
                .collect(),
            spans: spans(&sums.spans),
            need,
            balance: cross(unit, need, |r| r.max_w),
            cycles_above: cross_below(unit, need),
            at_design: design.and_then(|d| at(d.outdoor_c)),
            need_at_design_w: design.and_then(|d| need.map(|n| n.at(d.outdoor_c))),
            span_c: heating.map(Performance::span_c),
            no_heating: unit.heating.as_ref().err().cloned(),
            least_w: heating
                .and_then(|p| p.range(p.span_c().1.min(MILD_C)))
                .map(|r| r.min_w),
        });
    }
    all
}

fn cross(unit: &Unit, need: Option<NeedLine>, pick: impl Fn(heatpump::Range) -> f64) -> Crossing {
    match (unit.heating.as_ref(), need) {
        (Ok(p), Some(line)) => crossing(p.span_c(), |t| line.at(t), |t| p.range(t).map(&pick)),
        _ => Crossing::None,
    }
}

fn cross_below(unit: &Unit, need: Option<NeedLine>) -> Crossing {
    cross(unit, need, |r| r.min_w)
}

/// All units together against what the house asks; colder than the coldest point of any of them
/// there is no answer.
fn whole_balance(plant: &Plant, line: NeedLine) -> Crossing {
    let ready: Vec<&Performance> = plant
        .units
        .iter()
        .filter_map(|u| u.heating.as_ref().ok())
        .collect();
    if ready.is_empty() {
        return Crossing::None;
    }
    let mut span = (f64::NEG_INFINITY, f64::INFINITY);
    for p in &ready {
        let (cold, mild) = p.span_c();
        span = (span.0.max(cold), span.1.min(mild));
    }
    crossing(
        span,
        |t| line.at(t),
        |t| ready.iter().map(|p| p.range(t).map(|r| r.max_w)).sum(),
    )
}

fn bought(units: &[UnitYear], heaters: &[HeaterYear], input: &Input<'_>) -> Vec<Bought> {
    Carrier::ALL
        .into_iter()
        .filter_map(|carrier| {
            let mut energy_j: f64 = heaters
                .iter()
                .filter(|h| h.carrier == carrier)
                .map(|h| h.bought_j)
                .sum();
            let mut used = heaters.iter().any(|h| h.carrier == carrier);
            if carrier == Carrier::Electricity {
                energy_j += units.iter().map(|u| u.electric.total_j()).sum::<f64>();
                used |= !units.is_empty();
            }
            used.then(|| Bought::of(carrier, energy_j, &input.job.prices))
        })
        .collect()
}
