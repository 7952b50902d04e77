//! The demo house, its weather and the invented catalogue.
#![allow(dead_code)] // each test file uses its own share of these

use std::io::Read;

use climate::Weather;
use house::balance::Doors;
use house::drive::Drive;
use house::glazing::Glass;
use house::model::Model;
use jobfile::{Choice, Equipment, HeadChoice, Job, OutdoorChoice};
use season::{Catalogue, Input, Year};

fn path(rest: &str) -> String {
    format!("{}/../../{rest}", env!("CARGO_MANIFEST_DIR"))
}

pub fn catalogue() -> Catalogue {
    let mut all = Catalogue::new();
    let folder = std::fs::read_dir(path("catalogue")).expect("catalogue");
    for entry in folder {
        let file = entry.expect("entry").path();
        if file.extension().is_some_and(|e| e == "toml") {
            let text = std::fs::read_to_string(&file).expect("sheet");
            let sheet = heatpump::read_sheet("test.toml", &text).expect("good sheet");
            all.insert(sheet.name.clone(), sheet);
        }
    }
    all
}

pub fn weather(file: &str) -> Weather {
    let packed = std::fs::File::open(path(&format!("weather/{file}"))).expect("weather");
    let mut bytes = Vec::new();
    flate2::read::GzDecoder::new(packed)
        .read_to_end(&mut bytes)
        .expect("unpacked");
    climate::read_any(&bytes).expect("weather reads").value
}

/// The first week of each month set end to end: every season in under a quarter of the hours. For
/// tests that hold two ways against each other over many years, and say nothing of the climate.
pub fn weeks(all: &Weather) -> Weather {
    let hours: Vec<usize> = (0..all.len()).filter(|h| all.day[*h] <= 7).collect();
    let of = |from: &[f64]| hours.iter().map(|h| from[*h]).collect::<Vec<f64>>();
    let dates = |from: &[u8]| hours.iter().map(|h| from[*h]).collect::<Vec<u8>>();
    Weather {
        station: all.station.clone(),
        header_design: all.header_design.clone(),
        start_weekday: all.start_weekday,
        year: hours.iter().map(|h| all.year[*h]).collect(),
        month: dates(&all.month),
        day: dates(&all.day),
        hour: dates(&all.hour),
        dry_bulb_c: of(&all.dry_bulb_c),
        dew_point_c: of(&all.dew_point_c),
        rel_humidity: of(&all.rel_humidity),
        pressure_pa: of(&all.pressure_pa),
        ghi_w_per_m2: of(&all.ghi_w_per_m2),
        dni_w_per_m2: of(&all.dni_w_per_m2),
        dhi_w_per_m2: of(&all.dhi_w_per_m2),
        infrared_w_per_m2: of(&all.infrared_w_per_m2),
        wind_speed_m_per_s: of(&all.wind_speed_m_per_s),
        wind_dir_deg: of(&all.wind_dir_deg),
        sky_cover: of(&all.sky_cover),
        opaque_sky_cover: of(&all.opaque_sky_cover),
        snow_depth_m: all.snow_depth_m.as_deref().map(of),
        albedo: all.albedo.as_deref().map(of),
    }
}

pub fn lake_street() -> String {
    std::fs::read_to_string(path("jobs/lake-street/job.toml")).expect("job")
}

pub fn job(text: &str) -> Job {
    jobfile::read(text).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// A job with everything a year asks for.
pub struct Site {
    pub job: Job,
    pub model: Model,
    pub glasses: Vec<Glass>,
    pub drive: Drive,
    pub weather: Weather,
    pub catalogue: Catalogue,
}

impl Site {
    pub fn new(job: Job, weather: Weather) -> Self {
        let model = house::geometry::model(&job.house).expect("model");
        let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
        let drive = Drive::new(&model, &glasses, &weather).expect("drive");
        Self {
            job,
            model,
            glasses,
            drive,
            weather,
            catalogue: catalogue(),
        }
    }

    pub fn lake_street() -> Self {
        Self::new(job(&lake_street()), weather("chicago-725300.epw.gz"))
    }

    pub fn input<'a>(&'a self, choice: &'a Choice) -> Input<'a> {
        Input {
            job: &self.job,
            model: &self.model,
            glasses: &self.glasses,
            drive: &self.drive,
            weather: &self.weather,
            catalogue: &self.catalogue,
            choice,
            doors: Doors::AsUsual,
        }
    }

    pub fn year(&self, choice: &Choice) -> Year {
        season::year(&self.input(choice)).expect("a year")
    }
}

/// Outdoor units as (name, sheet) and heads as (room, sheet, on).
pub fn choice(name: &str, outdoors: &[(&str, &str)], heads: &[(&str, &str, &str)]) -> Choice {
    Choice {
        name: name.to_owned(),
        equipment: Equipment {
            outdoors: outdoors
                .iter()
                .map(|(name, unit)| OutdoorChoice {
                    name: (*name).to_owned(),
                    unit: (*unit).to_owned(),
                    serial: None,
                })
                .collect(),
            heads: heads
                .iter()
                .map(|(room, unit, on)| HeadChoice {
                    name: (*room).to_owned(),
                    room: (*room).to_owned(),
                    unit: (*unit).to_owned(),
                    on: (*on).to_owned(),
                    serial: None,
                })
                .collect(),
        },
    }
}

/// A line of bills plain enough for a test: least squares through the mean heat of the days colder
/// than 10 C. Heat loss, W/K, and balance point, C.
pub fn line_of_days(outdoor_c: &[f64], heat_w: &[f64]) -> Option<(f64, f64)> {
    let (mut n, mut t, mut q, mut tt, mut tq) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (c, w) in outdoor_c.chunks_exact(24).zip(heat_w.chunks_exact(24)) {
        let c = c.iter().sum::<f64>() / 24.0;
        let w = w.iter().sum::<f64>() / 24.0;
        if c < 10.0 && w > 0.0 {
            n += 1.0;
            t += c;
            q += w;
            tt += c * c;
            tq += c * w;
        }
    }
    let spread = tt - t * t / f64::max(n, 1.0);
    if n < 30.0 || spread <= 1e-6 {
        return None;
    }
    let slope = (tq - t * q / n) / spread;
    (slope < 0.0).then(|| (-slope, t / n - q / n / slope))
}
