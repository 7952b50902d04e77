//! Cooling load on the worst clear days of the weather file, by the hourly balance.

use climate::Weather;
use climate::design::clear_hot_days;

use super::LoadError;
use crate::balance::{Balance, Doors, Supply, ZoneLedger};
use crate::drive::Drive;
use crate::glazing::Glass;
use crate::ideal::HeatError;
use crate::model::Model;

/// Cooling setting where the room has none, C (75 F; common practice, no source).
pub const USUAL_COOLING_C: f64 = 23.9;
/// Days run before each worst day.
const LEAD_DAYS: usize = 6;

/// One room.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomCooling {
    /// Zone.
    pub zone: usize,
    /// Name.
    pub room: String,
    /// Sensible peak, W.
    pub sensible_w: f64,
    /// Hour of the year of the peak; none where the room needs no cooling.
    pub hour: Option<usize>,
    /// What the balance of that hour is made of.
    pub made_of: Option<CoolingHour>,
    /// And that of the hour in which the house needs most, where the room needs cooling then.
    pub in_hour_of_house: Option<CoolingHour>,
}

/// The balance of one zone in one hour.
#[derive(Debug, Clone, PartialEq)]
pub struct CoolingHour {
    /// Hour of the year.
    pub hour: usize,
    /// Sun let in through each of its windows, W/m2 of the glass: straight and scattered.
    pub sun: Vec<(usize, [f64; 2])>,
    /// Share of the straight and of the scattered sun that does not leave again.
    pub keeps: [f64; 2],
    /// Everything else.
    pub ledger: ZoneLedger,
}

impl CoolingHour {
    fn of(zone: usize, hour: usize, balance: &Balance<'_>, drive: &Drive) -> Self {
        let network = balance.network();
        let mut sun: Vec<(usize, [f64; 2])> = Vec::new();
        for w in network.windows.iter().filter(|w| w.zone == zone) {
            let at = hour * drive.apertures + w.aperture;
            let of = [drive.beam_w_per_m2[at], drive.diffuse_w_per_m2[at]];
            sun.extend(w.panes.iter().map(|p| (*p, of)));
        }
        sun.sort_by_key(|(pane, _)| *pane);
        Self {
            hour,
            sun,
            keeps: network.escapes[zone].map(|out| 1.0 - out),
            ledger: balance.zone_ledger(zone),
        }
    }
}

/// Cooling of the house.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CoolingLoads {
    /// Rooms that are heated or cooled.
    pub rooms: Vec<RoomCooling>,
    /// Greatest sum of the rooms in one hour, W.
    pub sensible_w: f64,
    /// Hour of the year of that; none where no room needs cooling.
    pub hour: Option<usize>,
    /// Latent at that hour: moist outdoor air and people, W; none where there is no such hour, and
    /// before [`CoolingLoads::write`] works it out.
    pub latent_w: Option<f64>,
    /// Worst days that were tried: month and day.
    pub days: Vec<(u8, u8)>,
}

/// Runs the worst clear day of each warm month, each after six days of its own weather.
///
/// # Errors
/// A construction that cannot be used.
pub fn cooling(
    model: &Model,
    glasses: &[Glass],
    drive: &Drive,
    weather: &Weather,
) -> Result<CoolingLoads, LoadError> {
    let served = |z: usize| model.zones[z].heated.is_some() || model.zones[z].cooled.is_some();
    let supply: Vec<Vec<Supply>> = (0..24)
        .map(|h| {
            (0..model.zones.len())
                .map(|z| {
                    let own = model.zones[z].cooled.as_ref().map(|s| s.at(h, 1.0));
                    let to = own.unwrap_or(served(z).then_some(USUAL_COOLING_C));
                    Supply::ideal(None, to)
                })
                .collect()
        })
        .collect();
    let mut loads = CoolingLoads {
        rooms: (0..model.zones.len())
            .filter(|z| served(*z))
            .map(|z| RoomCooling {
                zone: z,
                room: model.zones[z].name.clone(),
                sensible_w: 0.0,
                hour: None,
                made_of: None,
                in_hour_of_house: None,
            })
            .collect(),
        ..CoolingLoads::default()
    };
    let fresh = Balance::new(model, glasses, drive, Doors::AsUsual).map_err(HeatError::from)?;
    for day in clear_hot_days(weather, 18.0) {
        loads.days.push((day.month, day.day));
        let mut balance = fresh.clone();
        let lead = (LEAD_DAYS * 24).min(day.first_hour);
        for h in day.first_hour - lead..(day.first_hour + 24).min(drive.steps) {
            if h < day.first_hour {
                balance.step(h, &supply[usize::from(drive.hour_of_day[h])]);
                balance.accept(h);
                continue;
            }
            // The ledger of this hour alone.
            balance.begin_sums();
            let got = balance.step(h, &supply[usize::from(drive.hour_of_day[h])]);
            let needs: Vec<f64> = got.heat_w.iter().map(|q| -q).collect();
            balance.accept(h);
            let made_of = |zone| Some(CoolingHour::of(zone, h, &balance, drive));
            for room in &mut loads.rooms {
                let q = needs[room.zone];
                if q > room.sensible_w {
                    (room.sensible_w, room.hour) = (q, Some(h));
                    room.made_of = made_of(room.zone);
                }
            }
            let house: f64 = needs.iter().map(|q| q.max(0.0)).sum();
            if house > loads.sensible_w {
                (loads.sensible_w, loads.hour) = (house, Some(h));
                for room in &mut loads.rooms {
                    let needs = needs[room.zone] > 0.0;
                    room.in_hour_of_house = needs.then(|| made_of(room.zone)).flatten();
                }
            }
        }
    }
    Ok(loads)
}
