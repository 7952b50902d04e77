//! Build-ups: resistance and transmittance of a construction, and the layers the wall engine
//! walks through. Framed layers by the combined method of ISO 6946.

use crate::describe::{Construction, Layer};

/// Inside film, heat flow level (a wall), m2 K/W. ISO 6946 table 7.
pub const FILM_LEVEL_M2K_PER_W: f64 = 0.13;
/// Inside film, heat flow up (a ceiling), m2 K/W. ISO 6946 table 7.
pub const FILM_UP_M2K_PER_W: f64 = 0.10;
/// Inside film, heat flow down (a floor), m2 K/W. ISO 6946 table 7.
pub const FILM_DOWN_M2K_PER_W: f64 = 0.17;
/// Outside film, any direction, m2 K/W. ISO 6946 table 7.
pub const FILM_OUT_M2K_PER_W: f64 = 0.04;

/// Which way heat flows through a build-up in winter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flow {
    /// Through a wall.
    Level,
    /// Through a ceiling or roof.
    Up,
    /// Through a floor.
    Down,
}

impl Flow {
    /// Inside film for this direction, m2 K/W. Source: `iso-6946`, table 7.
    pub fn film_m2k_per_w(self) -> f64 {
        match self {
            Flow::Level => FILM_LEVEL_M2K_PER_W,
            Flow::Up => FILM_UP_M2K_PER_W,
            Flow::Down => FILM_DOWN_M2K_PER_W,
        }
    }

    /// Direction for a face of this tilt of its outside (0 roof, 90 wall, 180 floor).
    pub fn of_tilt(tilt_deg: f64) -> Self {
        if tilt_deg < 60.0 {
            Flow::Up
        } else if tilt_deg > 120.0 {
            Flow::Down
        } else {
            Flow::Level
        }
    }
}

/// One layer as the wall engine needs it. Outside first in any list of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slab {
    /// Resistance, m2 K/W.
    pub r_m2k_per_w: f64,
    /// Heat capacity, J/(m2 K). Zero: stores nothing.
    pub c_j_per_m2k: f64,
}

/// Why a build-up cannot be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("construction \"{construction}\", layer {layer}: {what} is {got}, usable: {usable}")]
pub struct AssemblyError {
    /// Name of the construction.
    pub construction: String,
    /// Layer, counted from 1 from outside; 0 for the whole.
    pub layer: usize,
    /// Which quantity.
    pub what: &'static str,
    /// What it is.
    pub got: String,
    /// What it may be.
    pub usable: &'static str,
}

/// The two bounds of the combined method and their mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TotalResistance {
    /// Heat flows straight through, no spreading, m2 K/W.
    pub upper_m2k_per_w: f64,
    /// Every layer boundary is at one temperature, m2 K/W.
    pub lower_m2k_per_w: f64,
    /// Mean of the two: the answer, m2 K/W.
    pub total_m2k_per_w: f64,
}

/// At most this many framed layers cross in one build-up; the paths double with each.
const MOST_FRAMED: usize = 6;

/// Total resistance with the films given.
///
/// **Equation** upper `1/Ru = sum(f_j / R_path_j)`; lower `Rl = Rsi + sum(1/sum(f/R)) + Rse`;
/// total `(Ru + Rl)/2`.
/// **Symbols** f share of face (1), R resistance (m2 K/W), Rsi and Rse films (m2 K/W).
/// **Range** solid k 0.005 to 500 W/(m K), thickness up to 5 m, at most 6 framed layers; upper
/// over lower up to 1.5 (the standard's own bound of the method is not enforced).
/// **Source** `iso-6946`, 6.7.2. Framed layers are taken as crossing independently.
/// **Example** see `tests/library_assembly.rs`: brick wall with framing, upper 3.435, lower 3.304.
///
/// # Errors
/// A layer value outside its range, or no layer at all.
pub fn total_resistance(
    c: &Construction,
    inside_film_m2k_per_w: f64,
    outside_film_m2k_per_w: f64,
) -> Result<TotalResistance, AssemblyError> {
    check(c)?;
    let films = inside_film_m2k_per_w + outside_film_m2k_per_w;
    let mut lower = films;
    // (share, resistance) of every straight path, doubled at each framed layer
    let mut paths = vec![(1.0, films)];
    for layer in &c.layers {
        lower += layer_r(layer);
        match layer {
            Layer::Framed {
                thickness_m,
                framing_share,
                cavity,
                framing,
                ..
            } => {
                let mut next = Vec::with_capacity(paths.len() * 2);
                for (share, r) in &paths {
                    if *framing_share < 1.0 {
                        next.push((share * (1.0 - framing_share), r + thickness_m / cavity[0]));
                    }
                    if *framing_share > 0.0 {
                        next.push((share * framing_share, r + thickness_m / framing[0]));
                    }
                }
                paths = next;
            }
            other => {
                let r = layer_r(other);
                for p in &mut paths {
                    p.1 += r;
                }
            }
        }
    }
    let upper = 1.0 / paths.iter().map(|(share, r)| share / r).sum::<f64>();
    Ok(TotalResistance {
        upper_m2k_per_w: upper,
        lower_m2k_per_w: lower,
        total_m2k_per_w: 0.5 * (upper + lower),
    })
}

