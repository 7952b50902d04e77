//! The year as JSON.

use house::model::Model;
use plan::{Plan, RoomYear};
use season::{Comparison, Crossing, Regime, Row, Year};
use units::constants::KWH_J;

use crate::files::Loaded;
use crate::view::{
    BoughtView, ChoiceView, CrossingView, HeaterView, NeedView, RegimeView, RoomView, SeasonView,
    UnitView, VERSION, WaitView, YearView,
};

pub fn view(plan: &Plan, year: Option<&Year>, loaded: &Loaded) -> SeasonView {
    let need = need(plan, loaded);
    let (house, rooms) = match (year, plan.model.done()) {
        (Some(year), Some(model)) => with_equipment(year, model, loaded),
        _ => (need.house.clone().unwrap_or_default(), need.rooms.clone()),
    };
    SeasonView {
        northwall: VERSION,
        job: plan.name.clone(),
        station: plan.site.station.name.clone(),
        run: if year.is_some() { "equipment" } else { "ideal" },
        choice: year.map_or(String::new(), |y| y.choice.clone()),
        house,
        rooms,
        need,
        year: year.map(|y| year_view(y, loaded)),
        choices: plan.season.done().map_or(Vec::new(), choices),
        waiting: plan
            .ideal
            .waits()
            .iter()
            .map(|w| WaitView {
                what: w.what.clone(),
                place: w.place.clone(),
                how: w.how.clone(),
            })
            .collect(),
    }
}

/// Hour of a peak, where there is one.
fn hour(w: f64, hour: usize) -> Option<usize> {
    (w > 0.0).then_some(hour)
}

fn at(w: f64, hour: usize, loaded: &Loaded) -> Option<String> {
    (w > 0.0).then(|| loaded.weather.stamp(hour))
}

fn room(r: &RoomYear, loaded: &Loaded) -> RoomView {
    RoomView {
        name: r.name.clone(),
        heated: r.heated,
        heating_kwh: r.heating_j / KWH_J,
        cooling_kwh: r.cooling_j / KWH_J,
        heating_peak_w: r.heating_peak.heat_w,
        heating_peak_hour: hour(r.heating_peak.heat_w, r.heating_peak.hour),
        heating_peak_at: at(r.heating_peak.heat_w, r.heating_peak.hour, loaded),
        cooling_peak_w: r.cooling_peak.heat_w,
        cooling_peak_hour: hour(r.cooling_peak.heat_w, r.cooling_peak.hour),
        cooling_peak_at: at(r.cooling_peak.heat_w, r.cooling_peak.hour, loaded),
        least_c: r.least_c.0,
        least_hour: r.least_c.1,
        mean_c: r.mean_c,
        greatest_c: r.greatest_c.0,
        greatest_hour: r.greatest_c.1,
        ..RoomView::default()
    }
}

fn need(plan: &Plan, loaded: &Loaded) -> NeedView {
    let Some(ideal) = plan.ideal.done() else {
        return NeedView::default();
    };
    let of = |drawn: bool| {
        let rooms = ideal.rooms.iter().filter(|r| r.drawn == drawn);
        rooms.map(|r| room(r, loaded)).collect()
    };
    NeedView {
        house: Some(room(&ideal.house, loaded)),
        rooms: of(true),
        spaces: of(false),
        closure: Some(ideal.closure),
    }
}

fn with_equipment(year: &Year, model: &Model, loaded: &Loaded) -> (RoomView, Vec<RoomView>) {
    let rooms: Vec<RoomView> = year
        .rooms
        .iter()
        .map(|r| RoomView {
            name: r.name.clone(),
            heated: r.heated,
            heating_kwh: (r.by_heads_j + r.by_heaters_j) / KWH_J,
            cooling_kwh: r.cooling_j / KWH_J,
            heating_peak_w: r.heating_peak.w,
            heating_peak_hour: hour(r.heating_peak.w, r.heating_peak.hour),
            heating_peak_at: at(r.heating_peak.w, r.heating_peak.hour, loaded),
            cooling_peak_w: r.cooling_peak.w,
            cooling_peak_hour: hour(r.cooling_peak.w, r.cooling_peak.hour),
            cooling_peak_at: at(r.cooling_peak.w, r.cooling_peak.hour, loaded),
            least_c: r.least_c,
            least_hour: r.least_hour,
            mean_c: r.mean_c,
            greatest_c: r.greatest_c,
            greatest_hour: r.greatest_hour,
            short_1k_hours: Some(r.short_1k_h),
            short_2k_hours: Some(r.short_2k_h),
            short_k_h: Some(r.short_k_h),
            by_heads_kwh: Some(r.by_heads_j / KWH_J),
            by_heaters_kwh: Some(r.by_heaters_j / KWH_J),
        })
        .collect();
    let volume = |r: &season::RoomYear| model.zones.get(r.zone).map_or(0.0, |z| z.volume_m3);
    let all: f64 = year.rooms.iter().map(volume).sum();
    let mean_c = year.rooms.iter().map(|r| r.mean_c * volume(r)).sum::<f64>() / all;
    let least = year
        .rooms
        .iter()
        .min_by(|a, b| a.least_c.total_cmp(&b.least_c));
    let greatest = year
        .rooms
        .iter()
        .max_by(|a, b| a.greatest_c.total_cmp(&b.greatest_c));
    let short = |of: fn(&season::RoomYear) -> u32| Some(year.rooms.iter().map(of).sum());
    let house = RoomView {
        name: "house".to_owned(),
        heated: year.rooms.iter().any(|r| r.heated),
        heating_kwh: year.heat_j / KWH_J,
        cooling_kwh: year.cooling_j / KWH_J,
        heating_peak_w: year.heating_peak.w,
        heating_peak_hour: hour(year.heating_peak.w, year.heating_peak.hour),
        heating_peak_at: at(year.heating_peak.w, year.heating_peak.hour, loaded),
        cooling_peak_w: year.cooling_peak.w,
        cooling_peak_hour: hour(year.cooling_peak.w, year.cooling_peak.hour),
        cooling_peak_at: at(year.cooling_peak.w, year.cooling_peak.hour, loaded),
        least_c: least.map_or(f64::NAN, |r| r.least_c),
        least_hour: least.map_or(0, |r| r.least_hour),
        mean_c,
        greatest_c: greatest.map_or(f64::NAN, |r| r.greatest_c),
        greatest_hour: greatest.map_or(0, |r| r.greatest_hour),
        short_1k_hours: short(|r| r.short_1k_h),
        short_2k_hours: short(|r| r.short_2k_h),
        short_k_h: Some(year.rooms.iter().map(|r| r.short_k_h).sum()),
        by_heads_kwh: Some(year.by_heads_j() / KWH_J),
        by_heaters_kwh: Some((year.heat_j - year.by_heads_j()) / KWH_J),
    };
    (house, rooms)
}

