//! Prints the demo house as JSON for `benches/house_numpy.py` (layout in `benches/README.md`), with
//! our own answer beside it.
//!
//! The plain reference knows no films that depend on temperature, no leakage by pressure and no air
//! through doors, so the house is given stated films, fixed air changes and shut doors first; what
//! is compared is the walls, the stars, the sun and the thermostats. Windows keep their natural
//! film here and a constant one there.

use std::collections::BTreeMap;
use std::io::Read;
use std::path::Path;

use house::assembly::{Flow, Slab, resolved};
use house::balance::{Balance, Doors, Network, Outer};
use house::describe::Leakage;
use house::drive::Drive;
use house::glazing::Glass;
use house::ideal::{WARM_UP_DAYS, year_on};
use house::model::{Behind, Model, StatedFilm};
use serde_json::{Value, json};

/// Inside films stated for the comparison, W/(m2 K).
const CONVECTION: f64 = 2.5;
const LONGWAVE: f64 = 5.0;

fn main() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let text = std::fs::read_to_string(root.join("jobs/lake-street/job.toml")).expect("demo job");
    let mut job = jobfile::read(&text).expect("the demo job reads");
    job.house.leakage = Leakage::Fixed { per_h: 0.4 };
    let packed = std::fs::File::open(root.join("weather/chicago-725300.epw.gz")).expect("weather");
    let mut bytes = Vec::new();
    flate2::read::GzDecoder::new(packed)
        .read_to_end(&mut bytes)
        .expect("gzip");
    let weather = climate::read_any(&bytes).expect("weather").value;

    let mut model = house::geometry::model(&job.house).expect("geometry");
    model.openings.clear();
    model.stated_films = (0..model.constructions.len())
        .map(|construction| StatedFilm {
            construction,
            convection_w_per_m2k: CONVECTION,
            radiant_w_per_m2k: LONGWAVE,
        })
        .collect();
    let glasses: Vec<Glass> = model.glazings.iter().map(Glass::new).collect();
    let drive = Drive::new(&model, &glasses, &weather).expect("drive");
    let year = year_on(&model, &glasses, &drive, Doors::Closed).expect("a year");
    let balance = Balance::new(&model, &glasses, &drive, Doors::Closed).expect("a balance");
    println!(
        "{}",
        Dump::new(&model, &drive, balance.network()).json(&year)
    );
}

struct Dump<'a> {
    model: &'a Model,
    drive: &'a Drive,
    network: &'a Network,
    series: BTreeMap<String, Vec<f64>>,
}

impl<'a> Dump<'a> {
    fn new(model: &'a Model, drive: &'a Drive, network: &'a Network) -> Self {
        Self {
            model,
            drive,
            network,
            series: BTreeMap::new(),
        }
    }

    /// Keeps a series and gives its name.
    fn keep(&mut self, name: &str, values: Vec<f64>) -> Value {
        self.series.insert(name.to_owned(), values);
        json!(name)
    }

    fn hours(&self, at: impl Fn(usize) -> f64) -> Vec<f64> {
        (0..self.drive.steps).map(at).collect()
    }

    fn json(mut self, year: &house::ideal::HouseYear) -> Value {
        let outdoor = self.drive.outdoor_c.clone();
        self.keep("outdoor", outdoor);
        let sun = self.zone_sun();
        let mut surfaces = Vec::new();
        for i in 0..self.network.outer.len() {
            surfaces.push(self.outer(i, &sun));
        }
        for i in 0..self.network.windows.len() {
            surfaces.push(self.window(i, &sun));
        }
        for i in 0..self.network.partitions.len() {
            surfaces.push(self.partition(i, &sun));
        }
        let step_s = self.drive.step_s();
        let zones: Vec<Value> = self
            .model
            .zones
            .iter()
            .enumerate()
            .map(|(z, zone)| {
                let gain: Vec<f64> = (0..24)
                    .map(|h| {
                        zone.gains
                            .iter()
                            .map(|g| g.by_hour_w[h] * (1.0 - g.radiant))
                            .sum()
                    })
                    .collect();
                // Radiant gains are spread over the faces, in what they take.
                let mut made = json!({
                    "name": zone.name,
                    "air_j_per_k": self.network.capacity[z] * step_s,
                    "gain_convective_w": gain,
                });
                for (key, setting) in [("heat_to_c", &zone.heated), ("cool_to_c", &zone.cooled)] {
                    if let Some(setting) = setting {
                        made[key] = json!(setting.by_hour_c.to_vec());
                    }
                }
                made
            })
            .collect();
        let air: Vec<Value> = self
            .network
            .fixed_air
            .iter()
            .enumerate()
            .filter(|(_, w)| **w > 0.0)
            .map(|(z, w)| json!({"to": z, "from_c": "outdoor", "w_per_k": w}))
            .collect();
        json!({
            "layout": 1,
            "step_s": step_s,
            "hours": self.drive.steps,
            "warm_up_hours": WARM_UP_DAYS * 24,
            "series": self.series,
            "zones": zones,
            "surfaces": surfaces,
            "air": air,
            "expected": {
                "heating_kwh": year.zones.iter().map(|z| z.heating_j / 3.6e6).collect::<Vec<_>>(),
                "cooling_kwh": year.zones.iter().map(|z| z.cooling_j / 3.6e6).collect::<Vec<_>>(),
            },
        })
    }

