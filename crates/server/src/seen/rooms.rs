//! Rooms with what they lose, ask and get.

use house::balance::Doors;
use house::describe::Use;
use jobfile::Job;
use plan::Plan;
use serde::Serialize;
use utoipa::ToSchema;

use super::said::{Said, finite};

/// One kind of loss of a room.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LossPart {
    /// What the heat passes through, in words.
    pub through: String,
    /// W; below zero where the room is warmed by a neighbour.
    pub heat_w: f64,
    /// In the units asked for.
    pub shown: String,
}

/// A room without a head at one outdoor temperature.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct DoorsWarmth {
    /// Outdoor air, C.
    pub outdoor_c: f64,
    /// `open`, `closed` or `as usual`.
    pub doors: String,
    /// Air of the room, C.
    pub air_c: f64,
    /// In the units asked for.
    pub shown: String,
    /// Key of the figure.
    pub figure: String,
}

/// A room over the year with the chosen units.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RoomYearView {
    /// Heat from heads, kWh.
    pub by_heads_kwh: f64,
    /// Heat from heaters, kWh.
    pub by_heaters_kwh: f64,
    /// Hours more than 1 K below the setting.
    pub short_1k_h: u32,
    /// Hours more than 2 K below the setting.
    pub short_2k_h: u32,
    /// Least air temperature, C.
    pub least_c: f64,
    /// Mean air temperature, C.
    pub mean_c: f64,
    /// Greatest air temperature, C.
    pub greatest_c: f64,
    /// Air at the coldest hour outdoors, C.
    pub at_coldest_c: f64,
}

/// A room.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RoomView {
    /// Name.
    pub name: String,
    /// Path in the job: `room.living`.
    pub path: String,
    /// Storey.
    pub storey: String,
    /// living, sleeping, kitchen, bath, passage, storage.
    pub used_for: String,
    /// Corners in order, m; x to plan east, y to plan north; not repeated at the end.
    pub outline_m: Vec<[f64; 2]>,
    /// Floor area, m2; null while the geometry does not read.
    pub floor_m2: Option<f64>,
    /// Floor area in the units asked for.
    pub floor_shown: String,
    /// Own ceiling height, m, where it differs from the storey's.
    pub ceiling_m: Option<f64>,
    /// Meant to be heated.
    pub heated: bool,
    /// Highest heating setting of the day, C.
    pub setting_c: Option<f64>,
    /// Units of the heads in it.
    pub heads: Vec<String>,
    /// Heating load, W.
    pub loss_w: Option<f64>,
    /// In the units asked for; empty while it waits.
    pub loss_shown: String,
    /// Key of the load's figure.
    pub loss_figure: String,
    /// What the heat passes through.
    pub parts: Vec<LossPart>,
    /// Key of the figure of its cooling load; empty where there is none.
    pub cooling_figure: String,
    /// Sensible cooling load, W.
    pub cooling_w: Option<f64>,
    /// In the units asked for.
    pub cooling_shown: String,
    /// Rooms without a head: temperatures with doors open and closed.
    pub warmth: Vec<DoorsWarmth>,
    /// The year with the chosen units.
    pub year: Option<RoomYearView>,
}

fn used(of: Use) -> &'static str {
    match of {
        Use::Living => "living",
        Use::Sleeping => "sleeping",
        Use::Kitchen => "kitchen",
        Use::Bath => "bath",
        Use::Passage => "passage",
        Use::Storage => "storage",
    }
}

fn doors(of: Doors) -> &'static str {
    match of {
        Doors::Open => "open",
        Doors::Closed => "closed",
        Doors::AsUsual => "as usual",
    }
}

/// All rooms in the order of the job.
pub fn rooms(plan: &Plan, job: &Job, say: Said) -> Vec<RoomView> {
    job.house
        .rooms
        .iter()
        .map(|room| one(plan, job, room, say))
        .collect()
}

fn one(plan: &Plan, job: &Job, room: &house::describe::Room, say: Said) -> RoomView {
    let loads = plan.loads.done();
    let heating = loads.and_then(|l| l.heating.rooms.iter().find(|r| r.room == room.name));
    let cooling = loads.and_then(|l| l.cooling.rooms.iter().find(|r| r.room == room.name));
    let zone = plan
        .model
        .done()
        .and_then(|m| m.zones.iter().find(|z| z.name == room.name));
    let floor_m2 = zone.and_then(|z| finite(z.floor_m2));
    let year = plan.year().and_then(|y| y.room(&room.name));
    let kwh = |j: f64| j / units::constants::KWH_J;
    RoomView {
        name: room.name.clone(),
        path: format!("room.{}", room.name),
        storey: room.storey.clone(),
        used_for: used(room.used_for).to_owned(),
        outline_m: room.outline.clone(),
        floor_m2,
        floor_shown: floor_m2.map_or(String::new(), |a| say.of(a, units::Dim::Area)),
        ceiling_m: room.ceiling_m,
        heated: room.heated.is_some(),
        setting_c: room
            .heated
            .as_ref()
            .and_then(|s| s.by_hour_c.iter().flatten().copied().reduce(f64::max)),
        heads: job
            .equipment
            .heads_in(&room.name)
            .map(|h| h.unit.clone())
            .collect(),
        loss_w: heating.and_then(|h| finite(h.heat_w)),
        loss_shown: heating.map_or(String::new(), |h| say.load(h.heat_w)),
        loss_figure: heating.map_or(String::new(), |h| h.key.clone()),
        parts: heating.map_or(Vec::new(), |h| {
            h.parts
                .iter()
                .filter(|p| p.heat_w.is_finite() && p.heat_w != 0.0)
                .map(|p| LossPart {
                    through: p.through.word().to_owned(),
                    heat_w: p.heat_w,
                    shown: say.load(p.heat_w),
                })
                .collect()
        }),
        cooling_figure: heating
            .and_then(|h| h.key.strip_suffix("heating"))
            .map(|begins| format!("{begins}cooling"))
            .filter(|key| plan.book.get(key).is_some())
            .unwrap_or_default(),
        cooling_w: cooling.and_then(|c| finite(c.sensible_w)),
        cooling_shown: cooling.map_or(String::new(), |c| say.load(c.sensible_w)),
        warmth: loads.map_or(Vec::new(), |l| {
            l.floats
                .iter()
                .filter(|f| f.room == room.name && f.air_c.is_finite())
                .map(|f| DoorsWarmth {
                    outdoor_c: f.outdoor_c,
                    doors: doors(f.doors).to_owned(),
                    air_c: f.air_c,
                    shown: say.temperature(f.air_c),
                    figure: f.key.clone(),
                })
                .collect()
        }),
        year: year.map(|y| RoomYearView {
            by_heads_kwh: kwh(y.by_heads_j),
            by_heaters_kwh: kwh(y.by_heaters_j),
            short_1k_h: y.short_1k_h,
            short_2k_h: y.short_2k_h,
            least_c: y.least_c,
            mean_c: y.mean_c,
            greatest_c: y.greatest_c,
            at_coldest_c: y.at_coldest_c,
        }),
    }
}