/// Transmittance with the films of the standard, outdoor air outside.
///
/// **Equation** `U = 1/R_total`.
/// **Symbols** U transmittance, W/(m2 K); R total resistance, m2 K/W.
/// **Range** that of [`total_resistance`].
/// **Source** `iso-6946`, 6.5.
/// **Example**
/// ```
/// use house::{assembly, describe, library};
/// let wall = library::construction_by_name("2x4 wall with batt").unwrap();
/// let u = assembly::u_w_per_m2k(&wall, assembly::Flow::Level).unwrap();
/// assert!(u > 0.4 && u < 0.65); // 0.07 to 0.11 Btu/(h ft2 F)
/// # let _ = describe::House::default();
/// ```
///
/// # Errors
/// As [`total_resistance`].
pub fn u_w_per_m2k(c: &Construction, flow: Flow) -> Result<f64, AssemblyError> {
    Ok(1.0 / total_resistance(c, flow.film_m2k_per_w(), FILM_OUT_M2K_PER_W)?.total_m2k_per_w)
}

/// Resistance between the faces, without films, m2 K/W: what [`resolved`] adds up to.
///
/// # Errors
/// As [`total_resistance`].
pub fn r_without_films_m2k_per_w(c: &Construction, flow: Flow) -> Result<f64, AssemblyError> {
    let inside = flow.film_m2k_per_w();
    let t = total_resistance(c, inside, FILM_OUT_M2K_PER_W)?;
    Ok(t.total_m2k_per_w - inside - FILM_OUT_M2K_PER_W)
}

/// The layers for the wall engine, outside first, without films. A framed layer becomes one
/// even layer: its resistance makes the whole keep the combined-method total, its heat capacity
/// is the mean by share.
///
/// **Equation** `R_even = R_layer_lower + (R_total - R_lower) R_layer_lower / sum(R_framed_lower)`,
/// `C = d (f rho_f cp_f + (1-f) rho_c cp_c)`.
/// **Symbols** R (m2 K/W), d thickness (m), f framing share (1), rho (kg/m3), cp (J/(kg K)).
/// **Range** that of [`total_resistance`].
/// **Source** `iso-6946`, 6.7.2 for the total; spreading it over the framed layers is ours.
/// **Example** two sheets around an empty frame: the sum of the slabs equals
/// [`r_without_films_m2k_per_w`].
///
/// # Errors
/// As [`total_resistance`].
pub fn resolved(c: &Construction, flow: Flow) -> Result<Vec<Slab>, AssemblyError> {
    let total = total_resistance(c, flow.film_m2k_per_w(), FILM_OUT_M2K_PER_W)?;
    let framed_lower: f64 = c
        .layers
        .iter()
        .filter(|l| matches!(l, Layer::Framed { .. }))
        .map(layer_r)
        .sum();
    let gain = total.total_m2k_per_w - total.lower_m2k_per_w;
    let stretch = if framed_lower > 0.0 {
        1.0 + gain / framed_lower
    } else {
        1.0
    };
    Ok(c.layers
        .iter()
        .map(|l| match l {
            Layer::Framed { .. } => Slab {
                r_m2k_per_w: layer_r(l) * stretch,
                c_j_per_m2k: layer_c(l),
            },
            _ => Slab {
                r_m2k_per_w: layer_r(l),
                c_j_per_m2k: layer_c(l),
            },
        })
        .collect())
}

