//! Heating load, room by room, on the design night: no sun, no free heat.

use nalgebra::{DMatrix, DVector};
use reckon::{Book, Source};
use units::Dim;

use super::steady::{End, SteadyHouse, Through, in_key};
use super::{Design, LoadError};
use crate::glazing::Glass;
use crate::model::Model;

/// One kind of loss of a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// What the heat passes through.
    pub through: Through,
    /// W; below zero where the room is warmed by a neighbour.
    pub heat_w: f64,
}

/// A room's heating load.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomHeating {
    /// Zone index.
    pub zone: usize,
    /// Room name.
    pub room: String,
    /// Setting, C.
    pub inside_c: f64,
    /// Load, W.
    pub heat_w: f64,
    /// Kinds of loss, in the order of [`Through`].
    pub parts: Vec<Part>,
    /// Floor area, m2.
    pub floor_m2: f64,
    /// Key of the load's figure.
    pub key: String,
}

/// Loads of the house.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatingLoads {
    /// Heated rooms.
    pub rooms: Vec<RoomHeating>,
    /// House, W: the sum of the rooms.
    pub heat_w: f64,
    /// Unheated spaces and their temperature, C.
    pub unheated: Vec<(usize, f64)>,
    /// Outdoor air through leaks, m3/s, with leaks spread as usual.
    pub leak_m3_per_s: f64,
    /// Loss per degree of the whole house at the design hour, W/K.
    pub loss_w_per_k: f64,
}

/// Works out the heating load of every heated room and writes all of it down.
///
/// # Errors
/// What [`SteadyHouse::new`] refuses.
pub fn heating(
    model: &Model,
    glasses: &[Glass],
    design: &Design,
    book: &mut Book,
) -> Result<(HeatingLoads, SteadyHouse), LoadError> {
    design.write(book);
    let house = SteadyHouse::new(model, glasses, design, book)?;
    let inside: Vec<Option<f64>> = model
        .zones
        .iter()
        .map(|z| {
            z.heated
                .as_ref()
                .and_then(|s| s.by_hour_c.iter().flatten().copied().reduce(f64::max))
        })
        .collect();
    for (z, t) in inside.iter().enumerate() {
        if let Some(t) = t {
            book.given(
                format!("room.{}.setting", house.names[z]),
                format!("setting of {}", model.zones[z].name),
                *t,
                Dim::Temperature,
                Source::new("job", format!("room {}", model.zones[z].name)),
                None,
            );
        }
    }
    let unheated = unheated_spaces(&house, model, design, &inside, book)?;
    let temperature = |z: usize| -> (f64, String) {
        match inside[z] {
            Some(t) => (t, format!("room.{}.setting", house.names[z])),
            None => (
                unheated
                    .iter()
                    .find(|(u, _)| *u == z)
                    .map_or(design.outdoor_c, |(_, t)| *t),
                format!("space.{}.temperature", house.names[z]),
            ),
        }
    };
    let leaks = leaks(&house, model, &inside, book)?;
    let mut rooms = Vec::new();
    let mut room_keys = Vec::new();
    for z in 0..model.zones.len() {
        let Some(inside_c) = inside[z] else { continue };
        let name = &house.names[z];
        let (_, ti_key) = temperature(z);
        let mut parts: Vec<(Through, String, f64)> = Vec::new();
        for (i, link) in house.of(z).enumerate() {
            let to_key = match &link.end {
                End::Outdoor => "design.outdoor".to_owned(),
                End::Ground(key, _) => key.clone(),
                End::Zone(other) => temperature(*other).1,
            };
            let key = format!("loads.{name}.{}.{}", in_key(link.through.word()), i + 1);
            let what = format!(
                "{} of {}: {}",
                link.through.word(),
                name,
                place_of(&link.key)
            );
            let w = book.reckon(
                key.clone(),
                what,
                Dim::Power,
                "H * (Ti - T)",
                &[("H", &link.key), ("Ti", &ti_key), ("T", &to_key)],
                Source::new("iso-13789", "8"),
            )?;
            parts.push((link.through, key, w));
        }
        if leaks.house_m3_per_s > 0.0 {
            let key = format!("loads.{name}.leaks");
            let w = book.reckon(
                key.clone(),
                format!("outdoor air through the leaks of {name}"),
                Dim::Power,
                "d * cp * Q * (Ti - To)",
                &[
                    ("d", "design.air-density"),
                    ("cp", "design.air-heat"),
                    ("Q", &format!("leaks.{name}")),
                    ("Ti", &ti_key),
                    ("To", "design.outdoor"),
                ],
                Source::new("ashrae-fundamentals-2017", "chapter 16"),
            )?;
            parts.push((Through::Leaks, key, w));
        }
        let keys: Vec<String> = parts.iter().map(|(_, k, _)| k.clone()).collect();
        let key = format!("loads.{name}.heating");
        let heat_w = book.add_up(
            key.clone(),
            format!("heating load of {name}"),
            Dim::Power,
            &keys,
            Source::new(
                "common-practice",
                "sum of a room's losses, no sun, no free heat",
            ),
        )?;
        let mut sums: Vec<Part> = Vec::new();
        parts.sort_by_key(|(t, ..)| *t);
        for (through, _, w) in parts {
            match sums.last_mut() {
                Some(last) if last.through == through => last.heat_w += w,
                _ => sums.push(Part { through, heat_w: w }),
            }
        }
        rooms.push(RoomHeating {
            zone: z,
            room: model.zones[z].name.clone(),
            inside_c,
            heat_w,
            parts: sums,
            floor_m2: model.zones[z].floor_m2,
            key: key.clone(),
        });
        room_keys.push(key);
    }
    let heat_w = book.add_up(
        "loads.house.heating",
        "heating load of the house",
        Dim::Power,
        &room_keys,
        Source::new(
            "common-practice",
            "sum of the rooms; heat between rooms cancels",
        ),
    )?;
    let area: f64 = rooms.iter().map(|r| r.floor_m2).sum();
    let mean_c = rooms.iter().map(|r| r.inside_c * r.floor_m2).sum::<f64>() / area.max(1e-9);
    let span = mean_c - design.outdoor_c;
    let loss_w_per_k = if span.abs() > 1.0 { heat_w / span } else { 0.0 };
    let loads = HeatingLoads {
        rooms,
        heat_w,
        unheated,
        leak_m3_per_s: leaks.house_m3_per_s,
        loss_w_per_k,
    };
    Ok((loads, house))
}

