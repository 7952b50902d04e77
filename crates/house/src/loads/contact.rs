//! Transmittance with the ground and the ground's temperature in its coldest month, as figures.

use reckon::{Book, Source};
use units::Dim;

use super::build_up;
use super::pen::Pen;
use super::{Design, LoadError};
use crate::assembly::{self, Flow};
use crate::describe::{Construction, Soil};
use crate::ground::GroundPath;
use crate::model::Model;

/// Ground contacts already written, with the beginning of their keys: rooms on one slab share one.
pub(super) type Written = Vec<(GroundPath, usize, String)>;

/// Writes a contact once, under `ground.floor-1` or `ground.wall-1`, and gives that beginning:
/// `.u` is its transmittance, `.coldest` the virtual ground in its coldest month.
///
/// # Errors
/// A layer that cannot be used.
pub(super) fn contact(
    path: GroundPath,
    construction: usize,
    model: &Model,
    design: &Design,
    written: &mut Written,
    book: &mut Book,
) -> Result<String, LoadError> {
    let same = |(p, c, _): &&(GroundPath, usize, String)| *p == path && *c == construction;
    if let Some((.., key)) = written.iter().find(same) {
        return Ok(key.clone());
    }
    if written.is_empty() {
        soil(&model.soil, book)?;
        outdoors(design, book);
    }
    let begins = match path {
        GroundPath::Floor { .. } => "ground.floor-",
        GroundPath::Wall { .. } => "ground.wall-",
    };
    let before = written.iter().filter(|(.., key)| key.starts_with(begins));
    let key = format!("{begins}{}", before.count() + 1);
    let mut pen = Pen { base: &key, book };
    let c = &model.constructions[construction];
    match path {
        GroundPath::Floor {
            area_m2,
            perimeter_m,
            depth_m,
        } => floor((area_m2, perimeter_m, depth_m), c, &mut pen)?,
        GroundPath::Wall {
            depth_m,
            floor_r_m2k_per_w,
        } => wall(
            depth_m,
            floor_at_foot(model, floor_r_m2k_per_w),
            c,
            &mut pen,
        )?,
    }
    pen.reckon(
        "coldest",
        "virtual temperature of the ground in its coldest month",
        Dim::Temperature,
        "T - H / U * (T - Tm)",
        &[
            ("T", "ground.outdoor-mean"),
            ("H", "swing"),
            ("U", "u"),
            ("Tm", "ground.outdoor-coldest"),
        ],
        iso("annexes F and H"),
    )?;
    written.push((path, construction, key.clone()));
    Ok(key)
}

/// A place of the standard.
fn iso(place: &'static str) -> Source {
    Source::new("iso-13370", place)
}

const SWING: &str = "heat flow for every degree the outdoor air swings";

fn floor(
    (area_m2, perimeter_m, depth_m): (f64, f64, f64),
    c: &Construction,
    pen: &mut Pen<'_>,
) -> Result<(), LoadError> {
    let drawn = || Source::job("room outlines");
    let depth = "depth of the floor under grade";
    pen.given(
        "area",
        "ground floor of the storey",
        area_m2,
        Dim::Area,
        (drawn(), None),
    );
    pen.given(
        "edge",
        "its edge to outdoors",
        perimeter_m,
        Dim::Length,
        (drawn(), None),
    );
    pen.given(
        "depth",
        depth,
        depth_m,
        Dim::Length,
        (Source::job("storeys"), None),
    );
    floor_as_soil(c, pen)?;
    let of = [("A", "area"), ("P", "edge")];
    let what = "characteristic dimension of the ground floor";
    let b = pen.reckon("b", what, Dim::Length, "A / (0.5 * P)", &of, iso("8.1"))?;
    let of = [("d", "d"), ("z", "depth")];
    let what = "equivalent thickness with half its depth";
    let e = pen.reckon("e", what, Dim::Length, "d + 0.5 * z", &of, iso("9.3.2"))?;
    let formula = if e < b {
        "2 * k / (pi * B + e) * ln(pi * B / e + 1)"
    } else {
        "k / (0.457 * B + e)"
    };
    let of = [("k", "ground.k"), ("B", "b"), ("e", "e")];
    let what = "transmittance of the ground floor";
    pen.reckon("u", what, Dim::UValue, formula, &of, iso("9.1 and 9.3.2"))?;
    pen.reckon(
        "swing",
        SWING,
        Dim::UValue,
        "0.37 * P * k * exp(-z / s) * ln(s / d + 1) / A",
        &[
            ("P", "edge"),
            ("k", "ground.k"),
            ("z", "depth"),
            ("s", "ground.reach"),
            ("d", "d"),
            ("A", "area"),
        ],
        iso("annex H"),
    )?;
    Ok(())
}