/// Resistance of one layer with its face at one temperature (the lower bound), m2 K/W.
fn layer_r(layer: &Layer) -> f64 {
    match layer {
        Layer::Solid {
            thickness_m,
            k_w_per_mk,
            ..
        } => thickness_m / k_w_per_mk,
        Layer::Resistance { r_m2k_per_w, .. } => *r_m2k_per_w,
        Layer::Framed {
            thickness_m,
            framing_share,
            cavity,
            framing,
            ..
        } => thickness_m / ((1.0 - framing_share) * cavity[0] + framing_share * framing[0]),
    }
}

/// Heat capacity of one layer, J/(m2 K).
fn layer_c(layer: &Layer) -> f64 {
    match layer {
        Layer::Solid {
            thickness_m,
            density_kg_per_m3,
            cp_j_per_kgk,
            ..
        } => thickness_m * density_kg_per_m3 * cp_j_per_kgk,
        Layer::Resistance { .. } => 0.0,
        Layer::Framed {
            thickness_m,
            framing_share,
            cavity,
            framing,
            ..
        } => {
            thickness_m
                * ((1.0 - framing_share) * cavity[1] * cavity[2]
                    + framing_share * framing[1] * framing[2])
        }
    }
}

/// Checks every value of every layer.
pub(crate) fn check(c: &Construction) -> Result<(), AssemblyError> {
    let fail = |layer: usize, what: &'static str, got: f64, usable: &'static str| AssemblyError {
        construction: c.name.clone(),
        layer,
        what,
        got: got.to_string(),
        usable,
    };
    if c.layers.is_empty() {
        return Err(fail(0, "number of layers", 0.0, "at least 1"));
    }
    let framed = c
        .layers
        .iter()
        .filter(|l| matches!(l, Layer::Framed { .. }))
        .count();
    if framed > MOST_FRAMED {
        return Err(fail(
            0,
            "number of framed layers",
            framed as f64,
            "at most 6",
        ));
    }
    for (i, layer) in c.layers.iter().enumerate() {
        let n = i + 1;
        let thick = |v: f64| {
            if v > 0.0 && v <= 5.0 {
                Ok(())
            } else {
                Err(fail(n, "thickness, m", v, "over 0 to 5"))
            }
        };
        let stuff = |k: f64, rho: f64, cp: f64| {
            if !(0.005..=500.0).contains(&k) {
                return Err(fail(n, "conductivity, W/(m K)", k, "0.005 to 500"));
            }
            if !(0.0..=12000.0).contains(&rho) {
                return Err(fail(n, "density, kg/m3", rho, "0 to 12000"));
            }
            if !(0.0..=5000.0).contains(&cp) {
                return Err(fail(n, "specific heat, J/(kg K)", cp, "0 to 5000"));
            }
            Ok(())
        };
        match layer {
            Layer::Solid {
                thickness_m,
                k_w_per_mk,
                density_kg_per_m3,
                cp_j_per_kgk,
                ..
            } => {
                thick(*thickness_m)?;
                stuff(*k_w_per_mk, *density_kg_per_m3, *cp_j_per_kgk)?;
            }
            Layer::Resistance { r_m2k_per_w, .. } => {
                if !(0.001..=50.0).contains(r_m2k_per_w) {
                    return Err(fail(n, "resistance, m2 K/W", *r_m2k_per_w, "0.001 to 50"));
                }
            }
            Layer::Framed {
                thickness_m,
                framing_share,
                cavity,
                framing,
                ..
            } => {
                thick(*thickness_m)?;
                stuff(cavity[0], cavity[1], cavity[2])?;
                stuff(framing[0], framing[1], framing[2])?;
                if !(0.0..=1.0).contains(framing_share) {
                    return Err(fail(n, "framing share", *framing_share, "0 to 1"));
                }
            }
        }
    }
    let surface = [
        ("sun absorptance outside", c.sun_absorptance_out),
        ("sun absorptance inside", c.sun_absorptance_in),
        ("emittance outside", c.emittance_out),
        ("emittance inside", c.emittance_in),
    ];
    for (what, v) in surface {
        if !(0.0..=1.0).contains(&v) {
            return Err(fail(0, what, v, "0 to 1"));
        }
    }
    Ok(())
}