fn crossing(c: Crossing) -> CrossingView {
    let words = match c {
        Crossing::At(c) => format!("at {c:.1} C"),
        Crossing::ColderThan(c) => format!("colder than {c:.1} C, where the sheet ends"),
        Crossing::WarmerThan(c) => format!("warmer than {c:.1} C"),
        Crossing::None => "cannot tell".to_owned(),
    };
    CrossingView {
        at_c: c.at_c(),
        words,
    }
}

fn year_view(year: &Year, loaded: &Loaded) -> YearView {
    YearView {
        heads_share: year.heads_share(),
        seasonal_cop: year.seasonal_cop(),
        balance: crossing(year.balance),
        electric_peak_w: year.electric_peak.w,
        electric_peak_at: loaded.weather.stamp(year.electric_peak.hour),
        cost: year.cost(),
        carbon_kg: year.carbon_kg(),
        units: year
            .units
            .iter()
            .map(|u| UnitView {
                name: u.name.clone(),
                sheet: u.sheet.clone(),
                rooms: u.heads.iter().map(|h| h.room.clone()).collect(),
                hours: Regime::ALL
                    .into_iter()
                    .map(|r| RegimeView {
                        regime: r.word(),
                        hours: u.hours_in(r),
                        heat_kwh: u.heat_in_j(r) / KWH_J,
                    })
                    .collect(),
                heat_kwh: u.heat_j / KWH_J,
                cooling_kwh: u.cooling_j / KWH_J,
                compressor_kwh: u.electric.compressor_j / KWH_J,
                defrost_kwh: u.electric.defrost_j / KWH_J,
                base_pan_kwh: u.electric.base_pan_j / KWH_J,
                standby_kwh: u.electric.standby_j / KWH_J,
                cooling_electric_kwh: u.electric.cooling_j / KWH_J,
                seasonal_cop: u.seasonal_cop(),
                seasonal_cop_with_standby: u.seasonal_cop_with_standby(),
                electric_peak_w: u.electric_peak.w,
                balance: crossing(u.balance),
                cycles_above: crossing(u.cycles_above),
                max_at_design_w: u.at_design.map(|g| g.max_w),
                need_at_design_w: u.need_at_design_w,
            })
            .collect(),
        heaters: year
            .heaters
            .iter()
            .map(|h| HeaterView {
                name: h.name.clone(),
                carrier: h.carrier.word(),
                heat_kwh: h.heat_j / KWH_J,
                bought_kwh: h.bought_j / KWH_J,
                hours: h.hours,
                peak_w: h.peak.w,
            })
            .collect(),
        bought: year
            .bought
            .iter()
            .map(|b| BoughtView {
                carrier: b.carrier.word(),
                energy_kwh: b.energy_j / KWH_J,
                amount: b.amount(),
                sold_in: b.sold_in.name.clone(),
                cost: b.cost,
                carbon_kg: b.carbon_kg,
            })
            .collect(),
        closure: year.closure,
    }
}

fn choices(all: &Comparison) -> Vec<ChoiceView> {
    let line = |r: Row| ChoiceView {
        choice: r.choice,
        units: r.units,
        heads: r.heads,
        heads_share: r.heads_share,
        seasonal_cop: r.seasonal_cop,
        cycling_hours: r.cycling_h,
        full_hours: r.full_h,
        cannot_tell_hours: r.cannot_tell_h,
        electricity_kwh: r.electricity_j / KWH_J,
        fuel_kwh: r.fuel_j / KWH_J,
        cost: r.cost,
        carbon_kg: r.carbon_kg,
        electric_peak_w: r.electric_peak_w,
        coldest_c: r.coldest_room.as_ref().map(|(_, c)| *c),
        coldest_room: r.coldest_room.map(|(name, _)| name),
        short_2k_hours: r.short_2k_h,
        why_not: None,
    };
    let mut out: Vec<ChoiceView> = all.baseline.iter().map(|y| line(Row::of(y))).collect();
    for (name, year) in &all.years {
        out.push(match year {
            Ok(year) => line(Row::of(year)),
            Err(why) => ChoiceView {
                choice: name.clone(),
                units: 0,
                heads: 0,
                heads_share: None,
                seasonal_cop: None,
                cycling_hours: 0,
                full_hours: 0,
                cannot_tell_hours: 0,
                electricity_kwh: 0.0,
                fuel_kwh: 0.0,
                cost: None,
                carbon_kg: None,
                electric_peak_w: 0.0,
                coldest_room: None,
                coldest_c: None,
                short_2k_hours: 0,
                why_not: Some(why.to_string()),
            },
        });
    }
    out
}
