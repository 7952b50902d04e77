//! Unheated spaces on the design night.

use nalgebra::{DMatrix, DVector};
use reckon::{Book, Source};
use units::Dim;

use super::NONE_W_PER_K;
use super::steady::{End, SteadyHouse};
use super::{Design, LoadError};
use crate::model::Model;

/// Figure of the outdoor temperature: what warms a space is counted from there, so that the sum
/// comes out in any unit of temperature.
const OUTDOOR: &str = "design.outdoor";

/// Temperatures of unheated spaces, all solved together: `space.<name>.temperature`.
pub(super) fn unheated_spaces(
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
        a[(i, i)] = NONE_W_PER_K;
        b[i] = NONE_W_PER_K * design.outdoor_c;
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
    // Neighbouring spaces hang on each other, so all stand in the book before the first is worked
    // out.
    let temperature = |z: usize| format!("space.{}.temperature", house.names[z]);
    let what = |z: usize| {
        let name = &model.zones[z].name;
        format!("temperature of {name} on the design night")
    };
    for (z, c) in spaces.iter().zip(&solved) {
        let (key, none) = (temperature(*z), Source::new("job", "no surfaces"));
        book.given(key, what(*z), *c, Dim::Temperature, none, None);
    }
    let mut out = Vec::new();
    for (i, z) in spaces.iter().enumerate() {
        let (name, space) = (&house.names[*z], &model.zones[*z].name);
        let mut pulls = Vec::new();
        let mut conductances = Vec::new();
        for (k, link) in house.of(*z).enumerate() {
            let from = match &link.end {
                End::Outdoor => OUTDOOR.to_owned(),
                End::Ground(key, _) => key.clone(),
                End::Zone(o) if inside[*o].is_some() => {
                    format!("room.{}.setting", house.names[*o])
                }
                End::Zone(o) => temperature(*o),
            };
            let key = format!("space.{name}.pull-{}", k + 1);
            book.reckon(
                key.clone(),
                format!(
                    "heat into {space} through {}, were it as cold as outdoors",
                    link.place
                ),
                Dim::Power,
                "H * (T - To)",
                &[("H", &link.key), ("T", &from), ("To", OUTDOOR)],
                Source::new("iso-13789", "8.5"),
            )?;
            pulls.push(key);
            conductances.push(link.key.clone());
        }
        if !pulls.is_empty() {
            let source = || Source::new("iso-13789", "8.5");
            book.add_up(
                format!("space.{name}.pull"),
                format!("heat into {space} in all, were it as cold as outdoors"),
                Dim::Power,
                &pulls,
                source(),
            )?;
            book.add_up(
                format!("space.{name}.conductance"),
                format!("all conductances of {space}"),
                Dim::Conductance,
                &conductances,
                source(),
            )?;
            // The neighbours' figures rest on the value that was solved.
            book.solved(
                temperature(*z),
                what(*z),
                solved[i],
                Dim::Temperature,
                "To + P / H",
                &[
                    ("To", OUTDOOR),
                    ("P", &format!("space.{name}.pull")),
                    ("H", &format!("space.{name}.conductance")),
                ],
                Source::new("iso-13789", "8.5: all unheated spaces solved together"),
            );
        }
        out.push((*z, solved[i]));
    }
    Ok(out)
}
