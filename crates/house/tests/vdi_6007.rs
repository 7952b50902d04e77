//! Test rooms 1, 2, 5 and 6 of VDI 6007-1, version S (checks/values/vdi6007_cases.json: inputs,
//! hourly reference, tolerance 0.15 K or 1.5 W).
//!
//! The standard gives each wall as resistance, capacity, resistance, and states every film; both can
//! be said to the balance: a layer without resistance that stores, between two that only resist,
//! and stated films. Its longwave exchange, 5 W/(m2 K) of the smaller of the two areas, is a star
//! in which the inner walls carry all of the resistance. Settings and gains are hour by hour; the
//! balance runs by the minute.

use house::balance::{Balance, Doors, Supply};
use house::describe::{Construction, Gain, Layer, Setting, Shade, Shelter, Soil, Use};
use house::drive::Drive;
use house::model::{Behind, Leak, Model, StatedFilm, Surface, SurfaceKind, WindowPane, Zone};
use reckon::Known;
use serde_json::Value;

const STEPS: usize = 60;
/// Outside film of the outer wall (from memory; the reference is met with it and missed by 2 K
/// without any).
const OUTSIDE_W_PER_M2K: f64 = 25.0;

fn case(name: &str) -> Value {
    let all: Value =
        serde_json::from_str(include_str!("../../../checks/values/vdi6007_cases.json"))
            .expect("the cases read");
    all[name].clone()
}

fn number(case: &Value, key: &str) -> f64 {
    let v = &case["params"][key];
    v.as_f64()
        .or_else(|| v[0].as_f64())
        .unwrap_or_else(|| panic!("{key} is a number"))
}

/// A table of (seconds, value) steps as the mean of each hour of the day.
fn by_hour(case: &Value, table: &str, column: usize) -> [f64; 24] {
    let rows: Vec<(f64, f64)> = case["tables"][table]
        .as_array()
        .expect("a table")
        .iter()
        .map(|r| {
            (
                r[0].as_f64().expect("time"),
                r[column].as_f64().expect("value"),
            )
        })
        .collect();
    core::array::from_fn(|h| {
        let middle = (h as f64 + 0.5) * 3600.0;
        let after = rows
            .iter()
            .position(|(t, _)| *t > middle)
            .expect("a row after the hour");
        rows[after - 1].1
    })
}

/// A wall; `sun` is the share of the room's sun it takes.
fn wall(name: &str, out_r: f64, c_j_per_k: f64, in_r: f64, area_m2: f64, sun: f64) -> Construction {
    Construction {
        name: name.into(),
        layers: vec![
            Layer::Resistance {
                name: "outer".into(),
                r_m2k_per_w: out_r * area_m2,
            },
            Layer::Solid {
                name: "store".into(),
                thickness_m: 0.1,
                k_w_per_mk: 500.0,
                density_kg_per_m3: c_j_per_k / area_m2 / 100.0,
                cp_j_per_kgk: 1000.0,
            },
            Layer::Resistance {
                name: "inner".into(),
                r_m2k_per_w: in_r * area_m2,
            },
        ],
        sun_absorptance_out: 0.5,
        emittance_out: 0.9,
        sun_absorptance_in: sun,
        emittance_in: 0.9,
        known: Known::Seen,
    }
}

fn surface(name: &str, construction: usize, area_m2: f64, behind: Behind) -> Surface {
    Surface {
        name: name.into(),
        zone: 0,
        kind: SurfaceKind::Wall,
        area_m2,
        tilt_deg: 90.0,
        construction,
        behind,
        ends_m: None,
    }
}

/// The window only lets sun in; its own heat stands in the outer wall, so it is made next to
/// nothing.
const PANE_M2: f64 = 1e-6;

