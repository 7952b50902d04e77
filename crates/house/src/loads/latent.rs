//! Moisture to take out in the hour in which the house needs most cooling.

use climate::Weather;
use physics::moist_air::{self, TRIPLE_POINT_C};
use reckon::{Book, Source, in_key};
use units::Dim;

use super::LoadError;
use super::cooling::USUAL_COOLING_C;
use crate::drive::Drive;
use crate::model::Model;

/// Indoor humidity that is kept in summer (common practice, no source).
const INDOOR_HUMIDITY: f64 = 0.5;
/// Moisture of a person at rest, W of latent heat (ASHRAE Fundamentals chapter 18: 45 to 55 W).
const PERSON_LATENT_W: f64 = 50.0;
/// Latent heat of water at room temperature, J/kg.
const LATENT_J_PER_KG: f64 = 2.45e6;

/// Works `loads.house.latent` out: moist outdoor air and people, W.
///
/// # Errors
/// A dew point that no formula is for; a formula that does not read (a defect).
pub(super) fn latent(
    model: &Model,
    drive: &Drive,
    weather: &Weather,
    hour: usize,
    book: &mut Book,
) -> Result<f64, LoadError> {
    let of_hour = Of {
        model,
        drive,
        weather,
        hour,
    };
    of_hour.moisture(book)?;
    of_hour.air(book)?;
    of_hour.people(book)?;
    Ok(book.reckon(
        "loads.house.latent",
        "moisture to take out at the peak hour",
        Dim::Power,
        "d * Q * max(0, wo - wi) * L + n * p",
        &[
            ("d", "design.air-density"),
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

struct Of<'a> {
    model: &'a Model,
    drive: &'a Drive,
    weather: &'a Weather,
    hour: usize,
}

fn moist_air_of(place: &'static str) -> Source {
    Source::new("ashrae-fundamentals-2017", place)
}

impl Of<'_> {
    fn at(&self, column: &[f64]) -> f64 {
        column.get(self.hour).copied().unwrap_or(0.0)
    }

    fn weather(&self, what: &str) -> Source {
        Source::new(
            "weather",
            format!("{what} in {}", self.weather.hour_in_words(self.hour)),
        )
    }

    /// Moisture of outdoor and of indoor air.
    fn moisture(&self, book: &mut Book) -> Result<(), LoadError> {
        let dew_c = self.at(&self.weather.dew_point_c);
        // Refuses what the formula cannot be used for.
        moist_air::saturation_pressure_pa(dew_c)?;
        let pa = self.weather.pressure_pa.get(self.hour).copied();
        let comfort = || Source::new("common-practice", "summer comfort");
        for (key, what, value, dim, from) in [
            (
                "latent.dew-point",
                "dew point outdoors at the peak hour",
                dew_c,
                Dim::Temperature,
                self.weather("dew point"),
            ),
            (
                "latent.pressure",
                "pressure of the air",
                pa.unwrap_or(101_325.0),
                Dim::SmallPressure,
                self.weather("station pressure"),
            ),
            (
                "latent.inside",
                "indoor air in summer",
                USUAL_COOLING_C,
                Dim::Temperature,
                comfort(),
            ),
            (
                "latent.humidity",
                "indoor humidity kept in summer",
                INDOOR_HUMIDITY,
                Dim::Share,
                comfort(),
            ),
            (
                "latent.heat",
                "heat to condense a kilogram of water",
                LATENT_J_PER_KG,
                Dim::LatentHeat,
                moist_air_of("chapter 1"),
            ),
        ] {
            book.given(key, what, value, dim, from, None);
        }
        vapour("latent.outdoor-vapour", "latent.dew-point", dew_c, book)?;
        vapour("latent.indoor-most", "latent.inside", USUAL_COOLING_C, book)?;
        let of = [("p", "latent.outdoor-vapour"), ("P", "latent.pressure")];
        book.reckon(
            "latent.outdoor",
            "moisture of outdoor air",
            Dim::HumidityRatio,
            "0.621945 * p / (P - p)",
            &of,
            moist_air_of("chapter 1, equation 20"),
        )?;
        book.reckon(
            "latent.indoor",
            "moisture of indoor air",
            Dim::HumidityRatio,
            "0.621945 * f * p / (P - f * p)",
            &[
                ("f", "latent.humidity"),
                ("p", "latent.indoor-most"),
                ("P", "latent.pressure"),
            ],
            moist_air_of("chapter 1, equations 20 and 22"),
        )?;
        Ok(())
    }

    /// Outdoor air: leaks with the wind and warmth of the hour, fans that run then, and fixed
    /// changes of rooms.
    fn air(&self, book: &mut Book) -> Result<(), LoadError> {
        let mut parts = Vec::new();
        if book.get("leaks.c").is_some() {
            self.leaks(book)?;
            parts.push("latent.leaks".to_owned());
        }
        let of_day = self.drive.hour_of_day.get(self.hour).copied();
        let of_day = of_day.map_or(0, |h| usize::from(h) % 24);
        for (i, vent) in self.model.vents.iter().enumerate() {
            if vent.on[of_day] {
                let (key, from) = (format!("latent.fan-{}", i + 1), Source::job("vent"));
                let what = format!(
                    "outdoor air by a fan into {}",
                    self.model.zones[vent.zone].name
                );
                let flow = vent.flow_m3_per_s;
                book.given(&*key, what, flow, Dim::VolumeFlow, from, None);
                parts.push(key);
            }
        }
        for zone in &self.model.zones {
            let lived_in = zone.heated.is_some() || zone.cooled.is_some();
            if lived_in && zone.fixed_air_m3_per_s > 0.0 {
                let key = format!("latent.fixed-{}", in_key(&zone.name));
                let what = format!("outdoor air into {}, whatever the weather", zone.name);
                let (flow, from) = (zone.fixed_air_m3_per_s, Source::job("leakage"));
                book.given(&*key, what, flow, Dim::VolumeFlow, from, None);
                parts.push(key);
            }
        }
        let from = Source::new("common-practice", "leaks and fans");
        let what = "outdoor air at the peak hour";
        book.add_up("latent.air", what, Dim::VolumeFlow, &parts, from)?;
        Ok(())
    }

    fn leaks(&self, book: &mut Book) -> Result<(), LoadError> {
        let from = || moist_air_of("chapter 16, enhanced model");
        for (key, what, value, dim, says) in [
            (
                "latent.to",
                "outdoor air at the peak hour",
                self.at(&self.weather.dry_bulb_c),
                Dim::Temperature,
                "dry bulb",
            ),
            (
                "latent.wind",
                "wind at the leaks, after shelter",
                self.at(&self.drive.wind_m_per_s),
                Dim::Speed,
                "wind",
            ),
        ] {
            book.given(key, what, value, dim, self.weather(says), None);
        }
        book.reckon(
            "latent.leaks",
            "outdoor air through the leaks of the house at the peak hour",
            Dim::VolumeFlow,
            "c * sqrt((Cs * abs(Ti - To) ^ n) ^ 2 + (Cw * U ^ (2 * n)) ^ 2)",
            &[
                ("c", "leaks.c"),
                ("Cs", "leaks.stack-factor"),
                ("Ti", "latent.inside"),
                ("To", "latent.to"),
                ("n", "leaks.n"),
                ("Cw", "leaks.wind-factor"),
                ("U", "latent.wind"),
            ],
            from(),
        )?;
        Ok(())
    }

    /// People at home and the moisture of each.
    fn people(&self, book: &mut Book) -> Result<(), LoadError> {
        let mut keys = Vec::new();
        for zone in self.model.zones.iter().filter(|z| z.people > 0.0) {
            let key = format!("latent.people-{}", in_key(&zone.name));
            let (what, from) = (
                format!("people in {}", zone.name),
                Source::job(format!("room.{}.people", zone.name)),
            );
            book.given(&*key, what, zone.people, Dim::Count, from, None);
            keys.push(key);
        }
        let from = Source::new("common-practice", "sum");
        book.add_up("latent.people", "people", Dim::Count, &keys, from)?;
        book.given(
            "latent.person",
            "moisture of a person at rest",
            PERSON_LATENT_W,
            Dim::Power,
            moist_air_of("chapter 18, table 1 (from memory)"),
            None,
        );
        Ok(())
    }
}

/// Vapour pressure over ice or water of the temperature `of`, whose value is `c`.
fn vapour(key: &str, of: &str, c: f64, book: &mut Book) -> Result<(), LoadError> {
    let (formula, place) = if c <= TRIPLE_POINT_C {
        (OVER_ICE, "chapter 1, equation 5")
    } else {
        (OVER_WATER, "chapter 1, equation 6")
    };
    let what = "vapour pressure of saturated air at this temperature";
    let from = moist_air_of(place);
    book.reckon(key, what, Dim::SmallPressure, formula, &[("T", of)], from)?;
    Ok(())
}

const OVER_WATER: &str = "exp(-5800.2206 / (T + 273.15) + 1.3914993 - 4.8640239e-2 * (T + 273.15) \
     + 4.1764768e-5 * (T + 273.15) ^ 2 - 1.4452093e-8 * (T + 273.15) ^ 3 + 6.5459673 * ln(T + 273.15))";
const OVER_ICE: &str = "exp(-5674.5359 / (T + 273.15) + 6.3925247 - 9.677843e-3 * (T + 273.15) \
     + 6.2215701e-7 * (T + 273.15) ^ 2 + 2.0747825e-9 * (T + 273.15) ^ 3 \
     - 9.484024e-13 * (T + 273.15) ^ 4 + 4.1635019 * ln(T + 273.15))";
