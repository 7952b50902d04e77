//! Rooms without a head: how warm they stay when only the rooms with one are held.

use nalgebra::{DMatrix, DVector};
use reckon::{Book, Source, in_key};
use units::Dim;

use super::steady::{End, SteadyHouse};
use super::{Design, LoadError};
use crate::balance::{Doors, Passage};
use crate::model::Model;

/// Most rounds until the air through doors agrees with the temperatures.
const MOST_ROUNDS: usize = 400;
/// Agreement, K.
const SETTLED_K: f64 = 1e-9;

/// A room's temperature at one outdoor temperature with the doors one way.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomFloat {
    /// Zone.
    pub zone: usize,
    /// Name.
    pub room: String,
    /// Outdoor air, C.
    pub outdoor_c: f64,
    /// Doors.
    pub doors: Doors,
    /// Air of the room, C.
    pub air_c: f64,
    /// Key of the figure.
    pub key: String,
}

/// Temperature of a room beside a heated one.
///
/// **Equation** T = (UA To + (UAp + G) Th + P) / (UA + UAp + G)
///
/// **Symbols** UA loss to outdoors, UAp to the heated room through the wall, G air exchanged, all
/// W/K; To, Th outdoor and heated room, C; P free heat, W
///
/// **Range** any; at least one conductance above 0
///
/// **Source** trade-card-f11
///
/// **Example**
/// ```
/// let btu = 1055.05585262 / 3600.0 * 1.8; // Btu/(h F) in W/K
/// let f = |t: f64| (t - 32.0) / 1.8;
/// let t = house::loads::room_temperature_c(30.0 * btu, f(10.0), 25.0 * btu, f(70.0), 16.2 * btu, 250.0 * btu / 1.8);
/// assert!((t * 1.8 + 32.0 - 48.2).abs() < 0.1);
/// ```
pub fn room_temperature_c(
    out_w_per_k: f64,
    outdoor_c: f64,
    wall_w_per_k: f64,
    heated_c: f64,
    air_w_per_k: f64,
    free_heat_w: f64,
) -> f64 {
    let to_heated = wall_w_per_k + air_w_per_k;
    (out_w_per_k * outdoor_c + to_heated * heated_c + free_heat_w) / (out_w_per_k + to_heated)
}

/// How doors stand, as a word in keys.
fn word(doors: Doors) -> &'static str {
    match doors {
        Doors::AsUsual => "as-usual",
        Doors::Open => "open",
        Doors::Closed => "closed",
    }
}

/// Temperatures of every heated room that has no head, with the rooms in `held` at their setting,
/// no sun and no free heat. Written down under `rooms.<room>.<at>.<doors>`, where `at` is
/// the name given with the outdoor temperature.
///
/// # Errors
/// A formula or input that is not in the book (a defect).
pub fn rooms_without_heads(
    house: &SteadyHouse,
    model: &Model,
    design: &Design,
    held: &[usize],
    outdoors: &[(&str, f64)],
    book: &mut Book,
) -> Result<Vec<RoomFloat>, LoadError> {
    let mut out = Vec::new();
    for (at, outdoor_c) in outdoors {
        let outdoor_key = format!("rooms.outdoor.{at}");
        book.given(
            outdoor_key.clone(),
            format!("outdoor temperature, {at}"),
            *outdoor_c,
            Dim::Temperature,
            if *at == "design" {
                design.outdoor_source.clone()
            } else {
                Source::new("common-practice", "a usual cold day")
            },
            None,
        );
        for doors in [Doors::AsUsual, Doors::Open, Doors::Closed] {
            let solved = solve(house, model, design, held, *outdoor_c, doors);
            for (z, zone) in model.zones.iter().enumerate() {
                if zone.heated.is_none() || held.contains(&z) {
                    continue;
                }
                let key = format!("rooms.{}.{at}.{}", house.names[z], word(doors));
                let of = Case {
                    house,
                    model,
                    solved: &solved,
                    outdoor_key: &outdoor_key,
                    key: &key,
                };
                of.write(z, book)?;
                out.push(RoomFloat {
                    zone: z,
                    room: zone.name.clone(),
                    outdoor_c: *outdoor_c,
                    doors,
                    air_c: solved.air_c[z],
                    key,
                });
            }
        }
    }
    Ok(out)
}

