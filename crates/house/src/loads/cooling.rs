//! Cooling load on the worst clear days of the weather file, by the hourly balance.

use climate::Weather;
use climate::design::clear_hot_days;
use physics::moist_air;
use reckon::{Book, Source, in_key};
use units::Dim;

use super::LoadError;
use crate::balance::{Balance, Doors, Supply};
use crate::drive::Drive;
use crate::glazing::Glass;
use crate::ideal::HeatError;
use crate::model::Model;

/// Cooling setting where the room has none, C (75 F; common practice, no source).
pub const USUAL_COOLING_C: f64 = 23.9;
/// Indoor humidity that is kept in summer (common practice, no source).
const INDOOR_HUMIDITY: f64 = 0.5;
/// Moisture of a person at rest, W of latent heat (ASHRAE Fundamentals chapter 18: 45 to 55 W).
const PERSON_LATENT_W: f64 = 50.0;
/// Days run before each worst day.
const LEAD_DAYS: usize = 6;
/// Latent heat of water at room temperature, J/kg.
const LATENT_J_PER_KG: f64 = 2.45e6;

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
    /// Latent at that hour: moist outdoor air and people, W; none where there is no such hour.
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
            let got = balance.step(h, &supply[usize::from(drive.hour_of_day[h])]);
            if h >= day.first_hour {
                let house: f64 = got.heat_w.iter().map(|q| (-q).max(0.0)).sum();
                if house > loads.sensible_w {
                    (loads.sensible_w, loads.hour) = (house, Some(h));
                }
                for room in &mut loads.rooms {
                    let q = -got.heat_w[room.zone];
                    if q > room.sensible_w {
                        (room.sensible_w, room.hour) = (q, Some(h));
                    }
                }
            }
            balance.accept(h);
        }
    }
    loads.latent_w = match loads.hour {
        Some(hour) => Some(latent(model, drive, weather, hour, &mut Book::new())?),
        None => None,
    };
    Ok(loads)
}

impl CoolingLoads {
    /// Writes the loads down under `loads.….cooling` and, where anything needs cooling,
    /// `loads.house.latent`. Of the drive only the air is read, not the faces.
    ///
    /// # Errors
    /// An hour whose moisture cannot be worked out.
    pub fn write(
        &self,
        model: &Model,
        drive: &Drive,
        weather: &Weather,
        book: &mut Book,
    ) -> Result<(), LoadError> {
        if let Some(hour) = self.hour {
            latent(model, drive, weather, hour, book)?;
        }
        for room in &self.rooms {
            put(
                book,
                &in_key(&room.room),
                &room.room,
                (room.sensible_w, room.hour),
                "greatest hour of the balance",
            );
        }
        put(
            book,
            "house",
            "the house",
            (self.sensible_w, self.hour),
            "greatest hour of all rooms together",
        );
        Ok(())
    }
}

/// Writes one sensible load down: how much, and in which hour.
fn put(book: &mut Book, key: &str, of: &str, (value, hour): (f64, Option<usize>), what: &str) {
    let place = hour.map_or("no hour of them needs cooling".to_owned(), |h| {
        format!("hour {h}")
    });
    book.put(reckon::Figure {
        key: format!("loads.{key}.cooling"),
        what: format!("sensible cooling load of {of}"),
        value,
        dim: Dim::Power,
        formula: format!("over the year: {what} on the worst clear days").into(),
        inputs: Vec::new(),
        source: Source::new("weather", place),
        known: None,
    });
}

/// Moisture of outdoor air and people at the peak hour: `loads.house.latent`.
fn latent(
    model: &Model,
    drive: &Drive,
    weather: &Weather,
    hour: usize,
    book: &mut Book,
) -> Result<f64, LoadError> {
    let pa = weather.pressure_pa.get(hour).copied().unwrap_or(101_325.0);
    let at = |v: &[f64]| v.get(hour).copied().unwrap_or(0.0);
    let outdoor_pa = moist_air::saturation_pressure_pa(at(&weather.dew_point_c))?;
    let indoor_pa = INDOOR_HUMIDITY * moist_air::saturation_pressure_pa(USUAL_COOLING_C)?;
    let ratio = |p: f64| 0.621945 * p / (pa - p);
    let leakage = crate::leakage::Leakage::plain(model, drive.air_j_per_m3k);
    let mut flow = vec![0.0; model.zones.len()];
    leakage.flow_w_per_k(
        &vec![USUAL_COOLING_C; model.zones.len()],
        at(&weather.dry_bulb_c),
        at(&drive.wind_m_per_s),
        &mut flow,
    );
    let leak = flow.iter().sum::<f64>() / drive.air_j_per_m3k;
    let fans: f64 = model.vents.iter().map(|v| v.flow_m3_per_s).sum();
    let people: f64 = model.zones.iter().map(|z| z.people).sum();
    let weather_source = || Source::new("weather", format!("hour {hour}"));
    for (key, what, value, dim, source) in [
        (
            "latent.air",
            "outdoor air at the peak hour",
            leak + fans,
            Dim::VolumeFlow,
            weather_source(),
        ),
        (
            "latent.outdoor",
            "moisture of outdoor air",
            ratio(outdoor_pa),
            Dim::HumidityRatio,
            weather_source(),
        ),
        (
            "latent.indoor",
            "moisture of indoor air at 75 F and 50 %",
            ratio(indoor_pa),
            Dim::HumidityRatio,
            Source::new("common-practice", "summer comfort"),
        ),
        (
            "latent.heat",
            "heat to condense a kilogram of water",
            LATENT_J_PER_KG,
            Dim::SpecificHeat,
            Source::new("ashrae-fundamentals-2017", "chapter 1"),
        ),
        (
            "latent.people",
            "people",
            people,
            Dim::Count,
            Source::new("job", "rooms"),
        ),
        (
            "latent.person",
            "moisture of a person at rest",
            PERSON_LATENT_W,
            Dim::Power,
            Source::new(
                "ashrae-fundamentals-2017",
                "chapter 18, table 1 (from memory)",
            ),
        ),
        (
            "latent.density",
            "density of indoor air",
            drive.air_j_per_m3k / super::AIR_CP_J_PER_KGK,
            Dim::Density,
            weather_source(),
        ),
    ] {
        book.given(key, what, value, dim, source, None);
    }
    Ok(book.reckon(
        "loads.house.latent",
        "moisture to take out at the peak hour",
        Dim::Power,
        "d * Q * max(0, wo - wi) * L + n * p",
        &[
            ("d", "latent.density"),
            ("Q", "latent.air"),
            ("wo", "latent.outdoor"),
            ("wi", "latent.indoor"),
            ("L", "latent.heat"),
            ("n", "latent.people"),
            ("p", "latent.person"),
        ],
        Source::new("ashrae-fundamentals-2017", "chapter 18"),
    )?)
}
