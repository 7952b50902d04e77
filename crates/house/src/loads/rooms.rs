//! Rooms without a head: how warm they stay when only the rooms with one are held.

use nalgebra::{DMatrix, DVector};
use reckon::{Book, Source};
use units::Dim;

use super::NONE_W_PER_K;
use super::rooms_told::Case;
use super::steady::{End, SteadyHouse};
use super::{Design, LoadError};
use crate::balance::{Doors, Passage};
use crate::model::Model;

/// Most rounds until the air through doors agrees with the temperatures.
const MOST_ROUNDS: usize = 400;
/// Agreement, K: so near that each room's figure, worked out again from its neighbours', is the
/// one solved.
const SETTLED_K: f64 = 1e-12;
/// Where a room with a head is held that has no setting, C. Common practice, no source.
pub(super) const USUAL_HELD_C: f64 = 20.0;

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
pub(super) fn word(doors: Doors) -> &'static str {
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
            let case = Case {
                house,
                model,
                solved: &solved,
                at,
                doors,
            };
            case.write(book)?;
            for (z, zone) in model.zones.iter().enumerate() {
                if zone.heated.is_none() || held.contains(&z) {
                    continue;
                }
                out.push(RoomFloat {
                    zone: z,
                    room: zone.name.clone(),
                    outdoor_c: *outdoor_c,
                    doors,
                    air_c: solved.air_c[z],
                    key: case.key(z),
                });
            }
        }
    }
    Ok(out)
}

/// A house at one outdoor temperature.
pub(super) struct Solved {
    /// Air of every zone, C.
    pub air_c: Vec<f64>,
    /// Zones that a head holds at their setting.
    pub held: Vec<bool>,
    /// Outdoor air through the leaks of every zone, W/K.
    pub leak_w_per_k: Vec<f64>,
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
            .unwrap_or(USUAL_HELD_C)
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
            .steady_w_per_k(&air, outdoor_c, design.wind_m_per_s, &mut leak);
        let mut a = DMatrix::<f64>::identity(n, n);
        let mut b = DVector::<f64>::zeros(n);
        for z in 0..n {
            if is_held[z] {
                b[z] = air[z];
                continue;
            }
            a[(z, z)] = leak[z] + NONE_W_PER_K;
            b[z] = (leak[z] + NONE_W_PER_K) * outdoor_c;
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
            let now = p.w_per_k(air[p.zones[0]], air[p.zones[1]]);
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
        leak_w_per_k: leak,
    }
}