struct Solved {
    air_c: Vec<f64>,
    held: Vec<bool>,
    passages: Vec<Passage>,
    leak_w_per_k: Vec<f64>,
}

fn solve(
    house: &SteadyHouse,
    model: &Model,
    design: &Design,
    held: &[usize],
    outdoor_c: f64,
    doors: Doors,
) -> Solved {
    let n = model.zones.len();
    let setting = |z: usize| {
        model.zones[z]
            .heated
            .as_ref()
            .and_then(|s| s.by_hour_c.iter().flatten().copied().reduce(f64::max))
            .unwrap_or(20.0)
    };
    let is_held: Vec<bool> = (0..n).map(|z| held.contains(&z)).collect();
    let mut air: Vec<f64> = (0..n)
        .map(|z| {
            if is_held[z] {
                setting(z)
            } else {
                0.5 * (setting(z) + outdoor_c)
            }
        })
        .collect();
    let passages: Vec<Passage> = model
        .openings
        .iter()
        .map(|o| Passage::new(o, doors.of(o.stands), model, design.air_j_per_m3k))
        .collect();
    let mut leak = vec![0.0; n];
    let mut g: Vec<f64> = passages.iter().map(|p| p.constant_w_per_k).collect();
    for _ in 0..MOST_ROUNDS {
        house
            .leakage
            .flow_w_per_k(&air, outdoor_c, design.wind_m_per_s, &mut leak);
        let mut a = DMatrix::<f64>::identity(n, n);
        let mut b = DVector::<f64>::zeros(n);
        for z in 0..n {
            if is_held[z] {
                b[z] = air[z];
                continue;
            }
            a[(z, z)] = leak[z] + 1e-9;
            b[z] = (leak[z] + 1e-9) * outdoor_c;
            for link in house.of(z) {
                a[(z, z)] += link.w_per_k;
                match &link.end {
                    End::Outdoor => b[z] += link.w_per_k * outdoor_c,
                    End::Ground(_, t) => b[z] += link.w_per_k * t,
                    End::Zone(o) => a[(z, *o)] -= link.w_per_k,
                }
            }
        }
        for (p, g) in passages.iter().zip(&g) {
            let [x, y] = p.zones;
            for (from, to) in [(x, y), (y, x)] {
                if !is_held[from] {
                    a[(from, from)] += g;
                    a[(from, to)] -= g;
                }
            }
        }
        let Some(next) = a.lu().solve(&b) else { break };
        let mut moved = 0.0_f64;
        for z in 0..n {
            moved = moved.max((next[z] - air[z]).abs());
            air[z] = next[z];
        }
        for (p, g) in passages.iter().zip(&mut g) {
            let dt = air[p.zones[0]] - air[p.zones[1]];
            let now = if dt.abs() < 1e-6 {
                p.steady_w_per_k
            } else {
                p.heat_w(dt, 0.0) / dt
            };
            // Half way: the flow grows with the root of the difference, which swings otherwise.
            *g = 0.5 * (*g + now);
        }
        if moved < SETTLED_K {
            break;
        }
    }
    Solved {
        air_c: air,
        held: is_held,
        passages,
        leak_w_per_k: leak,
    }
}

struct Case<'a> {
    house: &'a SteadyHouse,
    model: &'a Model,
    solved: &'a Solved,
    outdoor_key: &'a str,
    key: &'a str,
}

