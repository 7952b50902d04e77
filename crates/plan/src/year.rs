//! The year with ideal heating and cooling: what the house needs, whatever gives it.

use climate::Weather;
use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::ideal::{HeatError, HouseYear, Peak, year_on};
use house::model::Model;
use reckon::{Book, Figure, Input, Source, in_key};
use units::Dim;

/// Steps an hour where a thermostat moves along a ramp; one is enough otherwise.
const STEPS_ON_RAMPS: usize = 4;

/// One room's or one house's year.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomYear {
    /// Room; `house` for the house.
    pub name: String,
    /// Whether it is a drawn room (not a made attic or crawl space).
    pub drawn: bool,
    /// Whether it has a heating setting.
    pub heated: bool,
    /// Heating need, J.
    pub heating_j: f64,
    /// Cooling need (sensible), J.
    pub cooling_j: f64,
    /// Largest hour of heating.
    pub heating_peak: Peak,
    /// Largest hour of cooling.
    pub cooling_peak: Peak,
    /// Least air temperature, C, and its hour.
    pub least_c: (f64, usize),
    /// Mean air temperature, C.
    pub mean_c: f64,
    /// Greatest air temperature, C, and its hour.
    pub greatest_c: (f64, usize),
}

/// The year with ideal heating and cooling.
#[derive(Debug, Clone, PartialEq)]
pub struct IdealYear {
    /// The house: sums of rooms; air temperature is the volume mean of drawn rooms, its least
    /// and greatest those of any drawn room.
    pub house: RoomYear,
    /// Rooms and made spaces, in the order of the model.
    pub rooms: Vec<RoomYear>,
    /// Heating less cooling of each hour, W, whole house.
    pub hourly_heat_w: Vec<f64>,
    /// Hourly air by zone, C.
    pub hourly_air_c: Vec<Vec<f64>>,
    /// Heat in less out less stored over heat through.
    pub closure: f64,
}

/// Runs the year.
///
/// # Errors
/// A construction or weather that cannot be used.
pub fn ideal_year(model: &Model, weather: &Weather) -> Result<IdealYear, HeatError> {
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let mut drive = Drive::new(model, &glasses, weather)?;
    let steps = ideal_steps(model);
    if steps > 1 {
        drive = drive.finer(steps);
    }
    let year = year_on(model, &glasses, &drive, Doors::AsUsual)?;
    Ok(gathered(model, year))
}

/// Steps an hour that the year is run in.
pub(crate) fn ideal_steps(model: &Model) -> usize {
    let ramps = model.zones.iter().any(|z| {
        [&z.heated, &z.cooled]
            .into_iter()
            .flatten()
            .any(|s| s.ramps.contains(&true))
    });
    model
        .steps_an_hour
        .max(if ramps { STEPS_ON_RAMPS } else { 1 })
}

pub(crate) fn gathered(model: &Model, year: HouseYear) -> IdealYear {
    let rooms: Vec<RoomYear> = model
        .zones
        .iter()
        .zip(&year.zones)
        .map(|(zone, y)| RoomYear {
            name: zone.name.clone(),
            drawn: zone.room.is_some(),
            heated: zone.heated.is_some(),
            heating_j: y.heating_j,
            cooling_j: y.cooling_j,
            heating_peak: y.heating_peak,
            cooling_peak: y.cooling_peak,
            least_c: (y.least.air_c, y.least.hour),
            mean_c: y.mean_c,
            greatest_c: (y.greatest.air_c, y.greatest.hour),
        })
        .collect();
    let drawn = || rooms.iter().zip(&model.zones).filter(|(r, _)| r.drawn);
    let volume: f64 = drawn().map(|(_, z)| z.volume_m3).sum();
    let mean_c = drawn().map(|(r, z)| r.mean_c * z.volume_m3).sum::<f64>() / volume;
    let least_c = drawn()
        .map(|(r, _)| r.least_c)
        .reduce(|a, b| if b.0 < a.0 { b } else { a })
        .unwrap_or((f64::NAN, 0));
    let greatest_c = drawn()
        .map(|(r, _)| r.greatest_c)
        .reduce(|a, b| if b.0 > a.0 { b } else { a })
        .unwrap_or((f64::NAN, 0));
    IdealYear {
        house: RoomYear {
            name: "house".to_owned(),
            drawn: true,
            heated: rooms.iter().any(|r| r.heated),
            heating_j: year.heating_j,
            cooling_j: year.cooling_j,
            heating_peak: year.heating_peak,
            cooling_peak: year.cooling_peak,
            least_c,
            mean_c,
            greatest_c,
        },
        rooms,
        hourly_heat_w: year.hourly_heat_w,
        hourly_air_c: year.hourly_air_c,
        closure: year.closure,
    }
}