/// `surface.living.wall-south.conductance` is told as `living.wall-south`.
fn place_of(key: &str) -> &str {
    let cut = key.strip_suffix(".conductance").unwrap_or(key);
    cut.split_once('.').map_or(cut, |(_, rest)| rest)
}

struct Leaks {
    house_m3_per_s: f64,
}

/// Air through the leaks at the design hour, house and rooms: `leaks.house`, `leaks.<room>`.
fn leaks(
    house: &SteadyHouse,
    model: &Model,
    inside: &[Option<f64>],
    book: &mut Book,
) -> Result<Leaks, LoadError> {
    let l = &house.leakage;
    if l.c_m3_per_s_pa_n() <= 0.0 {
        return Ok(Leaks {
            house_m3_per_s: 0.0,
        });
    }
    let source = || Source::new("ashrae-fundamentals-2017", "chapter 16, enhanced model");
    let mean: f64 = inside
        .iter()
        .enumerate()
        .filter_map(|(z, t)| t.map(|t| t * model.zones[z].leak_share))
        .sum::<f64>()
        / model
            .zones
            .iter()
            .map(|z| z.leak_share)
            .sum::<f64>()
            .max(1e-9);
    for (key, what, value, dim, known) in [
        (
            "leaks.c",
            "leakage coefficient, m3/s at 1 Pa",
            l.c_m3_per_s_pa_n(),
            Dim::VolumeFlow,
            Some(model.leak.known),
        ),
        (
            "leaks.n",
            "leakage exponent",
            model.leak.n,
            Dim::Ratio,
            Some(model.leak.known),
        ),
        (
            "leaks.stack-factor",
            "stack factor for the storeys of this house",
            l.stack_factor(),
            Dim::Ratio,
            None,
        ),
        (
            "leaks.wind-factor",
            "wind factor for the storeys of this house",
            l.wind_factor(),
            Dim::Ratio,
            None,
        ),
        (
            "leaks.inside",
            "mean indoor temperature behind the leaks",
            mean,
            Dim::Temperature,
            None,
        ),
    ] {
        let from = if known.is_some() {
            Source::new("job", "leakage")
        } else {
            source()
        };
        book.given(key, what, value, dim, from, known);
    }
    book.reckon(
        "leaks.stack",
        "outdoor air drawn in by the warmth of the house",
        Dim::VolumeFlow,
        "c * Cs * abs(Ti - To) ^ n",
        &[
            ("c", "leaks.c"),
            ("Cs", "leaks.stack-factor"),
            ("Ti", "leaks.inside"),
            ("To", "design.outdoor"),
            ("n", "leaks.n"),
        ],
        source(),
    )?;
    book.reckon(
        "leaks.wind",
        "outdoor air pressed in by wind",
        Dim::VolumeFlow,
        "c * Cw * U ^ (2 * n)",
        &[
            ("c", "leaks.c"),
            ("Cw", "leaks.wind-factor"),
            ("U", "design.wind"),
            ("n", "leaks.n"),
        ],
        source(),
    )?;
    let house_m3_per_s = book.reckon(
        "leaks.house",
        "outdoor air through the leaks of the house",
        Dim::VolumeFlow,
        "sqrt(s ^ 2 + w ^ 2)",
        &[("s", "leaks.stack"), ("w", "leaks.wind")],
        source(),
    )?;
    for z in 0..model.zones.len() {
        if inside[z].is_none() {
            continue;
        }
        let name = &house.names[z];
        let (stack, wind) = l.shares(z);
        let shares = || {
            Source::new(
                "common-practice",
                "stack air enters low, wind air everywhere",
            )
        };
        book.given(
            format!("leaks.{name}.low"),
            format!("share of the stack air that enters {name}"),
            stack,
            Dim::Share,
            shares(),
            None,
        );
        book.given(
            format!("leaks.{name}.wind"),
            format!("share of the wind air that enters {name}"),
            wind,
            Dim::Share,
            shares(),
            None,
        );
        book.reckon(
            format!("leaks.{name}"),
            format!("outdoor air that enters {name} through leaks"),
            Dim::VolumeFlow,
            "Q * (s * fs + w * fw) / (s + w)",
            &[
                ("Q", "leaks.house"),
                ("s", "leaks.stack"),
                ("w", "leaks.wind"),
                ("fs", &format!("leaks.{name}.low")),
                ("fw", &format!("leaks.{name}.wind")),
            ],
            shares(),
        )?;
    }
    Ok(Leaks { house_m3_per_s })
}