fn wall(
    depth_m: f64,
    floor: Option<&Construction>,
    c: &Construction,
    pen: &mut Pen<'_>,
) -> Result<(), LoadError> {
    let what = "depth of the wall under grade";
    pen.given(
        "depth",
        what,
        depth_m,
        Dim::Length,
        (Source::job("storeys"), None),
    );
    let dw = wall_as_soil(c, pen)?;
    let d = floor.map_or(Ok(dw), |floor| floor_as_soil(floor, pen))?;
    // the thinner of both, as soil
    let thinner = if d < dw { "d" } else { "dw" };
    pen.reckon(
        "u",
        "transmittance of a wall under grade",
        Dim::UValue,
        "2 * k / (pi * z) * (1 + 0.5 * d / (d + z)) * ln(z / w + 1)",
        &[
            ("k", "ground.k"),
            ("z", "depth"),
            ("d", thinner),
            ("w", "dw"),
        ],
        iso("9.3.3"),
    )?;
    pen.reckon(
        "swing",
        SWING,
        Dim::UValue,
        "0.37 * k * 2 * (1 - exp(-z / s)) * ln(s / w + 1) / z",
        &[
            ("k", "ground.k"),
            ("z", "depth"),
            ("s", "ground.reach"),
            ("w", "dw"),
        ],
        iso("annex H"),
    )?;
    Ok(())
}

/// What the floor at the foot of a wall is made of: its resistance is known, its name is not.
fn floor_at_foot(model: &Model, r_m2k_per_w: f64) -> Option<&Construction> {
    let same = |c: &&Construction| {
        assembly::r_without_films_m2k_per_w(c, Flow::Down).is_ok_and(|r| r == r_m2k_per_w)
    };
    model.constructions.iter().find(same)
}

fn soil(soil: &Soil, book: &mut Book) -> Result<(), LoadError> {
    let (k, c) = (soil.k_w_per_mk, soil.capacity_j_per_m3k);
    let of_table = Soil::KINDS.iter().any(|kind| (kind.1, kind.2) == (k, c));
    let from = |what: &'static str| {
        if of_table {
            Source::new(
                "iso-13370",
                "table 7, by the kind of soil; sand or gravel where none is told",
            )
        } else {
            Source::job(what)
        }
    };
    for (key, what, value, dim, from) in [
        (
            "ground.k",
            "conductivity of the soil",
            soil.k_w_per_mk,
            Dim::Conductivity,
            from("soil.k"),
        ),
        (
            "ground.c",
            "heat capacity of the soil, J/(m3 K)",
            soil.capacity_j_per_m3k,
            Dim::Ratio,
            from("soil.capacity"),
        ),
        (
            "ground.wall-thickness",
            "thickness of the wall at the ground",
            soil.wall_thickness_m,
            Dim::Length,
            Source::job("soil.wall_thickness"),
        ),
    ] {
        book.given(key, what, value, dim, from, None);
    }
    book.reckon(
        "ground.reach",
        "depth to which the yearly swing reaches",
        Dim::Length,
        "sqrt(31500000 * k / (pi * c))",
        &[("k", "ground.k"), ("c", "ground.c")],
        Source::new("iso-13370", "annex H"),
    )?;
    Ok(())
}

fn outdoors(design: &Design, book: &mut Book) {
    let months = &design.monthly_outdoor_c;
    let mean = months.iter().sum::<f64>() / 12.0;
    let least = months.iter().copied().fold(f64::INFINITY, f64::min);
    for (key, what, c) in [
        ("ground.outdoor-mean", "mean outdoor air of the year", mean),
        (
            "ground.outdoor-coldest",
            "mean outdoor air of the coldest month",
            least,
        ),
    ] {
        book.given(
            key,
            what,
            c,
            Dim::Temperature,
            Source::new("weather", "monthly means"),
            None,
        );
    }
}

/// Equivalent thickness `d` of a floor; the films are in its resistance.
fn floor_as_soil(c: &Construction, pen: &mut Pen<'_>) -> Result<f64, LoadError> {
    let r = build_up::resistance(c, Flow::Down, false, pen.book)?;
    let of = [
        ("w", "ground.wall-thickness"),
        ("k", "ground.k"),
        ("R", &*r),
    ];
    let what = "equivalent thickness of the floor, as soil";
    pen.reckon("d", what, Dim::Length, "w + k * R", &of, iso("7.3.2"))
}

/// Equivalent thickness `dw` of a wall.
fn wall_as_soil(c: &Construction, pen: &mut Pen<'_>) -> Result<f64, LoadError> {
    let r = build_up::resistance(c, Flow::Level, false, pen.book)?;
    let of = [("k", "ground.k"), ("R", &*r)];
    let what = "equivalent thickness of the wall, as soil";
    pen.reckon("dw", what, Dim::Length, "k * R", &of, iso("9.3.3"))
}