impl IdealYear {
    /// Writes the year down under `year.ideal.…`.
    pub(crate) fn write(&self, weather: &Weather, book: &mut Book) {
        for room in self.rooms.iter().filter(|r| r.drawn) {
            let key = format!("year.ideal.{}", in_key(&room.name));
            write_one(book, &key, room, &[], weather);
        }
        let sum = |end: &str, of: &dyn Fn(&RoomYear) -> f64| -> Vec<Input> {
            self.rooms
                .iter()
                .filter(|r| r.drawn && of(r) != 0.0)
                .enumerate()
                .map(|(i, r)| Input {
                    symbol: format!("Q{}", i + 1).into(),
                    key: format!("year.ideal.{}.{end}", in_key(&r.name)),
                })
                .collect()
        };
        let sums = [
            ("heating", sum("heating", &|r| r.heating_j)),
            ("cooling", sum("cooling", &|r| r.cooling_j)),
        ];
        write_one(book, "year.ideal.house", &self.house, &sums, weather);
    }
}

/// Writes one down. The hour of an extreme is named with its outdoor air.
fn write_one(
    book: &mut Book,
    key: &str,
    of: &RoomYear,
    sums: &[(&str, Vec<Input>)],
    weather: &Weather,
) {
    let name = &of.name;
    let hour_of = |end: &str| match end {
        "heating-peak" => (of.heating_peak.heat_w > 0.0).then_some(of.heating_peak.hour),
        "cooling-peak" => (of.cooling_peak.heat_w > 0.0).then_some(of.cooling_peak.hour),
        "least" => Some(of.least_c.1),
        "greatest" => Some(of.greatest_c.1),
        _ => None,
    };
    let rows = [
        (
            "heating",
            "heat needed in the year",
            of.heating_j,
            Dim::Heat,
            "over the year: heat that holds the setting, summed over hours",
        ),
        (
            "cooling",
            "cooling needed in the year, sensible",
            of.cooling_j,
            Dim::Heat,
            "over the year: heat taken out to hold the setting, summed over hours",
        ),
        (
            "heating-peak",
            "largest hour of heating",
            of.heating_peak.heat_w,
            Dim::Power,
            "over the year: the hour with most heating",
        ),
        (
            "cooling-peak",
            "largest hour of cooling",
            of.cooling_peak.heat_w,
            Dim::Power,
            "over the year: the hour with most cooling",
        ),
        (
            "least",
            "least air temperature",
            of.least_c.0,
            Dim::Temperature,
            "over the year: the coldest hour of the air",
        ),
        (
            "mean",
            "mean air temperature",
            of.mean_c,
            Dim::Temperature,
            "over the year: the mean of all hours",
        ),
        (
            "greatest",
            "greatest air temperature",
            of.greatest_c.0,
            Dim::Temperature,
            "over the year: the warmest hour of the air",
        ),
    ];
    for (end, what, value, dim, formula) in rows {
        let inputs = sums.iter().find(|(e, _)| *e == end).map(|(_, i)| i.clone());
        let setting = format!("room.{}.setting", in_key(name));
        let (formula, inputs) = match (inputs, hour_of(end)) {
            (Some(inputs), _) if !inputs.is_empty() => ("sum()".to_owned(), inputs),
            (_, Some(hour)) => {
                let outdoor = format!("{key}.{end}-outdoor");
                let hour_words = weather.hour_in_words(hour);
                book.given(
                    &*outdoor,
                    "outdoor air in that hour",
                    weather.dry_bulb_c.get(hour).copied().unwrap_or(f64::NAN),
                    Dim::Temperature,
                    Source::new("weather", format!("dry bulb in {hour_words}")),
                    None,
                );
                let input = Input {
                    symbol: "To".into(),
                    key: outdoor,
                };
                (format!("{formula}, {hour_words}"), vec![input])
            }
            (_, None) if end == "heating" && book.get(&setting).is_some() => {
                let input = Input {
                    symbol: "Ti".into(),
                    key: setting,
                };
                (formula.to_owned(), vec![input])
            }
            _ => (formula.to_owned(), Vec::new()),
        };
        book.put(Figure {
            key: format!("{key}.{end}"),
            what: format!("{what}, {name}"),
            value,
            dim,
            formula: formula.into(),
            inputs,
            source: Source::new("northwall", "hourly balance with ideal heating and cooling"),
            known: None,
        });
    }
}