/// Temperatures of unheated spaces, all solved together: `space.<name>.temperature`.
fn unheated_spaces(
    house: &SteadyHouse,
    model: &Model,
    design: &Design,
    inside: &[Option<f64>],
    book: &mut Book,
) -> Result<Vec<(usize, f64)>, LoadError> {
    let spaces: Vec<usize> = (0..model.zones.len())
        .filter(|z| inside[*z].is_none())
        .collect();
    let n = spaces.len();
    if n == 0 {
        // The elimination below takes no empty matrix.
        return Ok(Vec::new());
    }
    let mut a = DMatrix::<f64>::zeros(n, n);
    let mut b = DVector::<f64>::zeros(n);
    for (i, z) in spaces.iter().enumerate() {
        // So that a space without any loss still has a temperature.
        a[(i, i)] = 1e-9;
        b[i] = 1e-9 * design.outdoor_c;
        for link in house.of(*z) {
            a[(i, i)] += link.w_per_k;
            match &link.end {
                End::Outdoor => b[i] += link.w_per_k * design.outdoor_c,
                End::Ground(_, t) => b[i] += link.w_per_k * t,
                End::Zone(o) => match (inside[*o], spaces.iter().position(|s| s == o)) {
                    (Some(t), _) => b[i] += link.w_per_k * t,
                    (None, Some(j)) => a[(i, j)] -= link.w_per_k,
                    (None, None) => {}
                },
            }
        }
    }
    let solved = a
        .lu()
        .solve(&b)
        .unwrap_or_else(|| DVector::from_element(n, design.outdoor_c));
    let mut out = Vec::new();
    for (i, z) in spaces.iter().enumerate() {
        let name = &house.names[*z];
        // Neighbouring spaces hang on each other: each takes the others as solved.
        let mut pulls = Vec::new();
        let mut conductances = Vec::new();
        for (k, link) in house.of(*z).enumerate() {
            let from = match &link.end {
                End::Outdoor => "design.outdoor".to_owned(),
                End::Ground(key, _) => key.clone(),
                End::Zone(o) => match spaces.iter().position(|s| s == o) {
                    None => format!("room.{}.setting", house.names[*o]),
                    Some(j) => {
                        let key = format!("space.{}.solved", house.names[*o]);
                        book.given(
                            key.clone(),
                            format!(
                                "{} as solved with all unheated spaces together",
                                model.zones[*o].name
                            ),
                            solved[j],
                            Dim::Temperature,
                            Source::new("iso-13789", "8.5"),
                            None,
                        );
                        key
                    }
                },
            };
            let key = format!("space.{name}.pull-{}", k + 1);
            book.reckon(
                key.clone(),
                format!("pull on {name} through {}", place_of(&link.key)),
                Dim::Power,
                "H * T",
                &[("H", &link.key), ("T", &from)],
                Source::new("iso-13789", "8.5"),
            )?;
            pulls.push(key);
            conductances.push(link.key.clone());
        }
        let key = format!("space.{name}.temperature");
        let what = format!(
            "temperature of {} on the design night",
            model.zones[*z].name
        );
        if pulls.is_empty() {
            book.given(
                key,
                what,
                solved[i],
                Dim::Temperature,
                Source::new("job", "no surfaces"),
                None,
            );
        } else {
            let source = || Source::new("iso-13789", "8.5");
            book.add_up(
                format!("space.{name}.pull"),
                format!("all pulls on {name}"),
                Dim::Power,
                &pulls,
                source(),
            )?;
            book.add_up(
                format!("space.{name}.conductance"),
                format!("all conductances of {name}"),
                Dim::Conductance,
                &conductances,
                source(),
            )?;
            book.reckon(
                key,
                what,
                Dim::Temperature,
                "P / H",
                &[
                    ("P", &format!("space.{name}.pull")),
                    ("H", &format!("space.{name}.conductance")),
                ],
                source(),
            )?;
        }
        out.push((*z, solved[i]));
    }
    Ok(out)
}
