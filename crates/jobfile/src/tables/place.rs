//! `[place]`: weather, elevation, shelter, snow, typed design temperatures.

use house::describe::Shelter;
use units::Dim;

use super::Desk;
use crate::cell::Row;
use crate::check::Says;
use crate::field::{Kind, Table, may, must, usual};
use crate::{Job, TypedDesign};

/// Share of sun that bare ground and grass reflect: Standard 140 and common practice.
pub(super) const USUAL_ALBEDO: f64 = 0.2;

pub(super) static TABLE: Table = Table {
    name: "place",
    about: "Where the house stands",
    label: &[],
    assumed: false,
    fields: &[
        must(
            "weather",
            Kind::Text,
            "Weather file, path from the job's folder; or the name of a station that ships",
        ),
        may(
            "elevation",
            Kind::Q(Dim::Length, -500.0, 5000.0),
            "Elevation of the site; the station's if not given",
        ),
        usual(
            "shelter",
            Kind::Word(&["open", "country", "suburban", "town", "no wind"]),
            "suburban",
            "How open the site is to wind; `no wind` is for test houses",
        ),
        usual(
            "plan_north",
            Kind::Q(Dim::Angle, -std::f64::consts::TAU, std::f64::consts::TAU),
            "0 deg",
            "Compass direction the plan's north side faces, clockwise from north",
        ),
        usual(
            "ground_reflects",
            Kind::Q(Dim::Share, 0.0, 1.0),
            "0.2",
            "Share of sun the ground around reflects",
        ),
        may(
            "snow_depth",
            Kind::Q(Dim::Length, 0.0, 10.0),
            "Snow depth to bet the outdoor unit on",
        ),
        may(
            "heating_design",
            Kind::Q(Dim::Temperature, -60.0, 25.0),
            "Outdoor temperature for the heating load, from a code or a table",
        ),
        may(
            "heating_design_source",
            Kind::Text,
            "Where that temperature is from",
        ),
        may(
            "cooling_design",
            Kind::Q(Dim::Temperature, 10.0, 55.0),
            "Outdoor temperature for the cooling load, from a code or a table",
        ),
        may(
            "cooling_design_source",
            Kind::Text,
            "Where that temperature is from",
        ),
    ],
};

pub(super) fn read(row: &Row, job: &mut Job, desk: &mut Desk) {
    job.place.weather = row.words("weather");
    job.place.elevation_m = row.si("elevation");
    job.place.snow_depth_m = row.si("snow_depth");
    job.place.heating_design = design(row, "heating_design", "heating_design_source", desk);
    job.place.cooling_design = design(row, "cooling_design", "cooling_design_source", desk);
    job.house.shelter = match row.text("shelter") {
        Some("open") => Shelter::Open,
        Some("country") => Shelter::Country,
        Some("town") => Shelter::Town,
        Some("no wind") => Shelter::NoWind,
        _ => Shelter::Suburban,
    };
    job.house.plan_north_deg = row.si_or_0("plan_north").to_degrees();
    job.house.ground_albedo = row.si("ground_reflects").unwrap_or(USUAL_ALBEDO);
}

/// A typed temperature is only worth something with its source.
fn design(row: &Row, key: &str, source_key: &str, desk: &mut Desk) -> Option<TypedDesign> {
    match (row.si(key), row.text(source_key)) {
        (Some(c), Some(source)) => Some(TypedDesign {
            c,
            source: source.to_owned(),
        }),
        (Some(_), None) => {
            let says = Says::new(format!("`{key}` needs `{source_key}`"))
                .allowed("the code, table or person it is from")
                .mend(format!("add a line `{source_key} = \"...\"`"));
            desk.at(row, key, says);
            None
        }
        (None, Some(_)) if !row.has(key) => {
            let says = Says::new(format!("`{source_key}` without `{key}`"))
                .allowed("both, or neither")
                .mend(format!("add a line `{key} = \"-5 F\"`"));
            desk.at(row, source_key, says);
            None
        }
        _ => None,
    }
}