/// The room: one outer wall, one inner mass, gains by hour (convective and radiant, W).
fn room(case: &Value, convective: [f64; 24], radiant: [f64; 24]) -> Model {
    let (a_out, a_in) = (number(case, "AExt"), number(case, "AInt"));
    // 5 W/(m2 K) of the smaller area, all of it at the inner walls; the outer wall's end of the
    // star has next to no resistance.
    let star = number(case, "hRad") * a_out.min(a_in);
    let film = |construction, convection: &str, radiant_w_per_m2k| StatedFilm {
        construction,
        convection_w_per_m2k: number(case, convection),
        radiant_w_per_m2k,
    };
    Model {
        zones: vec![Zone {
            name: "room".into(),
            storey: None,
            room: None,
            floor_m2: 17.5,
            volume_m3: 1e-3,
            middle_m: 1.5,
            heated: None,
            cooled: None,
            gains: vec![
                Gain {
                    by_hour_w: convective,
                    radiant: 0.0,
                },
                Gain {
                    by_hour_w: radiant,
                    radiant: 1.0,
                },
            ],
            contents_j_per_k: 0.0,
            fixed_air_m3_per_s: 0.0,
            leak_share: 0.0,
            used_for: Use::Living,
            people: 0.0,
        }],
        surfaces: vec![
            surface(
                "outer wall",
                0,
                a_out,
                Behind::Outdoor {
                    azimuth_deg: 0.0,
                    sun: false,
                    wind: false,
                },
            ),
            surface("inner walls", 1, a_in, Behind::Adiabatic),
        ],
        panes: vec![WindowPane {
            name: "window".into(),
            zone: 0,
            in_surface: 0,
            area_m2: PANE_M2,
            width_m: 1e-3,
            height_m: 1e-3,
            sill_m: 1.0,
            count: 1,
            azimuth_deg: 0.0,
            tilt_deg: 90.0,
            glazing: 0,
            shade: Shade::default(),
            known: Known::Seen,
        }],
        openings: Vec::new(),
        constructions: vec![
            wall(
                "outer",
                number(case, "RExtRem"),
                number(case, "CExt"),
                number(case, "RExt"),
                a_out,
                0.0,
            ),
            wall(
                "inner",
                1e-3,
                number(case, "CInt"),
                number(case, "RInt"),
                a_in,
                1.0,
            ),
        ],
        glazings: Vec::new(),
        leak: Leak {
            c_m3_per_s_pa_n: 0.0,
            n: 0.65,
            bottom_m: 0.0,
            top_m: 3.0,
            known: Known::Seen,
        },
        vents: Vec::new(),
        soil: Soil::default(),
        shelter: Shelter::NoWind,
        ground_albedo: 0.2,
        stated_films: vec![film(0, "hConExt", 1e5), film(1, "hConInt", star / a_in)],
        steps_an_hour: STEPS,
        top_m: 3.0,
    }
}

/// The drive: the stated outdoor temperature and sun let in, by hour of the day.
fn drive(model: &Model, outdoor_c: [f64; 24], sun_w: [f64; 24]) -> Drive {
    let station = climate::Station {
        name: "test room".into(),
        place: "none".into(),
        wmo: "0".into(),
        latitude_deg: 50.0,
        longitude_deg: 10.0,
        utc_offset_h: 1.0,
        elevation_m: 0.0,
        source: "VDI 6007-1".into(),
    };
    let weather = climate::Weather::constant(station, 22.0, 5.0, 0.0, 400.0).expect("weather");
    let mut drive = Drive::new(model, &[], &weather)
        .expect("drive")
        .finer(STEPS);
    drive.film_w_per_m2k.fill(OUTSIDE_W_PER_M2K);
    for s in 0..drive.steps {
        let c = outdoor_c[usize::from(drive.hour_of_day[s])];
        drive.felt_c[s * drive.faces..(s + 1) * drive.faces].fill(c);
        drive.outdoor_c[s] = c;
        drive.beam_w_per_m2[s] = sun_w[usize::from(drive.hour_of_day[s])] / PANE_M2;
    }
    drive
}

