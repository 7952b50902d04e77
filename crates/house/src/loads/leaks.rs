//! Air through the leaks on the design night.

use reckon::{Book, Source};
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
