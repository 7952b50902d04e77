//! Air through the leaks on the design night.

use reckon::{Book, Figure, Input, Source};
use units::Dim;

use super::LoadError;
use super::steady::SteadyHouse;
use crate::model::Model;

pub(super) struct Leaks {
    pub house_m3_per_s: f64,
}

/// Air through the leaks at the design hour, house and rooms: `leaks.house`, `leaks.<room>`.
pub(super) fn leaks(
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
    test(house, model, book)?;
    factors(house, model, book)?;
    inside_air(house, model, inside, book)?;
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
        enhanced(),
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
        enhanced(),
    )?;
    let house_m3_per_s = book.reckon(
        "leaks.house",
        "outdoor air through the leaks of the house",
        Dim::VolumeFlow,
        "sqrt(s ^ 2 + w ^ 2)",
        &[("s", "leaks.stack"), ("w", "leaks.wind")],
        enhanced(),
    )?;
    low_shares(house, model, inside, book)?;
    for z in 0..model.zones.len() {
        if inside[z].is_none() {
            continue;
        }
        let (name, room) = (&house.names[z], &model.zones[z].name);
        book.reckon(
            format!("leaks.{name}"),
            format!("outdoor air that enters {room} through leaks"),
            Dim::VolumeFlow,
            "Q * (s * fs + w * fw) / (s + w)",
            &[
                ("Q", "leaks.house"),
                ("s", "leaks.stack"),
                ("w", "leaks.wind"),
                ("fs", &format!("leaks.{name}.low")),
                ("fw", &format!("leaks.{name}.wind")),
            ],
            ours(),
        )?;
    }
    Ok(Leaks { house_m3_per_s })
}

fn enhanced() -> Source {
    Source::new("ashrae-fundamentals-2017", "chapter 16, enhanced model")
}

fn ours() -> Source {
    Source::new(
        "common-practice",
        "stack air enters low, wind air everywhere",
    )
}

/// The leakage coefficient, from the test.
fn test(house: &SteadyHouse, model: &Model, book: &mut Book) -> Result<(), LoadError> {
    let leak = &model.leak;
    let known = Some(leak.known);
    let from = || Source::job("leakage.blower_door");
    let exponent = Source::job("leakage.exponent");
    book.given(
        "leaks.n",
        "leakage exponent",
        leak.n,
        Dim::Ratio,
        exponent,
        known,
    );
    let (what, c) = (
        "leakage coefficient: air through the leaks at 1 Pa",
        house.leakage.c_m3_per_s_pa_n(),
    );
    let (flow, at_pa) = leak.tested;
    if at_pa <= 0.0 {
        book.given("leaks.c", what, c, Dim::VolumeFlow, from(), known);
        return Ok(());
    }
    let says = "flow of the blower door";
    book.given("leaks.tested", says, flow, Dim::VolumeFlow, from(), known);
    let says = "pressure of the test";
    book.given(
        "leaks.pressure",
        says,
        at_pa,
        Dim::SmallPressure,
        from(),
        known,
    );
    let power_law = Source::new("ashrae-fundamentals-2017", "chapter 16, power law");
    let of = [
        ("Q", "leaks.tested"),
        ("p", "leaks.pressure"),
        ("n", "leaks.n"),
    ];
    book.reckon(
        "leaks.c",
        what,
        Dim::VolumeFlow,
        "Q / p ^ n",
        &of,
        power_law,
    )?;
    Ok(())
}

/// Stack and wind factor, from the height of the leaks.
fn factors(house: &SteadyHouse, model: &Model, book: &mut Book) -> Result<(), LoadError> {
    let leak = &model.leak;
    for (key, what, m) in [
        (
            "leaks.top",
            "highest leak over grade: top of the heated rooms",
            leak.top_m,
        ),
        (
            "leaks.bottom",
            "lowest leak over grade: grade, or the lowest heated floor",
            leak.bottom_m,
        ),
    ] {
        book.given(key, what, m, Dim::Length, Source::job("storeys"), None);
    }
    book.reckon(
        "leaks.height",
        "height of the leaks",
        Dim::Length,
        "max(0, t - b)",
        &[("t", "leaks.top"), ("b", "leaks.bottom")],
        ours(),
    )?;
    let l = &house.leakage;
    for (key, what, value) in [
        (
            "leaks.stack-factor",
            "stack factor for the storeys of this house",
            l.stack_factor(),
        ),
        (
            "leaks.wind-factor",
            "wind factor for the storeys of this house",
            l.wind_factor(),
        ),
    ] {
        book.put(Figure {
            key: key.to_owned(),
            what: what.to_owned(),
            value,
            dim: Dim::Ratio,
            formula: TABLE.into(),
            inputs: vec![Input {
                symbol: "h".into(),
                key: "leaks.height".to_owned(),
            }],
            source: enhanced(),
            known: None,
        });
    }
    Ok(())
}

