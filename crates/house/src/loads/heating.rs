//! Heating load, room by room, on the design night: no sun, no free heat.

use reckon::{Book, Source, in_key};
use units::Dim;

use super::leaks::leaks;
use super::spaces::unheated_spaces;
use super::steady::{End, SteadyHouse, Through};
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
                Source::job(format!("room.{}.heated_to", model.zones[z].name)),
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
    let mut columns = Vec::new();
    for z in 0..model.zones.len() {
        let Some(inside_c) = inside[z] else { continue };
        let (name, room) = (&house.names[z], &model.zones[z].name);
        let (_, ti_key) = temperature(z);
        let mut parts: Vec<(Through, String, f64)> = Vec::new();
        for (i, link) in house.of(z).enumerate() {
            let to_key = match &link.end {
                End::Outdoor => "design.outdoor".to_owned(),
                End::Ground(key, _) => key.clone(),
                End::Zone(other) => temperature(*other).1,
            };
            let key = format!("loads.{name}.{}.{}", in_key(link.through.word()), i + 1);
            let what = format!("{} of {room}: {}", link.through.word(), link.place);
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
                format!("outdoor air through the leaks of {room}"),
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
            format!("heating load of {room}"),
            Dim::Power,
            &keys,
            Source::new(
                "common-practice",
                "sum of a room's losses, no sun, no free heat",
            ),
        )?;
        let mut sums: Vec<Part> = Vec::new();
        parts.sort_by_key(|(t, ..)| *t);
        columns.extend(of_room(room, name, &parts, book)?);
        for (through, _, w) in parts {
            match sums.last_mut() {
                Some(last) if last.through == through => last.heat_w += w,
                _ => sums.push(Part { through, heat_w: w }),
            }
        }
        rooms.push(RoomHeating {
            zone: z,
            room: room.clone(),
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
    of_house(columns, book)?;
    let loss_w_per_k = per_degree(&rooms, design, book)?;
    let loads = HeatingLoads {
        rooms,
        heat_w,
        unheated,
        leak_m3_per_s: leaks.house_m3_per_s,
        loss_w_per_k,
    };
    Ok((loads, house))
}

/// What a room loses through all its walls, all its windows and so on: `loads.<room>.walls`. Gives
/// the keys.
fn of_room(
    room: &str,
    name: &str,
    parts: &[(Through, String, f64)],
    book: &mut Book,
) -> Result<Vec<(Through, String)>, LoadError> {
    let mut keys = Vec::new();
    for group in parts.chunk_by(|a, b| a.0 == b.0) {
        let Some((through, ..)) = group.first() else {
            continue;
        };
        let key = format!("loads.{name}.{}", in_key(through.word()));
        // the air through leaks is one part, and has this key
        if book.get(&key).is_none() {
            let of: Vec<String> = group.iter().map(|(_, k, _)| k.clone()).collect();
            let what = format!("{room} loses through {}", through.word());
            book.add_up(&*key, what, Dim::Power, &of, summed())?;
        }
        keys.push((*through, key));
    }
    Ok(keys)
}

/// The same of the house: `loads.house.walls`.
fn of_house(mut columns: Vec<(Through, String)>, book: &mut Book) -> Result<(), LoadError> {
    columns.sort_by_key(|(through, _)| *through);
    for group in columns.chunk_by(|a, b| a.0 == b.0) {
        let Some((through, _)) = group.first() else {
            continue;
        };
        let of: Vec<String> = group.iter().map(|(_, k)| k.clone()).collect();
        let key = format!("loads.house.{}", in_key(through.word()));
        let what = format!("the house loses through {}", through.word());
        book.add_up(key, what, Dim::Power, &of, summed())?;
    }
    Ok(())
}

/// Loss of the house for every degree, W/K: `loads.house.per-degree`; nothing where it is as warm
/// outdoors as inside.
fn per_degree(rooms: &[RoomHeating], design: &Design, book: &mut Book) -> Result<f64, LoadError> {
    let area: f64 = rooms.iter().map(|r| r.floor_m2).sum();
    let mean_c = rooms.iter().map(|r| r.inside_c * r.floor_m2).sum::<f64>() / area.max(1e-9);
    if (mean_c - design.outdoor_c).abs() <= 1.0 {
        return Ok(0.0);
    }
    let what = "mean setting of the rooms, by their floors";
    let from = Source::job("rooms");
    book.given(
        "loads.house.inside",
        what,
        mean_c,
        Dim::Temperature,
        from,
        None,
    );
    Ok(book.reckon(
        "loads.house.per-degree",
        "heat the house loses for every degree",
        Dim::Conductance,
        "Q / (Ti - To)",
        &[
            ("Q", "loads.house.heating"),
            ("Ti", "loads.house.inside"),
            ("To", "design.outdoor"),
        ],
        Source::new("iso-13789", "8"),
    )?)
}

fn summed() -> Source {
    Source::new("common-practice", "sum")
}