    /// Beam and diffuse let into each zone, W.
    fn zone_sun(&self) -> Vec<[Vec<f64>; 2]> {
        let (d, n) = (self.drive, self.network);
        (0..n.zones)
            .map(|z| {
                [&d.beam_w_per_m2, &d.diffuse_w_per_m2].map(|column| {
                    self.hours(|h| {
                        n.windows
                            .iter()
                            .filter(|w| w.zone == z)
                            .map(|w| column[h * d.apertures + w.aperture] * n.area[w.face])
                            .sum()
                    })
                })
            })
            .collect()
    }

    /// The inside of a face: films, and what of sun and radiant gains it takes.
    fn inside(&mut self, face: usize, convection: f64, sun: &[[Vec<f64>; 2]]) -> Value {
        let (n, model) = (self.network, self.model);
        let z = n.zone_of(face);
        let (beam, diffuse, radiant) = (
            n.takes_beam[face],
            n.takes_diffuse[face],
            n.takes_radiant[face],
        );
        let takes = self.hours(|h| {
            let hour = usize::from(self.drive.hour_of_day[h]);
            let gains: f64 = model.zones[z]
                .gains
                .iter()
                .map(|g| g.by_hour_w[hour] * g.radiant)
                .sum();
            beam * sun[z][0][h] + diffuse * sun[z][1][h] + radiant * gains
        });
        json!({
            "convection_w_per_m2k": convection,
            "radiation_w_per_m2k": n.radiant[face],
            "absorbed_w_per_m2": self.keep(&format!("takes-{face}"), takes),
        })
    }

    fn slabs(&self, surface: usize) -> Vec<Value> {
        let s = &self.model.surfaces[surface];
        let c = &self.model.constructions[s.construction];
        let mut slabs = resolved(c, Flow::of_tilt(s.tilt_deg)).expect("layers");
        if let Behind::Ground(contact) = &s.behind {
            slabs.insert(
                0,
                Slab {
                    r_m2k_per_w: contact.soil_m / self.model.soil.k_w_per_mk,
                    c_j_per_m2k: contact.soil_m * self.model.soil.capacity_j_per_m3k,
                },
            );
        }
        slabs
            .iter()
            .map(|s| json!({"r_m2k_per_w": s.r_m2k_per_w, "c_j_per_m2k": s.c_j_per_m2k}))
            .collect()
    }

    /// Film and felt temperature of a column of the drive.
    fn weather(&mut self, column: usize) -> Value {
        let (d, n) = (self.drive, self.drive.faces);
        let film = self.hours(|h| d.film_w_per_m2k[h * n + column]);
        let felt = self.hours(|h| d.felt_c[h * n + column]);
        json!([{
            "w_per_m2k": self.keep(&format!("film-{column}"), film),
            "temperature_c": self.keep(&format!("felt-{column}"), felt),
        }])
    }

    fn outer(&mut self, i: usize, sun: &[[Vec<f64>; 2]]) -> Value {
        let wall = &self.network.outer[i];
        let (face, surface) = (wall.face, wall.surfaces[0]);
        let outside = match wall.drive {
            Outer::Weather(column) => Some(self.weather(column)),
            Outer::Ground {
                conductance,
                surface,
            } => {
                let Behind::Ground(contact) = &self.model.surfaces[surface].behind else {
                    return Value::Null;
                };
                let months =
                    house::ground::virtual_temperatures_c(contact, &self.drive.monthly_outdoor_c);
                let c = self.hours(|h| months[usize::from(self.drive.month[h]) - 1]);
                let c = self.keep(&format!("ground-{surface}"), c);
                Some(json!([{"w_per_m2k": conductance, "temperature_c": c}]))
            }
            Outer::Nothing => None,
        };
        let mut made = json!({
            "name": self.model.surfaces[surface].name,
            "zone": self.network.zone_of(face),
            "area_m2": self.network.area[face],
            "slabs": self.slabs(surface),
            "inside": self.inside(face, CONVECTION, sun),
        });
        if let Some(outside) = outside {
            made["outside"] = outside;
        }
        made
    }

    fn window(&mut self, i: usize, sun: &[[Vec<f64>; 2]]) -> Value {
        let w = &self.network.windows[i];
        let (face, aperture, n) = (w.face, w.aperture, self.drive.apertures);
        let d = self.drive;
        let outer = self.hours(|h| d.outer_w_per_m2[h * n + aperture]);
        let mut inside = self.inside(face, CONVECTION, sun);
        // What the inner pane soaks up comes on top.
        let name = format!("takes-{face}");
        let soaked: Vec<f64> = self.series[&name]
            .iter()
            .enumerate()
            .map(|(h, takes)| takes + d.inner_w_per_m2[h * n + aperture])
            .collect();
        inside["absorbed_w_per_m2"] = self.keep(&name, soaked);
        json!({
            "name": format!("window-{i}"),
            "zone": self.network.zone_of(face),
            "area_m2": self.network.area[face],
            "slabs": [{"r_m2k_per_w": 1.0 / w.core[0], "c_j_per_m2k": 0.0}],
            "inside": inside,
            "outside": self.weather(w.outside),
            "absorbed_outside_w_per_m2": self.keep(&format!("outer-{i}"), outer),
        })
    }

    fn partition(&mut self, i: usize, sun: &[[Vec<f64>; 2]]) -> Value {
        let p = &self.network.partitions[i];
        let ([a, b], surface) = (p.faces, p.surfaces[0]);
        json!({
            "name": self.model.surfaces[surface].name,
            "zone": self.network.zone_of(a),
            "area_m2": self.network.area[a],
            "slabs": self.slabs(surface),
            "inside": self.inside(a, CONVECTION, sun),
            "other_zone": self.network.zone_of(b),
            "other_side": self.inside(b, CONVECTION, sun),
        })
    }
}