impl Case<'_> {
    fn write(&self, z: usize, book: &mut Book) -> Result<(), LoadError> {
        let source = || Source::new("trade-card-f11", "room temperature from its neighbours");
        let (mut pulls, mut conductances) = (Vec::new(), Vec::new());
        let mut pull = |h_key: String, t_key: &str, what: String, book: &mut Book| {
            let key = format!("{}.pull-{}", self.key, pulls.len() + 1);
            book.reckon(
                key.clone(),
                what,
                Dim::Power,
                "H * (T - To)",
                &[("H", &h_key), ("T", t_key), ("To", self.outdoor_key)],
                source(),
            )?;
            pulls.push(key);
            conductances.push(h_key);
            Ok::<(), LoadError>(())
        };
        for link in self.house.of(z) {
            let t_key = match &link.end {
                End::Outdoor => self.outdoor_key.to_owned(),
                End::Ground(key, _) => key.clone(),
                End::Zone(o) => self.neighbour(*o, book),
            };
            let what = format!("heat in through {}", link.through.word());
            pull(link.key.clone(), &t_key, what, book)?;
        }
        if self.solved.leak_w_per_k[z] > 0.0 {
            let key = format!("{}.leaks", self.key);
            book.given(
                key.clone(),
                "outdoor air through leaks, as heat per degree, at the temperatures solved",
                self.solved.leak_w_per_k[z],
                Dim::Conductance,
                Source::new("ashrae-fundamentals-2017", "chapter 16, enhanced model"),
                Some(self.model.leak.known),
            );
            pull(
                key,
                self.outdoor_key,
                "heat in through leaks".to_owned(),
                book,
            )?;
        }
        for p in self.solved.passages.iter().filter(|p| p.zones.contains(&z)) {
            let other = if p.zones[0] == z {
                p.zones[1]
            } else {
                p.zones[0]
            };
            let dt = self.solved.air_c[other] - self.solved.air_c[z];
            let sign = if p.zones[0] == other { dt } else { -dt };
            let g = if dt.abs() < 1e-6 {
                p.steady_w_per_k
            } else {
                p.heat_w(sign, 0.0) / sign
            };
            let key = format!("{}.door-to-{}", self.key, self.house.names[other]);
            book.given(
                key.clone(),
                format!(
                    "air through the door to {}, as heat per degree",
                    self.model.zones[other].name
                ),
                g,
                Dim::Conductance,
                Source::new(
                    "trade-card-f11",
                    "two-way flow through a doorway at this difference",
                ),
                None,
            );
            let t_key = self.neighbour(other, book);
            pull(
                key,
                &t_key,
                format!(
                    "heat in through the door to {}",
                    self.model.zones[other].name
                ),
                book,
            )?;
        }
        let what = format!("temperature of {} without a head", self.model.zones[z].name);
        if pulls.is_empty() {
            book.given(
                self.key,
                what,
                self.solved.air_c[z],
                Dim::Temperature,
                source(),
                None,
            );
            return Ok(());
        }
        let (all, per_k) = (
            format!("{}.pull", self.key),
            format!("{}.conductance", self.key),
        );
        book.add_up(
            all.clone(),
            "heat into the room in all, were it as cold as outdoors",
            Dim::Power,
            &pulls,
            source(),
        )?;
        book.add_up(
            per_k.clone(),
            "all conductances of the room",
            Dim::Conductance,
            &conductances,
            source(),
        )?;
        book.reckon(
            self.key,
            what,
            Dim::Temperature,
            "To + P / H",
            &[("To", self.outdoor_key), ("P", &all), ("H", &per_k)],
            source(),
        )?;
        Ok(())
    }

    /// Figure of a neighbour's temperature: its setting when held, else as solved together.
    fn neighbour(&self, o: usize, book: &mut Book) -> String {
        let setting = format!("room.{}.setting", self.house.names[o]);
        if self.solved.held[o] && book.get(&setting).is_some() {
            return setting;
        }
        let key = format!("{}.beside.{}", self.key, in_key(&self.model.zones[o].name));
        book.given(
            key.clone(),
            format!(
                "{} as solved with all rooms together",
                self.model.zones[o].name
            ),
            self.solved.air_c[o],
            Dim::Temperature,
            Source::new("trade-card-f11", "all rooms solved together"),
            None,
        );
        key
    }
}