/// What the table of the model is asked.
const TABLE: &str = "step by step: of the table, without a flue: one storey under 13 ft 9 in (4.2 m) \
                     of height, two under 23 ft (7 m), three above; no wind factor where the job says no wind";

/// Each room's share of the wind air, and the mean temperature behind the leaks.
fn inside_air(
    house: &SteadyHouse,
    model: &Model,
    inside: &[Option<f64>],
    book: &mut Book,
) -> Result<(), LoadError> {
    let warm = || {
        let rooms = model.zones.iter().zip(&house.names).zip(inside);
        rooms.filter_map(|((zone, name), t)| t.map(|_| (zone, name)))
    };
    let mut keys = Vec::new();
    for (zone, name) in warm() {
        let key = format!("leaks.{name}.area");
        let what = format!("outside area of {}, openings included", zone.name);
        let drawn = Source::job(format!("room.{}.outline", zone.name));
        book.given(&*key, what, zone.leak_weight, Dim::Area, drawn, None);
        keys.push(key);
    }
    let what = "outside area of all rooms behind the leaks";
    book.add_up("leaks.area", what, Dim::Area, &keys, ours())?;
    let mut keys = vec!["design.outdoor".to_owned()];
    for (zone, name) in warm() {
        let (area, wind) = (format!("leaks.{name}.area"), format!("leaks.{name}.wind"));
        let what = format!("share of the wind air that enters {}", zone.name);
        let of = [("A", &*area), ("S", "leaks.area")];
        book.reckon(
            &*wind,
            what,
            Dim::Share,
            "A / max(S, 0.000001)",
            &of,
            ours(),
        )?;
        let (part, setting) = (format!("leaks.{name}.part"), format!("room.{name}.setting"));
        let what = format!("part of {} in the mean, from outdoors", zone.name);
        let of = [("f", &*wind), ("Ti", &*setting), ("To", "design.outdoor")];
        let dim = Dim::TemperatureDifference;
        book.reckon(&*part, what, dim, "f * (Ti - To)", &of, ours())?;
        keys.push(part);
    }
    let what = "mean indoor temperature behind the leaks";
    book.add_up("leaks.inside", what, Dim::Temperature, &keys, ours())?;
    Ok(())
}

/// Each room's share of the stack air: by its leaks and how far it lies under their middle.
fn low_shares(
    house: &SteadyHouse,
    model: &Model,
    inside: &[Option<f64>],
    book: &mut Book,
) -> Result<(), LoadError> {
    let of = [("t", "leaks.top"), ("b", "leaks.bottom")];
    let what = "middle of the leaks over grade";
    book.reckon(
        "leaks.middle",
        what,
        Dim::Length,
        "(t + b) / 2",
        &of,
        ours(),
    )?;
    let mut keys = Vec::new();
    let warm = || (0..model.zones.len()).filter(|z| inside[*z].is_some());
    for z in warm() {
        let (zone, name) = (&model.zones[z], &house.names[z]);
        let at = |what: &str| format!("leaks.{name}.{what}");
        let (middle, wind, pull) = (at("middle"), at("wind"), at("pull"));
        let what = format!("middle of {} over grade", zone.name);
        book.given(
            &*middle,
            what,
            zone.middle_m,
            Dim::Length,
            Source::job("storeys"),
            None,
        );
        book.reckon(
            &*pull,
            format!("pull of the stack on the leaks of {}", zone.name),
            Dim::Share,
            "f * (max(0, m - z) / max(h, 0.1)) ^ n",
            &[
                ("f", &wind),
                ("m", "leaks.middle"),
                ("z", &middle),
                ("h", "leaks.height"),
                ("n", "leaks.n"),
            ],
            ours(),
        )?;
        keys.push(pull);
    }
    let sum = book.add_up("leaks.pull", "pull on all rooms", Dim::Share, &keys, ours())?;
    for (z, pull) in warm().zip(&keys) {
        let (low, wind) = (
            format!("leaks.{}.low", house.names[z]),
            format!("leaks.{}.wind", house.names[z]),
        );
        let what = format!("share of the stack air that enters {}", model.zones[z].name);
        if sum > 1e-9 {
            let of = [("p", &**pull), ("S", "leaks.pull")];
            book.reckon(low, what, Dim::Share, "p / S", &of, ours())?;
        } else {
            // One storey: every room has low and high leaks of its own.
            book.reckon(low, what, Dim::Share, "f", &[("f", &wind)], ours())?;
        }
    }
    Ok(())
}