/// Runs the 60 days of the case; the value of each hour's end (temperature) or mean (heat).
fn run(model: &Model, drive: &Drive, supply: impl Fn(usize) -> Supply) -> Vec<(f64, f64)> {
    let mut balance = Balance::new(model, &[], drive, Doors::AsUsual).expect("a room");
    balance.stand_at(22.0);
    let mut hours = Vec::new();
    for h in 0..60 * 24 {
        let (mut air, mut heat) = (0.0, 0.0);
        for s in h * STEPS..(h + 1) * STEPS {
            let got = balance.step(s, &[supply(h % 24)]);
            (air, heat) = (got.air_c[0], heat + got.heat_w[0] / STEPS as f64);
            balance.accept(s);
        }
        hours.push((air, heat));
    }
    hours
}

/// Compares at the reference's hours; returns how many were compared.
fn compare(case: &Value, got: impl Fn(usize) -> f64) -> usize {
    let threshold: f64 = case["threshold"]
        .as_str()
        .and_then(|t| t.parse().ok())
        .expect("a tolerance");
    let mut compared = 0;
    for row in case["tables"]["reference"].as_array().expect("a reference") {
        let (time, want) = (
            row[0].as_f64().expect("time"),
            row[1].as_f64().expect("value"),
        );
        let hour = (time / 3600.0).round() as usize;
        // The row at time 0 is the start itself.
        if hour == 0 {
            continue;
        }
        let got = got(hour - 1);
        assert!(
            (got - want).abs() <= threshold + 0.05,
            "hour {hour}: {got:.2} against {want} (tolerance {threshold}, printed to 0.1)"
        );
        compared += 1;
    }
    compared
}

fn free(_: usize) -> Supply {
    Supply::NONE
}

#[test]
fn room_1_convective_heat() {
    let case = case("1");
    let model = room(&case, by_hour(&case, "intGai", 1), [0.0; 24]);
    let hours = run(&model, &drive(&model, [22.0; 24], [0.0; 24]), free);
    assert!(compare(&case, |h| hours[h].0) >= 70);
}

#[test]
fn room_2_radiant_heat() {
    let case = case("2");
    let model = room(&case, [0.0; 24], by_hour(&case, "intGai", 1));
    let hours = run(&model, &drive(&model, [22.0; 24], [0.0; 24]), free);
    assert!(compare(&case, |h| hours[h].0) >= 70);
}

#[test]
fn room_6_heat_to_hold_a_setting() {
    let case = case("6");
    let model = room(&case, [0.0; 24], by_hour(&case, "intGai", 1));
    let set = Setting {
        by_hour_c: by_hour(&case, "setTemp", 1).map(Some),
        ramps: [false; 24],
    };
    let hours = run(&model, &drive(&model, [22.0; 24], [0.0; 24]), |h| {
        let to = set.at(h, 1.0).expect("set all day");
        Supply::ideal(Some(to), Some(to))
    });
    // The reference counts heat into the room below zero.
    assert!(compare(&case, |h| -hours[h].1) >= 70);
}

/// Sun through 7 m2 of window behind a blind that lets 15 % through above 100 W/m2 (from memory),
/// 9 % of it straight to the air, the rest to the inner walls alone; people and machines.
#[test]
fn room_5_sun_and_people() {
    let case = case("5");
    let sun = by_hour(&case, "tableSolRadWindow", 1)
        .map(|w| w * if w > 100.0 { 0.15 } else { 1.0 } * 7.0);
    let [radiant, people, machines] = [1, 2, 3].map(|c| by_hour(&case, "intGai", c));
    let share = number(&case, "ratioWinConRad");
    let to_air = core::array::from_fn(|h| people[h] + machines[h] + share * sun[h]);
    let model = room(&case, to_air, radiant);
    let outdoor = by_hour(&case, "outdoorTemp", 1).map(|k| k - 273.15);
    let hours = run(
        &model,
        &drive(&model, outdoor, sun.map(|w| (1.0 - share) * w)),
        free,
    );
    assert!(compare(&case, |h| hours[h].0) >= 70);
}
